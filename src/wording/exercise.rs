//! An exercise, a skills check or a self-test: what is said before it, while it goes on, and at its end.

pub mod page;
pub mod plans;

use super::task;
use crate::class::card::Card;
use crate::class::sitting::{End, Purpose, Sitting};
use crate::class::verdict::{Judged, Named, Outcome, Why};
use crate::drill::Level;
use crate::drill::set::{Allowed, DrillSet, Feedback, Order, Portion, What};
use crate::instrument::Catalogue;
use crate::learner::plan::{Characteristic, Plan};
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

/// What is pressed, or typed, to pass a question over and to leave.
#[derive(Clone, Copy, Debug)]
pub struct Ways {
    /// To pass a question over.
    pub skip: &'static str,
    /// To leave.
    pub leave: &'static str,
}

/// In the full screen.
pub const KEYS: Ways = Ways { skip: "s", leave: "Esc" };
/// In the line mode.
pub const WORDS: Ways = Ways { skip: "skip", leave: "quit" };

/// What there is to know before it begins, each with its label.
pub fn start(
    set: &DrillSet,
    purpose: Purpose,
    ways: Ways,
    catalogue: &Catalogue,
) -> Vec<(&'static str, String)> {
    let Ways { skip, leave } = ways;
    let plan = set.pass.as_ref().map(|pass| Plan::of(pass, set.count));
    let mut lines = vec![("Asked", asked(set, plan.as_ref()))];
    lines.extend(portions(set, catalogue).into_iter().map(|line| ("", line)));
    if let Some(plan) = &plan {
        lines.push(("Passed", passed(plan)));
        lines.push(("", SAME_GROSS.to_owned()));
        lines.push(("", risks(plan)));
    }
    if let Some(time) = set.time {
        lines.push(("Time", time_for(time)));
    }
    lines.push(("Glass", glass(set.glass).to_owned()));
    if purpose == Purpose::Exercise {
        lines.push(("Leaving", format!("{leave} leaves it; it goes on at the same question.")));
    } else {
        lines.push(("Told", "Nothing is told until the end: no right or wrong, no reading.".to_owned()));
        lines.push(("Passing over", format!("{skip} passes a question over; it counts as not right.")));
        lines.push((
            "Leaving",
            format!("{leave} leaves it; it goes on at the same question, but says that it was left."),
        ));
    }
    lines
}

/// The same gross slip twice.
pub const SAME_GROSS: &str =
    "The same gross slip twice (a turn, a half line, a whole inch) is \"not yet\", whatever the score.";

fn asked(set: &DrillSet, plan: Option<&Plan>) -> String {
    let many = match plan {
        Some(Plan::Sequential(test)) => format!("{} to {} questions", test.least, set.count),
        _ => counted(set.count, "question", "questions"),
    };
    let order = match set.order {
        Order::Mixed if set.portions.len() > 1 => ", mixed",
        Order::Blocked if set.portions.len() > 1 => ", one tool after the other",
        _ => "",
    };
    format!("{many}{order}:")
}

/// What is asked, a line an instrument.
fn portions(set: &DrillSet, catalogue: &Catalogue) -> Vec<String> {
    let mut lines: Vec<(String, Vec<String>)> = Vec::new();
    for portion in &set.portions {
        let title = catalogue.title(&portion.instrument).unwrap_or(&portion.instrument).to_owned();
        let what = what(portion);
        match lines.iter_mut().find(|(known, _)| *known == title) {
            Some((_, all)) if all.contains(&what) => {}
            Some((_, all)) => all.push(what),
            None => lines.push((title, vec![what])),
        }
    }
    lines.into_iter().map(|(title, what)| format!("{title}: {}", what.join("; "))).collect()
}

fn what(portion: &Portion) -> String {
    match &portion.what {
        What::Kinds(kinds) => kinds.iter().map(|kind| task::name(*kind)).collect::<Vec<_>>().join(", "),
        What::Level(level) => {
            let number = Level::ALL.iter().position(|one| one == level).map_or(0, |place| place + 1);
            format!("level {number}, {}", task::level(*level))
        }
    }
}

/// The rule by which it is passed.
pub fn passed(plan: &Plan) -> String {
    match plan {
        Plan::Fixed { of, pass } => format!("With {pass} of {of} right."),
        Plan::Sequential(test) => format!(
            "As soon as the answers speak for one side: somebody who is right in {} of 100, or in {}. At the latest after {} questions.",
            percent(test.good),
            percent(test.bad),
            test.most
        ),
    }
}

