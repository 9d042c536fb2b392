//! What commands say.

use super::counted;
use crate::drill::Kind;
use crate::drill::set::DrillSet;
use crate::exact::{Exact, Nonsense, Quanta};
use crate::instrument::Instrument;
use crate::reading::misread::On;
use crate::reading::{Asks, Reading, Share};

/// The full screen was asked for where there is none.
pub const NEEDS_TERMINAL: &str = "the full screen needs a terminal for input and output; `linefall ask` practises line by line without one";

/// What `ask` says before its first question.
pub const ASK_START: &str = "Type what it reads, then Enter. > and < slide the glass; ? tells the rest.";

/// What can be typed in place of an answer, for `?`.
pub const ASK_HELP: [&str; 6] = [
    "Type the reading and Enter: 0.286, 12.34, 1 3/64; a comma does as well as a point.",
    "look   say in words what can be seen",
    "skip   pass this question over",
    "< and > slide the glass by one vernier line; <<< and >>> by three",
    "quit   stop here",
    "?      this help",
];

/// A person's own file has faults.
pub fn faulty(name: &str, faults: usize) -> String {
    let faults = counted(faults, "fault", "faults");
    format!("{name} is left out ({faults}): run linefall check {name}")
}

/// The file of the shop's own tools has faults.
pub fn faulty_crib(name: &str, faults: usize) -> String {
    let faults = counted(faults, "fault", "faults");
    format!("in {name} faulty tools are left out ({faults}): run linefall crib check")
}

/// The file of the times that an instructor set has faults.
pub fn faulty_targets(name: &str, faults: usize) -> String {
    let faults = counted(faults, "fault", "faults");
    format!("in {name} faulty times are left out ({faults}): run linefall check {name}")
}

/// An unknown instrument.
pub fn no_instrument(id: &str, near: Option<&str>) -> String {
    let near = near.map_or_else(String::new, |near| format!("; did you mean {near}?"));
    format!("there is no instrument \"{id}\"{near} (linefall list instruments shows all)")
}

/// Some of many names; where that is shorter, those that are not among them.
pub fn those(some: &[String], every: &[&str]) -> String {
    let rest: Vec<&str> = every.iter().filter(|name| !some.iter().any(|one| one == *name)).copied().collect();
    match rest.len() {
        0 => "all".to_owned(),
        missing if missing < some.len() => format!("all but {}", rest.join(", ")),
        _ => some.join(", "),
    }
}

/// A text that is no reading.
pub fn no_reading(text: &str, why: Nonsense) -> String {
    format!("\"{text}\" is no reading: {why}")
}

/// A reading beyond the scale.
pub fn out_of_range(instrument: &Instrument, value: Exact, low: Quanta, high: Quanta) -> String {
    let names: Vec<&str> = instrument.choices.iter().map(|choice| choice.name.as_str()).collect();
    let otherwise = if names.is_empty() {
        String::new()
    } else {
        format!(" as it is fitted; --variant fits another {}", names.join(" or "))
    };
    format!(
        "{} is beyond this instrument: {} to {}{otherwise}",
        instrument.notation.spell_with_unit(value, instrument.unit),
        instrument.spell(low),
        instrument.spell_with_unit(high)
    )
}

/// A reading between two that the instrument can show.
pub fn between(instrument: &Instrument, value: Exact, below: Quanta) -> String {
    format!(
        "{} cannot be read on this instrument; its neighbours are {} and {}",
        instrument.notation.spell_with_unit(value, instrument.unit),
        instrument.spell(below),
        instrument.spell_with_unit(below + Quanta(1))
    )
}

/// A zero error on a tool that is never closed.
pub fn no_zero_error(id: &str) -> String {
    format!("{id} is never closed, so it has no zero error")
}

/// Telling questions on all instruments.
pub const TELLING_IS_ABOUT_ONE: &str = "telling questions are about one instrument: name it";

/// A kind of question that makes no sense on an instrument.
pub fn no_such_kind(id: &str, kind: Kind, known: &[Kind]) -> String {
    let known: Vec<&str> = known.iter().map(|kind| kind.word()).collect();
    format!("there is no question \"{kind}\" on {id}; there is {}", known.join(", "))
}

