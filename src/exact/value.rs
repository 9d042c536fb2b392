//! Exact rational numbers.

use num_rational::Ratio;
use std::fmt;
use std::ops::{Add, Mul, Neg, Sub};

/// An exact number. Which unit it is in is known by its context (an instrument, a [`super::Quantity`]).
///
/// Numerators and denominators that people can write here are below 10^12 (`quantity` and `typed` refuse longer ones), so
/// sums and products of a few of them stay far inside `i128`.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Exact(Ratio<i128>);

impl Exact {
    /// Nought.
    pub const ZERO: Self = Self(Ratio::new_raw(0, 1));
    /// One.
    pub const ONE: Self = Self(Ratio::new_raw(1, 1));

    /// A whole number.
    pub fn whole(n: i128) -> Self {
        Self(Ratio::from_integer(n))
    }

    /// `numerator / denominator`; the denominator must not be zero.
    pub fn ratio(numerator: i128, denominator: i128) -> Self {
        Self(Ratio::new(numerator, denominator))
    }

    /// The numerator in lowest terms (carries the sign).
    pub fn numerator(self) -> i128 {
        *self.0.numer()
    }

    /// The denominator in lowest terms (positive).
    pub fn denominator(self) -> i128 {
        *self.0.denom()
    }

    /// True below zero.
    pub fn is_negative(self) -> bool {
        self.numerator() < 0
    }

    /// The size without the sign.
    #[must_use]
    pub fn abs(self) -> Self {
        if self.is_negative() { -self } else { self }
    }

    /// The whole number this is, if it is one.
    pub fn to_whole(self) -> Option<i128> {
        self.0.is_integer().then(|| self.numerator())
    }

    /// The quotient; `divisor` must not be zero.
    #[must_use]
    pub fn over(self, divisor: Self) -> Self {
        Self(self.0 / divisor.0)
    }

    /// The greatest number that goes a whole number of times into both.
    #[must_use]
    pub fn common_measure(self, other: Self) -> Self {
        let (a, b) = (self.abs(), other.abs());
        let g = gcd(a.numerator() * b.denominator(), b.numerator() * a.denominator());
        Self::ratio(g, a.denominator() * b.denominator())
    }

    /// How many decimal places write this exactly, if any finite number does.
    pub fn decimal_places(self) -> Option<u32> {
        let (mut rest, mut twos, mut fives) = (self.denominator(), 0, 0);
        while rest % 2 == 0 {
            rest /= 2;
            twos += 1;
        }
        while rest % 5 == 0 {
            rest /= 5;
            fives += 1;
        }
        (rest == 1).then_some(if twos > fives { twos } else { fives })
    }
}

fn gcd(a: i128, b: i128) -> i128 {
    if b == 0 { a } else { gcd(b, a % b) }
}

impl Add for Exact {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0 + other.0)
    }
}

impl Sub for Exact {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self(self.0 - other.0)
    }
}

impl Mul for Exact {
    type Output = Self;
    fn mul(self, other: Self) -> Self {
        Self(self.0 * other.0)
    }
}

impl Neg for Exact {
    type Output = Self;
    fn neg(self) -> Self {
        Self(-self.0)
    }
}

impl fmt::Debug for Exact {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn common_measure_of_inch_fractions_and_decimals() {
        let m = Exact::ratio(1, 40).common_measure(Exact::ratio(1, 1000));
        assert_eq!(m, Exact::ratio(1, 1000));
        let m = Exact::ratio(1, 16).common_measure(Exact::ratio(7, 128));
        assert_eq!(m, Exact::ratio(1, 128));
        assert_eq!(Exact::ZERO.common_measure(Exact::whole(3)), Exact::whole(3));
    }

    #[test]
    fn places() {
        assert_eq!(Exact::ratio(1, 64).decimal_places(), Some(6));
        assert_eq!(Exact::ratio(1, 50).decimal_places(), Some(2));
        assert_eq!(Exact::whole(7).decimal_places(), Some(0));
        assert_eq!(Exact::ratio(1, 3).decimal_places(), None);
    }
}
