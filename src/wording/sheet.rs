//! What stands on paper: worksheets, keys, charts, cards, the tick sheet.

use super::bench::picture_head;
use super::task;
use super::{beside, explain, then};
use crate::drill::task::{Asked, Given, Part, Wanted};
use crate::drill::{Kind, Role};
use crate::exact::{Exact, Typed, TypedForm, Unit};
use crate::instrument::Instrument;
use crate::reading::change::collar;
use crate::reading::{Reading, Share};
use crate::render::sheet::Magnified;
use crate::scene;

/// Lines to be filled in by hand.
pub const FIELDS: [&str; 2] = ["Name", "Date"];
/// Beside the check bar.
pub const BAR: &str = "This bar must measure 100 mm. If not, print at 100 %.";
/// Above a vernier that is shown length by length.
pub const GLASS: &str = "Its vernier once more, larger, length by length:";
/// Above the picture of the closed tool.
const CLOSED: &str = "Closed, it looks like this:";
/// Of a tool that is never closed.
const ON_STANDARD: &str = "On its standard it looks like this:";
/// Above what a change is counted from.
const COLLAR_START: &str = "The tool is up to the work, the handwheel last turned on. The collar:";
/// The same on a master.
const ON_MASTER: &str = "On the master it looks like this:";
/// What a worksheet says to everybody.
pub const HOW: &str = "Read each tool as it stands and write every digit it gives. All pictures are larger than life: read them, do not measure them.";
/// How long there is for it.
pub fn time(seconds: u32) -> String {
    format!("Time: {} minutes.", seconds.div_ceil(60))
}

/// Of a set that forbids the glass.
pub const WITHOUT_GLASS: &str = "Read without a magnifying glass.";

/// Which sheet it is, to be found on its key.
pub fn mark(code: u32, letter: Option<char>) -> String {
    letter.map_or_else(|| format!("No. {code:04}"), |letter| format!("No. {code:04} {letter}"))
}

/// How pages are counted.
pub fn page(number: usize, of: usize) -> String {
    format!("Page {number} of {of}")
}

/// How large a picture is.
pub fn note(magnified: &Magnified) -> String {
    let what = match magnified.kind {
        scene::Kind::Sleeve => "The sleeve is drawn",
        scene::Kind::Rule | scene::Kind::Pair | scene::Kind::Dial => "Drawn",
    };
    let large = magnified
        .tenths
        .map(|tenths| format!("{what} about {}.{} times life size.", tenths / 10, tenths % 10));
    let miss = magnified.miss.map(|miss| {
        let hundredths = miss / 10;
        format!(
            "Beside two lines that meet, the next ones miss by {}.{:02} mm.",
            hundredths / 100,
            hundredths % 100
        )
    });
    large.into_iter().chain(miss).collect::<Vec<_>>().join(" ")
}

/// What is said above a picture of a question; none where there is only one.
pub fn caption(tool: &Instrument, role: Role, earlier: Option<Role>, place: Option<usize>) -> Option<String> {
    match (role, earlier, place) {
        (_, _, Some(place)) => Some(picture_head(place)),
        (Role::Measuring, Some(earlier), None) => Some(then(tool, earlier).to_owned()),
        (Role::Measuring, None, None) => None,
        (Role::Closed, _, None) if tool.low == crate::exact::Quanta::ZERO => Some(CLOSED.to_owned()),
        (Role::Closed, _, None) => Some(ON_STANDARD.to_owned()),
        (Role::Start, _, None) if collar(tool).is_some() => Some(COLLAR_START.to_owned()),
        (Role::Start, _, None) => Some(ON_MASTER.to_owned()),
        (Role::Height, _, None) => Some(beside(tool, role).to_owned()),
    }
}

/// What is asked on paper: as on a screen, but nothing that a later question says gives an earlier one away.
pub fn asked(part: &Part) -> Vec<String> {
    match &part.asked {
        Asked::TheOther { .. } => {
            vec![format!("And the other one? {}", super::prompt(&part.tool, part.question.asks))]
        }
        _ => task::asked(part),
    }
}

/// What stands behind the line for the answer.
pub fn unit(part: &Part) -> &'static str {
    match &part.wanted {
        Wanted::Figure(figure) => symbol(figure.unit),
        Wanted::Reading | Wanted::Choice(_) | Wanted::Setting(_) => symbol(part.tool.unit),
    }
}

fn symbol(unit: Unit) -> &'static str {
    match unit {
        Unit::Inch => "in",
        Unit::Millimetre => "mm",
        Unit::Minute => "\u{b0} \u{2032}",
    }
}

/// The title of a key.
pub fn key_title(title: &str) -> String {
    format!("Key: {title}")
}

/// What a key says of itself.
pub fn key_how(command: &str) -> String {
    format!("For the instructor. The same sheets again: {command}")
}

/// The right answer to a part, and why, line by line.
pub fn answer(part: &Part) -> (String, Vec<String>) {
    let given = right_given(part);
    let marked = part.mark(&given);
    (task::right(part), task::why(part, &given, &marked))
}

fn right_given(part: &Part) -> Given {
    let typed = |value: Exact| Given::Typed(Typed { text: String::new(), value, form: TypedForm::Angle });
    match &part.wanted {
        Wanted::Reading => typed(part.question.expected(&part.tool)),
        Wanted::Figure(figure) => typed(figure.expected),
        Wanted::Choice(choice) => Given::Chosen(choice.right),
        Wanted::Setting(setting) => Given::Left(setting.to),
    }
}

/// Heads a part of a question that has more than one.
pub fn part_answer(number: usize, parts: usize, answer: &str) -> String {
    match (parts, number) {
        (1, _) => answer.to_owned(),
        (_, 0) => format!("first: {answer}"),
        _ => format!("then: {answer}"),
    }
}

