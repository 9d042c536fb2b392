//! The sampler: our own, so that no library's change moves a question.

use super::generate::Seed;
use crate::instrument::Instrument;
use rand::rngs::ChaCha8Rng;
use rand::{Rng, SeedableRng};

/// Numbers drawn from a key.
pub struct Draw(ChaCha8Rng);

impl Draw {
    /// Seeded by BLAKE3 in key-derivation mode of a context over the parts, one after the other.
    pub(super) fn new(context: &str, parts: &[&[u8]]) -> Self {
        Self(ChaCha8Rng::from_seed(blake3::derive_key(context, &parts.concat())))
    }

    /// The sampler for one purpose: same purpose, instrument, seed and number, same numbers.
    pub fn keyed(purpose: &str, instrument: &Instrument, seed: Seed, number: u32) -> Self {
        let parts: [&[u8]; 3] = [&seed.0.to_le_bytes(), &number.to_le_bytes(), instrument.id.as_bytes()];
        Self::new(purpose, &parts)
    }

    /// The sampler for a purpose that has to do with no instrument.
    pub fn apart(purpose: &str, seed: Seed, number: u32) -> Self {
        Self::new(purpose, &[&seed.0.to_le_bytes(), &number.to_le_bytes()])
    }

    /// Uniform below `n` (`n` positive): numbers from the incomplete last run of `n` are thrown away.
    pub fn below(&mut self, n: u32) -> u32 {
        let whole = u32::MAX - (u32::MAX % n + 1) % n;
        loop {
            let number = self.0.next_u32();
            if number <= whole {
                return number % n;
            }
        }
    }

    /// A place in a list of so many, which is not empty.
    pub fn place(&mut self, count: usize) -> usize {
        let count = u32::try_from(count).expect("a short list");
        usize::try_from(self.below(count)).expect("a small number")
    }

    /// Puts a list into an order by chance, every order equally often.
    pub fn shuffle<T>(&mut self, list: &mut [T]) {
        for last in (1..list.len()).rev() {
            list.swap(last, self.place(last + 1));
        }
    }
}
