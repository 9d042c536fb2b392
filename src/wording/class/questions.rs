//! The questions of a set in words.

use super::{TOO_FEW, interval, seconds, slip};
use crate::class::questions::{About, Family, Feature, Flag, Line, Paper, Questions, WrongAnswer};
use crate::drill::Kind;
use crate::wording::task;
use std::fmt::Write;

/// The head of the questions of a set: three lines at the most.
pub fn questions_head(of: &Questions, title: &str) -> Vec<String> {
    let people = if of.people == 1 { "1 person".to_owned() } else { format!("{} people", of.people) };
    let what = match of.paper {
        Paper::Same => format!("the same {} questions for all", of.lines.len()),
        Paper::Drawn => {
            "questions drawn for each, so those with something in common are taken together".to_owned()
        }
    };
    let mut lines = vec![format!("{title}: {people}, {what}")];
    if of.left_out > 0 {
        lines.push(format!("Not counted: {} (a second try, another text of the set, not done)", of.left_out));
    }
    if of.too_few {
        lines.push(format!(
            "Fewer than 20: how well a question tells good readers from poor ones is {TOO_FEW}."
        ));
    }
    if let Some(whole) = of.whole {
        let mut line = format!("Mean {:.1} of {}, spread {:.1}", whole.mean, whole.questions, whole.spread);
        if let (false, Some(kr20), Some(error)) = (of.too_few, whole.kr20, whole.error) {
            let _ =
                write!(line, "; reliability (KR-20) {kr20:.2}, a score is uncertain by {error:.1} questions");
        }
        lines.push(line);
    }
    lines
}

/// What a line is about.
pub fn about(of: &Line, title: impl Fn(&str) -> String) -> String {
    match &of.about {
        About::Question { place, instrument, kind, expected } => {
            let kind = if *kind == Kind::Read { String::new() } else { format!(", {}", task::name(*kind)) };
            format!("{place:>2} {} {}{kind}", title(instrument), expected.join("; "))
        }
        About::Family(family) => self::family(family, title),
    }
}

/// The same in a list; the instrument is left out where all are on one.
pub fn about_among(of: &Line, one_tool: bool, title: impl Fn(&str) -> String) -> String {
    if !one_tool {
        return about(of, title);
    }
    let text = about(of, |_| String::new());
    let text = text.trim_start_matches([',', ' ']);
    match &of.about {
        About::Question { .. } => text.replacen("  ", " ", 1),
        About::Family(_) => text.to_owned(),
    }
}

fn family(of: &Family, title: impl Fn(&str) -> String) -> String {
    let kind = if of.kind == Kind::Read { String::new() } else { format!(", {}", task::name(of.kind)) };
    let feature =
        of.feature.map_or_else(|| ", all".to_owned(), |feature| format!(", {}", self::feature(feature)));
    format!("{}{kind}{feature}", title(&of.instrument))
}

fn feature(of: Feature) -> &'static str {
    match of {
        Feature::ZeroOff => "zero off",
        Feature::HalfLineShows => "half line shows",
        Feature::NoHalfLine => "no half line",
        Feature::ThimbleNearZero => "thimble just past 0",
        Feature::ThimbleMiddle => "thimble in the middle",
        Feature::ThimbleHigh => "thimble nearly round",
        Feature::VernierLow => "vernier, first half",
        Feature::VernierHigh => "vernier, second half",
        Feature::NearALine => "close to a line",
    }
}

/// How well a question tells good readers from poor ones: the correlation with its interval.
pub fn tells(of: &Line, too_few: bool) -> String {
    match (too_few, of.with_rest, of.with_rest_interval) {
        (true, ..) => TOO_FEW.to_owned(),
        (false, Some(r), Some(range)) => format!("{r:+.2} ({:+.2} to {:+.2})", range.low, range.high),
        (false, Some(r), None) => format!("{r:+.2}"),
        (false, None, _) => "cannot be said".to_owned(),
    }
}

/// The share right with its interval.
pub fn right(of: &Line) -> String {
    let range = interval(of.interval).map(|range| format!(" ({range})")).unwrap_or_default();
    format!("{} of {}{range}", of.score.right, of.score.answered)
}

/// What to look at.
pub fn flags(of: &Line) -> String {
    of.flags.iter().map(|of| flag(*of)).collect::<Vec<_>>().join(", ")
}

fn flag(of: Flag) -> &'static str {
    match of {
        Flag::Backwards => "good readers miss it more: look at the question",
        Flag::HardlyTells => "hardly tells good from poor",
        Flag::Hard => "hard",
        Flag::Easy => "nearly all have it",
        Flag::Slow => "slow",
        Flag::Unexplained => "an answer that nothing known gives",
    }
}

/// A wrong answer, how many gave it, and what gives it.
pub fn wrong(of: &WrongAnswer) -> String {
    let people = if of.people == of.times {
        of.people.to_string()
    } else {
        format!("{} times, {} people", of.times, of.people)
    };
    match of.misreads.first() {
        Some(id) if *id == of.answer => format!("{} ({people})", slip(id)),
        Some(id) => format!("{} ({people}: {})", of.answer, slip(id)),
        None => format!("{} ({people}: nothing known gives it)", of.answer),
    }
}

/// So many wrong answers of a question are told.
const ANSWERS: usize = 4;

/// What is to be said of a question: a few lines.
pub fn question_beside(of: &Line, too_few: bool) -> Vec<String> {
    let mut first = format!("right {}; tells {}", right(of), tells(of, too_few));
    if let Some(difference) = of.upper_lower.filter(|_| !too_few) {
        let _ = write!(first, "; best less poorest {difference:+.2}");
    }
    if let Some(ms) = of.median_ms {
        let _ = write!(first, "; {} s", seconds(ms));
    }
    let mut lines = vec![first];
    if !of.wrong.answers.is_empty() {
        let all: Vec<String> = of.wrong.answers.iter().take(ANSWERS).map(wrong).collect();
        let more = of.wrong.answers.len().saturating_sub(ANSWERS);
        let more = if more > 0 { format!(", and {more} more") } else { String::new() };
        let explained = of.wrong.explained;
        lines.push(format!(
            "wrong: {}{more}; {} of {} have a name",
            all.join(", "),
            explained.right,
            explained.answered
        ));
    }
    if of.wrong.passed_over > 0 {
        lines.push(format!("passed over: {}", of.wrong.passed_over));
    }
    let flags = flags(of);
    if !flags.is_empty() {
        lines.push(format!("look at it: {flags}"));
    }
    lines
}

/// The interval of the share right, in a few characters: `45-78 %`.
pub fn range(of: &Line) -> String {
    of.interval.map_or_else(String::new, |of| format!("{:.0}-{:.0} %", of.low * 100.0, of.high * 100.0))
}