/// What the rule lets through.
pub fn risks(plan: &Plan) -> String {
    let of = |accuracy| plan.characteristic(accuracy);
    let (poor, sure) = (of(0.80), of(0.98));
    let turned = Characteristic { passes: 1.0 - sure.passes, ..sure };
    format!(
        "It passes {} of 100 people who read 80 in 100 rightly, and turns away {} of 100 who read 98 in 100 rightly.",
        few(poor.passes),
        few(turned.passes)
    )
}

fn time_for(seconds: u32) -> String {
    let long = match (seconds / 60, seconds % 60) {
        (0, seconds) => counted(seconds, "second", "seconds"),
        (minutes, 0) => counted(minutes, "minute", "minutes"),
        (minutes, seconds) => format!("{minutes} min {seconds} s"),
    };
    format!("{long} for the whole. When they are over, it is over.")
}

/// Whether the glass may be used.
pub fn glass(allowed: Allowed) -> &'static str {
    match allowed {
        Allowed::Yes => "It may be used.",
        Allowed::No => "Without: the scales are read as they lie there.",
    }
}

/// It was left and goes on.
pub fn goes_on((number, count): (u32, u32), times: u32) -> String {
    let before = match times {
        0 => String::new(),
        1 => " It has been left once already.".to_owned(),
        times => format!(" It has been left {times} times already."),
    };
    format!("Left at question {number} of {count}; it goes on there.{before}")
}

/// A window that is too small for some of the questions.
pub fn too_small(questions: &[u32], (cols, rows): (i64, i64), glass: Allowed) -> String {
    let which: Vec<String> = questions.iter().take(4).map(u32::to_string).collect();
    let more = if questions.len() > 4 { " and more" } else { "" };
    let noun = if questions.len() == 1 { "Question" } else { "Questions" };
    let without = match glass {
        Allowed::No => " without the glass",
        Allowed::Yes => "",
    };
    format!(
        "{noun} {}{more} cannot be drawn truly in this window{without}. It needs {cols}x{rows}; make it larger to begin.",
        which.join(", ")
    )
}

/// Questions of an exercise that have no room are passed by.
pub fn passed_by(questions: usize) -> String {
    format!(
        "{} cannot be drawn truly in this window and will be left out; in a larger one all are asked.",
        counted(u32::try_from(questions).unwrap_or(u32::MAX), "question", "questions")
    )
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

/// The set of a job card has faults here.
pub fn card_set(faults: usize) -> String {
    format!(
        "its exercise cannot be asked here ({faults} faults): it needs instruments that are not on this machine"
    )
}

/// A job card whose set is not the one it names.
pub const CARD_OTHER_SET: &str = "its exercise is not the one that it names";
/// A job card in a private session.
pub const CARD_PRIVATE: &str = "a job card is worked on with a record: leave out --private";

/// A job card for several people, and nobody said who works on it.
pub fn card_whose(learners: &[String]) -> String {
    let whom = if learners.is_empty() { "everyone".to_owned() } else { learners.join(", ") };
    format!("this job card is for {whom}: give your code with --learner")
}

/// A name that is no learner's code.
pub fn card_code(name: &str) -> String {
    format!("\"{name}\" is no learner's code: a job card is worked on under a code such as k7 (--learner k7)")
}

/// A job card for somebody else.
pub fn card_not_for(learner: &str, learners: &[String]) -> String {
    format!("this job card is for {}, not for {learner}", learners.join(", "))
}

/// What there is to know of a job card before it is begun.
pub fn card(card: &Card) -> String {
    let due = card.due.as_ref().map_or_else(|| "no day is set".to_owned(), |due| format!("due {}", due.day));
    format!("{due}. Issued by the key {}.", card.from.fingerprint())
}

/// It was due before today.
pub const LATE: &str = "It is late: it can still be done, and is handed in as late.";

/// A job card was worked on to its end.
pub fn handed_in(waiting: usize, why: Option<&str>) -> String {
    match (waiting, why) {
        (0, _) => "It is handed in.".to_owned(),
        (_, Some(why)) => format!("It waits on this machine: {why}. `linefall hand-in` tries again."),
        (_, None) => "It waits on this machine: `linefall hand-in FOLDER` hands it in.".to_owned(),
    }
}

/// A job card in the list, before its title.
pub fn card_title(title: &str, learners: usize) -> String {
    let whose = if learners == 1 { "your job card" } else { "job card" };
    format!("{whose}: {title}")
}

/// How a job card stands, for the list.
pub fn card_stands(due: Option<&str>, begun: Option<bool>) -> String {
    match (begun, due) {
        (Some(true), _) => "done".to_owned(),
        (Some(false), Some(day)) => format!("left, due {day}"),
        (Some(false), None) => "left".to_owned(),
        (None, Some(day)) => format!("due {day}"),
        (None, None) => "new".to_owned(),
    }
}

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
