//! The versioned question generator. The same version, seed, instrument and number give the same question, on every machine
//! and in every release: the sampling below is our own and is never edited, only followed by another version.
//!
//! Version 1. The key is BLAKE3 in key-derivation mode of "linefall question 1" over the seed (8 bytes, little-endian), the
//! number (4 bytes) and the instrument's id; it seeds `ChaCha8`. Drawn in this order, each uniform by rejection on 32 bits:
//! the size, in settings from the lowest; where the instrument can have a zero error, a number below 10, under 3 meaning
//! that it has one; then its size, one to four least counts, and its sign; then the variant among the equally common ones;
//! then, of each choice of fixed lengths that is practised, the length.
//!
//! Version 2. As version 1; but after the equally common variants, where there are less common ones, a number below 6, 0 meaning
//! one of those, drawn next. After all that what [`super::change`] draws: nothing on a tool that is neither a collar nor an
//! indicator; then what [`super::part`] draws: nothing on a tool that is no protractor; then, where all that was nothing, the
//! conditions, as [`super::condition_draw`] says. On a tool with two sets of scales: as `two_sets` says. Of a tool that somebody
//! has, what is known of it is not drawn.

use super::draw::Draw;
use super::question::Question;
use super::ready::{Ready, Version};
use crate::exact::Quanta;
use crate::instrument::Instrument;

/// The version of the generator that [`question`] is.
pub const GENERATOR: u32 = 2;

/// What a run of questions starts from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Seed(pub u64);

impl Seed {
    /// The seeds of papers on job cards begin here. What a person types, in a command or in a file, is below: nobody can have
    /// the paper of a card shown beforehand.
    pub const OF_CARDS: u64 = 1 << 63;

    /// The same among those of job cards.
    #[must_use]
    pub fn of_card(self) -> Self {
        Self(self.0 | Self::OF_CARDS)
    }

    /// The same among those that can be typed.
    #[must_use]
    pub fn open(self) -> Self {
        Self(self.0 & !Self::OF_CARDS)
    }

    /// True for a seed of a job card.
    pub fn is_of_card(self) -> bool {
        self.0 >= Self::OF_CARDS
    }
}

/// Question `number` (from 1) of the run of `seed` on an instrument.
pub fn question(instrument: &Instrument, seed: Seed, number: u32) -> Question {
    Ready::new(instrument).question(seed, number)
}

/// The same as version 1 posed it: a tool in good order, on its lines.
pub fn question_1(instrument: &Instrument, seed: Seed, number: u32) -> Question {
    Ready::new(instrument).drawn(seed, number, Version::One).0
}

impl Draw {
    pub(super) fn one_of<T: Clone>(&mut self, all: &[T]) -> T {
        let count = u32::try_from(all.len()).expect("a short list");
        all[usize::try_from(self.below(count)).expect("a small number")].clone()
    }

    pub(super) fn zero_error(&mut self, least_count: Quanta) -> Quanta {
        if self.below(10) >= 3 {
            return Quanta::ZERO;
        }
        let size = least_count * (i64::from(self.below(4)) + 1);
        if self.below(2) == 0 { size } else { -size }
    }
}
