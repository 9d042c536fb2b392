//! What is asked.

use crate::drill::Role;
use crate::exact::{Quanta, Unit};
use crate::instrument::Instrument;
use crate::reading::Asks;

/// The one line of the question. It never holds what is engraved on the tool.
pub fn prompt(instrument: &Instrument, asks: Asks) -> String {
    let unit = match instrument.unit {
        Unit::Inch => "inches",
        Unit::Millimetre => "millimetres",
        Unit::Minute => "degrees and minutes",
    };
    let how = if instrument.is_estimated() { ", last digit estimated" } else { "" };
    match asks {
        Asks::Reading if instrument.low < Quanta::ZERO => {
            format!("What does it read, in {unit}{how}, plus or minus?")
        }
        Asks::Reading => format!("What does it read, in {unit}{how}?"),
        Asks::Corrected => format!("What is the size, zero allowed for, in {unit}{how}?"),
        Asks::ZeroError => format!("What does it read closed, in {unit}{how}, with its sign?"),
    }
}

/// What the answer field is called, whatever is asked.
pub const FIELD: &str = "Answer: ";

/// What is said beside a picture of a question; empty where the question itself says it.
pub fn beside(instrument: &Instrument, role: Role) -> &'static str {
    match role {
        Role::Closed if instrument.low == Quanta::ZERO => {
            "Closed, it looks like this. Remember what it reads, then look at the work."
        }
        Role::Closed => "On its standard it looks like this. Remember what it reads, then look at the work.",
        Role::Measuring => "",
    }
}

/// What is said beside a picture that is looked at once more, and what it is called in the hint.
pub fn once_more(role: Role) -> &'static str {
    match role {
        Role::Closed => "The closed tool again; c shows the work.",
        Role::Measuring => "The work; c shows what came before.",
    }
}

/// How to see what came before the work.
pub fn to_see_again(role: Role) -> &'static str {
    match role {
        Role::Closed => "c shows the closed tool again",
        Role::Measuring => "",
    }
}
