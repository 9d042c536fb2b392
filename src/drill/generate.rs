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

use super::change::changed;
use super::condition_draw::conditioned;
use super::draw::Draw;
use super::part::part_asked;
use super::question::Question;
use super::two_sets;
use crate::exact::Quanta;
use crate::instrument::{Instrument, Variant, Zero};

/// The version of the generator that [`question`] is.
pub const GENERATOR: u32 = 2;

/// What a run of questions starts from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Seed(pub u64);

/// Question `number` (from 1) of the run of `seed` on an instrument.
pub fn question(instrument: &Instrument, seed: Seed, number: u32) -> Question {
    let first = instrument.fitted(&Variant::default());
    if first.other.is_some() {
        return two_sets::question(&first, &mut key(&first, seed, number), number);
    }
    let (plain, mut draw) = drawn(instrument, seed, number, Version::Two);
    let tool = instrument.fitted(&plain.variant);
    let question = part_asked(changed(plain.clone(), &tool, &mut draw), &tool, &mut draw);
    if question == plain { conditioned(&tool, question, seed) } else { question }
}

/// The same as version 1 posed it: a tool in good order, on its lines.
pub fn question_1(instrument: &Instrument, seed: Seed, number: u32) -> Question {
    drawn(instrument, seed, number, Version::One).0
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Version {
    One,
    Two,
}

/// One question in so many is on a less common variant.
const UNUSUAL: u32 = 6;

fn key(instrument: &Instrument, seed: Seed, number: u32) -> Draw {
    Draw::keyed("linefall question 1", instrument, seed, number)
}

/// What is drawn first of a question: all of it where nothing else is drawn for the tool.
pub(super) struct Sketch {
    size: Quanta,
    /// The reading when closed.
    pub(super) zero_error: Quanta,
    /// Which maker's variant it is, and what is fitted to it.
    pub(super) variant: Variant,
}

/// The sketch of [`question`] `number`; `first` is the tool with its first lengths fitted, of one set of scales.
pub(super) fn sketch(first: &Instrument, seed: Seed, number: u32) -> Sketch {
    sketched(first, seed, number, Version::Two).0
}

fn sketched(first: &Instrument, seed: Seed, number: u32, version: Version) -> (Sketch, Draw) {
    let mut draw = key(first, seed, number);
    let settings = (first.high - first.low).passed(first.step) + 1;
    let settings = u32::try_from(settings).expect("the definition was checked: a bounded number of settings");
    let size = first.low + first.step * i64::from(draw.below(settings));
    let zero_error = match first.zero {
        Zero::None => Quanta::ZERO,
        Zero::CanBeOff => draw.zero_error(first.least_count),
    };
    let mut variant = draw.one_of(&first.usual());
    if version == Version::Two {
        let unusual = first.unusual(&variant);
        if !unusual.is_empty() && draw.below(UNUSUAL) == 0 {
            variant = draw.one_of(&unusual);
        }
    }
    for choice in first.choices.iter().filter(|choice| choice.practised && choice.owned.is_none()) {
        let count = u32::try_from(choice.lengths.len()).expect("few lengths");
        variant = choice.fit(variant, usize::try_from(draw.below(count)).expect("a small number"));
    }
    (Sketch { size, zero_error, variant }, draw)
}

fn drawn(instrument: &Instrument, seed: Seed, number: u32, version: Version) -> (Question, Draw) {
    let first = instrument.fitted(&Variant::default());
    let (Sketch { size, zero_error, variant }, draw) = sketched(&first, seed, number, version);
    let tool = instrument.fitted(&variant);
    let setting = (size + zero_error).max(first.low).min(first.high) - first.low + tool.low;
    (Question::new(&tool, number, setting, zero_error, variant), draw)
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
