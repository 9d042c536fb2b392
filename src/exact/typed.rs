//! What a person types as a reading: point or comma, fraction, degrees and minutes, shop speech.

use super::quantity::number_of;
use super::{Exact, QuantityFault, Unit};
use thiserror::Error;

/// A typed reading: its exact value, and how it was written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Typed {
    /// The text as typed, less surrounding space.
    pub text: String,
    /// The value in base units.
    pub value: Exact,
    /// How it was written.
    pub form: TypedForm,
}

/// The ways of writing a reading.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TypedForm {
    /// Digits with or without a mark; `places` digits after it.
    Decimal {
        /// Digits after the mark.
        places: u32,
    },
    /// A fraction; `lowest` when it is in lowest terms.
    Fraction {
        /// In lowest terms.
        lowest: bool,
    },
    /// Degrees and minutes.
    Angle,
    /// Shop speech: so many thou, so many tenths.
    Speech,
}

/// Why a typed text is no reading. It is asked again, never marked.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Error)]
pub enum Nonsense {
    /// Nothing typed.
    #[error("type the reading, then Enter")]
    Empty,
    /// Not a number in any accepted form.
    #[error("that is not a number; type figures like 0.123, 12.34, 1 3/64 or 23 47 (degrees and minutes)")]
    NotANumber,
    /// Both a point and a comma, or two of one.
    #[error("one decimal mark only: a point or a comma, and none for thousands")]
    TwoMarks,
    /// A unit other than the instrument's.
    #[error("this instrument reads in {asked}, not in {typed}")]
    WrongUnit {
        /// The instrument's unit.
        asked: Unit,
        /// The unit typed.
        typed: Unit,
    },
    /// A fraction over nought.
    #[error("a fraction cannot be over nought")]
    OverNought,
    /// Sixty minutes or more after a degree.
    #[error("minutes go from 0 to 59")]
    TooManyMinutes,
    /// No move of a tool that is being set.
    #[error("type a move with its sign, like +0.1 or -0.002; then lock, look again, and done")]
    NoMove,
    /// A move that ends between two settings.
    #[error("it is not moved that finely: type whole steps of what it reads to")]
    TooFine,
    /// A move of a tool that is locked.
    #[error("it is locked: type loosen to set it again, or done to leave it")]
    Locked,
    /// The figure is to be written as a fraction.
    #[error("write it as a fraction, like 3/64")]
    FractionWanted,
    /// The figure is to be written as a decimal.
    #[error("write it as a decimal, like 0.125")]
    DecimalWanted,
    /// The figure is to be written in degrees and minutes.
    #[error("write it in degrees and minutes, like 23 47")]
    AngleWanted,
    /// More digits than any instrument shows.
    #[error("that has more digits than any instrument shows")]
    TooLong,
}

impl From<QuantityFault> for Nonsense {
    fn from(fault: QuantityFault) -> Self {
        match fault {
            QuantityFault::OverNought => Self::OverNought,
            QuantityFault::TooLong => Self::TooLong,
            QuantityFault::NotANumber | QuantityFault::NoUnit | QuantityFault::UnknownUnit => {
                Self::NotANumber
            }
        }
    }
}

/// The longest answer looked at.
const LONGEST: usize = 64;

