//! `linefall progress`.

use super::args::Common;
use super::exit::{Exit, Halt};
use super::out::{self, Out};
use crate::learner::progress::{InstrumentProgress, Progress, progress};
use crate::store::{self, Access, Store};
use crate::wording::progress as say;
use serde::Serialize;

/// Who practises when nobody says.
pub const USUAL_LEARNER: &str = "me";

#[derive(Serialize)]
struct ProgressOut<'a> {
    learner: &'a str,
    #[serde(flatten)]
    progress: &'a Progress,
}

/// Shows what has been learnt.
pub fn run(common: &Common, json: bool, csv: bool, out: &mut Out) -> Result<Exit, Halt> {
    let learner = common.learner.as_deref().unwrap_or(USUAL_LEARNER);
    let dir = store::data_dir(common.data_dir.clone())?;
    let found = Store::open_for(&dir, Access::ReadOnly)?.store.attempts(learner, None)?;
    if found.unreadable > 0 {
        out::complain(&say::unreadable(found.unreadable));
    }
    let progress = progress(&found.into_attempts());
    if json {
        out.line(&out::json(&ProgressOut { learner, progress: &progress }))?;
    } else if csv {
        out.bytes(table(learner, &progress).as_bytes())?;
    } else if progress.instruments.is_empty() {
        out.line(&say::nothing_yet(learner))?;
    } else {
        out.line(&say::head(learner))?;
        for one in &progress.instruments {
            out.line("")?;
            out.lines(say::instrument(one).iter().map(|line| out::clean_name(line)))?;
        }
        out.line("")?;
        out.lines(say::days(&progress).iter().map(|line| out::clean_name(line)))?;
    }
    Ok(Exit::Fine)
}

const COLUMNS: [&str; 11] = [
    "learner",
    "instrument",
    "answered",
    "right",
    "share",
    "low",
    "high",
    "median_ms",
    "passed_over",
    "misreads",
    "last",
];

/// One row an instrument, as RFC 4180 has it.
fn table(learner: &str, progress: &Progress) -> String {
    let mut text = row(COLUMNS.map(str::to_owned));
    for one in &progress.instruments {
        text.push_str(&row(cells(learner, one)));
    }
    text
}

fn cells(learner: &str, of: &InstrumentProgress) -> [String; 11] {
    let share = |share: Option<f64>| share.map_or_else(String::new, |share| format!("{share:.4}"));
    let misreads: Vec<String> = of.misreads.iter().map(|m| format!("{}:{}", m.id, m.count)).collect();
    [
        learner.to_owned(),
        of.instrument.clone(),
        of.score.answered.to_string(),
        of.score.right.to_string(),
        share(of.score.share()),
        share(of.interval.map(|interval| interval.low)),
        share(of.interval.map(|interval| interval.high)),
        of.median_ms.map_or_else(String::new, |ms| ms.to_string()),
        of.skipped.to_string(),
        misreads.join(";"),
        of.last_at.clone(),
    ]
}

fn row(cells: [String; 11]) -> String {
    let mut row = cells.map(|text| cell(&text)).join(",");
    row.push_str("\r\n");
    row
}

/// A cell that no spreadsheet takes for a formula and no terminal obeys.
fn cell(text: &str) -> String {
    let text = out::clean_name(text);
    let guarded = if text.starts_with(['=', '+', '-', '@']) { format!("'{text}") } else { text };
    if guarded.contains([',', '"', '\r', '\n']) {
        format!("\"{}\"", guarded.replace('"', "\"\""))
    } else {
        guarded
    }
}

#[cfg(test)]
mod tests {
    use super::cell;

    #[test]
    fn cells_are_quoted_and_no_formula() {
        assert_eq!(cell("plain"), "plain");
        assert_eq!(cell("Bench 3, \"left\""), "\"Bench 3, \"\"left\"\"\"");
        assert_eq!(cell("=1+1"), "'=1+1");
        assert_eq!(cell("-2,5"), "\"'-2,5\"");
        assert_eq!(cell("\t=1"), "\u{fffd}=1");
    }
}
