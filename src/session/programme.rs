//! What is asked at a bench.

use super::bench::Bench;
use crate::drill::{Kind, Level, Seed};
use crate::instrument::Instrument;

/// Questions of some kinds in turn, or those of a level.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Programme {
    /// Of these kinds.
    Kinds(Vec<Kind>),
    /// Of a level, with its traps.
    Level(Level),
}

impl Programme {
    /// All that there is on an instrument: its levels, then its kinds one by one.
    pub fn all(instrument: &Instrument) -> Vec<Self> {
        let levels = Level::ALL.iter().copied().filter(|level| !level.kinds(instrument).is_empty());
        let kinds = crate::drill::task::kinds(instrument).into_iter();
        levels.map(Self::Level).chain(kinds.map(|kind| Self::Kinds(vec![kind]))).collect()
    }

    /// The words under which a run is kept.
    pub fn word(&self) -> String {
        match self {
            Self::Kinds(kinds) => kinds.iter().map(|kind| kind.word()).collect::<Vec<_>>().join("+"),
            Self::Level(level) => format!("level {level}"),
        }
    }

    /// The kinds that come up.
    pub fn kinds(&self, instrument: &Instrument) -> Vec<Kind> {
        match self {
            Self::Kinds(kinds) => kinds.clone(),
            Self::Level(level) => level.kinds(instrument),
        }
    }

    /// A run of it taken up at a turn, from 1; none where nothing of it makes sense on the instrument.
    pub fn bench(
        &self,
        instrument: &Instrument,
        learner: impl Into<String>,
        seed: Seed,
        turn: u32,
    ) -> Option<Bench> {
        match self {
            Self::Kinds(kinds) => Bench::resume(instrument, learner, kinds.clone(), seed, turn),
            Self::Level(level) => Bench::on_level(instrument, learner, *level, seed, turn),
        }
    }
}
