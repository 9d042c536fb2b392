//! One question of a paper.

use crate::drill::task::{Part, task};
use crate::drill::{Kind, Question, Seed, Task};
use crate::exact::Quanta;
use crate::instrument::{Catalogue, Instrument, Variant};

/// The generator that stands in a record of a setting that was given and not drawn.
pub const FIXED_GENERATOR: u32 = 301;

/// A question of a paper, not yet made out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Item {
    /// Its place on the paper, from 1.
    pub place: u32,
    /// The id of its instrument.
    pub instrument: String,
    /// Its kind.
    pub kind: Kind,
    /// Where it comes from.
    pub posed: Posed,
}

/// Where a question of a paper comes from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Posed {
    /// From the generator of its kind.
    Drawn {
        /// The seed of the run.
        seed: Seed,
        /// Its number there.
        number: u32,
    },
    /// From the set itself.
    Given {
        /// Where the tool stands.
        setting: Quanta,
        /// The reading when closed.
        zero_error: Quanta,
        /// Which maker's variant it is.
        variant: Variant,
    },
}

impl Item {
    /// The question; none where the instrument is not there any more, or the kind makes no sense on it.
    pub fn task(&self, catalogue: &Catalogue) -> Option<Task> {
        self.task_on(catalogue.get(&self.instrument)?)
    }

    /// The same on its instrument.
    pub fn task_on(&self, instrument: &Instrument) -> Option<Task> {
        match &self.posed {
            Posed::Drawn { seed, number } => task(self.kind, instrument, *seed, *number),
            Posed::Given { setting, zero_error, variant } => {
                let tool = instrument.fitted(variant);
                let question = Question::new(&tool, self.place, *setting, *zero_error, variant.clone());
                let parts = vec![Part::reading(instrument, question)];
                Some(Task { kind: Kind::Read, number: self.place, parts })
            }
        }
    }

    /// The seed that stands in its record; nought for a setting that was given.
    pub fn seed(&self) -> Seed {
        match &self.posed {
            Posed::Drawn { seed, .. } => *seed,
            Posed::Given { .. } => Seed(0),
        }
    }
}
