//! An exercise, a skills check or a self-test: what is said before it, while it goes on, and at its end.

mod before;
mod card;
pub mod page;
pub mod plans;

pub use before::{KEYS, SAME_GROSS, WORDS, Ways, glass, goes_on, passed, passed_by, risks, start, too_small};
pub use card::{
    CARD_OTHER_SET, CARD_PRIVATE, card, card_code, card_not_for, card_set, card_stands, card_title,
    card_whose, handed_in,
};

use crate::class::sitting::{End, Purpose, Sitting};
use crate::class::verdict::{Judged, Named, Outcome, Why};
use crate::drill::set::{DrillSet, Feedback};
use crate::learner::plan::Plan;
use crate::learner::progress::Interval;
use crate::reading::misread;
use std::time::Duration;

/// So many seconds are counted one by one on the screen; before that the clock goes by minutes.
pub const BY_SECONDS: u64 = 120;

/// What a sitting is, in a few words.
pub fn form(purpose: Purpose, set: &DrillSet) -> &'static str {
    match (purpose, set.feedback) {
        (Purpose::Check, _) => "A skills check.",
        (Purpose::SelfTest, _) => "A self-test: the form of a skills check, for yourself.",
        (Purpose::Exercise, Feedback::Now) => "An exercise: after each answer it is told what was right.",
        (Purpose::Exercise, Feedback::AtTheEnd) => "An exercise: at the end it is told what was right.",
    }
}

/// What a sitting is called.
pub fn called(purpose: Purpose) -> &'static str {
    match purpose {
        Purpose::Check => "skills check",
        Purpose::SelfTest => "self-test",
        Purpose::Exercise => "exercise",
    }
}

/// The glass in a set that forbids it.
pub const NO_GLASS: &str = "This is read without the glass.";
/// Progress, while nothing may be told.
pub const NOT_NOW: &str = "Not while this is going on: it would tell what was right.";
/// Esc, while nothing may be told.
pub const LEAVE: &str = "Esc once more leaves it; it will say that it was left.";
/// An answer that was taken down, nothing told.
pub const TAKEN: &str = "Taken down.";
/// A question looked at again at the end, and what was answered.
pub fn looked_at(place: u32, answer: &str) -> String {
    if answer.is_empty() {
        format!("Question {place}:")
    } else {
        format!("Question {place}, answered {answer}:")
    }
}

/// The set cannot be posed.
pub fn missing_instrument(id: &str) -> String {
    format!("this set needs the instrument \"{id}\", which is not here")
}

/// A question of the set makes no sense on its instrument.
pub fn missing_question(place: u32) -> String {
    format!("question {place} of this set makes no sense on its instrument: run linefall check on the set")
}

/// What stands in the way of one question.
pub fn of_question(number: u32, why: &str) -> String {
    format!("question {number}: {why}")
}

/// A set without a pass rule where a check was asked for.
pub fn no_check(id: &str) -> String {
    format!("{id} is an exercise, it has no pass rule: linefall practice {id}")
}

/// No set was named where there is no full screen to choose one on.
pub const WHICH_SET: &str = "name a set: linefall list sets";
/// The line mode: the time is up.
pub const TIME_UP: &str = "The time is up; what was typed after that is not taken.";
/// The line mode: it was left.
pub const LEFT: &str = "Left. The same command goes on at the same question; it will say that it was left.";
/// The same where nothing is kept.
pub const LEFT_FOR_GOOD: &str = "Left. Nothing of it is kept.";

/// Which question it is.
pub fn which((number, count): (u32, u32), (part, parts): (usize, usize)) -> String {
    let part = if parts > 1 { format!(", part {part} of {parts}") } else { String::new() };
    format!("{number} of {count}{part}")
}

/// The clock: minutes, and at the end seconds.
pub fn clock(left: Duration) -> String {
    let seconds = u64::try_from(left.as_millis().div_ceil(1000)).unwrap_or(u64::MAX);
    if seconds > BY_SECONDS {
        format!("{} min left", seconds.div_ceil(60))
    } else {
        format!("{}:{:02} left", seconds / 60, seconds % 60)
    }
}

