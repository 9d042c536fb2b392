//! `linefall class`.

mod document;
mod listing;
mod sheets;
mod source;

use super::args::Common;
use super::exit::{Exit, Halt};
use super::out::Out;
use super::{shelf, start, terminal};
use crate::class::room::Room;
use crate::cli::Next;
use crate::instrument::Catalogue;
use crate::wording::class as say;
use clap::Args;

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

/// Shows the class record: full screen on a terminal, else a listing.
pub fn run(common: Common, args: &Options, out: &mut Out) -> Result<Next, Halt> {
    let catalogue = shelf::catalogue(&common);
    let group = args.group.as_deref();
    let room = match args.invented {
        Some(people) => source::made_up(&catalogue, people, group)?,
        None => source::collected(&common, &catalogue, group)?,
    };
    let listed =
        args.json || args.csv || args.returned || args.questions.is_some() || args.learner_code.is_some();
    if !listed && !common.plain && terminal::both_ends() && !room.class.members.is_empty() {
        return Ok(Next::FullScreen(start::class(common, catalogue, room)));
    }
    listing(&catalogue, &room, args, out).map(|()| Next::Done(Exit::Fine))
}

fn listing(catalogue: &Catalogue, room: &Room, args: &Options, out: &mut Out) -> Result<(), Halt> {
    let class = &room.class;
    if let Some(set) = &args.questions {
        let Some(found) = (room.look_up)(set, catalogue).map_err(Halt::trouble)? else {
            let known: Vec<&str> = room.sets.iter().map(|(id, _)| id.as_str()).collect();
            return Err(Halt::usage(say::no_questions(set, &known)));
        };
        return match (args.json, args.csv) {
            (true, _) => document::questions(room, &found, out),
            (_, true) => out.bytes(&sheets::questions(&found, catalogue)),
            _ => listing::questions(room, &found, catalogue, out),
        };
    }
    if let Some(code) = &args.learner_code {
        let Some(member) = class.member(code) else { return Err(Halt::usage(say::no_learner(code))) };
        return match (args.json, args.csv) {
            (true, _) => document::learner(room, member, out),
            (_, true) => out.bytes(&sheets::learners(std::slice::from_ref(member), room)),
            _ => listing::learner(room, member, catalogue, out),
        };
    }
    match (args.json, args.csv, args.returned) {
        (true, ..) => document::class(room, out),
        (_, true, true) => out.bytes(&sheets::returned(class)),
        (_, true, false) => out.bytes(&sheets::learners(&class.members, room)),
        (_, _, true) => listing::returned(room, out),
        _ => listing::class(room, catalogue, out),
    }
}

/// The whole class as it was collected.
pub fn collected(common: &Common, catalogue: &Catalogue) -> Result<Room, Halt> {
    source::collected(common, catalogue, None)
}