/// Questions that have no place on paper.
pub fn left_out(count: usize) -> String {
    let (questions, ask) = if count == 1 { ("1 question", "asks") } else { ("questions", "ask") };
    let number = if count == 1 { String::new() } else { format!("{count} ") };
    format!("{number}{questions} of the set {ask} for a tool to be set by hand: not on paper, left out")
}

/// All variants have the same questions.
pub const SAME_QUESTIONS: &str =
    "this set gives everybody the same questions: the variants differ in their order only";

/// Nothing is left.
pub const NOTHING_ON_PAPER: &str = "no question of this set can be asked on paper";

/// Neither a set nor a chart.
pub const WHAT_SHEET: &str = "say what to print: a set or an instrument, --chart or --card";

/// A file of another kind.
pub fn no_such_file(name: &str) -> String {
    format!("\"{name}\": the name of the file must end in .pdf or .svg")
}

/// There is neither a set nor an instrument of that name.
pub fn no_set(id: &str, near: Option<&str>) -> String {
    let near = near.map_or_else(String::new, |near| format!("; did you mean {near}?"));
    format!("there is no set and no instrument \"{id}\"{near}")
}

/// What was written.
pub fn wrote(name: &str, pages: usize) -> String {
    let pages = if pages == 1 { "1 page".to_owned() } else { format!("{pages} pages") };
    format!("{name}: {pages}")
}

/// What a set of questions on one instrument is called.
pub fn readings_on(title: &str) -> String {
    format!("{title}: readings")
}

/// Below the title of a chart.
pub fn chart_under(instrument: &Instrument) -> String {
    let least = instrument.spell_with_unit(instrument.least_count);
    let range =
        format!("{} to {}", instrument.spell(instrument.low), instrument.spell_with_unit(instrument.high));
    format!("Reads to {least}. Range {range}.")
}

/// A step of a reading, and what it is worth.
pub fn step(instrument: &Instrument, share: &Share) -> (String, String) {
    (explain::share(instrument, share), instrument.spell(share.value))
}

/// The sum of the steps.
pub fn sum(instrument: &Instrument, reading: &Reading, shares: &[Share]) -> String {
    explain::sum(instrument, reading, shares, crate::exact::Quanta::ZERO, crate::reading::Asks::Reading)
}

/// Above the steps of a card's picture.
pub const READ_LIKE_THIS: &str = "This one is read like this";
/// Above what a care card says before use.
pub const BEFORE: &str = "Before use: clean, zero";
/// Above how a measurement is taken.
pub const MEASURE: &str = "Measuring";
/// Above the cautions.
pub const NEVER: &str = "Never";

/// The chart of sixty-fourths.
pub mod sixty_fourths {
    /// Its title.
    pub const TITLE: &str = "Sixty-fourths of an inch";
    /// Below it.
    pub const UNDER: &str = "Every figure is exact: nothing is rounded. 1 in = 25.4 mm.";
    /// The columns, twice.
    pub const COLUMNS: [&str; 3] = ["fraction", "inches", "millimetres"];
}

/// The tick sheet.
pub mod ticks {
    /// Its title.
    pub const TITLE: &str = "Measuring with the tool: tick sheet";
    /// Below it.
    pub const UNDER: [&str; 2] = [
        "Filled in by the instructor, standing beside. Tick what was done without being told; leave empty what was not.",
        "Reading pictures is another column of the record: this sheet is about the hands.",
    ];
    /// Lines to be filled in.
    pub const FIELDS: [&str; 3] = ["Learner", "Tool and its number", "Date"];
    /// What is watched.
    pub const WATCHED: [&str; 8] = [
        "cleaned: faces and part wiped, burrs off",
        "zero checked: closed or on its standard, wiped again if off",
        "square: the tool sits true on the part",
        "feel: light and even, ratchet or fingertips, not forced",
        "locked: where there is a lock, without moving it",
        "read: on the part or lifted off as the tool allows, looking straight at it",
        "wrote: every digit, with the unit, at once",
        "put away: wiped, faces apart, in its case",
    ];
    /// Above what is watched.
    pub const STEP: &str = "Watched";
    /// Above the columns of parts.
    pub const PART: [&str; 5] = ["part 1", "part 2", "part 3", "part 4", "part 5"];
    /// The columns of the second table.
    pub const SIZES: [&str; 6] =
        ["Check part", "Known size", "Allowance \u{b1}", "Wrote", "Off by", "Within?"];
    /// Below the tables.
    pub const SIGNED: [[&str; 2]; 2] =
        [["Limits of what was shown", "Try: first / second"], ["Remarks (absent, late)", "Initials"]];
    /// The last line.
    pub const NOTE: &str = "What was shown holds for this tool and these parts. It releases no part and certifies nobody: the shop's \
                            procedures and authorised inspectors decide.";
}

/// Whether a kind of question can be asked on paper.
pub fn on_paper(kind: Kind) -> bool {
    kind != Kind::SetIt
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn how_large_a_picture_is() {
        let magnified = Magnified { kind: scene::Kind::Pair, tenths: Some(42), miss: Some(216) };
        assert_eq!(
            note(&magnified),
            "Drawn about 4.2 times life size. Beside two lines that meet, the next ones miss by 0.21 mm."
        );
        let sleeve = Magnified { kind: scene::Kind::Sleeve, tenths: Some(50), miss: None };
        assert_eq!(note(&sleeve), "The sleeve is drawn about 5.0 times life size.");
        assert_eq!(note(&Magnified { kind: scene::Kind::Dial, tenths: None, miss: None }), "");
    }
}
