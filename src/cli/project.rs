//! `linefall project`.

use super::args::Common;
use super::asked::Asked;
use super::exit::Halt;
use super::shelf;
use super::start::{self, Begin, FullScreen};
use crate::drill::set::{Allowed, DrillSet, Feedback, Met, Order, Portion, What, ZeroOff, deal};
use crate::drill::{Kind, Seed};
use crate::session::{Pace, Programme, Projected};
use clap::Args;
use std::time::Duration;

/// `project`.
#[derive(Debug, Args)]
pub struct Options {
    /// Which instrument
    pub instrument: String,
    /// What is asked
    #[command(flatten)]
    pub asked: Asked,
    /// Time for each question; 0: as long as it takes
    #[arg(long, value_name = "N", default_value_t = 20, value_parser = clap::value_parser!(u16).range(0..=600))]
    pub seconds: u16,
    /// Time for the whole round; 0: no end
    #[arg(long, value_name = "N", default_value_t = 10, value_parser = clap::value_parser!(u16).range(0..=240))]
    pub minutes: u16,
    /// The same seed gives the same questions
    #[arg(long, value_name = "N")]
    pub seed: Option<u64>,
}

/// Questions on an instrument: more than are asked in the longest round.
const MANY: u32 = 400;

/// The full screen with a round for a room.
pub fn run(common: Common, args: &Options) -> Result<Box<FullScreen>, Halt> {
    let catalogue = shelf::catalogue(&common);
    let instrument = shelf::find(&catalogue, &args.instrument)?;
    let programme = args.asked.programme();
    if let Some(programme) = &programme {
        shelf::sensible(instrument, programme)?;
    }
    let seed = Seed(args.seed.map_or_else(super::ask::any_seed, Ok)?);
    let set = readings(&args.instrument, &instrument.title, programme);
    let time = |count: u64| (count > 0).then(|| Duration::from_secs(count));
    let pace = Pace { question: time(args.seconds.into()), round: time(u64::from(args.minutes) * 60) };
    let paper = deal(&set, &catalogue, seed);
    start::at(common, Begin::Project(Projected { title: set.title, paper, count: None, pace }))
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
