//! Levels: from one step to whole readings, pairs, lone traps, decisions.

use super::record::words;
use super::task::{Kind, kinds};
use crate::instrument::Instrument;
use serde::{Deserialize, Serialize};

words! {
    /// How far somebody has come on an instrument.
    #[derive(PartialOrd, Ord)]
    Level {
        /// One step at a time.
        OneStep = "one-step",
        /// Whole readings, and what goes with them.
        Whole = "whole",
        /// Two settings that a trap tells apart.
        Pairs = "pairs",
        /// Whole readings, a trap here and there among them.
        Traps = "traps",
        /// From a drawing, or another man's figure, to a decision.
        Decisions = "decisions",
    }
}

impl Level {
    /// The level that a kind of question belongs to. A whole reading belongs to the traps as well.
    pub fn of(kind: Kind) -> Self {
        match kind {
            Kind::OneStep | Kind::LineWorth => Self::OneStep,
            Kind::Read
            | Kind::SetIt
            | Kind::SameAgain
            | Kind::EstimateFirst
            | Kind::ByHeart
            | Kind::ShopSpeech => Self::Whole,
            Kind::Pair => Self::Pairs,
            Kind::OtherMansSlip | Kind::CannotCome | Kind::WhatNow | Kind::InOrOut => Self::Decisions,
        }
    }

    /// The kinds of question of a level that make sense on an instrument; none where it has nothing to ask there.
    pub fn kinds(self, instrument: &Instrument) -> Vec<Kind> {
        if self == Self::Traps {
            return vec![Kind::Read];
        }
        kinds(instrument).into_iter().filter(|kind| Self::of(*kind) == self).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::instrument::Catalogue;

    #[test]
    fn every_kind_has_a_place_and_every_tool_a_whole_reading() {
        let catalogue = Catalogue::new(Vec::new());
        for tool in catalogue.all() {
            assert!(Level::Whole.kinds(tool).contains(&Kind::Read), "{}", tool.id);
            let all: Vec<Kind> = Level::ALL.iter().flat_map(|level| level.kinds(tool)).collect();
            assert!(kinds(tool).iter().all(|kind| all.contains(kind)), "{}", tool.id);
        }
    }
}
