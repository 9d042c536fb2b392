//! Chance, as an argument: everything an apprentice does by chance is drawn here.

use crate::drill::{Draw, Seed};

/// Numbers by chance.
pub(super) struct Luck(Draw);

/// How finely a share is drawn.
const FINE: u32 = 1 << 30;

impl Luck {
    pub(super) fn new(purpose: &str, seed: Seed, number: u32) -> Self {
        Self(Draw::apart(purpose, seed, number))
    }

    /// A share from 0 up to 1.
    pub(super) fn share(&mut self) -> f64 {
        f64::from(self.0.below(FINE)) / f64::from(FINE)
    }

    pub(super) fn happens(&mut self, how_often: f64) -> bool {
        self.share() < how_often
    }

    /// A place among so many; there is one at least.
    pub(super) fn place(&mut self, of: usize) -> usize {
        let n = self.0.below(u32::try_from(of.max(1)).unwrap_or(u32::MAX));
        usize::try_from(n).unwrap_or(0)
    }

    /// A normal deviate, by the polar angle of two shares (Box and Muller 1958).
    pub(super) fn normal(&mut self) -> f64 {
        let (one, other) = (1.0 - self.share(), self.share());
        (-2.0 * one.ln()).sqrt() * (std::f64::consts::TAU * other).cos()
    }
}

#[cfg(test)]
mod tests {
    use super::super::super::chance::spread;
    use super::*;

    /// Mean 0 and standard deviation 1, each within five standard errors of ten thousand.
    #[test]
    fn a_normal_deviate_is_one() {
        let mut luck = Luck::new("test", Seed(1), 0);
        let all: Vec<f64> = (0..10_000).map(|_| luck.normal()).collect();
        let mean = all.iter().sum::<f64>() / 10_000.0;
        let spread = spread(&[all]).expect("many");
        assert!(mean.abs() < 0.05 && (spread - 1.0).abs() < 0.036, "{mean} {spread}");
    }
}
