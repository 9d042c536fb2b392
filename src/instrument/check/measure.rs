//! What the stages of a definition amount to. `None` wherever a key that is needed is missing or faulty.

use crate::exact::{Exact, Notation, Unit};
use crate::instrument::schema::{Definition, Draft, Shape, Style, Written};
use crate::instrument::{Figured, Runs, Zero};

/// A vernier that can be read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Geometry {
    /// One part.
    pub(super) part: Exact,
    /// What one part more reads.
    pub(super) least_count: Exact,
    /// The way it runs.
    pub(super) runs: Runs,
}

/// The value of a key.
pub(super) fn value<T: Copy>(written: Option<&Written<T>>) -> Option<T> {
    written.map(|written| written.value)
}

/// The scale that a stage divides: the one before it that is not fixed.
pub(super) fn before(def: &Definition, at: usize) -> Option<usize> {
    (0..at).rev().find(|n| def.stages[*n].shape() != Some(Shape::Fixed))
}

/// The scale that divides a stage.
pub(super) fn after(def: &Definition, at: usize) -> Option<usize> {
    (at + 1..def.stages.len()).find(|n| def.stages[*n].shape() != Some(Shape::Fixed))
}

/// The stages of a form, with their places in the list.
pub(super) fn of_shape(def: &Definition, shape: Shape) -> impl Iterator<Item = (usize, &Draft)> {
    def.stages.iter().enumerate().filter(move |(_, stage)| stage.shape() == Some(shape))
}

/// The finest stage.
pub(super) fn finest(def: &Definition) -> Option<usize> {
    before(def, def.stages.len())
}

/// What one line more counts on a stage: its division, or a vernier's least count.
pub(super) fn counts(def: &Definition, at: usize) -> Option<Exact> {
    let stage = &def.stages[at];
    match stage.shape()? {
        Shape::Line | Shape::Drum | Shape::Dial => value(stage.division.as_ref()),
        Shape::Vernier => vernier(def, at).map(|vernier| vernier.least_count),
        Shape::Fixed => None,
    }
}

/// The division of the scale that a vernier is read against.
pub(super) fn main_division(def: &Definition, at: usize) -> Option<Exact> {
    let base = &def.stages[before(def, at)?];
    match base.shape()? {
        Shape::Line | Shape::Drum => value(base.division.as_ref()),
        Shape::Dial | Shape::Vernier | Shape::Fixed => None,
    }
}

/// The geometry of a vernier, if each of its lines coincides in its turn.
pub(super) fn vernier(def: &Definition, at: usize) -> Option<Geometry> {
    let stage = &def.stages[at];
    let division = main_division(def, at)?;
    let (parts, over) = (value(stage.parts.as_ref())?, value(stage.over.as_ref())?);
    let runs = runs(parts, over)?;
    let least_count = division.over(Exact::whole(i128::from(parts)));
    Some(Geometry { part: least_count * Exact::whole(i128::from(over)), least_count, runs })
}

/// The way a vernier of so many parts over so many divisions runs, if it can be read at all.
pub(super) fn runs(parts: i64, over: i64) -> Option<Runs> {
    match over.rem_euclid(parts) {
        rest if rest == parts - 1 => Some(Runs::Forward),
        1 if over > parts => Some(Runs::Backward),
        _ => None,
    }
}

/// The sum of the fixed stages, the first of lengths that are chosen.
pub(super) fn start(def: &Definition) -> Exact {
    let lengths =
        def.stages.iter().filter_map(|stage| value(stage.lengths.first().or(stage.length.as_ref())));
    lengths.fold(Exact::ZERO, |sum, length| sum + length)
}

/// How far a line stage must reach: the range, and the span of a vernier that runs along it.
pub(super) fn needed_end(def: &Definition, at: usize) -> Option<Exact> {
    let travel = value(def.high.as_ref())? - start(def);
    let span = match after(def, at).filter(|n| def.stages[*n].shape() == Some(Shape::Vernier)) {
        None => Exact::ZERO,
        Some(next) => {
            let parts = value(def.stages[next].parts.as_ref())?;
            match vernier(def, next)? {
                Geometry { part, runs: Runs::Forward, .. } => part * Exact::whole(i128::from(parts)),
                Geometry { runs: Runs::Backward, .. } => Exact::ZERO,
            }
        }
    };
    Some(travel + span)
}

/// True for a stage that is figured both ways from its nought.
pub(super) fn is_both_ways(stage: &Draft) -> bool {
    stage.figured.as_ref().is_some_and(|figured| figured.value == Figured::BothWays)
}