/// A level that has nothing to ask on an instrument.
pub fn nothing_on_level(id: &str) -> String {
    format!("that level has no questions on {id}")
}

/// A set where kinds are asked for as well.
pub const SET_SAYS_WHAT: &str = "a set says itself what it asks: leave out --kind and --level";

/// A set where a number of questions is asked for as well.
pub const SET_SAYS_HOW: &str =
    "a set says itself how many questions it has and which: leave out --count and --choose";

/// An unknown set.
pub fn no_set(id: &str, near: Option<&str>) -> String {
    let near = near.map_or_else(String::new, |near| format!("; did you mean {near}?"));
    format!("there is no set \"{id}\"{near} (linefall list sets shows all)")
}

/// No instrument has questions of the kinds asked for.
pub const NO_SUCH_QUESTION: &str = "on none of these instruments there are questions of that kind";

/// Telling questions of another kind.
pub const TELLING_ARE_READINGS: &str = "telling questions are readings: leave out --kind and --level";

/// A glass where there is no vernier.
pub const NO_GLASS: &str = "there is no glass over this picture";

/// The same in the line mode.
pub const NO_GLASS_HERE: &str = "There is no glass over this picture: it is read whole.";

/// A typed text was no reading.
pub fn once_more(why: Nonsense) -> String {
    format!("Once more: {why}.")
}

/// Two pictures where a file holds one.
pub const ONE_PICTURE: &str =
    "a vector picture holds one tool; draw the closed tool by itself, standing at its zero error";

/// A height is given for a tool that has no such slide, or whose height slide is read.
pub fn no_height_slide(id: &str) -> String {
    format!("{id} has no height slide that is set before this one is read")
}

/// Between the pictures of two slides.
pub const HEIGHT_SLIDE: &str = "The height slide, set first and locked.";
/// The second of them.
pub const THICKNESS_SLIDE: &str = "The thickness slide, which is read.";

/// A vernier line that does not exist.
pub fn no_vernier_line(first: i64, last: i64) -> String {
    if first < 0 {
        let first = -first;
        format!("the vernier's lines are numbered 0 to {last} to the right, 0 to -{first} to the left")
    } else {
        format!("the vernier's lines are numbered 0 to {last}")
    }
}

/// A variant the instrument does not come in.
pub fn no_variant(wanted: &str, known: &[String]) -> String {
    if known.is_empty() {
        format!("there is no variant \"{wanted}\": this instrument comes in one form only")
    } else {
        format!("there is no variant \"{wanted}\"; there is {}", known.join(", "))
    }
}

/// An edge that shows early or late on an instrument without a thimble.
pub const NO_EDGE: &str = "this instrument has no thimble whose edge could show a line early or late";

/// An edge that is further off than that of any tool in use.
pub fn edge_lead(late: i64, early: i64) -> String {
    format!("an edge shows its line at most {late} divisions late (-{late}) or {early} early ({early})")
}

/// Figures that wear where none do.
pub const NOTHING_WEARS: &str = "no figure of this instrument wears away";

/// A lock that is not tight where there is none.
pub const NO_LOCK: &str = "this instrument has no lock";

/// A digit that is estimated where the definition says nothing of it.
pub const NO_ESTIMATE: &str = "the definition of this instrument does not say how a digit is estimated";
/// A start where nothing is compared.
pub const NO_CHANGE: &str =
    "a change is counted on an indicator or the collar of a handwheel; this instrument is neither";

/// Turns of a handwheel where there is none.
pub const NO_HANDWHEEL: &str = "only the collar of a handwheel is turned past its 0 and has slack";

/// An angle where there is no lever.
pub const NO_LEVER: &str = "only the stylus of a test indicator stands at an angle";

/// A slack that is none.
pub const NO_SLACK: &str = "the slack is a length of the collar, less than a turn of it";

