//! Shop speech: what is said, written in figures; and which of four sayings is what a figure or a tool says.
//!
//! How sizes are said is common practice, and differs: [`Manner`] has a line for each way. Values are data here; the words
//! stand in `wording`.
//!
//! Drawn in this order, each uniform: a number below 4, under 2 meaning that something is heard, 2 that a figure is to be said,
//! 3 that a reading is; the manner; the value, as `Manner::value` says; of a choice, what else is offered, and the right place.

use super::{Asked, Choice, Figure, Offered, Part, Says, Wanted, slip};
use crate::drill::draw::Draw;
use crate::drill::generate::Seed;
use crate::drill::mark::Found;
use crate::drill::record::{Asks, words};
use crate::drill::{Kind, question};
use crate::exact::{Exact, Notation, Quanta, Unit};
use crate::instrument::{Form, Instrument};
use crate::reading::misread;
use serde::{Deserialize, Serialize};

words! {
    /// The way in which a size is said. All of it common practice.
    Manner {
        /// Thousandths of an inch, their figures run together: two eighty-six and two tenths. Everywhere.
        RunTogether = "run-together",
        /// At full length as in British shops: two hundred and eighty-six thou and two tenths.
        Thou = "thou",
        /// At full length as in American shops: two hundred eighty-six thousandths and two tenths.
        Thousandths = "thousandths",
        /// A small amount of inches with its sign: plus a thou and a half.
        Allowance = "allowance",
        /// Hundredths or tenths of a millimetre: three hundredths.
        Hundredths = "hundredths",
        /// Thousandths of a millimetre: twelve microns.
        Microns = "microns",
        /// A metric micrometer as it is read, sleeve first: eight and a half, thirty-four.
        SleeveThimble = "sleeve-thimble",
        /// Figure by figure: eight point eight four.
        Point = "point",
        /// A fraction of an inch: one and three sixty-fourths.
        Fraction = "fraction",
        /// Degrees and minutes: twenty-three forty-seven.
        Degrees = "degrees",
    }
}

/// Answers offered.
const OFFERED: u32 = 4;

/// One question; none on a tool whose sizes are not said in any of these ways.
pub(super) fn parts(instrument: &Instrument, seed: Seed, number: u32, draw: &mut Draw) -> Option<Vec<Part>> {
    let way = draw.below(4);
    let beside = Part::beside(instrument, number);
    let manners = manners(&beside.tool);
    let part = match way {
        0 | 1 => heard(beside, &manners, draw),
        2 => figure_said(beside, &manners, draw)?,
        _ => match reading_said(instrument, seed, number, &manners, draw) {
            Some(part) => part,
            None => figure_said(beside, &manners, draw)?,
        },
    };
    Some(vec![Part { kind: Kind::ShopSpeech, ..part }])
}

fn manners(tool: &Instrument) -> Vec<Manner> {
    use Manner as M;
    match (tool.unit, tool.notation) {
        (Unit::Minute, _) => vec![M::Degrees],
        (Unit::Inch, Notation::Decimal { .. }) => vec![M::RunTogether, M::Thou, M::Thousandths, M::Allowance],
        (Unit::Inch, _) => vec![M::Fraction],
        (Unit::Millimetre, Notation::Decimal { places }) if places >= 2 => {
            let mut all = vec![M::Hundredths, M::Point];
            if places >= 3 {
                all.push(M::Microns);
            }
            let half = Exact::ratio(1, 2);
            let turn_is_half = |form: &Form| match form {
                Form::Drum(drum) => tool.value(drum.turn()) - tool.value(Quanta::ZERO) == half,
                Form::Line(_) | Form::Dial(_) | Form::Vernier(_) | Form::Fixed(_) => false,
            };
            if tool.stages.iter().any(|stage| turn_is_half(&stage.form)) {
                all.push(M::SleeveThimble);
            }
            all
        }
        (Unit::Millimetre, _) => vec![M::Point],
    }
}

