//! What stands round a question at the bench, whatever kind it is.

use super::task;
use crate::drill::{Kind, Level};
use crate::exact::Quanta;
use crate::instrument::{Instrument, Travel};

/// The head of the list of kinds.
pub fn kinds_head(title: &str) -> String {
    format!("Kinds of question: {title}")
}

/// Below it.
pub const KINDS: &str = "Each asks for one thing that is done with the tool. Enter begins.";

/// A level in the list.
pub fn level(level: Level) -> String {
    let number = Level::ALL.iter().position(|one| *one == level).map_or(0, |place| place + 1);
    format!("level {number}: {}", task::level(level))
}

/// What comes up on a level.
pub fn of_level(kinds: &[Kind]) -> String {
    let names: Vec<&str> = kinds.iter().map(|kind| task::name(*kind)).collect();
    format!("In turn: {}", names.join(", "))
}

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

/// Which question it was, looked at again.
pub fn past(number: u32, (part, parts): (usize, usize), (nth, of): (usize, usize)) -> String {
    let part = if parts > 1 { format!(", {part} of {parts}") } else { String::new() };
    format!("question {number}{part}   {nth} of {of} that went wrong")
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

/// Pictures and answers have no room together: how to see the answers.
pub const ANSWERS_ON_A_KEY: &str = "x: on to the answers.";
/// How to see the pictures.
pub const PICTURE_ON_A_KEY: &str =
    "x shows the tool again. Type a number, or choose with the arrows and Enter.";

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

/// What `ask` says before its first question of another kind.
pub const ASK_START: &str = "Type the answer, or its number, then Enter. ? tells the rest.";

/// What can be typed, for `?`.
pub const ASK_HELP: [&str; 7] = [
    "A figure and Enter: 0.286, 12.34, 1 3/64; of answers offered, the number.",
    "A tool that is set: +0.1 and -0.002 move it, lock, loosen, done leaves it so.",
    "look   say in words what can be seen",
    "skip   pass this question over",
    "< and > slide the glass by one vernier line; <<< by three; 2> over the second picture",
    "quit   stop here",
    "?      this help",
];

/// The head of a question of another kind in the line mode.
pub fn question(number: u32, count: u32, (part, parts): (usize, usize), kind: &str, family: &str) -> String {
    let part = if parts > 1 { format!(" ({part} of {parts})") } else { String::new() };
    format!("Question {number} of {count}{part}: {family}, {kind}")
}

/// Above one of two pictures in the line mode.
pub fn picture_head(place: usize) -> String {
    if place == 0 { "The first:".to_owned() } else { "The second:".to_owned() }
}

/// How a tool is set, in the line mode.
pub fn typed_strokes(tool: &Instrument, travel: &Travel) -> String {
    let (fine, coarse) = (tool.spell(travel.fine), tool.spell(travel.coarse));
    format!("+{fine} moves it on by the least, +{coarse} further, - back; lock, then done.")
}

/// A locked tool is looked at again, in the line mode.
pub const LOCKED_LINE: &str = "Locked. Look at it once more: done leaves it so, loosen sets it again.";

/// A number of an answer was wanted.
pub fn number_wanted(count: usize) -> String {
    format!("Type the number of an answer, 1 to {count}.")
}

/// A line of the stream that says nothing, or several things.
pub const ONE_ORDER: &str = "give one of \"answer\", \"choose\", \"move\", \"lock\", \"loosen\", \"done\", \"lens\" and \"skip\" beside the id";
/// Nothing is offered.
pub const NO_CHOICE: &str = "there are no answers to choose from: give \"answer\"";
/// Nothing is set.
pub const NOT_SET: &str = "nothing is being set: give \"answer\"";
