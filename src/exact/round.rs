//! The only rounding there is.

use super::Exact;

impl Exact {
    /// Rounded to a number of decimal places, halves away from nought.
    #[must_use]
    pub fn rounded(self, places: u32) -> Self {
        let scale = Self::whole(10_i128.pow(places));
        let scaled = self.abs() * scale;
        let twice = Self::whole(2) * scaled + Self::whole(1);
        let count = Self::whole(twice.numerator().div_euclid(2 * twice.denominator()));
        let size = count.over(scale);
        if self.is_negative() { -size } else { size }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn halves_go_away_from_nought() {
        let round = |n, d| Exact::ratio(n, d).rounded(2);
        assert_eq!(round(1249, 10_000), Exact::ratio(12, 100));
        assert_eq!(round(125, 1000), Exact::ratio(13, 100));
        assert_eq!(round(-125, 1000), Exact::ratio(-13, 100));
        assert_eq!(round(1, 3), Exact::ratio(33, 100));
        assert_eq!(round(-2, 3), Exact::ratio(-67, 100));
        assert_eq!(round(5, 1), Exact::whole(5));
    }
}