/// What is heard is written in figures.
fn heard(beside: Part, manners: &[Manner], draw: &mut Draw) -> Part {
    let tool = &beside.tool;
    let manner = draw.one_of(manners);
    let value = manner.value(tool.notation, draw);
    let notation = manner.notation(value);
    let wrong = manner.slips(value).into_iter().filter(|(_, answer)| *answer != value);
    let slips: Vec<Found> = wrong.map(|(id, answer)| slip::found(id, answer)).collect();
    let figure = Figure { unit: tool.unit, notation, expected: value, accepted: [value; 2], slips };
    Part { asked: Asked::Heard { manner, value }, wanted: Wanted::Figure(figure), ..beside }
}

/// A figure is said in one of four ways.
fn figure_said(beside: Part, manners: &[Manner], draw: &mut Draw) -> Option<Part> {
    let manner = draw.one_of(manners);
    let value = manner.value(beside.tool.notation, draw);
    let named: Vec<Offered> =
        manner.slips(value).into_iter().map(|(id, answer)| offer(answer, Some(id))).collect();
    let choice =
        choice(manner, value, named, |wrong| wrong != value && fits(&beside.tool, value, wrong), draw)?;
    Some(Part { asked: Asked::SaidHow { manner, value }, wanted: Wanted::Choice(choice), ..beside })
}

/// What a tool reads is said in one of four ways; the others are what it is misread as.
fn reading_said(
    instrument: &Instrument,
    seed: Seed,
    number: u32,
    manners: &[Manner],
    draw: &mut Draw,
) -> Option<Part> {
    let question = question(instrument, seed, number).asking(Asks::Reading);
    let part = Part::reading(instrument, question);
    let case = part.question.case(&part.tool);
    let value = case.expected();
    let fitting: Vec<Manner> = manners.iter().copied().filter(|manner| manner.says(value)).collect();
    if fitting.is_empty() {
        return None;
    }
    let manner = draw.one_of(&fitting);
    let named = misread::ALL.into_iter().flat_map(|misread| {
        misread.wrong(&case).into_iter().map(|wrong| offer(wrong.answer, Some(misread.id)))
    });
    let choice = choice(
        manner,
        value,
        named.collect(),
        |wrong| fits(&part.tool, value, wrong) && !case.accepts(wrong),
        draw,
    )?;
    let wanted = Wanted::Choice(choice);
    Some(Part { asked: Asked::SaidHow { manner, value }, wanted, ..part })
}

/// What is longer than the tool, and twice the right one, nobody would take for it.
fn fits(tool: &Instrument, value: Exact, wrong: Exact) -> bool {
    let longest = tool.value(tool.high).max(value.abs() * Exact::whole(2));
    wrong.abs() <= longest
}

fn offer(value: Exact, slip: Option<&'static str>) -> Offered {
    Offered { says: Says::Value(value), slip }
}

/// The right one among others: first what has a name, two at the most, then what is near it.
fn choice(
    manner: Manner,
    value: Exact,
    named: Vec<Offered>,
    is_wrong: impl Fn(Exact) -> bool,
    draw: &mut Draw,
) -> Option<Choice> {
    let mut options: Vec<Offered> = Vec::new();
    let near = manner.near(value).into_iter().map(|answer| offer(answer, None)).collect();
    for (mut from, most) in [(named, 2), (near, 3)] {
        while !from.is_empty() && options.len() < most {
            let place = draw.below(u32::try_from(from.len()).ok()?);
            let one: Offered = from.swap_remove(usize::try_from(place).ok()?);
            let Says::Value(wrong) = one.says else { continue };
            let twice = options.iter().any(|option| option.says == one.says);
            if manner.says(wrong) && is_wrong(wrong) && wrong != value && !twice {
                options.push(one);
            }
        }
    }
    if options.len() + 1 < usize::try_from(OFFERED).ok()? {
        return None;
    }
    let right = usize::try_from(draw.below(OFFERED)).ok()?;
    options.insert(right, offer(value, None));
    Some(Choice { options, right })
}

impl Manner {
    /// What the last figure that can be said in it is worth.
    fn unit(self) -> Exact {
        match self {
            Self::RunTogether | Self::Thou | Self::Thousandths | Self::Allowance => Exact::ratio(1, 10_000),
            Self::Hundredths | Self::SleeveThimble => Exact::ratio(1, 100),
            Self::Microns | Self::Point => Exact::ratio(1, 1000),
            Self::Fraction => Exact::ratio(1, 64),
            Self::Degrees => Exact::ONE,
        }
    }