/// The stage a misread happens on, as a listing says it.
pub fn stage(on: On) -> &'static str {
    match on {
        On::Covering => "covered sleeve",
        On::Centimetres => "metric scale",
        On::Named(name) => name,
        On::Estimate => "digit between lines",
        On::TwoScales => "two scales",
        On::Fortieths => "lines of 0.025 in",
        On::TenthFigures => "figures of a tenth",
        On::VernierLabels => "figures of the vernier",
        On::SlidingVernier => "sliding vernier",
        On::Lengths => "unit",
        On::CoarseLastDigit => "last digit",
        On::Line => "scale",
        On::HalfLines => "half lines",
        On::Collar => "handwheel",
        On::Indicator => "comparison",
        On::Lever => "lever",
        On::Drum => "thimble",
        On::Dial => "dial",
        On::BalancedDial => "balanced dial",
        On::Turns => "turns of a hand",
        On::Vernier => "vernier",
        On::DoubleVernier => "double vernier",
        On::SetUps => "part's angle",
        On::Fixed => "constant length",
        On::Nibs => "nibs",
        On::Any => "any",
        On::ZeroError => "zero",
    }
}

/// The head of a question in the line mode. The instrument's title would give away what is engraved on it.
pub fn question(number: u32, count: u32, family: &str) -> String {
    format!("Question {number} of {count}: {family}")
}

/// An instrument that does not fit takes no part.
pub fn left_out(id: &str, why: &str) -> String {
    format!("{id} is left out: {why}")
}

/// The end of a run in the line mode.
pub fn ask_summary(right: u32, answered: u32, skipped: u32, complete: bool) -> String {
    let start = if complete { "" } else { "Stopped early: " };
    let passed = if skipped == 0 { String::new() } else { format!(", {skipped} passed over") };
    format!("{start}{right} of {answered} right{passed}.")
}

/// A file without faults.
pub fn no_faults(name: &str, id: &str) -> String {
    format!("{name}: no faults ({id})")
}

/// A file of times without a fault.
pub fn no_faults_in_targets(name: &str, times: usize) -> String {
    format!("{name}: no faults ({})", counted(times, "time", "times"))
}

/// A file with the id of a shipped instrument; `file` is how it is called.
pub fn in_place_of_shipped(file: &str, id: &str) -> String {
    format!("{file} takes the place of the shipped {id}")
}

/// The same of a drill set.
pub fn in_place_of_shipped_set(file: &str, id: &str) -> String {
    format!("{file} takes the place of the shipped set {id}")
}

/// A drill set without a fault.
pub fn no_faults_in_set(name: &str, set: &DrillSet) -> String {
    format!("{name}: {} has no faults ({})", set.id, super::set::in_short(set))
}

/// Something to know about a file that has no fault.
pub fn to_know(note: &str) -> String {
    format!("    note: {note}")
}

/// The last line on a faulty file.
pub fn fault_count(name: &str, faults: usize) -> String {
    format!("{name}: {}", counted(faults, "fault", "faults"))
}

/// The record was of an older version.
pub fn brought_up_to_date(copy: &str) -> String {
    format!("the record was brought up to date; a copy of it as it was is {copy}")
}

/// The glass was asked for where the picture is whole.
pub const NO_GLASS_IN_HAND: &str =
    "this picture is read whole and has no glass; --view flat or another --lines has one";

/// The explanation: each thing looked at with its value, then the sum.
pub fn steps(
    instrument: &Instrument,
    reading: &Reading,
    shares: &[Share],
    zero_error: Quanta,
    asks: Asks,
) -> Vec<String> {
    let rows: Vec<(String, String)> =
        shares.iter().map(|share| (super::share(instrument, share), instrument.spell(share.value))).collect();
    let width = |text: &str| text.chars().count();
    let words = rows.iter().map(|(words, _)| width(words)).max().unwrap_or(0);
    let values = rows.iter().map(|(_, value)| width(value)).max().unwrap_or(0);
    let mut lines: Vec<String> =
        rows.iter().map(|(text, value)| format!("{text:<words$}  {value:>values$}")).collect();
    lines.push(super::sum(instrument, reading, shares, zero_error, asks));
    lines
}
