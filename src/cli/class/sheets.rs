//! The class record as tables for a spreadsheet.

use crate::class::questions::{About, Questions};
use crate::class::record::{Class, Member};
use crate::class::room::Room;
use crate::cli::table::Table;
use crate::instrument::Catalogue;
use crate::learner::progress::{Score, Z_95};
use crate::wording::class as say;

const LEARNERS: [&str; 20] = [
    "code",
    "name",
    "group",
    "instrument",
    "answered",
    "right",
    "latest_answered",
    "latest_right",
    "low",
    "high",
    "gross",
    "fine",
    "pairs",
    "pairs_alike",
    "standing",
    "still",
    "likely",
    "median_ms",
    "last",
    "measuring_steel",
];
const RETURNED: [&str; 17] = [
    "card",
    "set",
    "purpose",
    "wanted_by",
    "code",
    "back",
    "try",
    "begun",
    "ended",
    "late",
    "interruptions",
    "answered",
    "right",
    "gross",
    "fine",
    "passed_over",
    "outcome",
];
const QUESTIONS: [&str; 16] = [
    "set",
    "question",
    "answered",
    "right",
    "share",
    "low",
    "high",
    "with_rest",
    "with_rest_low",
    "with_rest_high",
    "best_less_poorest",
    "median_ms",
    "wrong_answers",
    "wrong_explained",
    "too_few",
    "look_at",
];

fn share(of: Option<f64>) -> String {
    of.map_or_else(String::new, |of| format!("{of:.4}"))
}

fn word(of: &impl serde::Serialize) -> String {
    let json = serde_json::to_value(of).unwrap_or_default();
    json.as_str().map_or_else(|| json.to_string(), str::to_owned)
}

/// One row for each instrument of each learner; one without an instrument for who has not begun.
pub(super) fn learners(members: &[Member], room: &Room) -> Vec<u8> {
    let mut table = Table::new(LEARNERS);
    for member in members {
        let person = &member.person;
        let own = |text: &Option<String>| text.clone().unwrap_or_default();
        let start = [person.code.clone(), own(&person.name), own(&person.group)];
        let tools = member.row.iter().flat_map(|row| &row.tools);
        let mut none = true;
        for tool in tools {
            none = false;
            let interval = tool.lately.wilson(Z_95);
            let steel = room.steel(&person.code, &tool.instrument).map(say::steel);
            let rest = [
                tool.instrument.clone(),
                tool.score.answered.to_string(),
                tool.score.right.to_string(),
                tool.lately.answered.to_string(),
                tool.lately.right.to_string(),
                share(interval.map(|interval| interval.low)),
                share(interval.map(|interval| interval.high)),
                tool.gross.to_string(),
                tool.fine.to_string(),
                tool.repeats.answered.to_string(),
                tool.repeats.right.to_string(),
                word(&tool.standing),
                own(&tool.live),
                own(&tool.leading),
                tool.median_ms.map_or_else(String::new, |ms| ms.to_string()),
                tool.last.map_or_else(String::new, say::date),
                steel.unwrap_or_default(),
            ];
            table.row(start.iter().chain(&rest));
        }
        if none {
            let empty = vec![String::new(); LEARNERS.len() - start.len()];
            table.row(start.iter().chain(&empty));
        }
    }
    table.bytes()
}

/// One row a try; one without a try where nothing came back.
pub(super) fn returned(class: &Class) -> Vec<u8> {
    let mut table = Table::new(RETURNED);
    for given in &class.given {
        let issued = &given.issued;
        for stand in &given.stands {
            let start = [
                issued.card.clone(),
                issued.set.clone(),
                word(&issued.purpose),
                issued.due.clone().unwrap_or_default(),
                stand.learner.clone(),
                word(&stand.back),
            ];
            if stand.tries.is_empty() {
                let empty = vec![String::new(); RETURNED.len() - start.len()];
                table.row(start.iter().chain(&empty));
            }
            for one in &stand.tries {
                let brief = &one.brief;
                let Score { answered, right } = brief.score;
                let rest = [
                    one.nth.to_string(),
                    brief.begun.clone(),
                    brief.ended.clone().unwrap_or_default(),
                    one.late.to_string(),
                    brief.interruptions.to_string(),
                    answered.to_string(),
                    right.to_string(),
                    brief.gross.to_string(),
                    brief.fine.to_string(),
                    brief.passed_over.to_string(),
                    say::outcome(brief),
                ];
                table.row(start.iter().chain(&rest));
            }
        }
    }
    table.bytes()
}

/// One row a question, or a family of them.
pub(super) fn questions(found: &Questions, catalogue: &Catalogue) -> Vec<u8> {
    let mut table = Table::new(QUESTIONS);
    let title = |id: &str| catalogue.title(id).unwrap_or(id).to_owned();
    for of in &found.lines {
        let about = say::about(of, title);
        let place = match &of.about {
            About::Question { .. } => about.trim_start().to_owned(),
            About::Family(_) => about,
        };
        let unless_few = |text: String| if found.too_few { String::new() } else { text };
        table.row([
            found.set.clone(),
            place,
            of.score.answered.to_string(),
            of.score.right.to_string(),
            share(of.score.share()),
            share(of.interval.map(|interval| interval.low)),
            share(of.interval.map(|interval| interval.high)),
            unless_few(share(of.with_rest)),
            unless_few(share(of.with_rest_interval.map(|interval| interval.low))),
            unless_few(share(of.with_rest_interval.map(|interval| interval.high))),
            unless_few(share(of.upper_lower)),
            of.median_ms.map_or_else(String::new, |ms| ms.to_string()),
            of.wrong.explained.answered.to_string(),
            of.wrong.explained.right.to_string(),
            found.too_few.to_string(),
            say::flags(of),
        ]);
    }
    table.bytes()
}
