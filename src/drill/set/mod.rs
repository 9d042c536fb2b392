//! Drill sets: what an instructor gives out as an exercise or a skills check.
//!
//! | type | what it is |
//! |---|---|
//! | [`DrillSet`] | a set as it was written and checked |
//! | [`Portion`] | one of the things asked in it |
//! | [`Shelf`] | the shipped sets with the instructor's own on top |
//! | [`Item`], [`deal()`], [`Dealer`] | the paper of one sitting: the same set and seed give the same paper, in every release |
//!
//! A paper's questions are those of the ordinary generators, chosen by number, so each of them can be posed again from what its
//! record holds.

mod check;
mod deal;
mod fits;
mod item;
mod keys;
mod portion_check;
mod schema;
mod shelf;
#[cfg(test)]
mod tests;
mod wish;

pub use check::read;
pub use deal::{Dealer, deal};
pub use item::{FIXED_GENERATOR, Item, Posed};
pub use keys::{KEYS, Key, Place, keys_of};
pub use schema::is_set;
pub use shelf::Shelf;

use super::level::Level;
use super::record::words;
use super::{Kind, Seed};
use crate::exact::Exact;
use crate::instrument::Instrument;
use crate::reading::Misread;
use serde::{Deserialize, Serialize};

/// A drill set.
#[derive(Clone, Debug)]
pub struct DrillSet {
    /// Its id: `first-rule`.
    pub id: String,
    /// What a person calls it.
    pub title: String,
    /// What it is for, in a sentence or two.
    pub about: String,
    /// The hash of its text.
    pub revision: String,
    /// Its text as it was written: it goes along with an issued set.
    pub text: String,
    /// What is asked. Never empty.
    pub portions: Vec<Portion>,
    /// How many questions a paper has; at the most, where its rule is sequential.
    pub count: u32,
    /// In which order they come.
    pub order: Order,
    /// Time for the whole, in seconds.
    pub time: Option<u32>,
    /// Whether the glass may be used.
    pub glass: Allowed,
    /// When it is said what was right.
    pub feedback: Feedback,
    /// When it is passed; none for an exercise.
    pub pass: Option<Pass>,
    /// The seed, where everybody gets the same paper.
    pub seed: Option<Seed>,
}

/// One of the things asked in a set.
#[derive(Clone, Debug)]
pub struct Portion {
    /// The id of the instrument.
    pub instrument: String,
    /// How many parts of the count it gets, beside the shares of the others.
    pub share: u32,
    /// What is asked on it.
    pub what: What,
    /// The lowest and the highest size, in base units.
    pub within: Option<[Exact; 2]>,
    /// Whether its zero is off.
    pub zero: ZeroOff,
    /// Whether what it is read under may be out of order: an edge that leads, worn figures, a loose lock.
    pub conditions: Met,
    /// Which maker's variant it is always; otherwise as drawn.
    pub variant: Option<String>,
    /// Misreads that go wrong on its questions, one after the other in turn. Empty: whatever comes.
    pub provoke: Vec<&'static Misread>,
    /// Its plain readings are spread over what can go wrong: of ten one with its zero off, one near a line.
    pub spread: bool,
    /// Settings that are given, in this order, before any drawn ones.
    pub readings: Vec<Given>,
}

/// A setting that is given.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Given {
    /// What the scales show, in base units.
    pub reading: Exact,
    /// The reading when closed, in base units.
    pub zero_error: Exact,
}

/// What is asked on an instrument.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum What {
    /// Questions of these kinds in turn. Never empty.
    Kinds(Vec<Kind>),
    /// Those of a level, with its traps.
    Level(Level),
}

/// When a set is passed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Pass {
    /// So many right of the whole paper.
    Right(u32),
    /// Wald's sequential test of two accuracies, in thousandths.
    Sequential {
        /// An accuracy that should fail.
        bad: u32,
        /// An accuracy that should pass.
        good: u32,
        /// How often the bad one may pass.
        lets_through: u32,
        /// How often the good one may fail.
        turns_away: u32,
        /// Questions at the least.
        least: u32,
    },
}

words! {
    /// In which order the questions of a set come.
    Order {
        /// One portion after the other.
        Blocked = "blocked",
        /// Mixed by chance.
        Mixed = "mixed",
    }
}

words! {
    /// Whether something may be used.
    Allowed {
        /// It may.
        Yes = "allowed",
        /// It may not.
        No = "forbidden",
    }
}

words! {
    /// When it is said what was right.
    Feedback {
        /// After each answer.
        Now = "now",
        /// When all is done.
        AtTheEnd = "at-the-end",
    }
}

words! {
    /// Whether the zero of a tool is off.
    ZeroOff {
        /// As it is drawn: three times in ten.
        AsDrawn = "as-drawn",
        /// Always.
        Always = "always",
        /// Never.
        Never = "never",
    }
}

words! {
    /// Whether something comes up.
    Met {
        /// As it is drawn.
        AsDrawn = "as-drawn",
        /// Always.
        Always = "always",
        /// Never.
        Never = "never",
    }
}

impl Portion {
    /// The kinds of question that take turns.
    pub fn kinds(&self, instrument: &Instrument) -> Vec<Kind> {
        match &self.what {
            What::Kinds(kinds) => kinds.clone(),
            What::Level(level) => kinds_of(*level, instrument),
        }
    }
}

/// The kinds of a level. A setting that comes again is asked for by its kind alone: it needs a run of its own.
fn kinds_of(level: Level, instrument: &Instrument) -> Vec<Kind> {
    level.kinds(instrument).into_iter().filter(|kind| *kind != Kind::SameAgain).collect()
}

impl DrillSet {
    /// The seed of a paper: the set's own, or the one of the sitting.
    pub fn seed(&self, of_the_sitting: Seed) -> Seed {
        self.seed.unwrap_or(of_the_sitting)
    }
}