    /// How many of those a value is, if it is a whole number of them.
    pub fn count(self, value: Exact) -> Option<i128> {
        value.over(self.unit()).to_whole()
    }

    /// Whether a value can be said so, and is.
    pub fn says(self, value: Exact) -> bool {
        let Some(count) = self.count(value) else { return false };
        let (thou, tenths) = (count / 10 % 1000, count % 10);
        match self {
            Self::RunTogether => (0..100_000).contains(&count) && thou >= 100,
            Self::Thou | Self::Thousandths => (0..100_000).contains(&count) && thou >= 10,
            Self::Allowance => {
                let size = count.abs();
                (1..10).contains(&size) || (size < 100 && size > 0 && [0, 5].contains(&tenths.abs()))
            }
            Self::Hundredths => (1..10).contains(&count) || (count % 10 == 0 && (10..100).contains(&count)),
            Self::Microns => (1..100).contains(&count),
            Self::SleeveThimble => (100..10_000).contains(&count) && count % 50 != 0,
            Self::Point => (1..1_000_000).contains(&count) && count % 1000 != 0,
            Self::Fraction => (1..6_400).contains(&count) && count % 64 != 0,
            Self::Degrees => (60..360 * 60).contains(&count) && count % 60 != 0,
        }
    }

    /// A value that is said so. Drawn uniform: the figures one after the other, the large ones first.
    fn value(self, notation: Notation, draw: &mut Draw) -> Exact {
        let places = match notation {
            Notation::Decimal { places } => places,
            Notation::Fraction | Notation::Angle => 0,
        };
        let mut below = |n: u32| i128::from(draw.below(n));
        let count = match self {
            Self::RunTogether | Self::Thou | Self::Thousandths => {
                let inches = i128::from(below(3) == 0);
                let least = if self == Self::RunTogether { 100 } else { 11 };
                let thou = least + below(u32::try_from(1000 - least).expect("below a thousand"));
                let tenths = if places >= 4 { below(10) } else { 0 };
                inches * 10_000 + thou * 10 + tenths
            }
            Self::Allowance => {
                const SAID: [i128; 14] = [1, 2, 3, 4, 5, 6, 8, 10, 15, 20, 25, 30, 35, 50];
                let size = SAID[usize::try_from(below(14)).expect("one of these")];
                if below(2) == 0 { size } else { -size }
            }
            Self::Hundredths => (1 + below(9)) * if below(2) == 0 { 1 } else { 10 },
            Self::Microns => 1 + below(99),
            Self::SleeveThimble => (1 + below(24)) * 100 + below(2) * 50 + 1 + below(49),
            // With as many figures as the tool gives.
            Self::Point => {
                let unit = match places {
                    0 | 1 => 100,
                    2 => 10,
                    _ => 1,
                };
                let part = u32::try_from(1000 / unit - 1).expect("below a thousand");
                below(25) * 1000 + (1 + below(part)) * unit
            }
            Self::Fraction => {
                let whole = below(4);
                let under = 2_u32 << draw.below(6);
                let over = 2 * i128::from(draw.below(under / 2)) + 1;
                whole * 64 + over * 64 / i128::from(under)
            }
            Self::Degrees => (1 + below(89)) * 60 + 1 + below(59),
        };
        Exact::whole(count) * self.unit()
    }

    /// How its figures are written.
    fn notation(self, value: Exact) -> Notation {
        match self {
            Self::Fraction => Notation::Fraction,
            Self::Degrees => Notation::Angle,
            _ => Notation::Decimal { places: value.decimal_places().unwrap_or(0) },
        }
    }

