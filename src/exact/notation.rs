//! How a value is written down.

use super::{Exact, Unit};
use rust_decimal::Decimal;

/// The way an instrument's readings are written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Notation {
    /// With this many decimals, trailing noughts kept: `0.250`.
    Decimal {
        /// Digits after the point.
        places: u32,
    },
    /// As a mixed fraction in lowest terms: `1 3/64`.
    Fraction,
    /// As degrees and minutes: `35°10'`.
    Angle,
}

impl Notation {
    /// The notation of a scale of the given unit and least count: as many decimals as the least count has.
    pub fn decimal_for(unit: Unit, least_count: Exact) -> Option<Self> {
        match unit {
            Unit::Minute => Some(Self::Angle),
            Unit::Inch | Unit::Millimetre => {
                least_count.decimal_places().map(|places| Self::Decimal { places })
            }
        }
    }

    /// Writes a value. One that the notation cannot hold exactly gets the decimals it needs, or is written as a fraction.
    pub fn spell(self, value: Exact) -> String {
        match self {
            Self::Decimal { places } => match value.decimal_places() {
                Some(needed) if needed <= 12 => decimal(value, places.max(needed)),
                _ => fraction(value),
            },
            Self::Fraction => fraction(value),
            Self::Angle => angle(value),
        }
    }

    /// Writes a value with its unit, as a person reads it: `0.2862 in`, `35°10'`; a decimal of an angle is in degrees.
    pub fn spell_with_unit(self, value: Exact, unit: Unit) -> String {
        match unit {
            Unit::Minute if matches!(self, Self::Decimal { .. }) => {
                format!("{}\u{b0}", self.spell(value.over(Exact::whole(unit.per_symbol()))))
            }
            Unit::Minute => self.spell(value),
            Unit::Inch | Unit::Millimetre => format!("{} {unit}", self.spell(value)),
        }
    }
}

fn decimal(value: Exact, places: u32) -> String {
    let scale = (0..places).fold(1_i128, |n, _| n * 10);
    let digits = value * Exact::whole(scale);
    let digits = digits.to_whole().expect("the caller asked for enough places");
    Decimal::try_from_i128_with_scale(digits, places).map_or_else(|_| fraction(value), |d| d.to_string())
}

fn fraction(value: Exact) -> String {
    let size = value.abs();
    let sign = if value.is_negative() { "-" } else { "" };
    let (whole, rest) = (size.numerator() / size.denominator(), size.numerator() % size.denominator());
    match (whole, rest) {
        (_, 0) => format!("{sign}{whole}"),
        (0, _) => format!("{sign}{rest}/{}", size.denominator()),
        _ => format!("{sign}{whole} {rest}/{}", size.denominator()),
    }
}

fn angle(value: Exact) -> String {
    let size = value.abs();
    let sign = if value.is_negative() { "-" } else { "" };
    if let Some(minutes) = size.to_whole() {
        return format!("{sign}{}\u{b0}{:02}'", minutes / 60, minutes % 60);
    }
    // With its degrees, or 21 1/2 could be taken for 21 degrees.
    let degrees = size.numerator() / (60 * size.denominator());
    format!("{sign}{degrees}\u{b0}{}'", fraction(size - Exact::whole(60 * degrees)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn spelling_keeps_the_least_counts_digits() {
        let three = Notation::Decimal { places: 3 };
        assert_eq!(three.spell(Exact::ratio(1, 4)), "0.250");
        assert_eq!(three.spell(Exact::ratio(-3, 1000)), "-0.003");
        assert_eq!(three.spell(Exact::ratio(1, 10000)), "0.0001");
        assert_eq!(Notation::Fraction.spell(Exact::ratio(67, 64)), "1 3/64");
        assert_eq!(Notation::Fraction.spell(Exact::ratio(-1, 2)), "-1/2");
        assert_eq!(Notation::Fraction.spell(Exact::whole(2)), "2");
        assert_eq!(Notation::Angle.spell(Exact::whole(2110)), "35\u{b0}10'");
        assert_eq!(Notation::Angle.spell(Exact::whole(-5)), "-0\u{b0}05'");
        assert_eq!(Notation::Angle.spell(Exact::ratio(-163, 2)), "-1\u{b0}21 1/2'");
    }

    #[test]
    fn places_follow_the_least_count() {
        let of = |n, d| Notation::decimal_for(Unit::Millimetre, Exact::ratio(n, d));
        assert_eq!(of(1, 50), Some(Notation::Decimal { places: 2 }));
        assert_eq!(of(1, 1), Some(Notation::Decimal { places: 0 }));
        assert_eq!(of(1, 3), None);
    }
}
