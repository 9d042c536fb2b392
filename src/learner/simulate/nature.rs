//! What an apprentice is made of. "A2" and the like are sections of the notes on learning and measurement that the program was
//! designed from; what has no source there is assumed, and a report says so of everything that follows from it.

/// What an apprentice is made of.
#[derive(Clone, Debug, PartialEq)]
pub struct Nature {
    /// Misreads held on each instrument at first. Assumed.
    pub holds: usize,
    /// How often a misread that is held is applied: one or the other, as often. Their mean is about the 0.9 of A2, which has it
    /// as an assumption until answers of real apprentices are known; that it is below 1 is `VanLehn` 1982 (A1).
    pub applied: [f64; 2],
    /// How often a reading slips at first: 0.05 in A2, an assumption there.
    pub slips_first: f64,
    /// How often it slips in the end. Assumed.
    pub slips_last: f64,
    /// After so many readings of an instrument what was to fall has fallen to 1/e. Assumed.
    pub practice: f64,
    /// How likely a misread is given up after a wrong answer that was explained: tau of A2, P(T) of B3.
    pub corrected: f64,
    /// How likely it is given up when it was named and its step was shown by itself. Assumed.
    pub repaired: f64,
    /// How likely one that was given up comes back overnight. Assumed; A2 has a hundredth a question.
    pub comes_back: f64,
    /// What is left of that after each day on which the step was read rightly where it had gone wrong. Assumed, after the
    /// benefit of spaced retrieval (B1).
    pub firmer: f64,
    /// The time of a reading in parts of the target: the first, and what it falls to as a power of the readings. Assumed; that
    /// times are log-normal is B4.
    pub slow_first: f64,
    /// See there.
    pub slow_last: f64,
    /// The standard deviation of the logarithms of times. Assumed; B4 calls 0.40 even.
    pub spread: f64,
    /// How likely someone is not there on a working day. Assumed.
    pub absent: f64,
}

impl Nature {
    /// As most are taken to be.
    pub fn usual() -> Self {
        Self {
            holds: 1,
            applied: [0.98, 0.80],
            slips_first: 0.05,
            slips_last: 0.01,
            practice: 100.0,
            corrected: 0.10,
            repaired: 0.40,
            comes_back: 0.10,
            firmer: 0.5,
            slow_first: 2.5,
            slow_last: 0.6,
            spread: 0.30,
            absent: 0.10,
        }
    }

    /// Someone who reads well already: holds nothing, never slips, is quick and always there.
    pub fn master() -> Self {
        Self { holds: 0, slips_first: 0.0, slips_last: 0.0, slow_first: 0.6, absent: 0.0, ..Self::usual() }
    }

    /// Someone who never gives up what is held.
    pub fn stubborn() -> Self {
        Self { corrected: 0.0, repaired: 0.0, slips_first: 0.01, absent: 0.0, ..Self::usual() }
    }

    /// How often a reading slips after so many.
    pub(super) fn slips(&self, readings: u32) -> f64 {
        let left = (-f64::from(readings) / self.practice).exp();
        self.slips_last + (self.slips_first - self.slips_last) * left
    }

    /// The median time after so many readings, in parts of the target.
    pub(super) fn slow(&self, readings: u32) -> f64 {
        self.slow_last + (self.slow_first - self.slow_last) / (1.0 + f64::from(readings)).sqrt()
    }
}
