//! What has been learnt, in words.

use super::task;
use crate::drill::{Kind, Level};
use crate::learner::facet::Facet;
use crate::learner::gates::{Gates, Standing, Times, WINDOW};
use crate::learner::progress::{InstrumentProgress, Progress, Score, date_of};
use crate::reading::misread;
use std::fmt::Write;

/// Before the first answer.
pub fn nothing_yet(learner: &str) -> String {
    format!(
        "Nothing is recorded for {learner} yet. `linefall practice` starts; `linefall ask --learner {learner}` does so without a full screen."
    )
}

/// The first line.
pub fn head(learner: &str) -> String {
    format!("Progress of {learner}")
}

/// Records that were passed over.
pub fn unreadable(rows: u32) -> String {
    format!("{rows} of the recorded answers could not be understood and are left out")
}

/// An instrument, a few lines.
pub fn instrument(of: &InstrumentProgress, gates: Option<&Gates>) -> Vec<String> {
    let mut first = match of.score.answered {
        0 => format!("{}: not read yet", of.instrument),
        answered => format!("{}: {} of {answered} right", of.instrument, of.score.right),
    };
    if let (Some(share), Some(interval)) = (of.score.share(), of.interval) {
        let _ = write!(
            first,
            ", {} % (95 % interval {} to {} %)",
            percent(share),
            percent(interval.low),
            percent(interval.high)
        );
    }
    if of.skipped > 0 {
        let _ = write!(first, ", {} passed over", of.skipped);
    }
    let mut lines = vec![first];
    if let Some(gates) = gates {
        lines.push(format!("    {}", self::gates(gates)));
    } else if let Some(ms) = of.median_ms {
        lines.push(format!("    a right answer takes {} s (median)", seconds(ms)));
    }
    if !of.misreads.is_empty() {
        let all: Vec<String> =
            of.misreads.iter().map(|found| format!("{} ({})", name(&found.id), found.count)).collect();
        lines.push(format!("    lately: {}", all.join(", ")));
    }
    lines.extend(kinds(of).map(|kinds| format!("    {kinds}")));
    if let Some(date) = date_of(&of.last_at) {
        lines.push(format!("    last practised {date}"));
    }
    lines
}

/// What came of other kinds of question, in one line with dots between its parts; none where there were none.
pub fn kinds(of: &InstrumentProgress) -> Option<String> {
    let one = |(kind, score): (&Kind, &Score)| {
        format!("{} {} of {}", task::name(*kind), score.right, score.answered)
    };
    let all: Vec<String> = of.others.iter().map(one).collect();
    (!all.is_empty()).then(|| all.join(" \u{b7} "))
}

/// The level that is proposed.
pub fn level(level: Level) -> String {
    format!("now: {}", task::level(level))
}

/// How the readings on an instrument stand, in one line: `right 39 of 40 · repeats 20 of 20 · 7.2 s (target 10) · steady`.
pub fn gates(of: &Gates) -> String {
    let mut parts = vec![right(of), repeats(of)];
    parts.extend(times(of));
    let steady = match of.steady.standing {
        Standing::Met => Some("steady"),
        Standing::Nearly => Some("nearly steady"),
        Standing::Short => Some("uneven"),
        Standing::Open => None,
    };
    parts.extend(steady.map(str::to_owned));
    parts.extend(still(of));
    parts.join(" \u{b7} ")
}

fn right(of: &Gates) -> String {
    let score = of.right.score;
    let mut text = format!("right {} of {}", score.right, score.answered);
    if score.answered < WINDOW {
        text.push_str(" so far");
    } else if of.right.standing == Standing::Open {
        let day = if of.right.days == 1 { "day" } else { "days" };
        let _ = write!(text, " on {} {day}", of.right.days);
    }
    match of.gross.gross {
        0 => {}
        1 => text.push_str(", 1 gross slip"),
        gross => {
            let _ = write!(text, ", {gross} gross slips");
        }
    }
    text
}

fn repeats(of: &Gates) -> String {
    match of.repeats.pairs {
        0 => "no repeats yet".to_owned(),
        pairs => format!("repeats {} of {pairs}", of.repeats.agree),
    }
}

/// Seconds of the readings; with the glass they are told apart.
fn times(of: &Gates) -> Option<String> {
    let median = |times: Times| format!("{:.1} s", times.median);
    let bare = of.quick.bare.map(median);
    let glass = of.quick.glass.map(|times| format!("{} with the glass", median(times)));
    let both: Vec<String> = bare.into_iter().chain(glass).collect();
    let counts = of.right.standing == Standing::Met && of.gross.standing == Standing::Met;
    let rule = if counts { format!("target {:.0}", of.quick.target) } else { "not counted yet".to_owned() };
    (!both.is_empty()).then(|| format!("{} ({rule})", both.join(", ")))
}

fn still(of: &Gates) -> Option<String> {
    let named = of.clear.still.as_deref().map(|id| format!("still: {}", name(id)));
    named.or_else(|| of.clear.lapse.map(|step| format!("missed twice in a row: {}", self::step(step))))
}

/// What a step of the reading is called.
pub fn step(facet: Facet) -> &'static str {
    match facet {
        Facet::Fixed => "what is added to the scales",
        Facet::Lines => "the lines",
        Facet::Halves => "half lines",
        Facet::Thimble => "the thimble",
        Facet::Dial => "the dial",
        Facet::Vernier => "the vernier",
        Facet::Zero => "allowing for zero",
        Facet::Reading => "the whole reading",
    }
}

/// What passing the gates of accuracy lets through: of those who slip grossly, and who are a line off, once in so many.
pub fn risks(wanted: u32, once_in: u32, gross: f64, fine: f64) -> [String; 2] {
    [
        format!(
            "{wanted} right of {WINDOW} and no gross slip lets through, of 100 readers who once in {once_in} readings"
        ),
        format!("    slip grossly: {}; are a line off: {}", percent(gross), percent(fine)),
    ]
}

/// How many of the latest days are shown.
const DAYS: usize = 14;

/// The latest days, a line each.
pub fn days(of: &Progress) -> Vec<String> {
    let from = of.days.len().saturating_sub(DAYS);
    of.days[from..]
        .iter()
        .map(|day| format!("{}  {} of {} right", day.date, day.score.right, day.score.answered))
        .collect()
}

fn percent(share: f64) -> String {
    format!("{:.0}", share * 100.0)
}

/// Milliseconds as seconds with one decimal, rounded half up.
fn seconds(ms: u64) -> String {
    let tenths = ms / 100 + u64::from(ms % 100 >= 50);
    format!("{}.{}", tenths / 10, tenths % 10)
}

/// The shop's words for a misread; a record may name one that is no longer known.
fn name(id: &str) -> &str {
    misread::named(id).map_or(id, |misread| misread.name)
}

#[cfg(test)]
mod tests {
    use super::seconds;

    #[test]
    fn seconds_round_to_tenths() {
        assert_eq!(
            [0, 49, 50, 8_449, 8_450, 59_999].map(seconds),
            ["0.0", "0.0", "0.1", "8.4", "8.5", "60.0"]
        );
    }
}
