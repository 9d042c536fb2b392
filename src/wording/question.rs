//! What is asked.

use crate::drill::Role;
use crate::exact::{Exact, Quanta, Unit};
use crate::instrument::Instrument;
use crate::reading::Asks;
use crate::reading::change::{collar, lever};

/// The one line of the question. It never holds what is engraved on the tool.
pub fn prompt(instrument: &Instrument, asks: Asks) -> String {
    let unit = match instrument.unit {
        Unit::Inch => "inches",
        Unit::Millimetre => "millimetres",
        Unit::Minute if instrument.value(instrument.least_count) == Exact::whole(60) => "whole degrees",
        Unit::Minute => "degrees and minutes",
    };
    let how = if instrument.is_estimated() { ", last digit estimated" } else { "" };
    // Of two slides it must be said which one is read.
    let slide = instrument.own_slide().map(|other| &other.words[0]);
    match (asks, slide) {
        (Asks::Reading, Some(slide)) => return format!("What does the {slide} slide read, in {unit}?"),
        (Asks::Corrected, Some(slide)) => {
            return format!("What is the {slide}, zero allowed for, in {unit}?");
        }
        _ => {}
    }
    match asks {
        Asks::Reading if instrument.low < Quanta::ZERO => {
            format!("What does it read, in {unit}{how}, plus or minus?")
        }
        Asks::Reading => format!("What does it read, in {unit}{how}?"),
        Asks::Corrected => format!("What is the size, zero allowed for, in {unit}{how}?"),
        Asks::PartAsRead | Asks::PartComplement | Asks::PartSupplement => {
            format!("The angle marked ?, in {unit}?")
        }
        Asks::Change if lever(instrument).is_some() => {
            format!("True difference (+ or -), in {unit}, to {}?", instrument.spell(instrument.least_count))
        }
        Asks::Change => format!("How much larger (+) or smaller (-), in {unit}?"),
        Asks::Diameter => format!("How much came off the diameter, in {unit}?"),
        Asks::Travel => format!("How far did the slide move, in {unit}?"),
        Asks::Movement => {
            format!("True movement (+ or -), in {unit}, to {}?", instrument.spell(instrument.least_count))
        }
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
        Role::Start if collar(instrument).is_some() => {
            "The tool is up to the work, the handwheel last turned on. Remember where the collar stands."
        }
        Role::Start => "On the master it looks like this. Remember it, then look at the part.",
        Role::Height => "First the height slide, set to the chordal addendum and locked.",
        Role::Closed => "On its standard it looks like this. Remember what it reads, then look at the work.",
        Role::Measuring => "",
    }
}

/// What is said before the measuring picture where another was shown.
pub fn then(instrument: &Instrument, earlier: Role) -> &'static str {
    match earlier {
        Role::Start if collar(instrument).is_some() => "Now the collar stands like this.",
        Role::Start => "On the part it looks like this.",
        Role::Height => "The thickness slide, which is read.",
        Role::Closed | Role::Measuring => "On the work it looks like this.",
    }
}

/// What is said beside a picture that is looked at once more, and what it is called in the hint.
pub fn once_more(role: Role) -> &'static str {
    match role {
        Role::Start => "The start again; c shows where it stands now.",
        Role::Closed => "The closed tool again; c goes on.",
        Role::Height => "The height slide again; c goes on.",
        Role::Measuring => "The work; c shows what came before.",
    }
}

/// How to see what came before the work.
pub fn to_see_again(role: Role) -> &'static str {
    match role {
        Role::Closed => "c shows the closed tool again",
        Role::Start => "c shows the start again",
        Role::Height => "c shows the height slide again",
        Role::Measuring => "",
    }
}
