//! One learner in words.

use super::{back, interval, month_day, name, outcome, purpose, seconds, slip, try_beside};
use crate::class::practical::{Alone, Sheet, latest};
use crate::class::record::{Class, Member, Tool};
use crate::learner::gates::Standing;
use crate::learner::progress::Z_95;
use crate::wording::progress::step;
use std::fmt::Write;

/// One learner: the head.
pub fn learner(member: &Member) -> String {
    let mut line = member.person.code.clone();
    let name = name(member);
    if !name.is_empty() {
        let _ = write!(line, "  {name}");
    }
    if let Some(group) = &member.person.group {
        let _ = write!(line, ", {group}");
    }
    line
}

/// Nothing came back of somebody.
pub const NOTHING_BACK: &str = "Nothing came back yet.";

/// One learner on one instrument, a few lines.
pub fn tool(of: &Tool, title: &str, steel: Option<&Sheet>) -> Vec<String> {
    let range = interval(of.lately.wilson(Z_95)).map(|range| format!(" ({range})")).unwrap_or_default();
    let mut first = format!("{title}: {} of the latest {} right{range}", of.lately.right, of.lately.answered);
    for (count, word) in [(of.gross, "gross"), (of.fine, "fine")] {
        if count > 0 {
            let _ = write!(first, ", {count} {word}");
        }
    }
    let mut stand = vec![match of.standing {
        Standing::Met => "uniform".to_owned(),
        Standing::Nearly => "nearly uniform".to_owned(),
        Standing::Open => "too little to say whether uniform".to_owned(),
        Standing::Short => "not uniform yet".to_owned(),
    }];
    if of.repeats.answered > 0 {
        stand.push(format!("repeats {} of {}", of.repeats.right, of.repeats.answered));
    }
    stand.extend(of.median_ms.map(|ms| format!("{} s", seconds(ms))));
    let mut lines = vec![first, format!("    {}", stand.join(", "))];
    lines.extend(of.live.as_deref().map(|id| format!("    still: {}", slip(id))));
    let leading = of.leading.as_deref().filter(|id| of.live.as_deref() != Some(id));
    lines.extend(leading.map(|id| format!("    likely: {}", slip(id))));
    if !of.gone.is_empty() {
        let gone: Vec<&str> = of.gone.iter().map(|id| slip(id)).collect();
        lines.push(format!("    put right: {}", gone.join(", ")));
    }
    let counted = |all: Vec<(String, u32)>| {
        all.into_iter().map(|(what, times)| format!("{what} ({times})")).collect::<Vec<_>>().join(", ")
    };
    if !of.steps.is_empty() {
        let steps = of.steps.iter().map(|missed| (step(missed.step).to_owned(), missed.times)).collect();
        lines.push(format!("    missed: {}", counted(steps)));
    }
    if !of.misreads.is_empty() {
        let slips = of.misreads.iter().map(|of| (slip(&of.id).to_owned(), of.count)).collect();
        lines.push(format!("    what happened: {}", counted(slips)));
    }
    let from = of.weeks.len().saturating_sub(WEEKS);
    let weeks: Vec<String> = of.weeks[from..]
        .iter()
        .map(|week| format!("{} {}/{}", month_day(Some(week.monday)), week.score.right, week.score.answered))
        .collect();
    if weeks.len() > 1 {
        lines.push(format!("    by week: {}", weeks.join(", ")));
    }
    lines.extend(steel.map(|sheet| format!("    measuring steel: {}", self::steel(sheet))));
    lines
}

/// So many weeks are shown.
const WEEKS: usize = 6;

/// What was shown with steel, in a few characters: `3/3*`.
pub fn steel_cell(sheet: &Sheet) -> String {
    let shown = sheet.shown();
    let alone = if sheet.alone == Alone::Yes { "*" } else { "" };
    format!("{}/{}{alone}", shown.within, shown.parts)
}

/// What was shown with steel, in a few words.
pub fn steel(sheet: &Sheet) -> String {
    let shown = sheet.shown();
    let mut line = format!(
        "{} of {} check parts in, {} of {} ticks",
        shown.within,
        shown.parts,
        shown.done,
        sheet.ticks.len()
    );
    if sheet.alone == Alone::Yes {
        line.push_str(", may use it unsupervised");
    }
    let _ = write!(line, " ({}, {})", sheet.initials, sheet.at.get(..10).unwrap_or_default());
    line
}

/// All that is known of one learner; lines further in begin with blanks.
pub fn whole_learner(
    class: &Class,
    member: &Member,
    sheets: &[Sheet],
    title: impl Fn(&str) -> String,
) -> Vec<String> {
    let code = &member.person.code;
    let mut lines = vec![learner(member)];
    let tools = member.row.as_ref().map_or(&[][..], |row| &row.tools);
    if tools.is_empty() {
        lines.push(NOTHING_BACK.to_owned());
    }
    for of in tools {
        lines.extend(tool(of, &title(&of.instrument), latest(sheets, code, &of.instrument)));
    }
    let met = |sheet: &&Sheet| tools.iter().any(|tool| tool.instrument == sheet.instrument);
    let of_steel: Vec<&Sheet> = sheets.iter().filter(|sheet| sheet.learner == *code && !met(sheet)).collect();
    for sheet in of_steel {
        lines.push(format!("{}: measuring steel only", title(&sheet.instrument)));
        lines.push(format!("    {}", steel(sheet)));
    }
    let own = class.given.iter().filter_map(|given| {
        given.stands.iter().find(|stand| stand.learner == *code).map(|stand| (given, stand))
    });
    let mut head = true;
    for (given, stand) in own {
        if std::mem::take(&mut head) {
            lines.push("What was given out".to_owned());
        }
        let title = &given.issued.title;
        if stand.tries.is_empty() {
            lines.push(format!("    {title}: {}", back(stand.back)));
        }
        for one in &stand.tries {
            let beside = try_beside(one);
            let joined = if beside.is_empty() { "" } else { "; " };
            let day = one.brief.begun.get(..10).unwrap_or_default();
            lines.push(format!("    {day} {title}: {}{joined}{beside}", outcome(&one.brief)));
        }
    }
    let own_accord = member.row.iter().flat_map(|row| &row.sittings).filter(|brief| brief.card.is_none());
    for (n, brief) in own_accord.enumerate() {
        if n == 0 {
            lines.push("Of their own accord".to_owned());
        }
        let day = brief.begun.get(..10).unwrap_or_default();
        lines.push(format!("    {day} {}, {}: {}", brief.set, purpose(brief.purpose), outcome(brief)));
    }
    lines
}