/// How long the clock says the same from now on.
pub fn clock_stands(left: Duration) -> Duration {
    let second = Duration::from_secs(1);
    let unit = if left > Duration::from_secs(BY_SECONDS) { 60 * second } else { second };
    let beyond = left.as_nanos() % unit.as_nanos();
    if beyond == 0 { unit.min(left) } else { Duration::from_nanos(u64::try_from(beyond).unwrap_or(u64::MAX)) }
}

/// The head of the last page.
pub fn head(purpose: Purpose, outcome: Outcome) -> String {
    let what = match purpose {
        Purpose::Check => "Skills check",
        Purpose::SelfTest => "Self-test",
        Purpose::Exercise => "Exercise",
    };
    format!("{what}: {}", self::outcome(outcome))
}

/// How it came out.
pub fn outcome(outcome: Outcome) -> &'static str {
    match outcome {
        Outcome::Open => "not finished",
        Outcome::Done => "done",
        Outcome::Passed => "passed",
        Outcome::CannotBeMarked => "cannot be judged: an instrument is missing or was changed since",
        Outcome::NotYet(Why::SameGrossSlip) => "not yet: the same gross slip twice",
        Outcome::NotYet(Why::TooFewRight) => "not yet: too few right",
        Outcome::NotYet(Why::TimeUp) => "not yet: the time was up",
        Outcome::NotYet(Why::NotFinished) => "not yet: it was not finished",
    }
}

/// What it comes to, in sentences.
pub fn result(judged: &Judged, sitting: &Sitting, plan: Option<&Plan>) -> Vec<String> {
    let score = judged.score;
    if score.answered == 0 {
        return vec!["Nothing was answered.".to_owned()];
    }
    let mut lines = vec![format!("{} of {} right{}", score.right, score.answered, range(judged.interval))];
    if let (Some(Plan::Fixed { of, .. }), End::TimeUp | End::Left) = (plan, sitting.end) {
        let open = of.saturating_sub(score.answered);
        if open > 0 {
            lines.push(format!("{} not answered.", counted(open, "question was", "questions were")));
        }
    }
    if judged.gross + judged.fine > 0 {
        lines.push(format!(
            "Gross slips (a turn, a half line, an inch): {}. Fine ones (a few lines): {}.",
            judged.gross, judged.fine
        ));
    }
    lines.extend(judged.repeated.as_ref().map(repeated));
    if judged.passed_over > 0 {
        lines.push(format!("Passed over: {}.", judged.passed_over));
    }
    match sitting.interruptions {
        0 => {}
        1 => lines.push("It was left once and taken up again.".to_owned()),
        times => lines.push(format!("It was left {times} times and taken up again.")),
    }
    lines
}

/// What so many right say, in plain words.
fn range(interval: Option<Interval>) -> String {
    interval.map_or_else(
        || ".".to_owned(),
        |range| {
            format!(
                ": a reader who is right in {} to {} of 100 (95 % interval).",
                percent(range.low),
                percent(range.high)
            )
        },
    )
}

/// The same gross slip more than once.
pub fn repeated(slip: &Named) -> String {
    format!(
        "{} times: {}. The same gross slip twice is \"not yet\", whatever the score.",
        slip.times,
        named(&slip.misread)
    )
}

/// What a misread is called.
pub fn named(id: &str) -> &str {
    misread::named(id).map_or(id, |misread| misread.name)
}

/// What to practise next, after this; the cure of what happened most first.
pub fn next(judged: &Judged) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    if let Some(slip) = judged.slips.first() {
        let cure = misread::named(&slip.misread).map_or("", |misread| misread.cure);
        lines.push(format!("What happened most: {}. {cure}", named(&slip.misread)));
    }
    let mut wrong: Vec<(&str, u32)> = Vec::new();
    for question in judged.questions.iter().filter(|question| !question.right) {
        match wrong.iter_mut().find(|(id, _)| *id == question.instrument) {
            Some((_, times)) => *times += 1,
            None => wrong.push((&question.instrument, 1)),
        }
    }
    wrong.sort_by_key(|(_, times)| std::cmp::Reverse(*times));
    match wrong.first() {
        Some((id, _)) => lines.push(format!("Practise next: linefall practice {id}")),
        None => lines.push(
            "Nothing went wrong. Next: the following set, or the same thing with the tool in your hand."
                .to_owned(),
        ),
    }
    lines
}

