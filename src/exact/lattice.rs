//! Whole-number positions.

use super::Exact;
use std::fmt;
use std::iter::Sum;
use std::ops::{Add, AddAssign, Mul, Neg, Sub};

/// A position or a length as a whole number of an instrument's quanta.
#[derive(Clone, Copy, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Quanta(pub i64);

impl Quanta {
    /// Nought.
    pub const ZERO: Self = Self(0);

    /// How many whole `other` have been passed (floor; `other` positive).
    pub fn passed(self, other: Self) -> i64 {
        self.0.div_euclid(other.0)
    }

    /// What is left above the last whole `other` (never negative; `other` positive).
    #[must_use]
    pub fn left_of(self, other: Self) -> Self {
        Self(self.0.rem_euclid(other.0))
    }

    /// True when `other` goes into this without rest.
    pub fn is_multiple_of(self, other: Self) -> bool {
        self.0.rem_euclid(other.0) == 0
    }
}

impl Add for Quanta {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0 + other.0)
    }
}

impl AddAssign for Quanta {
    fn add_assign(&mut self, other: Self) {
        self.0 += other.0;
    }
}

impl Sub for Quanta {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self(self.0 - other.0)
    }
}

impl Neg for Quanta {
    type Output = Self;
    fn neg(self) -> Self {
        Self(-self.0)
    }
}

impl Mul<i64> for Quanta {
    type Output = Self;
    fn mul(self, times: i64) -> Self {
        Self(self.0 * times)
    }
}

impl Sum for Quanta {
    fn sum<I: Iterator<Item = Self>>(iter: I) -> Self {
        iter.fold(Self::ZERO, Add::add)
    }
}

impl fmt::Debug for Quanta {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}q", self.0)
    }
}

/// What one quantum is worth: the common measure of an instrument's divisions, its least count and its settings.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Lattice {
    quantum: Exact,
}

impl Lattice {
    /// A lattice of the given quantum, which must be positive.
    pub fn new(quantum: Exact) -> Self {
        assert!(quantum > Exact::ZERO, "a quantum is positive");
        Self { quantum }
    }

    /// The value of one quantum.
    pub fn quantum(self) -> Exact {
        self.quantum
    }

    /// The value of a position.
    pub fn value(self, at: Quanta) -> Exact {
        self.quantum * Exact::whole(i128::from(at.0))
    }

    /// The position of a value, if it lies on the lattice.
    pub fn at(self, value: Exact) -> Option<Quanta> {
        let n = value.over(self.quantum).to_whole()?;
        i64::try_from(n).ok().map(Quanta)
    }
}