    /// What is written by someone who takes it wrong.
    fn slips(self, value: Exact) -> Vec<(&'static str, Exact)> {
        let Some(count) = self.count(value) else { return Vec::new() };
        let of = |n: i128| Exact::whole(n) * self.unit();
        let tenths = count % 10;
        let thou = count - tenths;
        let mut all = Vec::new();
        let place = [("place-slip", value * Exact::whole(10)), ("place-slip", value.over(Exact::whole(10)))];
        match self {
            Self::RunTogether | Self::Thou | Self::Thousandths | Self::Allowance => {
                if self == Self::Allowance {
                    all.push(("other-sign", -value));
                }
                let id = if tenths.abs() == 5 { "half-as-five" } else { "tenth-as-thou" };
                if tenths != 0 {
                    all.push((id, of(thou + tenths * 10)));
                }
                all.extend(place);
            }
            Self::SleeveThimble => {
                if count % 100 >= 50 {
                    all.push(("half-forgotten", of(count - 50)));
                    // 8.5 and 34 are written 8.534.
                    let first = count - count % 50;
                    all.push(("figures-joined", of(first) + of(count % 50).over(Exact::whole(10))));
                }
                all.extend(place);
            }
            Self::Hundredths | Self::Microns | Self::Point => all.extend(place),
            Self::Fraction => {
                let whole = of(count - count % 64);
                let part = value - whole;
                all.push(("other-denominator", whole + part * Exact::whole(2)));
                all.push(("other-denominator", whole + part.over(Exact::whole(2))));
            }
            Self::Degrees => {
                let (degrees, minutes) = (count - count % 60, count % 60);
                if minutes == 30 {
                    all.extend([("half-degree", of(degrees + 5)), ("half-degree", of(degrees + 50))]);
                } else {
                    let hundredths = of(degrees) + Exact::ratio(minutes * 60, 100);
                    all.push(("minutes-as-hundredths", hundredths));
                }
            }
        }
        all
    }

    /// Values near by: a figure more or less, two figures changed about.
    fn near(self, value: Exact) -> Vec<Exact> {
        let Some(count) = self.count(value) else { return Vec::new() };
        // On a tool that gives no tenths none are offered.
        let plain = count % 10 == 0;
        let steps: &[i128] = match self {
            Self::RunTogether | Self::Thou | Self::Thousandths if plain => &[10, 20, 100, 1000],
            Self::RunTogether | Self::Thou | Self::Thousandths => &[1, 10, 100, 250],
            Self::Allowance | Self::Hundredths if plain => &[10, 20, 30],
            Self::Allowance if count.abs() < 10 => &[1, 2, 3, 4],
            Self::Allowance => &[5, 10, 20],
            Self::Hundredths => &[1, 2, 3],
            Self::Microns => &[1, 2, 10, 20],
            Self::SleeveThimble => &[1, 10, 50, 100],
            Self::Point if count % 100 == 0 => &[100, 200, 1000],
            Self::Point if plain => &[10, 50, 100, 500],
            Self::Point => &[1, 10, 100, 500],
            Self::Fraction => &[1, 2, 4, 8, 64],
            Self::Degrees => &[1, 5, 10, 60],
        };
        let of = |n: i128| Exact::whole(n) * self.unit();
        let mut all: Vec<Exact> =
            steps.iter().flat_map(|step| [of(count + step), of(count - step)]).collect();
        if matches!(self, Self::RunTogether | Self::Thou | Self::Thousandths) {
            let (thou, rest) = (count / 10 % 1000, count % 10 + count / 10_000 * 10_000);
            let swapped = thou / 100 * 100 + thou % 10 * 10 + thou / 10 % 10;
            all.push(of(swapped * 10 + rest));
        }
        all
    }

    /// What was said, as it stands in a record.
    pub(super) fn record(self, value: Exact, unit: Unit) -> String {
        format!("{} said {self}", self.figures(value, unit))
    }

    /// The figures of a value said so, with their unit.
    pub fn figures(self, value: Exact, unit: Unit) -> String {
        self.notation(value).spell_with_unit(value, unit)
    }
}

#[cfg(test)]
mod tests {
    use super::super::{Given, Task, task};
    use super::*;
    use crate::drill::Verdict;
    use crate::instrument::Catalogue;
    use std::collections::{BTreeMap, HashSet};

    fn all_parts(tool: &Instrument, numbers: u32) -> Vec<Part> {
        let one = |number| {
            let Some(Task { mut parts, .. }) = task(Kind::ShopSpeech, tool, Seed(4), number) else {
                panic!("{}: {number}", tool.id)
            };
            assert_eq!(parts.len(), 1);
            parts.remove(0)
        };
        (1..=numbers).map(one).collect()
    }

