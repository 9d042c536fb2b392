//! One question.

use super::conditions::Conditions;
use crate::exact::{Exact, Quanta};
use crate::instrument::{Instrument, Variant};
use crate::reading::{Asks, Case, Pose, Reading, pose, read};

/// An instrument standing somewhere, and what is asked. It holds no size, style or view: how it is shown is not its business.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Question {
    /// Its number in the run, from 1.
    pub number: u32,
    /// Where the moving member stands: the reading, uncorrected.
    pub setting: Quanta,
    /// The reading when closed; nought on a tool that is set right.
    pub zero_error: Quanta,
    /// What is asked.
    pub asks: Asks,
    /// Which maker's variant it is, and what is fitted to it.
    pub variant: Variant,
    /// What it is read under.
    pub conditions: Conditions,
    /// Where everything stands.
    pub pose: Pose,
    /// The correct reading.
    pub reading: Reading,
}

impl Question {
    /// A question about an instrument standing at `setting`, the lengths of the variant fitted to it.
    pub fn new(
        instrument: &Instrument,
        number: u32,
        setting: Quanta,
        zero_error: Quanta,
        variant: Variant,
    ) -> Self {
        let asks = if zero_error == Quanta::ZERO { Asks::Reading } else { Asks::Corrected };
        let pose = pose(instrument, setting, Quanta::ZERO);
        let reading = read(instrument, &pose);
        Self { number, setting, zero_error, asks, variant, conditions: Conditions::default(), pose, reading }
    }

    /// The same on the tool's usual form, with the same lengths fitted: the reading stays.
    #[must_use]
    pub fn plainly(self, instrument: &Instrument) -> Self {
        let variant = instrument.usual_of(&self.variant);
        let tool = self.conditions.tool(&instrument.fitted(&variant));
        let plain = Self::new(&tool, self.number, self.setting, self.zero_error, variant);
        plain.under(&tool, self.conditions).asking(self.asks)
    }

    /// The same read under other conditions. The setting and the instrument are those of the tool under them.
    #[must_use]
    pub fn under(mut self, instrument: &Instrument, conditions: Conditions) -> Self {
        self.pose = pose(instrument, self.setting, conditions.lead);
        self.reading = read(instrument, &self.pose);
        if let (Some(set), Some(other)) = (conditions.set, instrument.own_slide()) {
            self.pose.beside = Some(Box::new(pose(&other.tool, set, Quanta::ZERO)));
        }
        self.conditions = conditions;
        self
    }

    /// The same tool standing elsewhere.
    #[must_use]
    pub fn standing(self, tool: &Instrument, setting: Quanta) -> Self {
        let conditions = self.conditions.clone();
        Self { setting, ..self }.under(tool, conditions)
    }

    /// The tool as it lies there: with what is fitted to it, under the conditions.
    pub fn tool(&self, instrument: &Instrument) -> Instrument {
        self.conditions.tool(&instrument.fitted(&self.variant))
    }

    /// The same question with something else asked.
    #[must_use]
    pub fn asking(self, asks: Asks) -> Self {
        Self { asks, ..self }
    }

    /// The question as a misread sees it.
    pub fn case<'a>(&'a self, instrument: &'a Instrument) -> Case<'a> {
        Case {
            instrument,
            pose: &self.pose,
            reading: &self.reading,
            zero_error: self.zero_error,
            asks: self.asks,
            change: self.conditions.change,
        }
    }

    /// The right answer, in base units.
    pub fn expected(&self, instrument: &Instrument) -> Exact {
        self.case(instrument).expected()
    }
}
