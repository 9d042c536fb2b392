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
//! one of those, drawn next; and after all else what [`super::change`] draws: nothing on a tool that is neither a collar nor an
//! indicator. Of a tool that somebody has, what is known of it is not drawn.
//! On a tool with two sets of scales: as `two_sets` says.

use super::change::changed;
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
    drawn(instrument, seed, number, Version::Two)
}

/// The same by an earlier version of the generator, for a record that names it; `None` for a version that never was.
pub fn question_by(version: u32, instrument: &Instrument, seed: Seed, number: u32) -> Option<Question> {
    let version = match version {
        1 => Version::One,
        2 => Version::Two,
        _ => return None,
    };
    Some(drawn(instrument, seed, number, version))
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Version {
    One,
    Two,
}

/// One question in so many is on a less common variant.
const UNUSUAL: u32 = 6;

fn drawn(instrument: &Instrument, seed: Seed, number: u32, version: Version) -> Question {
    let tool = instrument.fitted(&Variant::default());
    let mut draw = Draw::new(&tool, seed, number);
    if tool.other.is_some() && version == Version::Two {
        return two_sets::question(&tool, &mut draw, number);
    }
    let settings = (tool.high - tool.low).passed(tool.step) + 1;
    let settings = u32::try_from(settings).expect("the definition was checked: a bounded number of settings");
    let size = tool.low + tool.step * i64::from(draw.below(settings));
    let zero_error = match tool.zero {
        Zero::None => Quanta::ZERO,
        Zero::CanBeOff => draw.zero_error(tool.least_count),
    };
    let variant = match version {
        Version::One => draw.one_of(&instrument.usual()),
        Version::Two => draw.variant(instrument),
    };
    let (low, high) = (tool.low, tool.high);
    let variant = instrument.choices.iter().filter(|choice| choice.practised && choice.owned.is_none()).fold(
        variant,
        |variant, choice| {
            let count = u32::try_from(choice.lengths.len()).expect("few lengths");
            choice.fit(variant, usize::try_from(draw.below(count)).expect("a small number"))
        },
    );
    let tool = instrument.fitted(&variant);
    let setting = (size + zero_error).max(low).min(high) - low + tool.low;
    let question = Question::new(&tool, number, setting, zero_error, variant);
    match version {
        Version::One => question,
        Version::Two => changed(question, &tool, &mut draw),
    }
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

    fn one_of<T: Clone>(&mut self, all: &[T]) -> T {
        let count = u32::try_from(all.len()).expect("a short list");
        all[usize::try_from(self.below(count)).expect("a small number")].clone()
    }

    fn variant(&mut self, instrument: &Instrument) -> Variant {
        let usual = instrument.usual();
        let variant = self.one_of(&usual);
        let unusual = instrument.unusual(&variant);
        if unusual.is_empty() || self.below(UNUSUAL) > 0 { variant } else { self.one_of(&unusual) }
    }

    pub(super) fn zero_error(&mut self, least_count: Quanta) -> Quanta {
        if self.below(10) >= 3 {
            return Quanta::ZERO;
        }
        let size = least_count * (i64::from(self.below(4)) + 1);
        if self.below(2) == 0 { size } else { -size }
    }
}
