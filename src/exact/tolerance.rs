//! Sizes as a drawing gives them: limits, plus and minus, unequal; and the title block that holds where a size says nothing.

use super::{Exact, Notation, Quantity, QuantityFault, TypedForm, Unit};
use thiserror::Error;

/// From where to where a size may be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Tolerance {
    /// What plus and minus are counted from; of limits the lower.
    pub nominal: Exact,
    /// The least that is in.
    pub low: Exact,
    /// The most that is in.
    pub high: Exact,
    /// The unit of all three.
    pub unit: Unit,
    /// How it is written.
    pub written: Written,
}

/// The ways of writing a tolerance.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Written {
    /// Both limits: `12.48 / 12.52`.
    Limits,
    /// As much either way: `12.50 ±0.02`.
    PlusMinus,
    /// So much up, so much down: `12.50 +0.02/-0.01`.
    Unequal,
}

/// Why a text is no tolerance.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Error)]
pub enum ToleranceFault {
    /// One of its figures is none.
    #[error("{0}")]
    Figure(#[from] QuantityFault),
    /// Figures of two units.
    #[error("one unit for the size and its tolerance")]
    TwoUnits,
    /// None of the notations.
    #[error("a tolerance is written 12.48 / 12.52 mm, 12.50 \u{b1}0.02 mm or 12.50 +0.02/-0.01 mm")]
    NotATolerance,
    /// The lower limit is above the upper one.
    #[error("the lower limit is above the upper one")]
    UpsideDown,
}

impl Tolerance {
    /// Between two limits.
    pub fn limits(low: Exact, high: Exact, unit: Unit) -> Self {
        Self { nominal: low, low, high, unit, written: Written::Limits }
    }

    /// A size, as much either way.
    pub fn plus_minus(nominal: Exact, by: Exact, unit: Unit) -> Self {
        Self { nominal, low: nominal - by, high: nominal + by, unit, written: Written::PlusMinus }
    }

    /// A size with an upper and a lower deviation, each with its sign.
    pub fn unequal(nominal: Exact, above: Exact, below: Exact, unit: Unit) -> Self {
        Self { nominal, low: nominal + below, high: nominal + above, unit, written: Written::Unequal }
    }

    /// The whole of it.
    pub fn width(&self) -> Exact {
        self.high - self.low
    }

    /// Whether a size is in. On the limit is in.
    pub fn holds(&self, size: Exact) -> bool {
        self.low <= size && size <= self.high
    }

    /// Reads a tolerance in any of the notations, its unit after it: `0.500 ±0.002 in`, `1 1/2 to 1 17/32 in`, `30° ±30'`.
    pub fn parse(text: &str) -> Result<Self, ToleranceFault> {
        let text = text.trim().replace("+/-", "\u{b1}").replace("+-", "\u{b1}").replace('\u{2212}', "-");
        let made = if let Some((nominal, by)) = text.split_once('\u{b1}') {
            let ([nominal, by], unit) = figures([nominal, by])?;
            Self::plus_minus(nominal, by, unit)
        } else if let Some([low, high]) = two_limits(&text) {
            let ([low, high], unit) = figures([low, high])?;
            Self::limits(low, high, unit)
        } else {
            let parts = deviations(&text).ok_or(ToleranceFault::NotATolerance)?;
            let ([nominal, above, below], unit) = figures(parts)?;
            Self::unequal(nominal, above, below, unit)
        };
        if made.low > made.high { Err(ToleranceFault::UpsideDown) } else { Ok(made) }
    }

