//! What became of an answer.

use crate::drill::{Conditions, Lock, Mark, NotationNote, Verdict};
use crate::exact::Quanta;
use crate::instrument::Instrument;
use crate::reading::Asks;

/// One sentence on an answer; the right value is in it.
pub fn verdict(instrument: &Instrument, asks: Asks, mark: &Mark) -> String {
    let right = instrument.notation.spell_with_unit(mark.expected, instrument.unit);
    let it_is = match asks {
        Asks::Reading | Asks::ZeroError => "It reads",
        Asks::Corrected => "The size is",
        Asks::PartAsRead | Asks::PartComplement | Asks::PartSupplement => "The part's angle is",
        Asks::Change => "Against the master it is",
        Asks::Diameter => "Off the diameter came",
        Asks::Travel => "The slide moved",
        Asks::Movement => "The true movement is",
    };
    match mark.verdict {
        Verdict::Right if instrument.is_estimated() && mark.accepted[0] < mark.accepted[1] => {
            let [low, high] = mark.accepted.map(|value| instrument.notation.spell(value));
            format!("Right: {right}; {low} to {high} is accepted.")
        }
        Verdict::Right => format!("Right: {right}."),
        Verdict::RightValue => format!("Right value; write it {right}."),
        Verdict::Misread => {
            let name = mark.misreads.first().map_or("another reading", |found| found.misread.name);
            format!("Not that: {name}. {it_is} {right}.")
        }
        Verdict::Other => format!("Not that. {it_is} {right}."),
        Verdict::Skipped => format!("Passed over. {it_is} {right}."),
    }
}

/// What is to be done before the reading is written down, whatever was answered; none with a tool in good order.
pub fn advice(conditions: &Conditions) -> Option<&'static str> {
    match conditions.lock {
        Lock::Loose => {
            Some("The lock was loose: tighten it and check the reading again before you write it down.")
        }
        Lock::Tight if conditions.lead > Quanta::ZERO => Some(
            "The edge of this tool shows its line early: only the thimble says whether it has been reached.",
        ),
        Lock::Tight if conditions.lead < Quanta::ZERO => Some(
            "The edge of this tool shows its line late: only the thimble says whether it has been reached.",
        ),
        Lock::Tight => None,
    }
}

/// What to say about the way a right value was written.
pub fn note(note: NotationNote) -> &'static str {
    match note {
        NotationNote::DigitsMissing => {
            "Write every digit the tool gives, noughts too: they say how finely you read."
        }
        NotationNote::DigitsTooMany => "That is more digits than the tool can give.",
        NotationNote::FractionOnDecimals => "This tool reads in decimals.",
        NotationNote::NotLowestTerms => "Give fractions in lowest terms.",
        NotationNote::DecimalOnFractions => "This tool reads in fractions.",
        NotationNote::DecimalOnAngles => "This tool reads in degrees and minutes.",
    }
}

/// What is said when an attempt could not be written down.
pub fn saved(problem: Option<&str>) -> String {
    match problem {
        None => String::new(),
        Some(why) => format!("Not saved: {why}. The answer is kept until you leave."),
    }
}
