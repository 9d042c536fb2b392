//! What stands round a question at the bench, whatever kind it is.

use crate::exact::Quanta;
use crate::instrument::{Instrument, Travel};

/// The head of the list of kinds.
pub fn kinds_head(title: &str) -> String {
    format!("Kinds of question: {title}")
}

/// Below it.
pub const KINDS: &str = "Each asks for one thing that is done with the tool. Enter begins.";

/// How many answers of a kind were right so far.
pub fn tally(right: u32, answered: u32) -> String {
    match answered {
        0 => "not tried yet".to_owned(),
        _ => format!("{right} of {answered} right"),
    }
}

/// Which question it is, which part of it, and how many answers were right.
pub fn which(number: u32, (part, parts): (usize, usize), (asked, right): (u32, u32)) -> String {
    let part = if parts > 1 { format!(", {part} of {parts}") } else { String::new() };
    match asked {
        0 => format!("question {number}{part}"),
        _ => format!("question {number}{part}   {right} of {asked} right"),
    }
}

/// What one of two pictures is called.
pub fn picture_name(place: usize) -> &'static str {
    if place == 0 { "the first" } else { "the second" }
}

/// Beside the name where only one of two has room.
pub const OTHER: &str = "x shows the other one";
/// Beside the name of the one that the glass is held over.
pub const IN_HAND: &str = "(glass here; x for the other)";

/// How a tool is set, in the full screen.
pub fn strokes(tool: &Instrument, travel: &Travel) -> String {
    let by = |length: Quanta| tool.spell_with_unit(length);
    let fine = format!("\u{2190} \u{2192} move it by {}", by(travel.fine));
    let coarse = if travel.coarse > travel.fine {
        format!(", PgUp PgDn by {}", by(travel.coarse))
    } else {
        String::new()
    };
    format!("{fine}{coarse}; Enter locks it.")
}

/// A locked tool is looked at again.
pub const LOCKED: &str = "Locked. Look at it once more: Enter leaves it so, Esc loosens it.";

/// Nothing of the kind asked for can be drawn.
pub const TOO_SMALL: &str = "No question of this kind can be drawn truly in this window: make it larger.";

/// The kinds asked for make no sense on an instrument.
pub const NO_SENSE: &str = "There is no such question on this instrument.";

/// How an answer is chosen.
pub const CHOOSE: &str = "Type its number, or choose with the arrows and Enter.";

/// What is told after an answer and does not fit.
pub fn more(lines: usize) -> String {
    format!(" {lines} more: Enter ")
}