/// Reads a typed answer to a question asked in `unit`.
///
/// Accepted: one point or comma; a leading `+`, `-` or `−`; spaces around; the unit after it or not; fractions `1 3/64` and
/// `1-3/64`; angles `35°10'`, `35 10`, `35-10`, `35 deg 10 min`; for inches `286.2 thou`, `286 thou 2 tenths`.
pub fn parse_answer(text: &str, unit: Unit) -> Result<Typed, Nonsense> {
    let text = text.trim();
    if text.is_empty() {
        return Err(Nonsense::Empty);
    }
    if text.len() > LONGEST {
        return Err(Nonsense::TooLong);
    }
    let (negative, body) = match text.strip_prefix(['-', '\u{2212}']) {
        Some(rest) => (true, rest),
        None => (false, text.strip_prefix('+').unwrap_or(text)),
    };
    let signs = if unit == Unit::Minute { with_signs(body) } else { body.to_owned() };
    let body = strip_unit(signs.trim(), unit)?;
    if body.chars().filter(|c| matches!(c, '.' | ',')).count() > 1 {
        return Err(Nonsense::TwoMarks);
    }
    let body = body.replace(',', ".");
    let (value, form) = match unit {
        Unit::Minute => angle(&body)?,
        Unit::Inch if body.contains("thou") || body.contains("tenth") => speech(&body)?,
        Unit::Inch | Unit::Millimetre => number(&body)?,
    };
    let value = if negative { -value } else { value };
    Ok(Typed { text: text.to_owned(), value, form })
}

/// Degrees and minutes as words, made signs.
fn with_signs(body: &str) -> String {
    let mut text = body.to_owned();
    for (words, sign) in [(["degrees", "degree", "deg"], "\u{b0}"), (["minutes", "minute", "min"], "'")] {
        for word in words {
            text = text.replace(word, sign);
        }
        while text.contains(&format!(" {sign}")) {
            text = text.replace(&format!(" {sign}"), sign);
        }
    }
    text
}

fn strip_unit(body: &str, asked: Unit) -> Result<&str, Nonsense> {
    let spellings = [
        ("minutes", Unit::Minute),
        ("min", Unit::Minute),
        ("inches", Unit::Inch),
        ("inch", Unit::Inch),
        ("in", Unit::Inch),
        ("\"", Unit::Inch),
        ("millimetres", Unit::Millimetre),
        ("millimeters", Unit::Millimetre),
        ("mm", Unit::Millimetre),
        ("degrees", Unit::Minute),
        ("degree", Unit::Minute),
        ("deg", Unit::Minute),
    ];
    for (spelling, typed) in spellings {
        if let Some(rest) = body.strip_suffix(spelling) {
            let rest = rest.trim_end();
            if typed != asked {
                return Err(Nonsense::WrongUnit { asked, typed });
            }
            return Ok(rest);
        }
    }
    Ok(body)
}

fn number(body: &str) -> Result<(Exact, TypedForm), Nonsense> {
    let value = number_of(body)?;
    let form = match body.split_once('/') {
        Some((head, bottom)) => {
            let top = head.rsplit([' ', '-']).next().unwrap_or(head);
            let (top, bottom) = (number_of(top)?, number_of(bottom.trim())?);
            let reduced = top.over(bottom);
            let lowest = top < bottom
                && top.numerator() == reduced.numerator()
                && bottom.numerator() == reduced.denominator();
            TypedForm::Fraction { lowest }
        }
        None => TypedForm::Decimal { places: places_of(body) },
    };
    Ok((value, form))
}

fn places_of(body: &str) -> u32 {
    let places = body.split_once('.').map_or(0, |(_, places)| places.len());
    u32::try_from(places).expect("the answer is at most 64 bytes long")
}

fn angle(body: &str) -> Result<(Exact, TypedForm), Nonsense> {
    let sixty = Exact::whole(60);
    // A sign with nothing after it stands behind whole degrees or a decimal of them.
    let body = body.strip_suffix('\u{b0}').map_or(body, str::trim_end);
    let separators = ['\u{b0}', ' ', '-'];
    let Some((degrees, minutes)) = body.split_once(separators) else {
        if let Some(minutes) = body.strip_suffix(['\'', '\u{2032}']) {
            return Ok((number_of(minutes)?, TypedForm::Angle));
        }
        return Ok((number_of(body)? * sixty, TypedForm::Decimal { places: places_of(body) }));
    };
    let minutes = minutes.trim().trim_end_matches(['\'', '\u{2032}']);
    let minutes = if minutes.is_empty() { Exact::ZERO } else { number_of(minutes)? };
    if minutes >= sixty {
        return Err(Nonsense::TooManyMinutes);
    }
    Ok((number_of(degrees.trim())? * sixty + minutes, TypedForm::Angle))
}

