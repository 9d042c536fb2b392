//! What was put, as it stands in a record: enough to make the question out again on the instrument as it is now.

use super::conditions::Conditions;
use super::question::Question;
use super::record::{Asks, Attempt};
use crate::exact::Quantity;
use crate::instrument::Instrument;
use serde::{Deserialize, Serialize};

/// What was put, in the words of its record.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Put {
    /// What was asked for.
    #[serde(rename = "a")]
    asks: String,
    /// Where the moving member stood.
    #[serde(rename = "s")]
    setting: String,
    #[serde(rename = "z")]
    zero_error: String,
    #[serde(rename = "v", default, skip_serializing_if = "String::is_empty")]
    variant: String,
    #[serde(rename = "c", default, skip_serializing_if = "String::is_empty")]
    conditions: String,
}

impl Put {
    /// What an attempt was put.
    pub fn of(attempt: &Attempt) -> Self {
        Self {
            asks: attempt.asks.word().to_owned(),
            setting: attempt.setting.clone(),
            zero_error: attempt.zero_error.clone(),
            variant: attempt.variant.clone(),
            conditions: attempt.conditions.clone(),
        }
    }

    /// The question, and the tool it was read on; none where that cannot be read on the instrument as it is now (its definition
    /// was changed).
    pub fn question(&self, number: u32, instrument: &Instrument) -> Option<(Question, Instrument)> {
        let variant = instrument.variant(&self.variant)?;
        let tool = instrument.fitted(&variant);
        let at = |text: &str| tool.lattice.at(Quantity::parse(text).ok()?.value);
        let (setting, zero_error) = (at(&self.setting)?, at(&self.zero_error)?);
        let conditions = Conditions::from_word(&self.conditions, &tool)?;
        let asks = Asks::from_word(&self.asks)?;
        let question = Question::new(&tool, number, setting, zero_error, variant).under(&tool, conditions);
        Some((question.asking(asks), tool))
    }
}
