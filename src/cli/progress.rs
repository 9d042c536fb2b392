//! `linefall progress`.

use super::args::Common;
use super::exit::{Exit, Halt};
use super::out::{self, Out};
use super::shelf;
use super::table::Table;
use crate::drill::Level;
use crate::instrument::Catalogue;
use crate::learner::gates::{Gates, Target, gates, risks, wanted};
use crate::learner::level::proposed;
use crate::learner::progress::{Day, InstrumentProgress, Progress, of_summary};
use crate::learner::summary::{Kept, Summary};
use crate::store::{self, Access, Store};
use crate::wording::progress as say;
use serde::Serialize;

/// Who practises when nobody says.
pub const USUAL_LEARNER: &str = "me";

#[derive(Serialize)]
struct ProgressOut<'a> {
    learner: &'a str,
    instruments: Vec<InstrumentOut<'a>>,
    days: &'a [Day],
    undated: u32,
}

#[derive(Serialize)]
struct InstrumentOut<'a> {
    #[serde(flatten)]
    progress: &'a InstrumentProgress,
    gates: Option<&'a Gates>,
    risks: Option<Risks>,
    /// The level that is proposed.
    level: Option<Level>,
}

/// The chance of passing the gates of accuracy with a slip once in so many readings.
#[derive(Serialize)]
struct Risks {
    once_in: u32,
    gross: f64,
    fine: f64,
}

/// The rate of slips that the risks are told for.
const ONCE_IN: u32 = 20;

/// Shows what has been learnt.
pub fn run(common: &Common, json: bool, csv: bool, out: &mut Out) -> Result<Exit, Halt> {
    let learner = common.learner.as_deref().unwrap_or(USUAL_LEARNER);
    let dir = store::data_dir(common.data_dir.clone())?;
    let found = Store::open_for(&dir, Access::ReadOnly)?.store.summary(learner)?;
    if found.unreadable > 0 {
        out::complain(&say::unreadable(found.unreadable));
    }
    let progress = of_summary(&found.summary);
    let catalogue = shelf::catalogue(common);
    let judged = judged(&catalogue, &found.summary);
    if json {
        out.line(&out::json(&whole(&catalogue, learner, &found.summary, &progress, &judged)))?;
    } else if csv {
        out.bytes(&table(learner, &progress))?;
    } else if progress.instruments.is_empty() {
        out.line(&say::nothing_yet(learner))?;
    } else {
        out.line(&say::head(learner))?;
        for (one, gates) in progress.instruments.iter().zip(&judged) {
            out.line("")?;
            out.lines(say::instrument(one, gates.as_ref()).iter().map(|line| out::clean_name(line)))?;
            if let Some(tool) = catalogue.get(&one.instrument).filter(|_| gates.is_some()) {
                let (gross, fine) = risks(tool, ONCE_IN);
                let risks = say::risks(wanted(tool), ONCE_IN, gross, fine);
                out.lines(risks.iter().map(|line| format!("    {line}")))?;
            }
            if let Some(level) = level(&catalogue, &found.summary, &one.instrument) {
                out.line(&format!("    {}", say::level(level)))?;
            }
        }
        out.line("")?;
        out.lines(say::days(&progress).iter().map(|line| out::clean_name(line)))?;
    }
    Ok(Exit::Fine)
}

/// The gates of each instrument that there still is, in the order of the summary.
fn judged(catalogue: &Catalogue, summary: &Summary) -> Vec<Option<Gates>> {
    let one = |kept: &Kept| {
        let tool = catalogue.get(&kept.instrument).filter(|_| kept.score.answered > 0)?;
        Some(gates(tool, kept, Target::of(tool)))
    };
    summary.instruments.iter().map(one).collect()
}

/// The level that is proposed on an instrument that there still is.
fn level(catalogue: &Catalogue, summary: &Summary, instrument: &str) -> Option<Level> {
    Some(proposed(summary.on(instrument), catalogue.get(instrument)?))
}

fn whole<'a>(
    catalogue: &Catalogue,
    learner: &'a str,
    summary: &Summary,
    progress: &'a Progress,
    judged: &'a [Option<Gates>],
) -> ProgressOut<'a> {
    let risks = |id: &str| {
        let (gross, fine) = risks(catalogue.get(id)?, ONCE_IN);
        Some(Risks { once_in: ONCE_IN, gross, fine })
    };
    let one = |(progress, gates): (&'a InstrumentProgress, &'a Option<Gates>)| {
        let (gates, id) = (gates.as_ref(), &progress.instrument);
        let risks = gates.and_then(|_| risks(id));
        InstrumentOut { progress, gates, risks, level: level(catalogue, summary, id) }
    };
    ProgressOut {
        learner,
        instruments: progress.instruments.iter().zip(judged).map(one).collect(),
        days: &progress.days,
        undated: progress.undated,
    }
}

const COLUMNS: [&str; 12] = [
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
    "kinds",
];

/// One row an instrument.
fn table(learner: &str, progress: &Progress) -> Vec<u8> {
    let mut table = Table::new(COLUMNS);
    for one in &progress.instruments {
        table.row(cells(learner, one));
    }
    table.bytes()
}

fn cells(learner: &str, of: &InstrumentProgress) -> [String; 12] {
    let share = |share: Option<f64>| share.map_or_else(String::new, |share| format!("{share:.4}"));
    let misreads: Vec<String> = of.misreads.iter().map(|m| format!("{}:{}", m.id, m.count)).collect();
    let kinds = of.others.iter().map(|(kind, score)| format!("{kind}:{}/{}", score.right, score.answered));
    let kinds: Vec<String> = kinds.collect();
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
        kinds.join(";"),
    ]
}
