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
//! then what [`super::part`] draws: nothing on a tool that is no protractor. On a tool with two sets of scales: as `two_sets`
//! says.

use super::change::changed;
use super::part::part_asked;
use super::question::Question;
use super::two_sets;
use crate::exact::Quanta;
use crate::instrument::{Instrument, Variant, Zero};
use rand::rngs::ChaCha8Rng;
use rand::{Rng, SeedableRng};

/// The version of the generator that [`question`] is.
pub const GENERATOR: u32 = 2;

/// What a run of questions starts from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Seed(pub u64);

/// Question `number` (from 1) of the run of `seed` on an instrument.
pub fn question(instrument: &Instrument, seed: Seed, number: u32) -> Question {
    let instrument = &instrument.fitted(&Variant::default());
    let mut draw = Draw::new(instrument, seed, number);
    if instrument.other.is_some() {
        return two_sets::question(instrument, &mut draw, number);
    }
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
    let question = Question::new(&tool, number, setting, zero_error, variant);
    part_asked(changed(question, &tool, &mut draw), &tool, &mut draw)
}

/// The sampler.
pub(super) struct Draw(ChaCha8Rng);

impl Draw {
    fn new(instrument: &Instrument, seed: Seed, number: u32) -> Self {
        let mut material = Vec::with_capacity(12 + instrument.id.len());
        material.extend_from_slice(&seed.0.to_le_bytes());
        material.extend_from_slice(&number.to_le_bytes());
        material.extend_from_slice(instrument.id.as_bytes());
        Self(ChaCha8Rng::from_seed(blake3::derive_key("linefall question 1", &material)))
    }

    /// Uniform below `n` (`n` positive): numbers from the incomplete last run of `n` are thrown away.
    pub(super) fn below(&mut self, n: u32) -> u32 {
        let whole = u32::MAX - (u32::MAX % n + 1) % n;
        loop {
            let number = self.0.next_u32();
            if number <= whole {
                return number % n;
            }
        }
    }

    pub(super) fn zero_error(&mut self, least_count: Quanta) -> Quanta {
        if self.below(10) >= 3 {
            return Quanta::ZERO;
        }
        let size = least_count * (i64::from(self.below(4)) + 1);
        if self.below(2) == 0 { size } else { -size }
    }
}
