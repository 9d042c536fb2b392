//! The arguments.

pub use super::ask::options::Ask;
pub use super::asked::Choose;

use super::asked::Asked;
pub use super::format::Format;
use crate::render::LineStyle;
use crate::scene::View;
use clap::builder::{PossibleValuesParser, TypedValueParser};
use clap::{Args, Parser, Subcommand, ValueEnum};
use std::path::PathBuf;

/// Learn to read rules, verniers, micrometers, dials and protractors.
///
/// Without a command, the full-screen trainer.
#[derive(Debug, Parser)]
#[command(name = "linefall", version, max_term_width = 100)]
pub struct Arguments {
    /// What holds for every command.
    #[command(flatten)]
    pub common: Common,
    /// The command.
    #[command(subcommand)]
    pub command: Option<Command>,
}

/// What holds for every command.
#[derive(Clone, Debug, Args)]
pub struct Common {
    /// Folder of the record and of your own instruments and exercises
    #[arg(long, global = true, value_name = "DIR")]
    pub data_dir: Option<PathBuf>,
    /// Who practises
    #[arg(long, global = true, value_name = "NAME", value_parser = learner)]
    pub learner: Option<String>,
    /// Colours of the picture
    #[arg(long, global = true, value_name = "THEME", default_value = "auto")]
    pub theme: Theme,
    /// How lines are drawn
    #[arg(long, global = true, value_name = "STYLE", value_parser = line_style())]
    pub lines: Option<LineStyle>,
    /// Full screen without a record: nothing of the session is kept
    #[arg(long, global = true, conflicts_with = "learner")]
    pub private: bool,
    /// No colours, and lines of plain characters unless --lines is given
    #[arg(long, global = true)]
    pub plain: bool,
}

/// Colours of the picture.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum Theme {
    /// Steel, or mono where colours are off
    Auto,
    /// Light steel plates
    Steel,
    /// Dark plates
    Dark,
    /// The terminal's own colours
    Mono,
    /// White plates, black lines
    HighContrast,
}

impl Theme {
    /// The word of the option.
    pub fn word(self) -> &'static str {
        match self {
            Self::Auto => "auto",
            Self::Steel => "steel",
            Self::Dark => "dark",
            Self::Mono => "mono",
            Self::HighContrast => "high-contrast",
        }
    }
}

/// The commands.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Straight into practice, full screen
    Practice {
        /// Which instrument or set; the one practised last when left out
        instrument: Option<String>,
        /// What is asked
        #[command(flatten)]
        asked: Asked,
    },
    /// A skills check for yourself, or what the pass rules let through
    SkillsCheck(super::skills::Options),
    /// Turn an instrument yourself and watch its reading build up, or take its lesson
    Walk(super::walk::Options),
    /// A round for a room: one large picture, the question, a clock, the answer step by step
    Project(super::project::Options),
    /// What there is
    List {
        /// Of what
        what: Listing,
        /// As JSON
        #[arg(long)]
        json: bool,
    },
    /// A picture of an instrument standing at a reading
    Draw(Box<Draw>),
    /// Questions line by line, without a full screen
    Ask(Ask),
    /// The questions of an exercise or check on paper, without answers or with them
    Preview(super::preview::Options),
    /// Worksheets with their keys, wall charts and bench cards, to be printed
    Sheet(Box<super::sheet::Options>),
    /// Look for faults in instrument definitions, drill sets, targets.toml and roster.toml
    Check {
        /// The files; what each of them is shows by what stands in it
        #[arg(required = true, value_name = "FILE")]
        files: Vec<PathBuf>,
    },
    /// The shop's own tools: what practice is on
    Crib {
        /// As JSON
        #[arg(long)]
        json: bool,
        /// What to do with them; without it they are listed
        #[command(subcommand)]
        action: Option<super::crib::CribAction>,
    },
    /// How an instrument is checked, used and kept
    Care {
        /// Which instrument
        instrument: String,
        /// As JSON
        #[arg(long)]
        json: bool,
    },
    /// Give an exercise or a skills check out to a class, as a signed job card in a shared folder
    Issue(super::round::Issue),
    /// Hand finished job cards in
    Return(super::round::Return),
    /// Collect what came back, mark it again and bring the class record up to date
    Collect(super::round::Collect),
    /// What has been learnt
    Progress {
        /// As JSON
        #[arg(long)]
        json: bool,
        /// As comma-separated values
        #[arg(long, conflicts_with = "json")]
        csv: bool,
    },
    /// The class record: how everybody reads, what came back, what the class gets wrong
    Class(super::class::Options),
    /// The practical half: tick sheet, check parts measured, sign-off slip
    Practical(super::practical::Options),
    /// Where the files are and what this terminal can show
    Doctor {
        /// As JSON
        #[arg(long)]
        json: bool,
    },
    /// Completions for a shell
    Completions {
        /// The shell
        shell: clap_complete::Shell,
    },
    /// The manual page
    Man,
    /// What becomes of apprentices that are made up
    #[command(hide = true)]
    Simulate(super::simulate::Options),
}

