//! `linefall class`.

mod document;
mod listing;
mod sheets;
mod source;

use super::args::Common;
use super::exit::{Exit, Halt};
use super::out::Out;
use super::{shelf, start, terminal};
use crate::cli::FullScreen;
use crate::class::record::Class;
use crate::instrument::Catalogue;
use crate::wording::class as say;
use clap::Args;
pub use source::Source;

/// `class`.
#[derive(Debug, Args)]
pub struct Options {
    /// One group of the roster
    #[arg(long, value_name = "GROUP")]
    pub group: Option<String>,
    /// One learner, by the short code
    #[arg(long, value_name = "CODE", conflicts_with_all = ["returned", "questions"])]
    pub learner_code: Option<String>,
    /// What came back of each card: tries, late, nothing back, verdicts
    #[arg(long)]
    pub returned: bool,
    /// Which questions of a set bite, and what is answered to them
    #[arg(long, value_name = "SET", conflicts_with = "returned")]
    pub questions: Option<String>,
    /// As JSON
    #[arg(long)]
    pub json: bool,
    /// As comma-separated values
    #[arg(long, conflicts_with = "json")]
    pub csv: bool,
    /// A class that is made up, for trying out: nothing is read, nothing is kept
    #[arg(long, value_name = "LEARNERS", num_args = 0..=1, default_missing_value = "30",
        value_parser = clap::value_parser!(u32).range(1..=1_000))]
    pub invented: Option<u32>,
}

/// What is left to do.
pub enum Shown {
    /// Nothing.
    Done(Exit),
    /// The full screen.
    FullScreen(Box<FullScreen>),
}

/// Shows the class record: full screen on a terminal, else a listing.
pub fn run(common: Common, args: &Options, out: &mut Out) -> Result<Shown, Halt> {
    let catalogue = shelf::catalogue(&common);
    let source = match args.invented {
        Some(people) => Source::invented(&catalogue, people),
        None => Source::read(&common, &catalogue)?,
    };
    if let Some(group) = &args.group {
        let known = source.groups();
        if !known.contains(&group.as_str()) {
            return Err(Halt::usage(&say::no_group(group, &known)));
        }
    }
    let class = source.class(args.group.as_deref());
    let listed = args.json || args.csv || args.returned || args.questions.is_some() || args.learner_code.is_some();
    if !listed && !common.plain && terminal::both_ends() && !class.members.is_empty() {
        return Ok(Shown::FullScreen(start::class(common, catalogue, source, args.group.as_deref())));
    }
    listing(&catalogue, &source, &class, args, out).map(|()| Shown::Done(Exit::Fine))
}

fn listing(
    catalogue: &Catalogue,
    source: &Source,
    class: &Class,
    args: &Options,
    out: &mut Out,
) -> Result<(), Halt> {
    if let Some(set) = &args.questions {
        let Some(found) = source.questions(set, args.group.as_deref(), catalogue)? else {
            return Err(Halt::usage(&say::no_questions(set, &source.sets())));
        };
        return match (args.json, args.csv) {
            (true, _) => document::questions(source, &found, out),
            (_, true) => out.bytes(&sheets::questions(&found, catalogue)),
            _ => listing::questions(source, &found, catalogue, out),
        };
    }
    if let Some(code) = &args.learner_code {
        let Some(member) = class.member(code) else { return Err(Halt::usage(&say::no_learner(code))) };
        return match (args.json, args.csv) {
            (true, _) => document::learner(source, class, member, out),
            (_, true) => out.bytes(&sheets::learners(std::slice::from_ref(member), source)),
            _ => listing::learner(source, class, member, catalogue, out),
        };
    }
    match (args.json, args.csv, args.returned) {
        (true, ..) => document::class(source, class, out),
        (_, true, true) => out.bytes(&sheets::returned(class)),
        (_, true, false) => out.bytes(&sheets::learners(&class.members, source)),
        (_, _, true) => listing::returned(source, class, out),
        _ => listing::class(source, class, args.group.as_deref(), catalogue, out),
    }
}
