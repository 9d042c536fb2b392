//! `linefall sheet`: worksheets with their keys, wall charts, bench cards.

mod key;
mod wall;
mod work;

use super::args::Common;
use super::exit::{Exit, Halt};
use super::out::{self, Out};
use super::shelf;
use crate::drill::Seed;
use crate::exact::{Exact, Unit};
use crate::instrument::Instrument;
use crate::render::paper::{Leaf, Paper};
use crate::render::sheet::Head;
use crate::render::{pdf, svg};
use crate::store;
use crate::wording::sheet as say;
use clap::{Args, ValueEnum};
use std::path::{Path, PathBuf};

/// `sheet`.
#[derive(Debug, Args)]
#[command(group(clap::ArgGroup::new("what").required(true).args(["set", "chart", "card"])))]
pub struct Options {
    /// The set, or an instrument for a dozen readings of it
    #[arg(value_name = "SET|INSTRUMENT")]
    pub set: Option<String>,
    /// A wall chart: an instrument, 64ths, or tick-sheet
    #[arg(long, value_name = "INSTRUMENT|64ths|tick-sheet")]
    pub chart: Option<String>,
    /// Bench cards, two a page
    #[arg(long, value_name = "INSTRUMENT", num_args = 1..)]
    pub card: Vec<String>,
    /// What the instrument on the chart reads
    #[arg(long, value_name = "READING", requires = "chart", allow_hyphen_values = true, value_parser = super::args::number)]
    pub reading: Option<String>,
    /// The file: .pdf, or .svg with a page in each (NAME-1.svg, NAME-2.svg)
    #[arg(short, long, value_name = "FILE")]
    pub output: PathBuf,
    /// The key, with the steps of each reading, into this file
    #[arg(long, value_name = "FILE", requires = "set")]
    pub key: Option<PathBuf>,
    /// So many different sheets, A, B, C, one after the other in the file, so that neighbours' differ
    #[arg(long, value_name = "N", default_value_t = 1, value_parser = clap::value_parser!(u32).range(1..=26))]
    pub variants: u32,
    /// The paper
    #[arg(long, value_name = "PAPER", default_value = "a4")]
    pub paper: PaperArg,
    /// The same seed gives the same sheets; by chance when left out
    #[arg(long, value_name = "N", requires = "set", value_parser = clap::value_parser!(u64).range(..Seed::OF_CARDS))]
    pub seed: Option<u64>,
    /// Questions on each sheet, in place of what the set says
    #[arg(long, value_name = "N", requires = "set", value_parser = clap::value_parser!(u32).range(1..=500))]
    pub count: Option<u32>,
}

/// `--paper`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum PaperArg {
    /// 210 by 297 mm
    A4,
    /// 8 1/2 by 11 in
    Letter,
}

impl PaperArg {
    fn word(self) -> &'static str {
        match self {
            Self::A4 => "a4",
            Self::Letter => "letter",
        }
    }
}

impl From<PaperArg> for Paper {
    fn from(paper: PaperArg) -> Self {
        match paper {
            PaperArg::A4 => Self::A4,
            PaperArg::Letter => Self::Letter,
        }
    }
}

/// Prints.
pub fn run(common: &Common, args: &Options, out: &mut Out) -> Result<Exit, Halt> {
    // Before anything is drawn it is known that it can be written.
    for path in [Some(&args.output), args.key.as_ref()].into_iter().flatten() {
        Kind::of(path)?;
    }
    let catalogue = shelf::catalogue(common);
    let paper = Paper::from(args.paper);
    if let Some(wanted) = &args.set {
        return work::run(common, &catalogue, wanted, args, out);
    }
    let (leaves, title) = match &args.chart {
        Some(wanted) => wall::chart(&catalogue, wanted, args.reading.as_deref(), paper)?,
        None => wall::cards(&catalogue, &args.card, paper)?,
    };
    write(&args.output, &leaves, &title, out)?;
    Ok(Exit::Fine)
}

/// What a file is to hold.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Kind {
    Pdf,
    Svg,
}

impl Kind {
    fn of(path: &Path) -> Result<Self, Halt> {
        let ending = path.extension().map(std::ffi::OsStr::to_ascii_lowercase);
        match ending.as_deref().and_then(|ending| ending.to_str()) {
            Some("pdf") => Ok(Self::Pdf),
            Some("svg") => Ok(Self::Svg),
            _ => Err(Halt::usage(say::no_such_file(&out::clean_name(&path.to_string_lossy())))),
        }
    }
}

/// Writes pages: all into one PDF, or each into an SVG of its own, numbered where there are more than one.
fn write(path: &Path, leaves: &[Leaf], title: &str, out: &mut Out) -> Result<(), Halt> {
    let name = |path: &Path| out::clean_name(&path.to_string_lossy());
    match Kind::of(path)? {
        Kind::Pdf => {
            store::write_new(path, &pdf::leaves(leaves, title))?;
            out.line(&say::wrote(&name(path), leaves.len()))
        }
        Kind::Svg if leaves.len() == 1 => {
            store::write_new(path, svg::leaf(&leaves[0]).as_bytes())?;
            out.line(&say::wrote(&name(path), 1))
        }
        Kind::Svg => (1..).zip(leaves).try_for_each(|(number, leaf)| {
            let stem = path.file_stem().unwrap_or_default().to_string_lossy();
            let path = path.with_file_name(format!("{stem}-{number}.svg"));
            store::write_new(&path, svg::leaf(leaf).as_bytes())?;
            out.line(&say::wrote(&name(&path), 1))
        }),
    }
}

/// A head on which nothing is written by hand yet.
fn head(title: String, under: Vec<String>) -> Head {
    Head {
        title,
        under,
        fields: Vec::new(),
        mark: String::new(),
        bar: Some(say::BAR.to_owned()),
        page: say::page,
        note: say::note,
        glass: say::GLASS,
    }
}

/// How long a quantum of a tool is, in millimetres.
fn length(tool: &Instrument) -> Option<Exact> {
    let quantum = tool.lattice.quantum();
    match tool.unit {
        Unit::Millimetre => Some(quantum),
        Unit::Inch => Some(quantum * Exact::ratio(127, 5)),
        Unit::Minute => None,
    }
}
