//! A tool standing somewhere, and what it reads there.

use super::explain::{Share, shares};
use super::pose::{Pose, pose};
use super::read::{Reading, read};
use crate::exact::Quanta;
use crate::instrument::{Instrument, Variant};

/// A tool standing somewhere, correctly read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stand {
    /// The tool, with what is fitted to it.
    pub tool: Instrument,
    /// Which variant of its instrument it is.
    pub variant: Variant,
    /// Where it stands.
    pub setting: Quanta,
    /// Where every member stands.
    pub pose: Pose,
    /// What the scales show.
    pub reading: Reading,
    /// The parts of the sum.
    pub shares: Vec<Share>,
}

impl Stand {
    /// An instrument in one of its variants, at a setting of that; its edge runs `lead` ahead of the thimble.
    pub fn new(instrument: &Instrument, variant: &Variant, setting: Quanta, lead: Quanta) -> Self {
        Self::of(instrument.fitted(variant), variant.clone(), setting, lead)
    }

    /// The same tool at another setting, its edge true.
    #[must_use]
    pub fn moved(self, setting: Quanta) -> Self {
        Self::of(self.tool, self.variant, setting, Quanta::ZERO)
    }

    fn of(tool: Instrument, variant: Variant, setting: Quanta, lead: Quanta) -> Self {
        let pose = pose(&tool, setting, lead);
        let reading = read(&tool, &pose);
        let shares = shares(&tool, &reading);
        Self { tool, variant, setting, pose, reading, shares }
    }

    /// What one stage shows; none for a stage that is not there.
    pub fn shown_by(&self, stage: usize) -> Option<Quanta> {
        self.reading.steps.iter().find(|step| step.stage == stage).map(|step| step.value)
    }
}