/// What can be listed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum Listing {
    /// The instruments to practise on
    Instruments,
    /// The known ways of reading wrong
    Misreads,
    /// The kinds of question
    Kinds,
    /// The lessons
    Lessons,
    /// The exercises and checks, in the order of the course
    Sets,
    /// The keys of an instrument's file
    Keys,
    /// How an instrument's file is written, with examples
    Format,
    /// The keys of a drill set's file
    SetKeys,
    /// How a drill set's file is written, with examples
    SetFormat,
    /// What there is for an instructor: course, paper, wall, class record, tools
    Teaching,
    /// The instructor's round on one page: issue, return, collect
    Round,
    /// The shared folder of the round and its rights
    Folder,
}

/// `draw`.
#[derive(Debug, Args)]
pub struct Draw {
    /// The instrument's id
    pub instrument: String,
    /// What it reads, uncorrected: 0.2862, 1 3/64, -0.002
    #[arg(allow_hyphen_values = true, value_parser = number)]
    pub reading: String,
    /// What it reads when closed; adds the picture of the closed tool
    #[arg(long, value_name = "READING", allow_hyphen_values = true, value_parser = number)]
    pub zero_error: Option<String>,
    /// In the hand, or laid flat
    #[arg(long, default_value = "held", value_parser = view())]
    pub view: View,
    /// Cells across and down
    #[arg(long, value_name = "COLSxROWS", value_parser = size)]
    pub size: Option<Size>,
    /// Dots for the smallest step that is drawn
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(i64).range(1..=64))]
    pub dots: Option<i64>,
    /// Hold the glass over this vernier line, or forbid it
    #[arg(long, value_name = "N|none", value_parser = lens, allow_hyphen_values = true)]
    pub lens: Option<Lens>,
    /// A maker's variant and what is fitted: halves=above, frame=2 in, "halves=above rod=25 mm"
    #[arg(long)]
    pub variant: Option<String>,
    /// The rod that is fitted, by what it adds: 2 in, 25 mm
    #[arg(long, value_name = "LENGTH")]
    pub rod: Option<String>,
    /// The spacing collar is fitted
    #[arg(long)]
    pub collar: bool,
    /// The way a protractor's zero has moved
    #[arg(long, value_name = "left|right", value_parser = ["left", "right"])]
    pub direction: Option<String>,
    /// What the height slide of a gear-tooth caliper was set to before; adds its picture
    #[arg(long, value_name = "LENGTH")]
    pub addendum: Option<String>,
    /// The edge shows its line so many thimble divisions early, or late below 0
    #[arg(long, value_name = "N", default_value_t = 0, allow_hyphen_values = true)]
    pub edge_lead: i64,
    /// The reading may lie between the lines, to a tenth of the smallest step
    #[arg(long)]
    pub between: bool,
    /// The last digit is judged between the lines
    #[arg(long, conflicts_with = "between")]
    pub estimate: bool,
    /// Some figures are worn away; another number, other figures
    #[arg(long, value_name = "N")]
    pub worn: Option<u32>,
    /// The lock
    #[arg(long, default_value = "tight")]
    pub lock: LockArg,
    /// What a change is counted from
    #[command(flatten)]
    pub change: super::change::Options,
    /// What to make
    #[arg(long, default_value = "text")]
    pub format: Format,
    /// Write into this file
    #[arg(short, long, value_name = "FILE")]
    pub output: Option<PathBuf>,
}

