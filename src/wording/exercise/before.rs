//! What is said before a set is begun, or goes on.

use super::{counted, few, percent};
use crate::class::sitting::Purpose;
use crate::drill::Level;
use crate::drill::set::{Allowed, DrillSet, Order, Portion, What};
use crate::instrument::Catalogue;
use crate::learner::plan::{Characteristic, Plan};
use crate::wording::task;

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
