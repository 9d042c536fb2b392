//! What was given out and came back, in words.

use super::{interval, slip};
use crate::class::record::{Back, Brief, Given, Try};
use crate::class::sitting::{End, Purpose};
use crate::class::verdict::{Outcome, Why};
use crate::learner::progress::{Score, Z_95};
use std::fmt::Write;

/// What a sitting was for.
pub fn purpose(of: Purpose) -> &'static str {
    match of {
        Purpose::Exercise => "exercise",
        Purpose::Check => "check",
        Purpose::SelfTest => "self-test",
    }
}

/// An issued card in a line: how many are back, and how a check stands.
pub fn given(given: &Given) -> String {
    let kind = purpose(given.issued.purpose);
    let due =
        given.issued.due.as_deref().and_then(|due| due.get(5..10)).map(|due| format!(", wanted by {due}"));
    let back = given.stands.iter().filter(|stand| stand.back == Back::Returned).count();
    let mut line = format!(
        "{} ({kind}{}): {back} of {} back",
        given.issued.title,
        due.unwrap_or_default(),
        given.stands.len()
    );
    if given.issued.purpose != Purpose::Exercise {
        let passed = given.stands.iter().filter(|stand| stand.tries.iter().any(is_passed)).count();
        let _ = write!(line, ", {passed} passed");
    }
    line
}

fn is_passed(one: &Try) -> bool {
    one.brief.outcome == Outcome::Passed
}

/// What is to be said beside: who is not yet there, nothing back, late, interrupted, second tries. Each a line.
pub fn given_beside(given: &Given) -> Vec<String> {
    let mut lines = Vec::new();
    let who = |wanted: &dyn Fn(&Try) -> bool| -> Vec<&str> {
        let stands = given.stands.iter().filter(|stand| stand.tries.iter().any(wanted));
        stands.map(|stand| stand.learner.as_str()).collect()
    };
    if given.issued.purpose != Purpose::Exercise {
        for stand in given.stands.iter().filter(|stand| !stand.tries.iter().any(is_passed)) {
            lines.extend(
                stand.tries.last().map(|last| format!("{}: {}", stand.learner, outcome(&last.brief))),
            );
        }
    }
    let mut add = |word: &str, who: Vec<&str>| {
        if !who.is_empty() {
            lines.push(format!("{word}: {}", who.join(", ")));
        }
    };
    add("late", who(&|one| one.late));
    add("interrupted", who(&|one| one.brief.interruptions > 0));
    add("second try or more", who(&|one| one.nth > 1));
    let of = |back: Back| -> Vec<&str> {
        given.stands.iter().filter(|stand| stand.back == back).map(|stand| stand.learner.as_str()).collect()
    };
    add("nothing back, and the day is over", of(Back::Absent));
    add("nothing back yet", of(Back::NotBack));
    lines
}

/// What a sitting came to: `passed, 29 of 30 (83 to 99 %)`.
pub fn outcome(brief: &Brief) -> String {
    let Score { right, answered } = brief.score;
    let range = interval(brief.score.wilson(Z_95)).map(|range| format!(" ({range})")).unwrap_or_default();
    let score = format!("{right} of {answered}{range}");
    match brief.outcome {
        Outcome::Open => format!("goes on, {score} so far"),
        Outcome::Done if brief.end == End::Done => score,
        Outcome::Done => format!("{score}, {}", end(brief.end)),
        Outcome::Passed => format!("passed, {score}"),
        Outcome::CannotBeMarked => {
            format!(
                "cannot be judged here: an instrument is missing or was changed since; {score} of what can be marked"
            )
        }
        Outcome::NotYet(Why::SameGrossSlip) => {
            let which = brief.repeated.as_ref().map_or_else(String::new, |named| {
                format!(": {}, {} times", slip(&named.misread), named.times)
            });
            format!("not yet, the same gross slip twice{which}; {score}")
        }
        Outcome::NotYet(Why::TooFewRight) => format!("not yet, {score}"),
        Outcome::NotYet(Why::TimeUp) => {
            format!("not yet, time was up after {answered} questions, {right} right")
        }
        Outcome::NotYet(Why::NotFinished) => {
            format!("not yet, not finished: {answered} questions, {right} right")
        }
    }
}

fn end(end: End) -> &'static str {
    match end {
        End::Open => "still open",
        End::Done => "done",
        End::TimeUp => "time was up",
        End::Left => "left",
    }
}

/// What else is to be said of a try: gross and fine apart, late, interrupted.
pub fn try_beside(one: &Try) -> String {
    let mut parts = Vec::new();
    if one.nth > 1 {
        parts.push(format!("try {}", one.nth));
    }
    if one.late {
        parts.push("late".to_owned());
    }
    parts.extend(of_sitting(&one.brief));
    parts.join(", ")
}

fn of_sitting(brief: &Brief) -> Vec<String> {
    let mut parts = Vec::new();
    if brief.interruptions > 0 {
        parts.push("interrupted".to_owned());
    }
    let mut count = |count: u32, word: &str| parts.extend((count > 0).then(|| format!("{count} {word}")));
    count(brief.gross, "gross");
    count(brief.fine, "fine");
    count(brief.passed_over, "passed over");
    parts
}

/// Nothing came back, in words.
pub fn back(of: Back) -> &'static str {
    match of {
        Back::Returned => "came back",
        Back::NotBack => "nothing back yet",
        Back::Absent => "nothing back, and the day is over",
    }
}
