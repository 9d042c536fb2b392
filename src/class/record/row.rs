//! What the class record keeps of one learner. It is made from the answers and can be thrown away at any time.

use crate::class::sitting::{End, Purpose, Sitting};
use crate::class::verdict::{Judged, Named, Outcome, judge_sitting};
use crate::instrument::{Catalogue, Instrument};
use crate::learner::calendar::Day;
use crate::learner::facet::{Facet, facet_of};
use crate::learner::gates::{Gates, Standing, Target, WINDOW, gates};
use crate::learner::plan::Plan;
use crate::learner::progress::{MisreadCount, Score};
use crate::learner::repair::{found, leading};
use crate::learner::summary::{Answer, Kept, Summary};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// The form of a row; one of another form is made anew. To be raised whenever what is kept, or how it is counted, changes.
pub const ROW_FORM: u32 = 2;

/// One learner.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Row {
    /// [`ROW_FORM`] when it was made.
    pub form: u32,
    /// The learner's short code.
    pub learner: String,
    /// All readings.
    pub score: Score,
    /// The day of the latest.
    pub last: Option<Day>,
    /// The readings of each week.
    pub weeks: Vec<Week>,
    /// One an instrument, in the order they were first met.
    pub tools: Vec<Tool>,
    /// What came back, in order.
    pub sittings: Vec<Brief>,
}

/// How a learner reads one instrument.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Tool {
    /// The instrument's id.
    pub instrument: String,
    /// All readings.
    pub score: Score,
    /// The latest, at most forty: those that are judged.
    pub lately: Score,
    /// Gross slips among them.
    pub gross: u32,
    /// Fine ones.
    pub fine: u32,
    /// Pairs of the same setting, and those of them read the same.
    pub repeats: Score,
    /// The median time of right readings without the glass, else of those with it, in milliseconds.
    pub median_ms: Option<u64>,
    /// Whether readings are uniform: the worst of the gates. Open where the instrument is not there any more.
    pub standing: Standing,
    /// Wrong ones of the latest by the step that was missed.
    pub steps: Vec<Missed>,
    /// Wrong ones of the latest by what happened.
    pub misreads: Vec<MisreadCount>,
    /// What would explain the latest answers best, where that is a misread.
    pub leading: Option<String>,
    /// The misread that was confirmed and is still happening.
    pub live: Option<String>,
    /// Misreads that were confirmed and are gone.
    pub gone: Vec<String>,
    /// The readings of each week.
    pub weeks: Vec<Week>,
    /// The day of the latest.
    pub last: Option<Day>,
}

/// How often a step was missed.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Missed {
    /// The step.
    pub step: Facet,
    /// In how many readings.
    pub times: u32,
}

/// The readings of a week.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Week {
    /// Its Monday.
    pub monday: Day,
    /// What was read in it.
    pub score: Score,
}

/// One sitting, in a few lines.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Brief {
    /// The sitting's id.
    pub id: String,
    /// The drill set's id.
    pub set: String,
    /// What it was for.
    pub purpose: Purpose,
    /// The ids of the instruments that were read.
    pub instruments: Vec<String>,
    /// The number of the issued card that it answers.
    pub card: Option<String>,
    /// Which try of its card it is, from 1.
    pub nth: u32,
    /// When it was begun.
    pub begun: String,
    /// When it was ended.
    pub ended: Option<String>,
    /// How often it was left and taken up again.
    pub interruptions: u32,
    /// How it came to its end.
    pub end: End,
    /// How it stands.
    pub outcome: Outcome,
    /// Questions answered, and right.
    pub score: Score,
    /// Gross slips.
    pub gross: u32,
    /// Fine ones.
    pub fine: u32,
    /// Questions passed over.
    pub passed_over: u32,
    /// The gross slip that happened twice or more.
    pub repeated: Option<Named>,
    /// What happened most, at most three.
    pub slips: Vec<Named>,
}

