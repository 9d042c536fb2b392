//! What has been learnt, in words.

use crate::learner::progress::{InstrumentProgress, Progress, date_of};
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
pub fn instrument(of: &InstrumentProgress) -> Vec<String> {
    let mut first = format!("{}: {} of {} right", of.instrument, of.score.right, of.score.answered);
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
    if let Some(ms) = of.median_ms {
        lines.push(format!("    a right answer takes {} s (median)", seconds(ms)));
    }
    if !of.misreads.is_empty() {
        let all: Vec<String> =
            of.misreads.iter().map(|found| format!("{} ({})", name(&found.id), found.count)).collect();
        lines.push(format!("    lately: {}", all.join(", ")));
    }
    if let Some(date) = date_of(&of.last_at) {
        lines.push(format!("    last practised {date}"));
    }
    lines
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
