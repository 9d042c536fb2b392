//! By heart: fraction, decimal and millimetre, radius and diameter, minutes and degrees, without a picture.
//!
//! Drawn in this order, each uniform: which sum, of those that the tool's unit and notation have; then its figures, as `Turned::from` says;
//! then, where the sum is rounded, the number of places.

use super::{Asked, Figure, Part, Wanted, slip};
use crate::drill::Kind;
use crate::drill::draw::Draw;
use crate::drill::mark::Found;
use crate::exact::{Exact, Notation, Unit};
use crate::instrument::Instrument;

/// Millimetres in an inch, exactly.
pub const INCH: (i128, i128) = (254, 10);

/// What is turned into what.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Turned {
    /// A fraction of an inch into a decimal.
    FractionToDecimal,
    /// A decimal into the fraction that it is nearest to.
    DecimalToFraction,
    /// A fraction of an inch into millimetres.
    FractionToMillimetres,
    /// Thousandths of an inch into millimetres.
    ThouToMillimetres,
    /// Millimetres into inches.
    MillimetresToInches,
    /// A diameter into its radius.
    DiameterToRadius,
    /// A radius into its diameter.
    RadiusToDiameter,
    /// Degrees and minutes into degrees and hundredths.
    MinutesToDegrees,
    /// Degrees and hundredths into degrees and minutes.
    DegreesToMinutes,
}

/// A sum to be done by heart.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Sum {
    /// What is turned into what.
    pub turned: Turned,
    /// What is given, in base units.
    pub from: Exact,
    /// Its unit.
    pub unit: Unit,
    /// How it is written.
    pub notation: Notation,
    /// To how many decimals the answer is wanted, where it has more.
    pub places: u32,
}

/// One sum, on any tool. The tool lies closed beside it.
pub(super) fn parts(instrument: &Instrument, number: u32, draw: &mut Draw) -> Vec<Part> {
    let mut part = Part::beside(instrument, number);
    let sum = sum(&part.tool, draw);
    part.kind = Kind::ByHeart;
    part.asked = Asked::ByHeart(sum);
    part.wanted = Wanted::Figure(sum.figure());
    vec![part]
}

fn sum(tool: &Instrument, draw: &mut Draw) -> Sum {
    use Turned as T;
    let sums: &[Turned] = match tool.unit {
        Unit::Inch if tool.notation == Notation::Fraction => {
            &[T::FractionToDecimal, T::DecimalToFraction, T::MillimetresToInches]
        }
        Unit::Inch => &[
            T::FractionToDecimal,
            T::DecimalToFraction,
            T::MillimetresToInches,
            T::DiameterToRadius,
            T::RadiusToDiameter,
        ],
        Unit::Millimetre => {
            &[T::FractionToMillimetres, T::ThouToMillimetres, T::DiameterToRadius, T::RadiusToDiameter]
        }
        Unit::Minute => &[T::MinutesToDegrees, T::DegreesToMinutes],
    };
    let turned = draw.one_of(sums);
    turned.sum(tool.unit, draw)
}

impl Turned {
    fn sum(self, tool: Unit, draw: &mut Draw) -> Sum {
        let of = |from, unit, notation, places| Sum { turned: self, from, unit, notation, places };
        let decimal = |places| Notation::Decimal { places };
        match self {
            Self::FractionToDecimal => {
                let from = fraction(draw);
                of(from, Unit::Inch, Notation::Fraction, 3 + draw.below(2))
            }
            Self::DecimalToFraction => {
                let exact = fraction(draw);
                let places = 3 + draw.below(2);
                of(exact.rounded(places), Unit::Inch, decimal(places), places)
            }
            Self::FractionToMillimetres => {
                let from = fraction(draw);
                of(from, Unit::Inch, Notation::Fraction, 2)
            }
            // One to sixty thou.
            Self::ThouToMillimetres => {
                let from = Exact::ratio(i128::from(draw.below(60)) + 1, 1000);
                of(from, Unit::Inch, decimal(3), 3)
            }
            // Half a millimetre to 25 of them.
            Self::MillimetresToInches => {
                let from = Exact::ratio(i128::from(draw.below(50)) + 1, 2);
                of(from, Unit::Millimetre, decimal(1), 3 + draw.below(2))
            }
            Self::DiameterToRadius | Self::RadiusToDiameter => {
                let steps = i128::from(draw.below(1900)) + 101;
                let (from, places) = match tool {
                    // 0.101 to 2.000 in, 1.01 to 20.00 mm.
                    Unit::Inch => (Exact::ratio(steps, 1000), 3),
                    Unit::Millimetre | Unit::Minute => (Exact::ratio(steps, 100), 2),
                };
                of(from, tool, decimal(places), places + 1)
            }
            Self::MinutesToDegrees => {
                let from = Exact::whole(60 * i128::from(draw.below(90)) + i128::from(draw.below(59)) + 1);
                of(from, Unit::Minute, Notation::Angle, 2)
            }
            // Twentieths of a degree, which are whole minutes.
            Self::DegreesToMinutes => {
                let from =
                    Exact::whole(60 * i128::from(draw.below(90)) + 3 * (i128::from(draw.below(19)) + 1));
                of(from, Unit::Minute, decimal(2), 0)
            }
        }
    }
}

