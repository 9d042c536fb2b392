//! The versioned question generator. The same version, seed, instrument and number give the same question, on every machine
//! and in every release: the sampling below is our own and is never edited, only followed by another version.
//!
//! Version 1. The key is BLAKE3 in key-derivation mode of "linefall question 1" over the seed (8 bytes, little-endian), the
//! number (4 bytes) and the instrument's id; it seeds `ChaCha8`. Drawn in this order, each uniform by rejection on 32 bits:
//! the size, in settings from the lowest; where the instrument can have a zero error, a number below 10, under 3 meaning
//! that it has one; then its size, one to four least counts, and its sign; then the variant; then, of
//! each choice of fixed lengths that is practised, the length.
//!
//! Version 2. The same, and after it what [`super::change`] draws: nothing on a tool that is neither a collar nor an indicator;
//! then what [`super::part`] draws: nothing on a tool that is no protractor; then, where all that was nothing, the conditions, as
//! [`super::condition_draw`] says. On a tool with two sets of scales: as `two_sets` says.

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
    let instrument = &instrument.fitted(&Variant::default());
    if instrument.other.is_some() {
        return two_sets::question(instrument, &mut key(instrument, seed, number), number);
    }
    let (plain, mut draw) = drawn(instrument, seed, number);
    let tool = instrument.fitted(&plain.variant);
    let question = part_asked(changed(plain.clone(), &tool, &mut draw), &tool, &mut draw);
    if question == plain { conditioned(&tool, question, seed) } else { question }
}

/// The same as version 1 posed it: a tool in good order, on its lines.
pub fn question_1(instrument: &Instrument, seed: Seed, number: u32) -> Question {
    drawn(instrument, seed, number).0
}

fn key(instrument: &Instrument, seed: Seed, number: u32) -> Draw {
    Draw::keyed("linefall question 1", instrument, seed, number)
}

fn drawn(instrument: &Instrument, seed: Seed, number: u32) -> (Question, Draw) {
    let instrument = &instrument.fitted(&Variant::default());
    let mut draw = key(instrument, seed, number);
    let settings = (instrument.high - instrument.low).passed(instrument.step) + 1;
    let settings = u32::try_from(settings).expect("the definition was checked: a bounded number of settings");
    let size = instrument.low + instrument.step * i64::from(draw.below(settings));
    let zero_error = match instrument.zero {
        Zero::None => Quanta::ZERO,
        Zero::CanBeOff => draw.zero_error(instrument.least_count),
    };
    let variants = instrument.variants();
    let count = u32::try_from(variants.len()).expect("few variants");
    let mut variant = variants[usize::try_from(draw.below(count)).expect("a small number")].clone();
    for choice in instrument.choices.iter().filter(|choice| choice.practised) {
        let count = u32::try_from(choice.lengths.len()).expect("few lengths");
        variant = choice.fit(variant, usize::try_from(draw.below(count)).expect("a small number"));
    }
    let tool = instrument.fitted(&variant);
    let setting = (size + zero_error).max(instrument.low).min(instrument.high) - instrument.low + tool.low;
    (Question::new(&tool, number, setting, zero_error, variant), draw)
}

impl Draw {
    pub(super) fn zero_error(&mut self, least_count: Quanta) -> Quanta {
        if self.below(10) >= 3 {
            return Quanta::ZERO;
        }
        let size = least_count * (i64::from(self.below(4)) + 1);
        if self.below(2) == 0 { size } else { -size }
    }
}
