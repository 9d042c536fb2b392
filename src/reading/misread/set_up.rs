//! What goes wrong between a protractor's reading and the part's angle.

use super::{Case, Wrong};
use crate::instrument::SetUp;
use crate::reading::Asks;

impl Case<'_> {
    /// The answer of someone who takes a protractor to stand in `taken`, where it stands in one of some others. Where only the
    /// reading is asked for it stands as read.
    pub(super) fn angle_for(&self, taken: SetUp, did: &str, stands: &[SetUp]) -> Vec<Wrong> {
        let set_up = match self.asks {
            Asks::Reading if !self.instrument.set_ups.is_empty() => Some(SetUp::AsRead),
            asks => asks.set_up(),
        };
        if !set_up.is_some_and(|set_up| stands.contains(&set_up)) {
            return Vec::new();
        }
        let answer = taken.angle(self.instrument.value(self.reading.total));
        vec![Wrong { answer, stage: None, did: did.to_owned() }]
    }
}