/// 8ths, 16ths, 32nds or 64ths below an inch, in lowest terms: as many of each.
fn fraction(draw: &mut Draw) -> Exact {
    let under = 8_u32 << draw.below(4);
    let over = 2 * draw.below(under / 2) + 1;
    Exact::ratio(i128::from(over), i128::from(under))
}

impl Sum {
    /// The answer with all its digits, in base units.
    pub fn answer(&self) -> Exact {
        let inch = Exact::ratio(INCH.0, INCH.1);
        match self.turned {
            Turned::FractionToDecimal | Turned::MinutesToDegrees | Turned::DegreesToMinutes => self.from,
            Turned::DecimalToFraction => (self.from * Exact::whole(64)).rounded(0).over(Exact::whole(64)),
            Turned::FractionToMillimetres | Turned::ThouToMillimetres => self.from * inch,
            Turned::MillimetresToInches => self.from.over(inch),
            Turned::DiameterToRadius => self.from.over(Exact::whole(2)),
            Turned::RadiusToDiameter => self.from * Exact::whole(2),
        }
    }

    /// The answer as it is wanted: to so many decimals where it has more.
    pub fn wanted(&self) -> Exact {
        if self.is_rounded() { self.round(self.answer()) } else { self.answer() }
    }

    /// Whether the answer has more decimals than are wanted.
    pub fn is_rounded(&self) -> bool {
        let worth = Exact::whole(self.unit_wanted().per_symbol());
        matches!(self.notation_wanted(), Notation::Decimal { .. })
            && self.answer().over(worth).decimal_places().is_none_or(|places| places > self.places)
    }

    /// Rounded in the unit's short name: degrees, not minutes.
    fn round(&self, value: Exact) -> Exact {
        if !matches!(self.notation_wanted(), Notation::Decimal { .. }) {
            return value;
        }
        let worth = Exact::whole(self.unit_wanted().per_symbol());
        value.over(worth).rounded(self.places) * worth
    }

    /// The unit of the answer.
    pub fn unit_wanted(&self) -> Unit {
        match self.turned {
            Turned::FractionToMillimetres | Turned::ThouToMillimetres => Unit::Millimetre,
            Turned::MillimetresToInches => Unit::Inch,
            _ => self.unit,
        }
    }

    /// How the answer is written.
    pub fn notation_wanted(&self) -> Notation {
        match self.turned {
            Turned::DecimalToFraction => Notation::Fraction,
            Turned::DegreesToMinutes => Notation::Angle,
            Turned::DiameterToRadius | Turned::RadiusToDiameter => self.notation,
            _ => Notation::Decimal { places: self.places },
        }
    }

    /// What is right: rounded either way at a half, which tables do differently, or with more digits.
    fn figure(&self) -> Figure {
        let (answer, wanted) = (self.answer(), self.wanted());
        let worth = Exact::whole(self.unit_wanted().per_symbol());
        let half = Exact::ratio(1, 2 * 10_i128.pow(self.places)) * worth;
        let accepted = if self.is_rounded() { [answer - half, answer + half] } else { [wanted; 2] };
        let right = |value: &Exact| accepted[0] <= *value && *value <= accepted[1];
        let mut slips: Vec<Found> = Vec::new();
        for (id, value) in self.slips() {
            // As it would be written, or with its digits.
            for value in [value, self.round(value)] {
                if !right(&value) && value > Exact::ZERO {
                    slips.push(slip::found(id, value));
                }
            }
        }
        Figure {
            unit: self.unit_wanted(),
            notation: self.notation_wanted(),
            expected: wanted,
            accepted,
            slips,
        }
    }

