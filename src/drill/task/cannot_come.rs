//! An inspection sheet with four entries: which one cannot come from this tool?
//!
//! Drawn in this order: what is the matter with the one, of what is possible here; that entry; the three others, each a number
//! of steps from the lowest (and on a tool whose last digit may be judged, a number below 2, 1 meaning that it was, then the
//! digit), until they differ; the order.

use super::{Asked, Choice, Offered, Part, Says, Wanted, plain_reading};
use crate::drill::Kind;
use crate::drill::draw::Draw;
use crate::drill::generate::Seed;
use crate::exact::{Exact, Notation, Quanta, Quantity};
use crate::instrument::{Form, Instrument};

/// Why an entry cannot come from a tool.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Impossible {
    /// It lies between two neighbouring values of the tool, though it has no more digits: an odd last digit on 0.02 mm.
    Between,
    /// It is finer than anything the tool shows.
    Finer,
    /// The tool does not reach that far.
    Outside,
}

/// Entries of the other kind on a sheet.
const POSSIBLE: usize = 3;

/// The tool and the sheet.
pub(super) fn parts(instrument: &Instrument, seed: Seed, number: u32, draw: &mut Draw) -> Option<Vec<Part>> {
    let mut part = Part::reading(instrument, plain_reading(instrument, seed, number));
    let tool = &part.tool;
    let all = Impossible::on(tool);
    let why = *all.get(draw.place(all.len()))?;
    let odd = why.entry(tool, draw);
    let mut entries: Vec<Exact> = Vec::new();
    while entries.len() < POSSIBLE {
        let entry = possible(tool, draw);
        if !entries.contains(&entry) {
            entries.push(entry);
        }
    }
    let offered = |value| Offered { says: Says::Value(value), slip: None };
    let choice = Choice::shuffled(offered(odd), entries.into_iter().map(offered).collect(), draw);
    part.kind = Kind::CannotCome;
    part.asked = Asked::CannotCome { why };
    part.wanted = Wanted::Choice(choice);
    Some(vec![part])
}

/// An entry that can come from the tool.
fn possible(tool: &Instrument, draw: &mut Draw) -> Exact {
    let value = tool.value(on_its_steps(tool, draw));
    match tool.estimate.zip(tool.estimate_step()) {
        Some((estimate, step)) if draw.below(2) == 1 => {
            let parts = u32::try_from(estimate.parts.0).expect("a few parts");
            let judged = value + step * Exact::whole(i128::from(draw.below(parts)));
            if judged <= tool.value(tool.high) { judged } else { value }
        }
        _ => value,
    }
}

/// A number of least counts from the lowest.
fn on_its_steps(tool: &Instrument, draw: &mut Draw) -> Quanta {
    let count = (tool.high - tool.low).passed(tool.least_count) + 1;
    let count = u32::try_from(count).expect("the definition was checked: a bounded number of settings");
    tool.low + tool.least_count * i64::from(draw.below(count))
}

/// The same with room above it.
fn with_room_above(tool: &Instrument, draw: &mut Draw) -> Quanta {
    on_its_steps(tool, draw).min(tool.high - tool.least_count)
}

/// The worth of the last digit that is written.
fn last_digit(tool: &Instrument) -> Option<Exact> {
    match tool.notation {
        Notation::Decimal { places } => Some(Exact::ratio(1, 10_i128.pow(places))),
        Notation::Angle => Some(Exact::ONE),
        Notation::Fraction => None,
    }
}

/// Whether the tool says how far it reaches: a range stamped on it, a length, or a disc figured to 90 and back.
fn range_is_seen(tool: &Instrument) -> bool {
    let reaches = |text: &String| {
        let whole = Quantity::parse(text)
            .is_ok_and(|quantity| quantity.unit == tool.unit && quantity.value >= tool.value(tool.high));
        whole || (text.contains('-') && text.starts_with(|c: char| c.is_ascii_digit()))
    };
    tool.is_both_ways() || tool.engraved.iter().any(reaches)
}

impl Impossible {
    /// What can be the matter with an entry for a tool.
    fn on(tool: &Instrument) -> Vec<Self> {
        let coarse = last_digit(tool).is_some_and(|digit| digit < tool.value(tool.least_count));
        let mut all = vec![if coarse { Self::Between } else { Self::Finer }];
        if range_is_seen(tool) {
            all.push(Self::Outside);
        }
        all
    }