/// What a result on a screen does not say.
pub const LIMITS: &str = "How a tool is cleaned, zeroed, held and felt is seen at the bench, not here.";

/// What a self-test is not.
pub const SELF_TEST: &str =
    "This is a self-test, not a check: nobody watched it, and it can be taken as often as one likes.";

/// Above the list of what went wrong.
pub const WENT_WRONG: &str = "What went wrong; Enter shows the picture and the steps:";

/// The page for the supervisor was written.
pub fn written(path: &str) -> String {
    format!("The page was written: {path}")
}

/// The head of the list of exercises.
pub const LIST: &str = "Exercises and checks, in the order of the course";
/// Below it.
pub const LIST_HOW: &str = "Enter shows what a set asks, and begins it.";
/// There are none.
pub const NO_SETS: &str = "There are no sets here.";

/// What a set is for, and how much it is.
pub fn about(set: &DrillSet) -> String {
    let plan = set.pass.as_ref().map(|pass| Plan::of(pass, set.count));
    let rule = plan.as_ref().map_or_else(String::new, |plan| match plan {
        Plan::Fixed { of, pass } => format!(", passed with {pass} of {of} right"),
        Plan::Sequential(_) => ", passed as soon as the answers speak for it".to_owned(),
    });
    format!("{} {}{rule}.", set.about, counted(set.count, "question", "questions"))
}

/// At the foot of the page before a set.
pub const TRAINS: &str = "Linefall trains reading; the shop's procedures and inspectors decide.";

/// What was done of a set, for the list.
pub fn last(sitting: Option<(&Sitting, &Judged)>) -> String {
    let Some((sitting, judged)) = sitting else { return "not tried yet".to_owned() };
    let score = format!("{} of {}", judged.score.right, judged.score.answered);
    match (sitting.end, judged.outcome, sitting.purpose) {
        (End::Open, ..) if judged.score.answered == 0 => "begun".to_owned(),
        (End::Open, _, Purpose::Exercise) => format!("left, {score} right"),
        (End::Open, ..) => format!("left after {}", judged.score.answered),
        (_, Outcome::Passed, _) => format!("passed, {score}"),
        (_, Outcome::NotYet(_), _) => format!("not yet, {score}"),
        _ => format!("{score} right"),
    }
}

/// A share as whole hundredths.
fn percent(share: f64) -> String {
    format!("{:.0}", share * 100.0)
}

/// A share of a hundred people, in words where it is next to none or nearly all.
fn few(share: f64) -> String {
    match share * 100.0 {
        people if people < 0.5 => "none".to_owned(),
        people if people > 99.5 => "nearly all".to_owned(),
        people => format!("{people:.0}"),
    }
}

fn counted(n: u32, one: &str, many: &str) -> String {
    if n == 1 { format!("1 {one}") } else { format!("{n} {many}") }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_clock_goes_by_minutes_and_at_the_end_by_seconds() {
        for (ms, said) in [
            (900_000, "15 min left"),
            (899_999, "15 min left"),
            (120_001, "3 min left"),
            (120_000, "2:00 left"),
            (59_001, "1:00 left"),
            (59_000, "0:59 left"),
            (0, "0:00 left"),
        ] {
            assert_eq!(clock(Duration::from_millis(ms)), said, "{ms}");
        }
    }

    #[test]
    fn the_clock_is_looked_at_again_when_it_says_something_else() {
        let mut left = Duration::from_millis(421_350);
        let mut said = Vec::new();
        while left > Duration::ZERO {
            said.push(clock(left));
            left -= clock_stands(left);
        }
        // 8 to 3 minutes, then from 2:00 on each second.
        assert_eq!(said.len(), 6 + 120, "{said:?}");
        said.dedup();
        assert_eq!(said.len(), 6 + 120, "no look in vain: {said:?}");
    }

    /// 0.80 passes 4.4 %, 0.98 is turned away 2.2 %: see `learner::plan`.
    #[test]
    fn what_a_rule_lets_through_is_said_in_people() {
        let said = risks(&Plan::USUAL);
        assert!(said.starts_with("It passes 4 of 100 people who read 80"), "{said}");
        assert!(said.ends_with("turns away 2 of 100 who read 98 in 100 rightly."), "{said}");
    }
}