    fn slips(&self) -> Vec<(&'static str, Exact)> {
        let (from, answer, two, ten) = (self.from, self.answer(), Exact::whole(2), Exact::whole(10));
        let inch = Exact::ratio(INCH.0, INCH.1);
        let place = [("place-slip", answer * ten), ("place-slip", answer.over(ten))];
        let sixty_fourth = Exact::ratio(1, 64);
        let of_fractions = [
            ("other-denominator", answer * two),
            ("other-denominator", answer.over(two)),
            ("sixty-fourth-off", answer + sixty_fourth),
            ("sixty-fourth-off", answer - sixty_fourth),
        ];
        let short = Exact::whole(25);
        let mut all = Vec::new();
        match self.turned {
            Turned::FractionToDecimal => {
                all.extend(of_fractions);
                all.push(("fraction-figures", strung(from)));
                all.extend(place);
            }
            Turned::DecimalToFraction => all.extend(of_fractions),
            Turned::FractionToMillimetres | Turned::ThouToMillimetres => {
                all.extend([("twenty-five", from * short), ("times-for-over", from.over(inch))]);
                all.extend(place);
            }
            Turned::MillimetresToInches => {
                all.extend([("twenty-five", from.over(short)), ("times-for-over", from * inch)]);
                all.extend(place);
            }
            Turned::DiameterToRadius => {
                all.extend([("doubled-for-halved", from * two), ("neither-halved-nor-doubled", from)]);
                all.extend(place);
            }
            Turned::RadiusToDiameter => {
                all.extend([("doubled-for-halved", from.over(two)), ("neither-halved-nor-doubled", from)]);
                all.extend(place);
            }
            Turned::MinutesToDegrees | Turned::DegreesToMinutes => {
                let sixty = Exact::whole(60);
                let degrees =
                    Exact::whole(from.over(sixty).numerator().div_euclid(from.over(sixty).denominator()));
                let beyond = from - degrees * sixty;
                let hundredths = if self.turned == Turned::MinutesToDegrees {
                    beyond * Exact::ratio(60, 100)
                } else {
                    beyond * Exact::ratio(100, 60)
                };
                all.push(("minutes-as-hundredths", degrees * sixty + hundredths));
            }
        }
        all
    }

    /// What was given, as it stands in a record.
    pub(super) fn word(&self) -> String {
        let from = self.notation.spell_with_unit(self.from, self.unit);
        let to = match self.turned {
            Turned::DecimalToFraction => "as fraction".to_owned(),
            Turned::DegreesToMinutes => "as minutes".to_owned(),
            Turned::DiameterToRadius => "as radius".to_owned(),
            Turned::RadiusToDiameter => "as diameter".to_owned(),
            Turned::MinutesToDegrees => format!("as degrees to {} places", self.places),
            Turned::FractionToDecimal => format!("as decimal to {} places", self.places),
            Turned::FractionToMillimetres | Turned::ThouToMillimetres => {
                format!("as mm to {} places", self.places)
            }
            Turned::MillimetresToInches => format!("as in to {} places", self.places),
        };
        format!("{from} {to}")
    }
}

/// The figures of a fraction written after the point: 0.364 for 3/64.
fn strung(fraction: Exact) -> Exact {
    let places = |mut n: i128| {
        let mut scale = 1;
        while n > 0 {
            n /= 10;
            scale *= 10;
        }
        scale
    };
    let (over, under) = (fraction.numerator(), fraction.denominator());
    Exact::ratio(over * places(under) + under, places(over) * places(under))
}

#[cfg(test)]
mod tests {
    use super::super::{Given, Task, task};
    use super::*;
    use crate::drill::{Seed, Verdict};
    use crate::exact::Nonsense;
    use crate::instrument::Catalogue;

    fn sum(turned: Turned, from: Exact, places: u32) -> Part {
        let (unit, notation) = match turned {
            Turned::FractionToDecimal | Turned::FractionToMillimetres => (Unit::Inch, Notation::Fraction),
            Turned::MillimetresToInches => (Unit::Millimetre, Notation::Decimal { places: 1 }),
            Turned::MinutesToDegrees => (Unit::Minute, Notation::Angle),
            Turned::DegreesToMinutes => (Unit::Minute, Notation::Decimal { places: 2 }),
            _ => (Unit::Inch, Notation::Decimal { places: 3 }),
        };
        let sum = Sum { turned, from, unit, notation, places };
        let catalogue = Catalogue::new(Vec::new());
        let tool = catalogue.get("micrometer-inch").expect("shipped");
        let part = Part::beside(tool, 1);
        Part { kind: Kind::ByHeart, asked: Asked::ByHeart(sum), wanted: Wanted::Figure(sum.figure()), ..part }
    }