/// The first graduation of a line stage: nought, the last one of the other side on a scale figured both ways, or as far below
/// nought as a vernier that reaches back needs, one division more where zero can be off.
pub(super) fn begin(def: &Definition, at: usize) -> Option<Exact> {
    if is_both_ways(&def.stages[at]) {
        return end(def, at).map(|end| Exact::ZERO - end);
    }
    let Some(next) = after(def, at).filter(|n| def.stages[*n].shape() == Some(Shape::Vernier)) else {
        return Some(Exact::ZERO);
    };
    let vernier_of = vernier(def, next)?;
    if vernier_of.runs == Runs::Forward && !is_both_ways(&def.stages[next]) {
        return Some(Exact::ZERO);
    }
    let division = value(def.stages[at].division.as_ref())?;
    let spare = if def.zero == Some(Zero::None) { Exact::ZERO } else { division };
    let span = vernier_of.part * Exact::whole(i128::from(value(def.stages[next].parts.as_ref())?));
    let back = span + spare - (value(def.low.as_ref())? - start(def));
    Some(Exact::ZERO - round_up(back.max(Exact::ZERO), division))
}

/// The last graduation of a line stage: as written, or as far as it must reach.
pub(super) fn end(def: &Definition, at: usize) -> Option<Exact> {
    let stage = &def.stages[at];
    if let Some(end) = &stage.end {
        return Some(end.value);
    }
    let division = value(stage.division.as_ref())?;
    let needed = beyond_figures(def, at, needed_end(def, at)?).over(division);
    let whole = needed.numerator().div_euclid(needed.denominator());
    let up = if needed.to_whole().is_some() { whole } else { whole + 1 };
    Some(division * Exact::whole(up))
}

/// A scale figured both ways lies on a disc that goes on: one figure further than is needed, so that two of them always tell which way
/// it is read; where it is read at an index line, as far as can be in view.
fn beyond_figures(def: &Definition, at: usize, needed: Exact) -> Exact {
    const IN_VIEW: i128 = 3;
    let stage = &def.stages[at];
    let spacing = stage.numerals.iter().flatten().filter_map(|rule| value(rule.every.as_ref())).min();
    match spacing {
        Some(every) if is_both_ways(stage) => {
            let more = if after(def, at).is_none() { IN_VIEW } else { 1 };
            round_up(needed + every * Exact::whole(more), every)
        }
        _ => needed,
    }
}

/// The quantum: the common measure of all divisions, vernier parts, the least count and the fineness of settings.
/// `None` also where it would be finer than any instrument needs.
pub(super) fn quantum(def: &Definition) -> Option<Exact> {
    const FINEST: i128 = 100_000_000;
    let mut quantum = value(def.least_count.as_ref())?;
    let mut lengths: Vec<Exact> = value(def.settings.as_ref()).into_iter().collect();
    for (at, stage) in def.stages.iter().enumerate() {
        match stage.shape()? {
            Shape::Line | Shape::Drum | Shape::Dial => lengths.push(value(stage.division.as_ref())?),
            Shape::Vernier => {
                let vernier = vernier(def, at)?;
                lengths.extend([vernier.part, vernier.least_count]);
            }
            Shape::Fixed => {}
        }
    }
    for length in lengths {
        quantum = quantum.common_measure(length);
        if quantum.denominator() > FINEST {
            return None;
        }
    }
    Some(quantum)
}

/// What settings are whole numbers of: their own fineness, or the least count where that is missing or does not fit.
pub(super) fn step(def: &Definition) -> Option<&Written<Exact>> {
    let least = def.least_count.as_ref()?;
    let settings = def.settings.as_ref().filter(|settings| divides(settings.value, least.value));
    Some(settings.unwrap_or(least))
}

/// True when `part` goes into `whole` without rest.
pub(super) fn divides(part: Exact, whole: Exact) -> bool {
    whole.over(part).to_whole().is_some()
}

/// The next multiple of `part` that is not below `value`.
pub(super) fn round_up(value: Exact, part: Exact) -> Exact {
    let count = value.over(part);
    part * Exact::whole(-(-count.numerator()).div_euclid(count.denominator()))
}

/// A quantity as a file spells it.
pub(super) fn spell(def: &Definition, value: Exact) -> String {
    const PLACES: u32 = 5;
    let unit = def.unit.as_ref().map_or(Unit::Inch, |unit| unit.value);
    if unit == Unit::Minute {
        let degrees = value.over(Exact::whole(60));
        return match degrees.to_whole() {
            Some(degrees) => format!("{degrees} deg"),
            None => format!("{}'", Notation::Fraction.spell(value)),
        };
    }
    let fraction = def.style.as_ref().is_some_and(|style| style.value == Style::Fraction);
    let notation = match value.decimal_places() {
        _ if fraction => Notation::Fraction,
        Some(places) if places <= PLACES => Notation::Decimal { places },
        _ => Notation::Fraction,
    };
    notation.spell_with_unit(value, unit)
}
