//! What `linefall draw` is told about a change: where the tool stood first, how the handwheel was turned, the stylus.

use super::exit::Halt;
use super::shelf;
use crate::exact::{Quanta, Quantity};
use crate::instrument::Instrument;
use crate::reading::change::{collar, indicator, lever};
use crate::reading::{Angle, Asks, Change, Turned};
use crate::wording::command as say;
use clap::Args;

/// The most turns that are counted.
const MOST_TURNS: i64 = 20;

/// The options.
#[derive(Debug, Args)]
pub struct Options {
    /// Where it stood first, on the master or before the cut; adds that picture
    #[arg(long, value_name = "READING", allow_hyphen_values = true, value_parser = super::args::number)]
    start: Option<String>,
    /// How often the collar's 0 came past since then
    #[arg(long, value_name = "N", requires = "start", value_parser = clap::value_parser!(i64).range(0..=MOST_TURNS))]
    passed: Option<i64>,
    /// How the handwheel was turned since then: on, back, on-again
    #[arg(long, value_name = "HOW", requires = "start", value_parser = turned)]
    turned: Option<Turned>,
    /// How far the collar turns back before the slide moves
    #[arg(long, value_name = "LENGTH", requires = "start", value_parser = super::args::number)]
    slack: Option<String>,
    /// The angle of a test indicator's stylus to the work: 10, 20, 30, 40, 50 or 60 degrees
    #[arg(long, value_name = "DEGREES", value_parser = angle)]
    angle: Option<Angle>,
}

fn turned(text: &str) -> Result<Turned, String> {
    Turned::from_word(text).ok_or_else(|| "one of: on, back, on-again".to_owned())
}

fn angle(text: &str) -> Result<Angle, String> {
    text.parse().ok().and_then(Angle::of).ok_or_else(|| "one of: 10, 20, 30, 40, 50, 60".to_owned())
}

impl Options {
    /// What they say of an instrument.
    pub fn of(&self, tool: &Instrument) -> Result<Change, Halt> {
        let is_collar = collar(tool).is_some();
        let turning = self.passed.is_some() || self.turned.is_some() || self.slack.is_some();
        for (given, can, why) in [
            (self.start.is_some(), is_collar || indicator(tool).is_some(), say::NO_CHANGE),
            (turning, is_collar, say::NO_HANDWHEEL),
            (self.angle.is_some(), lever(tool).is_some(), say::NO_LEVER),
        ] {
            if given && !can {
                return Err(Halt::usage(why));
            }
        }
        let change = Change {
            start: self.start.as_deref().map(|text| shelf::setting(tool, text)).transpose()?,
            passed: self.passed.unwrap_or(0),
            turned: self.turned.unwrap_or_default(),
            slack: self.slack.as_deref().map(|text| slack(tool, text)).transpose()?.unwrap_or_default(),
            angle: self.angle,
        };
        Ok(change)
    }
}

/// A length of the collar, below a turn.
fn slack(tool: &Instrument, text: &str) -> Result<Quanta, Halt> {
    let quantity =
        Quantity::parse(text).or_else(|_| Quantity::parse(&format!("{text} {}", tool.unit.symbol())));
    let at = quantity.ok().filter(|quantity| quantity.unit == tool.unit);
    let at = at.and_then(|quantity| tool.lattice.at(quantity.value)).filter(|at| *at >= Quanta::ZERO);
    at.filter(|at| *at <= tool.high).ok_or_else(|| Halt::usage(say::NO_SLACK))
}

/// What is asked about a tool of which this is known.
pub fn asks(tool: &Instrument, change: &Change) -> Option<Asks> {
    match (collar(tool), change.start, change.angle) {
        (Some(dial), Some(_), _) if dial.takes.is_some() && change.turned != Turned::Back => {
            Some(Asks::Diameter)
        }
        (Some(_), Some(_), _) => Some(Asks::Travel),
        (None, Some(_), _) => Some(Asks::Change),
        (_, None, Some(_)) => Some(Asks::Movement),
        (_, None, None) => None,
    }
}
