//! How sure it is that a step is known: the two-state update of knowledge tracing.
//!
//! Source: A. T. Corbett and J. R. Anderson, "Knowledge tracing: modeling the acquisition of procedural knowledge" (1995). The
//! chance of guessing a reading of several figures is next to none.

/// Before the first reading.
const AT_FIRST: f64 = 0.3;
/// That a reading with its explanation teaches the step.
const LEARNT: f64 = 0.10;
/// That a step not known is read right all the same.
const GUESSED: f64 = 0.01;
/// That a step known is read wrong all the same.
const SLIPPED: f64 = 0.05;

/// The chance that a step is known.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Known(pub f64);

impl Default for Known {
    fn default() -> Self {
        Self(AT_FIRST)
    }
}

impl Known {
    /// After a reading in which the step was right.
    #[must_use]
    pub fn right(self) -> Self {
        self.having_seen(1.0 - SLIPPED, GUESSED)
    }

    /// After one in which it was wrong.
    #[must_use]
    pub fn wrong(self) -> Self {
        self.having_seen(SLIPPED, 1.0 - GUESSED)
    }

    fn having_seen(self, if_known: f64, if_not: f64) -> Self {
        let known = self.0 * if_known;
        let now = known / (known + (1.0 - self.0) * if_not);
        Self(now + (1.0 - now) * LEARNT)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Worked by hand from the published formula with the four numbers above:
    /// right: 0.3 x 0.95 / (0.3 x 0.95 + 0.7 x 0.01) = 0.285 / 0.292, then a tenth of the rest;
    /// wrong: 0.3 x 0.05 / (0.3 x 0.05 + 0.7 x 0.99) = 0.015 / 0.708, then a tenth of the rest.
    #[test]
    fn one_step_by_hand() {
        let right = 285.0 / 292.0;
        assert!((Known::default().right().0 - (right + (1.0 - right) * 0.1)).abs() < 1e-15);
        assert!((Known::default().right().0 - 0.978_424_657_5).abs() < 1e-9);
        let wrong = 15.0 / 708.0;
        assert!((Known::default().wrong().0 - (wrong + (1.0 - wrong) * 0.1)).abs() < 1e-15);
        assert!((Known::default().wrong().0 - 0.119_067_796_6).abs() < 1e-9);
    }

    /// The chance of knowing after a row of answers, by going through every moment at which it may have been learnt.
    fn counted(answers: &[bool]) -> f64 {
        let n = answers.len();
        let (mut known, mut all) = (0.0, 0.0);
        // Learnt before answer `from`; `n` is after the last one, `n + 1` never.
        for from in 0..=n + 1 {
            let learnt = match from {
                0 => AT_FIRST,
                _ => (1.0 - AT_FIRST) * (1.0 - LEARNT).powi(i32::try_from(from).expect("few") - 1),
            };
            let learnt = if from == 0 || from == n + 1 { learnt } else { learnt * LEARNT };
            let seen: f64 = (0..n)
                .map(|k| match (k >= from, answers[k]) {
                    (true, true) => 1.0 - SLIPPED,
                    (true, false) => SLIPPED,
                    (false, true) => GUESSED,
                    (false, false) => 1.0 - GUESSED,
                })
                .product();
            all += learnt * seen;
            if from <= n {
                known += learnt * seen;
            }
        }
        known / all
    }

    #[test]
    fn every_row_of_six_answers_agrees_with_the_count() {
        for row in 0..64_u32 {
            let answers: Vec<bool> = (0..6).map(|n| row >> n & 1 == 1).collect();
            let mut known = Known::default();
            for right in &answers {
                known = if *right { known.right() } else { known.wrong() };
            }
            assert!(
                (known.0 - counted(&answers)).abs() < 1e-12,
                "{answers:?}: {known:?} {}",
                counted(&answers)
            );
        }
    }
}
