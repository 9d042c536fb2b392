//! At the learner's elbow: what keeps happening is named, repaired, and known again from the record.

use super::practice::{Answered, Phase, Practice};
use crate::drill::{Seed, Verdict};
use crate::exact::parse_answer;
use crate::instrument::Instrument;
use crate::learner::calendar::Day;
use crate::learner::diagnosis::{Heard, Suspects};
use crate::learner::repair::{Attended, Word, found};
use crate::learner::summary::{Kept, Summary};
use std::collections::BTreeMap;

/// What is attended to on every instrument. It is made out of the record when an instrument is first taken up, and goes on with
/// every answer.
#[derive(Default)]
pub struct Attendance {
    kept: BTreeMap<String, Kept>,
    going: BTreeMap<String, Attended>,
}

impl Attendance {
    /// Takes in what is known of earlier answers.
    pub fn know(&mut self, summary: &Summary) {
        let new = summary.instruments.iter().filter(|kept| !self.going.contains_key(&kept.instrument));
        self.kept = new.map(|kept| (kept.instrument.clone(), kept.clone())).collect();
    }

    /// Takes in the answer that a run was just given; says what is to be said about it.
    pub fn hear(&mut self, instrument: &Instrument, run: &Practice, on: Option<Day>) -> Option<Word> {
        let Phase::Answered(Answered { answer, mark, .. }) = run.phase() else { return None };
        let heard = match mark.verdict {
            Verdict::Skipped => Heard::Skipped,
            verdict if verdict.is_right() => Heard::Right,
            _ => Heard::Wrong(parse_answer(answer, run.tool().unit).ok()?.value),
        };
        self.on(instrument).hear(run.question(), run.tool(), heard, on)
    }

    /// The number of the question that goes on with a repair, from this one on; none where nothing is being repaired.
    pub fn next(&mut self, instrument: &Instrument, seed: Seed, from: u32) -> Option<u32> {
        let recurs = self.kept.get(&instrument.id).is_some_and(|kept| !found(instrument, kept).is_empty());
        if !recurs && !self.going.contains_key(&instrument.id) {
            return None;
        }
        self.on(instrument).next(instrument, seed, from)
    }

    fn on(&mut self, instrument: &Instrument) -> &mut Attended {
        let kept = self.kept.remove(&instrument.id).unwrap_or_default();
        self.going
            .entry(instrument.id.clone())
            .or_insert_with(|| Attended::over(Suspects::of(instrument), instrument, &kept))
    }
}
