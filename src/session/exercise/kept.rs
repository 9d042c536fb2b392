//! A paper put away and taken up again.

use super::{Exercise, Missing};
use crate::class::remark::answered;
use crate::class::sitting::{Entry, Sitting};
use crate::drill::Seed;
use crate::drill::set::DrillSet;
use crate::instrument::Catalogue;
use serde::{Deserialize, Serialize};
use std::time::Duration;

/// A sitting put away.
#[derive(Serialize, Deserialize)]
struct PutAway {
    seed: u64,
    spent_ms: u64,
    sitting: Sitting,
}

impl Exercise {
    /// What was put away, open or ended; none where it is of another set, or of the set as it was before it was changed.
    pub fn read(set: &DrillSet, catalogue: &Catalogue, text: &str) -> Option<Self> {
        let away: PutAway = serde_json::from_str(text).ok()?;
        if away.sitting.set != set.id || away.sitting.revision != set.revision {
            return None;
        }
        let mut exercise = Self::over(set.clone(), catalogue, Seed(away.seed), away.sitting).ok()?;
        exercise.spent = Duration::from_millis(away.spent_ms);
        Some(exercise)
    }

    /// A sitting on a job card taken up from its own file. Its time is what was put away last, and where that is not known what
    /// the answers took.
    pub fn take_up(
        set: DrillSet,
        catalogue: &Catalogue,
        (sitting, seed, nth): (Sitting, u64, u32),
        put_away: Option<&str>,
    ) -> Result<Self, Missing> {
        let took: u64 = sitting.entries.iter().map(|entry| entry.attempt.took_ms).sum();
        let known = put_away.and_then(|text| serde_json::from_str::<PutAway>(text).ok());
        let known = known.filter(|away| away.sitting.id == sitting.id).map_or(0, |away| away.spent_ms);
        // One that was begun and left before its first answer was left all the same.
        let spent = Duration::from_millis(took.max(known).max(1));
        let mut exercise = Self::over(set, catalogue, Seed(seed), sitting)?;
        exercise.mark(catalogue)?;
        Ok(Self { nth, spent, ..exercise })
    }

    /// Marks the answers that were put down without their marks.
    fn mark(&mut self, catalogue: &Catalogue) -> Result<(), Missing> {
        for n in 0..self.sitting.entries.len() {
            let Entry { place, part, attempt } = &self.sitting.entries[n];
            if !attempt.is_unmarked() {
                continue;
            }
            let marked = || {
                let item = self.item(*place)?;
                let instrument = catalogue.get(&item.instrument)?;
                let task = item.task_on(instrument)?;
                let part = task.parts.get(usize::try_from(*part).ok()?.checked_sub(1)?)?;
                answered(item, part, instrument, attempt.clone())
            };
            self.sitting.entries[n].attempt = marked().ok_or(Missing::Question(*place))?;
        }
        Ok(())
    }

    /// The sitting that was put away, whatever became of its set.
    pub fn sitting_in(text: &str) -> Option<Sitting> {
        serde_json::from_str::<PutAway>(text).ok().map(|away| away.sitting)
    }

    /// As text, to be taken up again.
    pub fn put_away(&self, now: Duration) -> String {
        let spent_ms = u64::try_from(self.spent(now).as_millis()).unwrap_or(u64::MAX);
        let mut away = PutAway { seed: self.seed.0, spent_ms, sitting: self.sitting.clone() };
        if self.sitting.card.is_some() && self.is_silent() {
            // The answers stand in a file of their own, without their marks.
            (away.seed, away.sitting.entries) = (0, Vec::new());
        }
        serde_json::to_string(&away).expect("texts and numbers are always JSON")
    }
}
