//! The practical half in words: the tick sheet, the sign-off slip.

use super::class::{interval, steel};
use super::fit::wrapped;
use crate::class::practical::{Act, Alone, Measured, Sheet, Tick};
use crate::class::record::{Brief, Row};
use crate::class::sitting::Purpose;
use crate::class::verdict::Outcome;
use crate::exact::Exact;
use crate::instrument::Instrument;
use crate::learner::progress::Z_95;
use std::fmt::Write;

/// The name of the sheet.
pub const TITLE: &str = "Tick sheet: measuring steel";
/// What is done with it.
pub const ABOUT: &str =
    "Filled by the instructor beside the person, with a real tool and check parts whose size is known.";
/// The head of the check parts.
pub const PARTS: &str = "Check parts";
/// The columns of the check parts.
pub const PART_COLUMNS: [&str; 5] = ["part", "known size", "allowed", "read", "in?"];
/// The lines under the parts.
pub const NOT_SHOWN: &str = "Not shown";
/// The instructor's decision.
pub const ALONE: &str = "May use this tool unsupervised (the instructor decides)";
/// Date and initials.
pub const SIGNED: [&str; 2] = ["Date", "Initials"];
/// Beside it on paper and on screen.
pub const CAUTION: &str = "Linefall trains reading. It does not calibrate an instrument or release a part: the shop's \
     procedures, local codes and authorised inspectors decide.";
/// How the line mode is answered.
pub const TICK_HELP: &str = "y done as it should be, n not; Enter not looked at. End of input keeps nothing.";
/// Asked for in the line mode.
pub const PART_HELP: &str =
    "Check parts: what it is and its size, such as: block 5.00 mm. Enter when there are no more.";
/// What was read of a part.
pub const READ: &str = "read";
/// What else was not shown.
pub const NOT_SHOWN_HELP: &str = "Not shown, in a few words (depth, bores, over 25 mm); Enter for nothing";
/// The decision in the line mode.
pub const ALONE_HELP: &str = "May use this tool unsupervised? You decide. y or n";
/// The initials in the line mode.
pub const INITIALS_HELP: &str = "Your initials";
/// The end of the line mode.
pub const KEEP_HELP: &str = "Write it down? y or n";
/// It was not kept.
pub const NOT_KEPT: &str = "Nothing was written down.";
/// Neither y nor n.
pub const YES_OR_NO: &str = "y or n, please.";
/// Before the first sheet.
pub const NO_SHEETS: &str =
    "No tick sheet is filled yet: linefall practical k7 micrometer-metric fills one, --blank prints one.";

/// What is looked at, as it is ticked.
pub fn act(of: Act) -> &'static str {
    match of {
        Act::Cleaned => "Tool and part wiped clean",
        Act::ZeroChecked => "Zero checked before measuring",
        Act::Square => "Held square to the part",
        Act::Feel => "The usual feel, the same each time",
        Act::Locked => "Locked before it was taken off (where it has a lock)",
        Act::Read => "Read straight on, every digit",
        Act::Wrote => "Written down at once, with its unit",
        Act::PutAway => "Wiped and put away",
    }
}

/// The same in a word or two.
pub fn act_short(of: Act) -> &'static str {
    match of {
        Act::Cleaned => "cleaning",
        Act::ZeroChecked => "checking zero",
        Act::Square => "holding it square",
        Act::Feel => "feel",
        Act::Locked => "locking",
        Act::Read => "reading",
        Act::Wrote => "writing it down",
        Act::PutAway => "putting it away",
    }
}

/// What was seen, in a word.
pub fn tick(of: Tick) -> &'static str {
    match of {
        Tick::Done => "done",
        Tick::Not => "not as it should be",
        Tick::NotShown => "not looked at",
    }
}

