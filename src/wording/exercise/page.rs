//! The page for the supervisor: one sitting as plain text.

use super::{
    LIMITS, SAME_GROSS, SELF_TEST, called, glass, named, next, outcome, passed, percent, repeated, risks,
};
use crate::class::sitting::{Entry, Purpose, Sitting};
use crate::class::verdict::{Judged, Judgement};
use crate::drill::record::{Attempt, View};
use crate::drill::set::DrillSet;
use crate::instrument::Catalogue;
use crate::learner::facet::Grade;
use crate::learner::plan::Plan;
use crate::learner::progress::Score;
use crate::wording::CAUTIONS;
use std::collections::{BTreeMap, BTreeSet};
use std::time::Duration;

/// Cells of a line.
const WIDTH: usize = 78;
/// Cells of a label.
const LABEL: usize = 16;

/// The page, line by line.
pub fn page(
    set: &DrillSet,
    sitting: &Sitting,
    (judged, plan): (&Judged, Option<&Plan>),
    spent: Duration,
    catalogue: &Catalogue,
) -> Vec<String> {
    let mut page = Page(Vec::new());
    page.0.push(format!("LINEFALL   {} in reading graduated instruments", called(sitting.purpose)));
    page.0.push(String::new());
    let ended = sitting.ended.as_deref().map_or_else(String::new, |at| format!(" to {}", minute(at)));
    page.say("Date (UTC)", &format!("{}{ended}", minute(&sitting.begun)));
    page.say("Who", &sitting.learner);
    page.say("Set", &format!("{} ({})", set.title, set.id));
    page.say("Revision", &set.revision);
    page.say("Sitting", &sitting.id);
    if let Some(card) = &sitting.card {
        page.say("Card", card);
    }
    page.0.push(String::new());
    page.say("Result", &outcome(judged.outcome).to_uppercase());
    page.say("Right", &format!("{} of {}", judged.score.right, judged.score.answered));
    if let Some(range) = judged.interval {
        page.say(
            "In the long run",
            &format!(
                "right in {} to {} of 100 readings (95 % interval)",
                percent(range.low),
                percent(range.high)
            ),
        );
    }
    if let Some(plan) = plan {
        page.say("Passed", &passed(plan));
        page.say("", SAME_GROSS);
        page.say("", &risks(plan));
    }
    page.say("Gross slips", &format!("{} (a turn, a half line, a whole inch: scrap)", judged.gross));
    page.say("Fine slips", &format!("{} (a line or a few)", judged.fine));
    if let Some(slip) = &judged.repeated {
        page.say("", &repeated(slip));
    }
    page.say("Passed over", &judged.passed_over.to_string());
    page.say("Left", &times(sitting.interruptions));
    page.say("Time", &time(spent, set.time));
    page.0.push(String::new());
    page.instruments(judged, catalogue);
    page.shown(set, &sitting.entries);
    page.went_wrong(judged, &sitting.entries, catalogue);
    page.0.push(String::new());
    for line in next(judged) {
        page.wrapped("", &line);
    }
    page.0.push(String::new());
    if sitting.purpose == Purpose::SelfTest {
        page.wrapped("", SELF_TEST);
    }
    page.wrapped("", LIMITS);
    for caution in CAUTIONS {
        page.wrapped("", caution);
    }
    page.0.push(String::new());
    page.0.push("Seen by ______________________    Date ______________".to_owned());
    page.0
}

struct Page(Vec<String>);

impl Page {
    /// A label and what belongs to it.
    fn say(&mut self, label: &str, text: &str) {
        self.wrapped(&format!("{label:<LABEL$}"), text);
    }

    /// A text of any length behind a label; further lines stand under the first.
    fn wrapped(&mut self, label: &str, text: &str) {
        let used = label.chars().count();
        let mut line = label.to_owned();
        let mut empty = true;
        for word in text.split_whitespace() {
            if !empty && line.chars().count() + 1 + word.chars().count() > WIDTH {
                self.0.push(std::mem::replace(&mut line, " ".repeat(used)));
                empty = true;
            }
            if !empty {
                line.push(' ');
            }
            line.push_str(word);
            empty = false;
        }
        self.0.push(line);
    }