    /// Writes it in its notation, every figure with as many digits as the finest of them needs.
    pub fn spell(&self, notation: Notation) -> String {
        let (above, below) = (self.high - self.nominal, self.low - self.nominal);
        let notation = match notation {
            Notation::Decimal { places } => {
                let needed = [self.nominal, above, below].into_iter().filter_map(Exact::decimal_places).max();
                Notation::Decimal { places: needed.unwrap_or(places).max(places) }
            }
            Notation::Fraction | Notation::Angle => notation,
        };
        let spell = |value: Exact| notation.spell(value);
        let body = match self.written {
            Written::Limits => {
                let between = if matches!(notation, Notation::Decimal { .. }) { "/" } else { "to" };
                format!("{} {between} {}", spell(self.low), spell(self.high))
            }
            Written::PlusMinus => format!("{} \u{b1}{}", spell(self.nominal), spell(above)),
            Written::Unequal => {
                let signed = |value: Exact, nought: char| {
                    let sign = if value == Exact::ZERO { nought } else { '+' };
                    if value.is_negative() { spell(value) } else { format!("{sign}{}", spell(value)) }
                };
                format!("{} {}/{}", spell(self.nominal), signed(above, '+'), signed(below, '-'))
            }
        };
        if self.unit == Unit::Minute { body } else { format!("{body} {}", self.unit) }
    }
}

/// The two sides of `12.48 / 12.52` or `1 1/2 to 1 17/32`; none where a sign says that deviations stand there.
fn two_limits(text: &str) -> Option<[&str; 2]> {
    if let Some((low, high)) = text.split_once(" to ") {
        return Some([low, high]);
    }
    if text.contains('+') {
        return None;
    }
    let parted = text.split_once(" / ");
    // Close together, two whole numbers would be a fraction.
    let decimals = |(low, high): &(&str, &str)| low.contains('.') && high.contains('.');
    let (low, high) = parted.or_else(|| text.split_once('/').filter(decimals))?;
    (!high.trim_start().starts_with('-')).then_some([low, high])
}

/// Nominal, upper and lower deviation of `12.50 +0.02/-0.01`; a deviation of nought may go without a sign.
fn deviations(text: &str) -> Option<[&str; 3]> {
    let parted = |at: &usize| text[..*at].ends_with(['/', ' ']);
    let signs: Vec<usize> = text.match_indices(['+', '-']).map(|(at, _)| at).filter(parted).collect();
    let first = *signs.first()?;
    let (nominal, rest) = text.split_at(first);
    let middle = match signs.get(1) {
        Some(second) => second - first,
        None => rest.rfind('/').filter(|at| rest[at + 1..].trim_start().starts_with('0'))? + 1,
    };
    let (above, below) = rest.split_at(middle);
    let end = |c: char| c == '/' || c == ' ';
    Some([nominal, above.trim_end_matches(end), below])
}

/// The figures of one tolerance, and the unit that at least one of them has.
fn figures<const N: usize>(texts: [&str; N]) -> Result<([Exact; N], Unit), ToleranceFault> {
    let bare = |text: &str| text.trim().trim_start_matches('+').to_owned();
    let parsed = texts.map(|text| Quantity::parse(&bare(text)));
    if let Some(fault) =
        parsed.iter().filter_map(|one| one.err()).find(|fault| *fault != QuantityFault::NoUnit)
    {
        return Err(fault.into());
    }
    let mut units = parsed.iter().filter_map(|one| one.as_ref().ok()).map(|one| one.unit);
    let unit = units.next().ok_or(QuantityFault::NoUnit)?;
    if units.any(|other| other != unit) {
        return Err(ToleranceFault::TwoUnits);
    }
    let mut values = [Exact::ZERO; N];
    for (value, text) in values.iter_mut().zip(texts) {
        *value = match Quantity::parse(&bare(text)) {
            Err(QuantityFault::NoUnit) => Quantity::parse(&format!("{} {unit}", bare(text)))?.value,
            other => other?.value,
        };
    }
    Ok((values, unit))
}

/// What a title block says of sizes without a tolerance of their own.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TitleBlock {
    /// Either way, by the number of decimals that a size is written with.
    pub decimals: Vec<(u32, Exact)>,
    /// Either way, of a size written as a fraction.
    pub fractions: Option<Exact>,
    /// Either way, of an angle, in minutes.
    pub angles: Option<Exact>,
}