/// How a part was measured: `in, 0.01 mm over`.
pub fn measured(of: &Measured, tool: &Instrument) -> String {
    let Some(off) = of.off() else { return "that is no size".to_owned() };
    let word = if of.is_within() { "in" } else { "OUT" };
    let apart = match off {
        off if off == Exact::ZERO => "exactly its size".to_owned(),
        off => {
            let spelt = tool.notation.spell_with_unit(off.abs(), tool.unit);
            format!("{spelt} {}", if off < Exact::ZERO { "under" } else { "over" })
        }
    };
    format!("{word}: {apart} ({} allowed)", of.allowed)
}

/// The sheet to be printed and filled by hand, in lines of eighty columns.
pub fn blank(title: Option<&str>, least_count: Option<&str>) -> Vec<String> {
    let rule = "_".repeat(24);
    let mut lines = vec![TITLE.to_owned()];
    lines.extend(wrapped(ABOUT, 80));
    lines.push(String::new());
    let tool = title.map_or(rule.clone(), str::to_owned);
    lines.push(format!("Learner {rule}   Tool {tool}"));
    lines.push(String::new());
    lines.extend(Act::ALL.map(|of| format!("[ ] {}", act(of))));
    lines.push(String::new());
    lines.push(format!(
        "{PARTS}, allowed: one line either way{}",
        least_count.map_or_else(String::new, |lc| format!(" ({lc})"))
    ));
    let column = |text: &str, width: usize| format!("{text:<width$}");
    let widths = [20, 16, 12, 16, 6];
    let row = |cells: [&str; 5]| {
        cells.iter().zip(widths).map(|(text, width)| column(text, width)).collect::<String>()
    };
    lines.push(row(PART_COLUMNS).trim_end().to_owned());
    for _ in 0..4 {
        let cells = widths.map(|width| "_".repeat(width - 2));
        lines.push(row(std::array::from_fn(|n| cells[n].as_str())).trim_end().to_owned());
    }
    lines.push(String::new());
    lines.push(format!("{NOT_SHOWN}: {}", "_".repeat(60)));
    lines.push(format!("[ ] {ALONE}"));
    lines.push(format!("{} {rule}   {} ____________", SIGNED[0], SIGNED[1]));
    lines.push(String::new());
    lines.extend(wrapped(CAUTION, 80));
    lines
}

/// A sheet in a line of a listing.
pub fn listed(sheet: &Sheet, title: &str) -> String {
    format!("{}  {}  {title}: {}", sheet.id, sheet.learner, steel(sheet))
}

/// The sign-off in one sentence: date, initials, who, tool, limits of what was shown.
pub fn slip(sheet: &Sheet, row: Option<&Row>, tool: &Instrument) -> String {
    let day = sheet.at.get(..10).unwrap_or_default();
    let mut line = format!("{day} {} signs for {}: ", sheet.initials, sheet.learner);
    let _ = write!(line, "{}", on_screen(row, tool));
    let shown = sheet.shown();
    if shown.parts == 0 {
        line.push_str("; measured no check part");
    } else {
        let _ = write!(
            line,
            "; measured {} of {} check parts within {}",
            shown.within,
            shown.parts,
            allowed(sheet)
        );
        if let Some((low, high)) = sizes(sheet) {
            let of = if low == high { low } else { format!("{low} to {high}") };
            let _ = write!(line, " (sizes {of})");
        }
    }
    let not = |wanted: Tick| -> Vec<&str> {
        Act::ALL.into_iter().filter(|act| sheet.tick(*act) == wanted).map(act_short).collect()
    };
    let wrong = not(Tick::Not);
    if !wrong.is_empty() {
        let _ = write!(line, "; not as it should be: {}", wrong.join(", "));
    }
    let mut unseen: Vec<&str> = not(Tick::NotShown);
    unseen.extend((!sheet.not_shown.is_empty()).then_some(sheet.not_shown.as_str()));
    if !unseen.is_empty() {
        let _ = write!(line, "; not shown: {}", unseen.join(", "));
    }
    line.push_str(match sheet.alone {
        Alone::Yes => "; may use it unsupervised.",
        Alone::NotYet => "; not yet unsupervised.",
    });
    line
}