fn speech(body: &str) -> Result<(Exact, TypedForm), Nonsense> {
    let (thou, rest) = match body.split_once("thou") {
        Some((thou, rest)) => (number_of(thou.trim())?, rest),
        None => (Exact::ZERO, body),
    };
    let rest = rest.trim().trim_start_matches("and ").trim();
    let tenths = match rest.strip_suffix("tenths").or_else(|| rest.strip_suffix("tenth")) {
        Some(tenths) => number_of(tenths.trim())?,
        None if rest.is_empty() => Exact::ZERO,
        None => return Err(Nonsense::NotANumber),
    };
    let value = thou * Exact::ratio(1, 1000) + tenths * Exact::ratio(1, 10_000);
    Ok((value, TypedForm::Speech))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn value(text: &str, unit: Unit) -> Result<Exact, Nonsense> {
        parse_answer(text, unit).map(|t| t.value)
    }

    #[test]
    fn decimals_with_either_mark() {
        for text in
            ["0.2862", ".2862", "0,2862", " +0.2862 in ", "0.2862\"", "286.2 thou", "286 thou 2 tenths"]
        {
            assert_eq!(value(text, Unit::Inch), Ok(Exact::ratio(2862, 10000)), "{text}");
        }
        assert_eq!(value("1,234", Unit::Millimetre), Ok(Exact::ratio(1234, 1000)));
        assert_eq!(value("\u{2212}0.03mm", Unit::Millimetre), Ok(Exact::ratio(-3, 100)));
        assert_eq!(value("2 tenths", Unit::Inch), Ok(Exact::ratio(2, 10000)));
    }

    #[test]
    fn fractions_know_their_terms() {
        let form = |t| parse_answer(t, Unit::Inch).map(|t| t.form);
        assert_eq!(value("1-3/64", Unit::Inch), Ok(Exact::ratio(67, 64)));
        assert_eq!(form("1 3/64"), Ok(TypedForm::Fraction { lowest: true }));
        assert_eq!(form("1 6/128"), Ok(TypedForm::Fraction { lowest: false }));
        assert_eq!(form("67/64"), Ok(TypedForm::Fraction { lowest: false }));
    }

    #[test]
    fn angles() {
        for text in [
            "35\u{b0}10'",
            "35 10",
            "35-10",
            "2110'",
            "35 deg 10 min",
            "35deg10min",
            "35 degrees 10 minutes",
            "35 \u{b0} 10 '",
        ] {
            assert_eq!(value(text, Unit::Minute), Ok(Exact::whole(2110)), "{text}");
        }
        for text in ["35.25", "35.25\u{b0}", "35.25 deg"] {
            let typed = parse_answer(text, Unit::Minute).expect("degrees");
            let form = TypedForm::Decimal { places: 2 };
            assert_eq!((typed.value, typed.form), (Exact::whole(2115), form), "{text}");
        }
        assert_eq!(value("35 70", Unit::Minute), Err(Nonsense::TooManyMinutes));
    }

    #[test]
    fn nonsense_is_told_apart() {
        let inch = |t| value(t, Unit::Inch);
        assert_eq!(inch(""), Err(Nonsense::Empty));
        assert_eq!(inch("1,234.5"), Err(Nonsense::TwoMarks));
        assert_eq!(inch("about 3"), Err(Nonsense::NotANumber));
        assert_eq!(inch("1/0"), Err(Nonsense::OverNought));
        assert_eq!(inch("\u{ff11}\u{ff12}"), Err(Nonsense::NotANumber));
        let wrong = Nonsense::WrongUnit { asked: Unit::Inch, typed: Unit::Millimetre };
        assert_eq!(inch("3 mm"), Err(wrong));
        let nines = "9".repeat(65);
        assert_eq!(inch(&nines), Err(Nonsense::TooLong));
        assert_eq!(inch("1e3"), Err(Nonsense::NotANumber));
    }
}