    fn verdict(part: &Part, text: &str) -> Result<(Verdict, Option<&'static str>), Nonsense> {
        let marked = part.mark(&Given::Typed(part.typed(text)?));
        Ok((marked.verdict, marked.slips.first().map(|found| found.misread.id)))
    }

    /// Decimal equivalents of fractions of an inch, as printed in ASME B94.11M (twist drills, fractional sizes) and in every
    /// shop's chart: to four places, from memory; all 64ths are checked by long division below.
    #[test]
    fn the_published_table() {
        for (over, under, four) in [
            (1, 64, "0.0156"),
            (3, 64, "0.0469"),
            (5, 64, "0.0781"),
            (1, 8, "0.1250"),
            (11, 64, "0.1719"),
            (1, 4, "0.2500"),
            (21, 64, "0.3281"),
            (3, 8, "0.3750"),
            (29, 64, "0.4531"),
            (35, 64, "0.5469"),
            (5, 8, "0.6250"),
            (47, 64, "0.7344"),
            (7, 8, "0.8750"),
            (63, 64, "0.9844"),
        ] {
            let part = sum(Turned::FractionToDecimal, Exact::ratio(over, under), 4);
            assert_eq!(verdict(&part, four), Ok((Verdict::Right, None)), "{over}/{under}");
            assert_eq!(part.expected_word().trim_end_matches(" in"), four, "{over}/{under}");
        }
        // A half in the last place goes up in one chart and to the even figure in another: 1/32 = 0.03125.
        let tie = sum(Turned::FractionToDecimal, Exact::ratio(1, 32), 4);
        for text in ["0.0312", "0.0313", "0.03125", ".03125"] {
            assert_eq!(verdict(&tie, text), Ok((Verdict::Right, None)), "{text}");
        }
        assert_eq!(verdict(&tie, "0.0311"), Ok((Verdict::Other, None)));
    }

    /// Every 64th by long division in whole numbers, both ways.
    #[test]
    fn every_sixty_fourth_there_and_back() {
        for over in (1..64).filter(|n| n % 8 != 0 || *n == 8) {
            for (places, scale) in [(3_u32, 1_000_i128), (4, 10_000)] {
                let digits = (2 * over * scale + 64) / 128;
                let width = usize::try_from(places).expect("small");
                let text = format!("0.{digits:0width$}");
                let there = sum(Turned::FractionToDecimal, Exact::ratio(over, 64), places);
                assert_eq!(verdict(&there, &text).map(|(verdict, _)| verdict), Ok(Verdict::Right), "{text}");
                let back = sum(Turned::DecimalToFraction, Exact::ratio(digits, scale), places);
                let [mut top, mut bottom] = [over, 64];
                while top % 2 == 0 {
                    (top, bottom) = (top / 2, bottom / 2);
                }
                let fraction = format!("{top}/{bottom}");
                assert_eq!(verdict(&back, &fraction), Ok((Verdict::Right, None)), "{text}");
            }
        }
    }

    /// 1 in = 25.4 mm exactly (NIST SP 811, appendix B); the products worked by hand.
    #[test]
    fn inches_and_millimetres() {
        for (over, under, text) in
            [(1, 2, "12.70"), (3, 8, "9.53"), (3, 8, "9.52"), (1, 64, "0.40"), (5, 16, "7.94")]
        {
            let part = sum(Turned::FractionToMillimetres, Exact::ratio(over, under), 2);
            assert_eq!(verdict(&part, text), Ok((Verdict::Right, None)), "{text}");
        }
        for (halves, text) in [(2, "0.0394"), (20, "0.3937"), (50, "0.9843"), (20, "0.39370079")] {
            let part = sum(Turned::MillimetresToInches, Exact::ratio(halves, 2), 4);
            assert_eq!(verdict(&part, text), Ok((Verdict::Right, None)), "{text}");
        }
        let thou = sum(Turned::ThouToMillimetres, Exact::ratio(1, 1000), 3);
        assert_eq!(verdict(&thou, "0.025"), Ok((Verdict::Right, None)));
        assert_eq!(verdict(&thou, "0.0254"), Ok((Verdict::Right, None)));
    }