    #[test]
    fn on_every_tool_one_answer_is_right_and_the_others_are_what_they_say() {
        let catalogue = Catalogue::new(Vec::new());
        let mut places: BTreeMap<usize, u32> = BTreeMap::new();
        let (mut heard, mut seen) = (0, 0);
        for tool in catalogue.all() {
            for part in all_parts(tool, 60) {
                match &part.wanted {
                    Wanted::Figure(figure) => {
                        heard += 1;
                        let text = figure.notation.spell_with_unit(figure.expected, figure.unit);
                        let typed = part.typed(&text).expect("a figure");
                        let marked = part.mark(&Given::Typed(typed));
                        assert_eq!(marked.verdict, Verdict::Right, "{} {:?}", tool.id, part.asked);
                        let Asked::Heard { manner, value } = part.asked else { panic!("heard") };
                        assert!(manner.says(value), "{manner} {value:?}");
                        assert!(figure.slips.iter().all(|found| found.wrong.answer != value), "{figure:?}");
                    }
                    Wanted::Choice(choice) => {
                        seen += u32::from(!part.pictures.is_empty());
                        *places.entry(choice.right).or_default() += 1;
                        let Asked::SaidHow { manner, .. } = part.asked else { panic!("said") };
                        let mut said = HashSet::new();
                        for (place, option) in choice.options.iter().enumerate() {
                            let Says::Value(value) = option.says else { panic!("a value") };
                            assert!(said.insert(value) && manner.says(value), "{} {choice:?}", tool.id);
                            let marked = part.mark(&Given::Chosen(place));
                            assert_eq!(marked.verdict.is_right(), place == choice.right);
                            if let Some(id) = option.slip {
                                assert_eq!(marked.slips[0].misread.id, id, "{} {option:?}", tool.id);
                                assert_eq!(marked.slips[0].wrong.answer, value);
                            }
                        }
                        assert_eq!(choice.options.len(), 4);
                    }
                    other => panic!("{other:?}"),
                }
            }
        }
        assert!(heard > 800 && seen > 200, "{heard} {seen}");
        // Four places, each as likely: of n choices a quarter within four standard deviations.
        let n: u32 = places.values().sum();
        for (place, times) in &places {
            let off = (i64::from(*times) * 4 - i64::from(n)).pow(2);
            assert!(off < 16 * 3 * i64::from(n), "place {place}: {times} of {n}");
        }
    }

    /// Worked by hand: W16 and its like (0.200 + 0.075 + 0.011 + 0.0002), and what a tenth and a half are in the two systems.
    #[test]
    fn wrong_ways_by_hand() {
        let has = |manner: Manner, value: Exact, id: &str, wrong: Exact| {
            assert!(manner.slips(value).contains(&(id, wrong)), "{manner} {:?}", manner.slips(value));
        };
        let of = Exact::ratio;
        has(Manner::RunTogether, of(2862, 10_000), "tenth-as-thou", of(288, 1000));
        has(Manner::RunTogether, of(2865, 10_000), "half-as-five", of(291, 1000));
        has(Manner::Allowance, of(15, 10_000), "half-as-five", of(6, 1000));
        has(Manner::Allowance, of(-2, 10_000), "tenth-as-thou", of(-2, 1000));
        has(Manner::Allowance, of(-2, 10_000), "other-sign", of(2, 10_000));
        has(Manner::Hundredths, of(3, 100), "place-slip", of(3, 10));
        has(Manner::SleeveThimble, of(884, 100), "half-forgotten", of(834, 100));
        has(Manner::SleeveThimble, of(884, 100), "figures-joined", of(8534, 1000));
        has(Manner::Fraction, of(67, 64), "other-denominator", of(35, 32));
        has(Manner::Degrees, Exact::whole(12 * 60 + 30), "half-degree", Exact::whole(12 * 60 + 50));
        has(Manner::Degrees, Exact::whole(23 * 60 + 47), "minutes-as-hundredths", of(14_082, 10));
    }
}