/// `--lock`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum LockArg {
    /// As it should be
    Tight,
    /// Not tight, and a tag says so
    Loose,
}

/// A size in cells.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Size {
    /// Across.
    pub cols: u16,
    /// Down.
    pub rows: u16,
}

/// `--lens`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Lens {
    /// None is allowed.
    Forbidden,
    /// With this vernier line in the middle.
    At(i64),
}

/// The most cells across or down.
pub const MOST_CELLS: u16 = 1000;
/// The longest name of a learner, in characters.
const NAME: usize = 64;

/// A size as it is typed.
pub fn size(text: &str) -> Result<Size, String> {
    let number = |part: &str| part.trim().parse().ok().filter(|n| (1..=MOST_CELLS).contains(n));
    text.split_once(['x', 'X', '\u{d7}'])
        .and_then(|(cols, rows)| Some(Size { cols: number(cols)?, rows: number(rows)? }))
        .ok_or_else(|| format!("write the cells across and down like 80x24, each from 1 to {MOST_CELLS}"))
}

fn lens(text: &str) -> Result<Lens, String> {
    if text == "none" {
        return Ok(Lens::Forbidden);
    }
    text.parse::<i16>()
        .map(|line| Lens::At(i64::from(line)))
        .map_err(|_| "write the number of a vernier line, or none".to_owned())
}

/// A reading may begin with a minus sign; an option that does not exist is still told apart from it.
pub fn number(text: &str) -> Result<String, String> {
    let rest = text.strip_prefix('-').unwrap_or(text).trim_start();
    if rest.len() < text.len() && !rest.starts_with(|c: char| c.is_ascii_digit() || matches!(c, '.' | ',')) {
        return Err("there is no such option, and it is no reading".to_owned());
    }
    Ok(text.to_owned())
}

fn learner(text: &str) -> Result<String, String> {
    let name = text.trim();
    if name.is_empty() || name.chars().count() > NAME || super::out::clean_name(name) != name {
        return Err(format!("a name has 1 to {NAME} visible characters"));
    }
    Ok(name.to_owned())
}

/// A view as it is typed.
pub fn view() -> impl TypedValueParser<Value = View> {
    PossibleValuesParser::new([View::Held.word(), View::Flat.word()])
        .map(|word| View::from_word(&word).expect("one of the words listed"))
}

fn line_style() -> impl TypedValueParser<Value = LineStyle> {
    PossibleValuesParser::new(LineStyle::ALL.map(LineStyle::word))
        .map(|word| LineStyle::from_word(&word).expect("one of the words listed"))
}

#[cfg(test)]
mod tests {
    use super::*;
    use clap::CommandFactory;

    #[test]
    fn the_arguments_hold_together() {
        Arguments::command().debug_assert();
    }

    #[test]
    fn sizes_names_and_readings() {
        assert_eq!(size("80x24"), Ok(Size { cols: 80, rows: 24 }));
        for wrong in ["", "80", "x24", "0x24", "80x1001", "80x-2", "999999x9"] {
            assert!(size(wrong).is_err(), "{wrong}");
        }
        assert!(learner(" \t").is_err() && learner("a\u{1b}").is_err() && learner(&"x".repeat(65)).is_err());
        assert_eq!(number("-0.002 in").as_deref(), Ok("-0.002 in"));
        assert!(number("--vew").is_err() && number("-x").is_err());
    }
}