/// So many of what happened are kept of a sitting.
const SLIPS: usize = 3;

impl Brief {
    /// Of a sitting that was judged.
    pub fn of(sitting: &Sitting, judged: &Judged) -> Self {
        Self {
            id: sitting.id.clone(),
            set: sitting.set.clone(),
            purpose: sitting.purpose,
            instruments: instruments(judged),
            card: sitting.card.clone(),
            nth: sitting.nth,
            begun: sitting.begun.clone(),
            ended: sitting.ended.clone(),
            interruptions: sitting.interruptions,
            end: sitting.end,
            outcome: judged.outcome,
            score: judged.score,
            gross: judged.gross,
            fine: judged.fine,
            passed_over: judged.passed_over,
            repeated: judged.repeated.clone(),
            slips: judged.slips.iter().take(SLIPS).cloned().collect(),
        }
    }
}

fn instruments(judged: &Judged) -> Vec<String> {
    let mut all: Vec<String> = judged.questions.iter().map(|question| question.instrument.clone()).collect();
    all.sort_unstable();
    all.dedup();
    all
}

impl Row {
    /// The row of a learner: `summary` of the answers in the order of the sittings, `sittings` in that order.
    pub fn of(learner: &str, summary: &Summary, sittings: Vec<Brief>, catalogue: &Catalogue) -> Self {
        let mut score = Score::default();
        let mut weeks = BTreeMap::new();
        for (date, day) in &summary.days {
            add(&mut score, *day);
            if let Some(day_of) = Day::of(date) {
                add(weeks.entry(day_of.monday()).or_default(), *day);
            }
        }
        let tools: Vec<Tool> =
            summary.instruments.iter().map(|kept| Tool::of(kept, catalogue.get(&kept.instrument))).collect();
        Self {
            form: ROW_FORM,
            learner: learner.to_owned(),
            score,
            last: tools.iter().filter_map(|tool| tool.last).max(),
            weeks: in_order(weeks),
            tools,
            sittings,
        }
    }

    /// Whether every instrument that was met is read uniformly; none was met by somebody who has not begun.
    pub fn is_uniform(&self) -> bool {
        !self.tools.is_empty() && self.tools.iter().all(|tool| tool.standing == Standing::Met)
    }

    /// What is known of an instrument.
    pub fn on(&self, instrument: &str) -> Option<&Tool> {
        self.tools.iter().find(|tool| tool.instrument == instrument)
    }
}

impl Tool {
    fn of(kept: &Kept, tool: Option<&Instrument>) -> Self {
        let window = usize::try_from(WINDOW).unwrap_or(usize::MAX);
        let latest: Vec<&Answer> =
            kept.latest.iter().skip(kept.latest.len().saturating_sub(window)).collect();
        let mut lately = Score::default();
        for answer in &latest {
            lately.add(answer.right);
        }
        let judged = tool.map(|tool| gates(tool, kept, Target::of(tool)));
        let all_found = tool.map(|tool| found(tool, kept)).unwrap_or_default();
        let live = judged.as_ref().and_then(|gates| gates.clear.still.clone());
        let mut gone: Vec<String> = all_found.iter().map(|found| found.id.to_owned()).collect();
        gone.sort_unstable();
        gone.dedup();
        gone.retain(|id| live.as_ref() != Some(id));
        Self {
            instrument: kept.instrument.clone(),
            score: kept.score,
            lately,
            gross: judged.as_ref().map_or(0, |gates| gates.gross.gross),
            fine: judged.as_ref().map_or(0, |gates| gates.gross.fine),
            repeats: judged.as_ref().map(repeats).unwrap_or_default(),
            median_ms: median_ms(&latest),
            standing: judged.as_ref().map_or(Standing::Open, |gates| gates.standing),
            steps: tool.map(|tool| steps(&latest, tool)).unwrap_or_default(),
            misreads: misreads(&latest),
            leading: live.clone().or_else(|| leading(tool?, kept).map(|leading| leading.id.to_owned())),
            live,
            gone,
            weeks: weeks(kept),
            last: Day::of(&kept.last_at),
        }
    }
}

