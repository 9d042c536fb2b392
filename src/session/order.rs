//! Which question of a run comes next: the next number, one where a trap is wanted, or one that comes back.

use crate::drill::{Seed, trap};
use crate::instrument::Instrument;
use crate::learner::again::{Again, Outcome};

/// The order of a run's questions.
#[derive(Clone)]
pub(super) struct Order {
    seed: Seed,
    traps: Traps,
    /// The highest number posed.
    furthest: u32,
    /// What was missed and comes back, in a run where it does.
    again: Option<Again<u32>>,
    /// Questions answered or passed over.
    read: u32,
    /// The question that is up came back.
    came_back: bool,
    /// How many came back so far.
    returns: u32,
}

/// How often a setting comes up where a gross slip is near.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Traps {
    /// As the seed has them, which is their natural rate.
    AsDrawn,
    /// About one in four.
    Mixed,
}

impl Order {
    /// A run that begins at a number.
    pub(super) fn new(seed: Seed, furthest: u32) -> Self {
        Self { seed, traps: Traps::AsDrawn, furthest, again: None, read: 0, came_back: false, returns: 0 }
    }

    pub(super) fn trapped(self) -> Self {
        Self { traps: Traps::Mixed, ..self }
    }

    pub(super) fn bringing_back(self) -> Self {
        Self { again: Some(Again::default()), ..self }
    }

    pub(super) fn came_back(&self) -> bool {
        self.came_back
    }

    /// Which question of the run is up, those that came back counted as well.
    pub(super) fn count(&self) -> u32 {
        self.turn().saturating_add(self.returns)
    }

    fn turn(&self) -> u32 {
        match self.traps {
            Traps::AsDrawn => self.furthest,
            Traps::Mixed => trap::turn_of(self.furthest),
        }
    }

    /// The number that comes next, where nothing else chooses.
    pub(super) fn following(&self, instrument: &Instrument) -> u32 {
        match self.traps {
            Traps::AsDrawn => self.furthest.saturating_add(1),
            Traps::Mixed => trap::number_at(instrument, self.seed, self.turn().saturating_add(1)),
        }
    }

    pub(super) fn beyond(&self) -> u32 {
        match self.traps {
            Traps::AsDrawn => self.furthest.saturating_add(1),
            Traps::Mixed => trap::first_of(self.turn().saturating_add(1)),
        }
    }

    /// The number that comes back now, if one does.
    pub(super) fn due(&mut self) -> Option<u32> {
        let back = self.again.as_mut().and_then(|again| again.due(self.read));
        self.came_back = back.is_some();
        self.returns += u32::from(self.came_back);
        back
    }

    pub(super) fn posed(&mut self, number: u32) {
        self.furthest = self.furthest.max(number);
    }

    /// Brings a missed or slow setting back later, but once that came back.
    pub(super) fn heard(&mut self, number: u32, outcome: Outcome) {
        self.read += 1;
        if let Some(again) = self.again.as_mut().filter(|_| !self.came_back) {
            again.put_by(&number, self.read, outcome);
        }
    }
}