    #[test]
    fn slips_have_names() {
        let slip = |turned, over, under, text: &str| {
            let places = if turned == Turned::FractionToMillimetres { 2 } else { 4 };
            verdict(&sum(turned, Exact::ratio(over, under), places), text)
        };
        let named = |id| Ok((Verdict::Misread, Some(id)));
        assert_eq!(slip(Turned::FractionToDecimal, 3, 64, "0.364"), named("fraction-figures"));
        assert_eq!(slip(Turned::FractionToDecimal, 3, 64, "0.4688"), named("place-slip"));
        assert_eq!(slip(Turned::FractionToDecimal, 3, 64, "0.0625"), named("sixty-fourth-off"));
        assert_eq!(slip(Turned::FractionToDecimal, 3, 64, "0.09375"), named("other-denominator"));
        assert_eq!(slip(Turned::DecimalToFraction, 47, 1000, "1/32"), named("sixty-fourth-off"));
        assert_eq!(slip(Turned::FractionToMillimetres, 1, 2, "12.5"), named("twenty-five"));
        assert_eq!(slip(Turned::MillimetresToInches, 10, 1, "254"), named("times-for-over"));
        assert_eq!(slip(Turned::DiameterToRadius, 437, 1000, "0.874"), named("doubled-for-halved"));
        assert_eq!(slip(Turned::DiameterToRadius, 437, 1000, "0.437"), named("neither-halved-nor-doubled"));
        assert_eq!(slip(Turned::MinutesToDegrees, 2110, 1, "35.10"), named("minutes-as-hundredths"));
        assert_eq!(slip(Turned::DegreesToMinutes, 2115, 1, "35 25"), named("minutes-as-hundredths"));
    }

    /// 10 of 60 minutes are a sixth of a degree, 15 a quarter; half of 0.437 is 0.2185.
    #[test]
    fn the_rest_by_hand() {
        let right = Ok((Verdict::Right, None));
        let degrees = sum(Turned::MinutesToDegrees, Exact::whole(2110), 2);
        assert_eq!((verdict(&degrees, "35.17"), degrees.expected_word().as_str()), (right, "35.17\u{b0}"));
        assert_eq!(verdict(&sum(Turned::DegreesToMinutes, Exact::whole(2115), 0), "35 15"), right);
        let radius = sum(Turned::DiameterToRadius, Exact::ratio(437, 1000), 4);
        assert_eq!(verdict(&radius, "0.2185"), right);
        assert_eq!(verdict(&sum(Turned::RadiusToDiameter, Exact::ratio(437, 1000), 4), "0.874"), right);
    }

    #[test]
    fn the_question_said_again_is_no_answer() {
        let there = sum(Turned::FractionToDecimal, Exact::ratio(3, 64), 4);
        assert_eq!(verdict(&there, "3/64"), Err(Nonsense::DecimalWanted));
        let back = sum(Turned::DecimalToFraction, Exact::ratio(469, 10_000), 4);
        assert_eq!(verdict(&back, "0.046875"), Err(Nonsense::FractionWanted));
        let degrees = sum(Turned::MinutesToDegrees, Exact::whole(2110), 2);
        assert_eq!(verdict(&degrees, "35 10"), Err(Nonsense::DecimalWanted));
        let minutes = sum(Turned::DegreesToMinutes, Exact::whole(2115), 0);
        assert_eq!(verdict(&minutes, "35.25"), Err(Nonsense::AngleWanted));
    }

    #[test]
    fn on_every_tool_the_right_answer_is_right_and_every_slip_is_wrong() {
        let catalogue = Catalogue::new(Vec::new());
        for tool in catalogue.all() {
            let mut seen = std::collections::HashSet::new();
            for number in 1..=60 {
                let Some(Task { parts, .. }) = task(Kind::ByHeart, tool, Seed(9), number) else {
                    panic!("{}", tool.id)
                };
                let [part] = &parts[..] else { panic!("one part") };
                let (Asked::ByHeart(sum), Wanted::Figure(figure)) = (&part.asked, &part.wanted) else {
                    panic!("a sum")
                };
                seen.insert(sum.turned);
                assert!(part.pictures.is_empty());
                let right = figure.notation.spell_with_unit(figure.expected, figure.unit);
                assert_eq!(verdict(part, &right), Ok((Verdict::Right, None)), "{} {sum:?}", tool.id);
                for found in &figure.slips {
                    let [low, high] = figure.accepted;
                    assert!(found.wrong.answer < low || found.wrong.answer > high, "{sum:?} {found:?}");
                }
                assert!(!part.asked.given(part).is_empty());
            }
            assert!(seen.len() >= 2, "{}: {seen:?}", tool.id);
        }
    }
}
