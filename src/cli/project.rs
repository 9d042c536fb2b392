//! `linefall project`.

use super::args::Common;
use super::asked::Asked;
use super::exit::Halt;
use super::shelf;
use super::start::{self, FullScreen};
use crate::drill::set::{Allowed, DrillSet, Feedback, Met, Order, Portion, What, ZeroOff, deal};
use crate::drill::{Kind, Seed};
use crate::session::{Begin, Pace, Programme, Projected};
use crate::wording::project as say;
use clap::Args;
use std::time::Duration;

/// `project`.
#[derive(Debug, Args)]
pub struct Options {
    /// Which exercise, or questions on which instrument
    pub name: String,
    /// What is asked on an instrument
    #[command(flatten)]
    pub asked: Asked,
    /// Time for each question; 0: as long as it takes
    #[arg(long, value_name = "N", default_value_t = 20, value_parser = clap::value_parser!(u16).range(0..=600))]
    pub seconds: u16,
    /// Time for the whole round; 0: no end
    #[arg(long, value_name = "N", default_value_t = 10, value_parser = clap::value_parser!(u16).range(0..=240))]
    pub minutes: u16,
    /// The same seed gives the same questions
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u64).range(..Seed::OF_CARDS))]
    pub seed: Option<u64>,
}

/// Questions on an instrument: more than are asked in the longest round.
const MANY: u32 = 400;

/// The full screen with a round for a room.
pub fn run(common: Common, args: &Options) -> Result<Box<FullScreen>, Halt> {
    let catalogue = shelf::catalogue(&common);
    let sets = shelf::sets(&common, &catalogue);
    let programme = args.asked.programme();
    let seed = Seed(args.seed.map_or_else(super::ask::any_seed, Ok)?);
    let (set, by_the_clock) = match (sets.get(&args.name), catalogue.get(&args.name)) {
        (Some(_), _) if programme.is_some() => return Err(Halt::usage(say::SET_SAYS_WHAT)),
        (Some(set), _) => (set.clone(), false),
        (None, Some(instrument)) => {
            programme.as_ref().map_or(Ok(()), |programme| shelf::sensible(instrument, programme))?;
            (readings(&args.name, &instrument.title, programme), true)
        }
        (None, None) => {
            let near = crate::diag::nearest(&args.name, sets.ids().chain(catalogue.names()));
            let name = crate::instrument::schema::shown(&args.name);
            return Err(Halt::usage(say::no_such(&name, near)));
        }
    };
    let time = |count: u64| (count > 0).then(|| Duration::from_secs(count));
    let pace = Pace { question: time(args.seconds.into()), round: time(u64::from(args.minutes) * 60) };
    let paper = deal(&set, &catalogue, seed);
    if paper.iter().all(|item| item.kind == Kind::SetIt) {
        return Err(Halt::usage(say::NOTHING_TO_ASK));
    }
    let count = (!by_the_clock).then_some(paper.len());
    let glass = set.glass;
    start::at(common, Begin::Project(Projected { title: set.title, paper, count, glass, pace }))
}

/// A set of questions on one instrument, as they are drawn.
fn readings(id: &str, title: &str, programme: Option<Programme>) -> DrillSet {
    let what = match programme {
        None => What::Kinds(vec![Kind::Read]),
        Some(Programme::Kinds(kinds)) => What::Kinds(kinds),
        Some(Programme::Level(level)) => What::Level(level),
    };
    let portion = Portion {
        instrument: id.to_owned(),
        share: 1,
        what,
        within: None,
        zero: ZeroOff::AsDrawn,
        conditions: Met::AsDrawn,
        variant: None,
        provoke: Vec::new(),
        spread: false,
        readings: Vec::new(),
    };
    DrillSet {
        id: id.to_owned(),
        title: title.to_owned(),
        about: String::new(),
        revision: String::new(),
        text: String::new(),
        portions: vec![portion],
        count: MANY,
        order: Order::Blocked,
        time: None,
        glass: Allowed::Yes,
        feedback: Feedback::Now,
        pass: None,
        seed: None,
    }
}