    fn instruments(&mut self, judged: &Judged, catalogue: &Catalogue) {
        let mut scores: BTreeMap<&str, Score> = BTreeMap::new();
        for question in &judged.questions {
            scores.entry(&question.instrument).or_default().add(question.right);
        }
        for (nth, (id, score)) in scores.into_iter().enumerate() {
            let title = catalogue.title(id).unwrap_or(id);
            let label = if nth == 0 { "Instruments" } else { "" };
            self.say(label, &format!("{title}: {} of {} right", score.right, score.answered));
        }
    }

    /// How it was shown: what the result rests on.
    fn shown(&mut self, set: &DrillSet, entries: &[Entry]) {
        let attempts = || entries.iter().map(|entry| &entry.attempt).filter(|attempt| attempt.cols > 0);
        let count = |wanted: &dyn Fn(&Attempt) -> bool| attempts().filter(|attempt| wanted(attempt)).count();
        let (held, flat) = (count(&|one| one.view == View::Held), count(&|one| one.view == View::Flat));
        let lines: BTreeSet<&str> = attempts().map(|attempt| attempt.lines.as_str()).collect();
        let widths = attempts().map(|one| one.cols);
        let heights = attempts().map(|one| one.rows);
        let span = |low: Option<u32>, high: Option<u32>| match (low, high) {
            (Some(low), Some(high)) if low < high => format!("{low} to {high}"),
            (low, _) => low.unwrap_or_default().to_string(),
        };
        let (cols, rows) =
            (span(widths.clone().min(), widths.max()), span(heights.clone().min(), heights.max()));
        let lines: Vec<&str> = lines.into_iter().collect();
        self.say(
            "Shown",
            &format!(
                "in the hand {held}, laid flat {flat}; lines: {}; pictures {cols} cells by {rows} rows",
                lines.join(", ")
            ),
        );
        let through = count(&|one| one.glass);
        self.say(
            "Glass",
            &format!("{} It was open in {through} of {} answers.", glass(set.glass), entries.len()),
        );
    }

    fn went_wrong(&mut self, judged: &Judged, entries: &[Entry], catalogue: &Catalogue) {
        let mut wrong = wrong(judged, entries, catalogue).peekable();
        if wrong.peek().is_none() {
            return;
        }
        self.0.push(String::new());
        self.0.push("What went wrong".to_owned());
        for (place, line) in wrong {
            self.wrapped(&format!("{place:>4}  "), &line);
        }
    }
}

/// The questions that were not right, a line each with its number: what was answered, what it is, what happened; the tool where
/// there were several.
pub fn wrong<'a>(
    judged: &'a Judged,
    entries: &'a [Entry],
    catalogue: &'a Catalogue,
) -> impl Iterator<Item = (u32, String)> + 'a {
    let first = judged.questions.first().map(|question| &question.instrument);
    let one_tool = judged.questions.iter().all(|question| Some(&question.instrument) == first);
    let of = move |question: &Judgement| {
        let title = catalogue.title(&question.instrument).unwrap_or(&question.instrument);
        let what = one_wrong(question, entries);
        let line = if one_tool { what } else { format!("{what}: {title}") };
        (question.place, line)
    };
    judged.questions.iter().filter(|question| !question.right).map(of)
}

fn one_wrong(question: &Judgement, entries: &[Entry]) -> String {
    let mut of = entries.iter().filter(|entry| entry.place == question.place).map(|entry| &entry.attempt);
    let Some(attempt) = of.find(|attempt| !attempt.verdict.is_right()) else { return String::new() };
    if !attempt.verdict.is_answer() {
        return format!("passed over, it is {}", attempt.expected);
    }
    let grade = match question.grade {
        Some(Grade::Gross) => " (gross)",
        Some(Grade::Fine) => " (fine)",
        None => "",
    };
    let what = question.misreads.first().map_or_else(String::new, |id| format!(", {}", named(id)));
    format!("{} for {}{what}{grade}", attempt.answer, attempt.expected)
}

fn times(interruptions: u32) -> String {
    match interruptions {
        0 => "never".to_owned(),
        1 => "once, and taken up again".to_owned(),
        times => format!("{times} times, and taken up again"),
    }
}

fn time(spent: Duration, limit: Option<u32>) -> String {
    let clock = |seconds: u64| format!("{} min {:02} s", seconds / 60, seconds % 60);
    let of = limit.map_or_else(String::new, |limit| format!(" of {}", clock(u64::from(limit))));
    format!("{}{of}", clock(spent.as_secs()))
}

/// A time to the minute.
fn minute(at: &str) -> String {
    at.get(..16).unwrap_or(at).replace('T', " ")
}