/// What was shown on a screen: the latest check passed on this tool alone, else the latest readings.
fn on_screen(row: Option<&Row>, tool: &Instrument) -> String {
    let reads = format!("{} to {} on a screen", tool.title, tool.spell_with_unit(tool.least_count));
    let is_it = |brief: &&Brief| {
        brief.purpose == Purpose::Check
            && brief.outcome == Outcome::Passed
            && brief.instruments == [tool.id.clone()]
    };
    let check = row.and_then(|row| row.sittings.iter().rev().find(is_it));
    if let Some(brief) = check {
        return format!("reads {reads}, {} of {} in a check", brief.score.right, brief.score.answered);
    }
    match row.and_then(|row| row.on(&tool.id)).filter(|of| of.lately.answered > 0) {
        Some(of) => {
            let range =
                interval(of.lately.wilson(Z_95)).map(|range| format!(" ({range})")).unwrap_or_default();
            format!(
                "read {reads}, {} of the latest {} right{range}, no check passed",
                of.lately.right, of.lately.answered
            )
        }
        None => format!("{}: nothing read on a screen is known", tool.title),
    }
}

/// The largest allowance of the sheet, as it was written.
fn allowed(sheet: &Sheet) -> String {
    let mut all: Vec<&str> = sheet.parts.iter().map(|part| part.allowed.as_str()).collect();
    all.sort_unstable();
    all.dedup();
    all.join(" or ")
}

/// The smallest and the largest part, as they were written.
fn sizes(sheet: &Sheet) -> Option<(String, String)> {
    let value = |part: &&Measured| crate::exact::Quantity::parse(&part.size).ok().map(|size| size.value);
    let known: Vec<&Measured> = sheet.parts.iter().filter(|part| value(part).is_some()).collect();
    let low = known.iter().min_by_key(|part| value(part))?;
    let high = known.iter().max_by_key(|part| value(part))?;
    Some((low.size.clone(), high.size.clone()))
}

/// Where it is signed by hand.
pub const SIGN_HERE: &str = "Signed: ______________________   Date: ______________   Tool no.: __________";
/// Initials are wanted.
pub const NO_INITIALS: &str = "Initials are wanted: whoever reads it later asks who saw it.";

/// The head of the line mode.
pub fn fill_head(code: &str, title: &str) -> String {
    format!("{TITLE}. {code}, {title}.")
}

/// The prompt for a part.
pub fn part(number: usize) -> String {
    format!("part {number}")
}

/// The prompt for what was read of a part.
pub fn read(name: &str, size: &str) -> String {
    if name == size { format!("{size}: {READ}") } else { format!("{name} {size}: {READ}") }
}

/// It was written down.
pub fn kept(id: &str) -> String {
    format!("Written down as sheet {id}; --slip prints the sign-off.")
}

/// It was taken back.
pub fn taken_back(id: &str) -> String {
    format!("Sheet {id} is taken back; both lines stay in the file.")
}

/// No size.
pub fn no_size(text: &str) -> String {
    format!("\"{text}\" is no size on this tool")
}

/// No part.
pub fn no_part(text: &str) -> String {
    format!("\"{text}\" is no check part: write what it is and its size, such as: block 5.00 mm")
}

/// No code.
pub fn no_code(text: &str) -> String {
    format!("\"{text}\" is no short code: up to 16 small letters, digits and hyphens, such as k7")
}

/// No sheet of that learner and tool.
pub fn no_sheet(code: &str, instrument: &str) -> String {
    format!(
        "no tick sheet is filled for {code} on {instrument}: linefall practical {code} {instrument} fills one"
    )
}

/// No sheet of that number.
pub fn no_such_sheet(id: &str) -> String {
    format!("there is no sheet {id}; linefall practical lists them")
}

/// Lines that cannot be read.
pub fn unreadable(file: &str, lines: &[usize]) -> String {
    let lines: Vec<String> = lines.iter().take(5).map(ToString::to_string).collect();
    format!("{file}: cannot be read in line {} and left out", lines.join(", "))
}