impl TitleBlock {
    /// How far a size may be off, by the way in which it is written.
    pub fn allows(&self, form: TypedForm) -> Option<Exact> {
        match form {
            TypedForm::Decimal { places } => {
                self.decimals.iter().find(|(digits, _)| *digits == places).map(|(_, by)| *by)
            }
            TypedForm::Fraction { .. } => self.fractions,
            TypedForm::Angle => self.angles,
            TypedForm::Speech => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const THREE: Notation = Notation::Decimal { places: 3 };

    fn read(text: &str) -> Tolerance {
        Tolerance::parse(text).unwrap_or_else(|fault| panic!("{text}: {fault}"))
    }

    /// The same size in every notation; worked by hand.
    #[test]
    fn one_size_in_every_notation() {
        let (low, high) = (Exact::ratio(498, 1000), Exact::ratio(502, 1000));
        for text in [
            "0.500 \u{b1}0.002 in",
            "0.500 +/-0.002 in",
            "0.5 in \u{b1}.002",
            "0.498 / 0.502 in",
            ".498/.502 in",
            "0.498 to 0.502 in",
            "0.500 +0.002 -0.002 in",
            "0.501 +0.001/-0.003 in",
            "0.502 +0/-0.004 in",
            "0.498 +0.004/0 in",
        ] {
            let tolerance = read(text);
            assert_eq!((tolerance.low, tolerance.high, tolerance.unit), (low, high, Unit::Inch), "{text}");
            assert_eq!(tolerance.width(), Exact::ratio(4, 1000));
        }
    }

    #[test]
    fn written_as_read() {
        for text in
            ["0.498 / 0.502 in", "0.500 \u{b1}0.002 in", "0.500 +0.002/-0.001 in", "0.500 -0.001/-0.003 in"]
        {
            assert_eq!(read(text).spell(THREE), text);
        }
        assert_eq!(read("12.5 +0.02 -0 mm").spell(Notation::Decimal { places: 2 }), "12.50 +0.02/-0.00 mm");
        assert_eq!(
            read("25 -0.007/-0.020 mm").spell(Notation::Decimal { places: 2 }),
            "25.000 -0.007/-0.020 mm"
        );
        assert_eq!(read("12 / 15 mm").spell(Notation::Decimal { places: 0 }), "12 / 15 mm");
        for text in ["1 1/2 to 1 17/32 in", "1 1/2 \u{b1}1/64 in", "3/4 +1/64/-1/32 in"] {
            assert_eq!(read(text).spell(Notation::Fraction), text);
        }
        assert_eq!(read("30\u{b0} \u{b1}30'").spell(Notation::Angle), "30\u{b0}00' \u{b1}0\u{b0}30'");
        assert_eq!(read("30 deg +1 deg/-0 deg").high, Exact::whole(31 * 60));
    }

    #[test]
    fn faults() {
        let fault = |text| Tolerance::parse(text).expect_err("a fault");
        assert_eq!(fault("12.50 \u{b1}0.02"), ToleranceFault::Figure(QuantityFault::NoUnit));
        assert_eq!(fault("12.50 in \u{b1}0.02 mm"), ToleranceFault::TwoUnits);
        assert_eq!(fault("12.50 mm"), ToleranceFault::NotATolerance);
        assert_eq!(fault("12.52 / 12.48 mm"), ToleranceFault::UpsideDown);
        assert_eq!(fault("12.50 -0.02/+0.01 mm"), ToleranceFault::UpsideDown);
        assert_eq!(fault("12.50 \u{b1}a mm"), ToleranceFault::Figure(QuantityFault::NotANumber));
    }

    #[test]
    fn on_the_limit_is_in() {
        let tolerance = read("12.48 / 12.52 mm");
        assert!(tolerance.holds(Exact::ratio(1248, 100)) && tolerance.holds(Exact::ratio(1252, 100)));
        assert!(!tolerance.holds(Exact::ratio(12_521, 1000)));
    }

    #[test]
    fn the_title_block_goes_by_the_way_a_size_is_written() {
        let block = TitleBlock {
            decimals: vec![(2, Exact::ratio(1, 100)), (3, Exact::ratio(5, 1000))],
            fractions: Some(Exact::ratio(1, 64)),
            angles: None,
        };
        assert_eq!(block.allows(TypedForm::Decimal { places: 3 }), Some(Exact::ratio(5, 1000)));
        assert_eq!(block.allows(TypedForm::Decimal { places: 4 }), None);
        assert_eq!(block.allows(TypedForm::Fraction { lowest: true }), Some(Exact::ratio(1, 64)));
        assert_eq!(block.allows(TypedForm::Angle), None);
    }
}