    /// An entry of that kind.
    fn entry(self, tool: &Instrument, draw: &mut Draw) -> Exact {
        let steps = |exact: Exact| u32::try_from(exact.numerator()).expect("a few steps");
        match self {
            Self::Between => {
                let digit = last_digit(tool).unwrap_or(Exact::ONE);
                let most = steps(tool.value(tool.least_count).over(digit));
                // Whole degrees can be halved or quartered by eye; nobody judges single minutes.
                let ends: Vec<u32> = (1..most).filter(|end| most <= 10 || end % 5 != 0).collect();
                let end = ends[draw.place(ends.len())];
                tool.value(with_room_above(tool, draw)) + digit * Exact::whole(i128::from(end))
            }
            Self::Finer => {
                let base = tool.value(with_room_above(tool, draw));
                let part = finer_than_any(tool);
                let parts = steps(tool.value(tool.least_count).over(part));
                let ends: Vec<u32> = (1..parts).filter(|end| parts < 10 || end % 10 != 0).collect();
                base + part * Exact::whole(i128::from(ends[draw.place(ends.len())]))
            }
            Self::Outside => {
                let span = (tool.high - tool.low).passed(tool.least_count);
                let (least, most) = ((span / 50).max(2), (span / 4).max(3));
                let beyond = least + i64::from(draw.below(u32::try_from(most - least).unwrap_or(1).max(1)));
                let below = tool.low - tool.least_count * beyond;
                if below > Quanta::ZERO && draw.below(2) == 0 {
                    return tool.value(below);
                }
                tool.value(tool.high + tool.least_count * beyond)
            }
        }
    }
}

/// A digit beyond what is read or judged. Between the lines of anything but a vernier a tenth may be judged by eye whether the
/// definition says so or not, and of a fraction a half.
fn finer_than_any(tool: &Instrument) -> Exact {
    let vernier = tool.finest().is_some_and(|stage| matches!(tool.stages[stage].form, Form::Vernier(_)));
    let parts = match (tool.notation, vernier) {
        (Notation::Fraction, true) => 2,
        (Notation::Fraction, false) => 4,
        (_, true) => 10,
        (_, false) => 100,
    };
    tool.value(tool.least_count).over(Exact::whole(parts))
}

#[cfg(test)]
mod tests {
    use super::super::testing::every;
    use super::*;

    fn entries(part: &Part) -> (Exact, Vec<Exact>) {
        let Wanted::Choice(choice) = &part.wanted else { panic!("a choice") };
        let value = |offered: &Offered| match offered.says {
            Says::Value(value) => value,
            Says::Word(_) => panic!("a value"),
        };
        let others = choice.options.iter().enumerate().filter(|(n, _)| *n != choice.right);
        (value(&choice.options[choice.right]), others.map(|(_, offered)| value(offered)).collect())
    }

    #[test]
    fn one_entry_lies_off_the_steps_or_outside_and_the_others_do_not() {
        for (tool, task) in every(Kind::CannotCome, 60) {
            let part = &task.parts[0];
            let (odd, others) = entries(part);
            let tool_here = &part.tool;
            let judged = tool_here.estimate_step().unwrap_or(tool_here.value(tool_here.least_count));
            let comes = |value: Exact| {
                let from_low = value - tool_here.value(tool_here.low);
                from_low.over(judged).to_whole().is_some()
                    && !from_low.is_negative()
                    && value <= tool_here.value(tool_here.high)
            };
            assert_eq!(others.len(), POSSIBLE);
            assert!(others.iter().all(|value| comes(*value)), "{} {others:?}", tool.id);
            assert!(!comes(odd), "{} {odd:?}", tool.id);
        }
    }

    /// The last digit of a 0.02 mm vernier is always even (notes of W66 in the worked readings); a protractor of 12 parts to a
    /// degree gives 0, 5, 10 ... 55 minutes (OD1642, W77).
    #[test]
    fn odd_digits_and_single_minutes() {
        let (mut odd_digits, mut minutes) = (0, 0);
        for (tool, task) in every(Kind::CannotCome, 60) {
            let part = &task.parts[0];
            if part.asked != (Asked::CannotCome { why: Impossible::Between }) {
                continue;
            }
            let (odd, _) = entries(part);
            let spelled = tool.notation.spell(odd);
            if tool.id == "caliper-metric-50" {
                assert!(spelled.ends_with(['1', '3', '5', '7', '9']), "{spelled}");
                odd_digits += 1;
            }
            if tool.id == "bevel-protractor" {
                assert!(!(spelled.ends_with("0'") || spelled.ends_with("5'")), "{spelled}");
                minutes += 1;
            }
        }
        assert!(odd_digits > 5 && minutes > 5, "{odd_digits} {minutes}");
    }
}