fn repeats(gates: &Gates) -> Score {
    Score { answered: gates.repeats.pairs, right: gates.repeats.agree }
}

fn median_ms(latest: &[&Answer]) -> Option<u64> {
    let of = |glass: bool| -> Vec<u64> {
        let right = latest.iter().filter(|answer| answer.right && answer.glass == glass);
        right.map(|answer| answer.took_ms).collect()
    };
    middle(of(false)).or_else(|| middle(of(true)))
}

/// The middle one, the lower of the two middle ones.
pub(in crate::class) fn middle(mut times: Vec<u64>) -> Option<u64> {
    times.sort_unstable();
    times.get(times.len().saturating_sub(1) / 2).copied()
}

fn steps(latest: &[&Answer], tool: &Instrument) -> Vec<Missed> {
    let mut counts: BTreeMap<Facet, u32> = BTreeMap::new();
    for answer in latest.iter().filter(|answer| !answer.right) {
        let step = answer.slip.as_deref().map_or(Facet::Reading, |slip| facet_of(slip, tool));
        *counts.entry(step).or_default() += 1;
    }
    counts.into_iter().map(|(step, times)| Missed { step, times }).collect()
}

/// What most particularly explains an answer counts; the most frequent first.
fn misreads(latest: &[&Answer]) -> Vec<MisreadCount> {
    let mut counts: BTreeMap<&str, u32> = BTreeMap::new();
    for id in latest.iter().filter_map(|answer| answer.slip.as_deref()) {
        *counts.entry(id).or_default() += 1;
    }
    let mut counts: Vec<MisreadCount> =
        counts.into_iter().map(|(id, count)| MisreadCount { id: id.to_owned(), count }).collect();
    counts.sort_by_key(|misread| std::cmp::Reverse(misread.count));
    counts
}

fn weeks(kept: &Kept) -> Vec<Week> {
    let mut weeks: BTreeMap<Day, Score> = BTreeMap::new();
    for tally in &kept.days {
        let wrong: u32 = tally.slips.values().sum();
        let day = Score { answered: tally.answered, right: tally.answered.saturating_sub(wrong) };
        add(weeks.entry(tally.day.monday()).or_default(), day);
    }
    in_order(weeks)
}

fn in_order(weeks: BTreeMap<Day, Score>) -> Vec<Week> {
    weeks.into_iter().map(|(monday, score)| Week { monday, score }).collect()
}

fn add(to: &mut Score, more: Score) {
    to.answered += more.answered;
    to.right += more.right;
}

/// The rows of everybody whose sittings there are. `sittings` in any order: each learner's are taken in the order in which they
/// were begun. `plan` says when a sitting is passed; none for an exercise.
pub fn rows(
    sittings: &[Sitting],
    plan: impl Fn(&Sitting) -> Option<Plan>,
    catalogue: &Catalogue,
) -> Vec<Row> {
    let mut of: BTreeMap<&str, Vec<&Sitting>> = BTreeMap::new();
    for sitting in sittings {
        of.entry(&sitting.learner).or_default().push(sitting);
    }
    of.into_iter()
        .map(|(learner, mut sittings)| {
            sittings.sort_by(|a, b| (&a.begun, &a.id).cmp(&(&b.begun, &b.id)));
            let attempts = sittings.iter().flat_map(|sitting| &sitting.entries).map(|entry| &entry.attempt);
            let summary = Summary::of(attempts);
            let brief = |sitting: &&Sitting| {
                let judged = judge_sitting(plan(sitting).as_ref(), sitting, catalogue);
                Brief::of(sitting, &judged)
            };
            Row::of(learner, &summary, sittings.iter().map(brief).collect(), catalogue)
        })
        .collect()
}
