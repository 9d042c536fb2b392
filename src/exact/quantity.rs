//! Quantities as files and commands spell them: `0.025 in`, `1/64 in`, `1 1/2 in`, `5'`, `1 deg`, `35°10'`.

use super::{Exact, Unit};
use thiserror::Error;

/// A value with its unit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Quantity {
    /// The value, in base units (inches, millimetres, minutes).
    pub value: Exact,
    /// The unit.
    pub unit: Unit,
}

/// Why a text is not a quantity.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Error)]
pub enum QuantityFault {
    /// No digits.
    #[error("no number here")]
    NotANumber,
    /// Digits, but no unit.
    #[error("a number needs its unit: in, mm or deg")]
    NoUnit,
    /// Text after the number that is no unit.
    #[error("unknown unit; the units are in, mm, deg and '")]
    UnknownUnit,
    /// A fraction over nought.
    #[error("a fraction over nought")]
    OverNought,
    /// More digits than any instrument has.
    #[error("too many digits")]
    TooLong,
}

/// Digits before the point that are accepted.
const WHOLE_DIGITS: usize = 9;
/// Digits after the point that are accepted.
const DECIMALS: usize = 9;

impl Quantity {
    /// Reads a quantity. A decimal point only, a plain or a mixed fraction, a leading `-`.
    pub fn parse(text: &str) -> Result<Self, QuantityFault> {
        let text = text.trim();
        let (negative, body) = match text.strip_prefix(['-', '\u{2212}']) {
            Some(rest) => (true, rest.trim_start()),
            None => (false, text),
        };
        let end =
            body.find(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | '/' | ' '))).unwrap_or(body.len());
        let (number, suffix) = body.split_at(end);
        let value = number_of(number.trim_end())?;
        let (value, unit) = match suffix.trim() {
            "" => return Err(QuantityFault::NoUnit),
            "'" | "\u{2032}" | "min" => (value, Unit::Minute),
            other => {
                if let Some(minutes) = other.strip_prefix('\u{b0}') {
                    (value * Exact::whole(60) + minutes_of(minutes)?, Unit::Minute)
                } else {
                    let unit = Unit::from_symbol(other).ok_or(QuantityFault::UnknownUnit)?;
                    (value * Exact::whole(unit.per_symbol()), unit)
                }
            }
        };
        Ok(Self { value: if negative { -value } else { value }, unit })
    }
}

fn minutes_of(text: &str) -> Result<Exact, QuantityFault> {
    let text = text.trim();
    if text.is_empty() {
        return Ok(Exact::ZERO);
    }
    let digits = text.strip_suffix(['\'', '\u{2032}']).ok_or(QuantityFault::UnknownUnit)?;
    number_of(digits.trim())
}

/// A decimal, a fraction or a mixed fraction without sign.
pub(super) fn number_of(text: &str) -> Result<Exact, QuantityFault> {
    if let Some((whole, fraction)) = text.split_once([' ', '-']) {
        let fraction = fraction.trim_start();
        if !fraction.contains('/') {
            return Err(QuantityFault::NotANumber);
        }
        return Ok(decimal_of(whole, 0)? + fraction_of(fraction)?);
    }
    if text.contains('/') { fraction_of(text) } else { decimal_of(text, DECIMALS) }
}

fn fraction_of(text: &str) -> Result<Exact, QuantityFault> {
    let (top, bottom) = text.split_once('/').ok_or(QuantityFault::NotANumber)?;
    let (top, bottom) = (decimal_of(top.trim(), 0)?, decimal_of(bottom.trim(), 0)?);
    if bottom == Exact::ZERO {
        return Err(QuantityFault::OverNought);
    }
    Ok(top.over(bottom))
}

fn decimal_of(text: &str, max_places: usize) -> Result<Exact, QuantityFault> {
    let (whole, places) = text.split_once('.').unwrap_or((text, ""));
    let digits = |s: &str| s.bytes().all(|b| b.is_ascii_digit());
    if !digits(whole) || !digits(places) || (whole.is_empty() && places.is_empty()) {
        return Err(QuantityFault::NotANumber);
    }
    if whole.len() > WHOLE_DIGITS || places.len() > max_places {
        return Err(if max_places == 0 && text.contains('.') {
            QuantityFault::NotANumber
        } else {
            QuantityFault::TooLong
        });
    }
    let number = |s: &str| s.bytes().fold(0_i128, |n, b| n * 10 + i128::from(b - b'0'));
    let scale = (0..places.len()).fold(1_i128, |n, _| n * 10);
    Ok(Exact::ratio(number(whole) * scale + number(places), scale))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn parse(text: &str) -> Result<(Exact, Unit), QuantityFault> {
        Quantity::parse(text).map(|q| (q.value, q.unit))
    }

    #[test]
    fn forms() {
        assert_eq!(parse("0.025 in"), Ok((Exact::ratio(1, 40), Unit::Inch)));
        assert_eq!(parse("1/64in"), Ok((Exact::ratio(1, 64), Unit::Inch)));
        assert_eq!(parse("1 1/2 in"), Ok((Exact::ratio(3, 2), Unit::Inch)));
        assert_eq!(parse("-0.02 mm"), Ok((Exact::ratio(-1, 50), Unit::Millimetre)));
        assert_eq!(parse("5'"), Ok((Exact::whole(5), Unit::Minute)));
        assert_eq!(parse("1 deg"), Ok((Exact::whole(60), Unit::Minute)));
        assert_eq!(parse("35\u{b0}10'"), Ok((Exact::whole(2110), Unit::Minute)));
    }

    #[test]
    fn faults() {
        assert_eq!(parse("0.025"), Err(QuantityFault::NoUnit));
        assert_eq!(parse("in"), Err(QuantityFault::NotANumber));
        assert_eq!(parse("3 furlongs"), Err(QuantityFault::UnknownUnit));
        assert_eq!(parse("1/0 in"), Err(QuantityFault::OverNought));
        assert_eq!(parse("0.12345678901 in"), Err(QuantityFault::TooLong));
        assert_eq!(parse("1.2.3 in"), Err(QuantityFault::NotANumber));
        assert_eq!(parse("1e3 mm"), Err(QuantityFault::UnknownUnit));
        assert_eq!(parse("NaN mm"), Err(QuantityFault::NotANumber));
    }
}
