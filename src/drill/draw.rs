//! The sampler: our own, so that no library's change moves a question.

use rand::rngs::ChaCha8Rng;
use rand::{Rng, SeedableRng};

/// Numbers drawn from a key.
pub(super) struct Draw(ChaCha8Rng);

impl Draw {
    /// Seeded by BLAKE3 in key-derivation mode of a context over the parts, one after the other.
    pub(super) fn new(context: &str, parts: &[&[u8]]) -> Self {
        Self(ChaCha8Rng::from_seed(blake3::derive_key(context, &parts.concat())))
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
}
