//! Digits judged between lines, and tools whose settings lie between lines.

use super::{Form, Instrument, Numerals, ReadBy, Sides};
use crate::exact::{Exact, Lattice, Notation, Quanta};

/// So many equal parts of a whole.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Parts(pub i64);

/// How the last digit of the finest scale is judged between its lines.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Estimate {
    /// The parts of a division that are told apart: tenths, fifths, halves.
    pub parts: Parts,
    /// So many of these parts either way are accepted.
    pub accept: i64,
    /// Whether a nought that was estimated must be written.
    pub nought: Nought,
}

/// Whether a nought that was estimated must be written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Nought {
    /// `8.350`: it says that the tool stood on the line.
    Required,
    /// `8.35` will do.
    Optional,
}

/// The most parts of the least count at which a setting can lie between lines, and the most an eye tells apart.
pub const MOST_PARTS: Parts = Parts(10);

impl Instrument {
    /// The stage that is read last.
    pub fn finest(&self) -> Option<usize> {
        self.stages.iter().rposition(|stage| !matches!(stage.form, Form::Fixed(_)))
    }

    /// The division of the finest stage, where that is one whose digits can be estimated.
    pub fn finest_division(&self) -> Option<Quanta> {
        match &self.stages[self.finest()?].form {
            Form::Line(line) => Some(line.division),
            Form::Drum(drum) => Some(drum.division),
            Form::Dial(_) | Form::Vernier(_) | Form::Fixed(_) => None,
        }
    }

    /// What one part of an estimate is worth; none on a tool whose definition states none.
    pub fn estimate_step(&self) -> Option<Exact> {
        let parts = self.estimate?.parts;
        Some(self.value(self.finest_division()?).over(Exact::whole(i128::from(parts.0))))
    }

    /// Whether its last digit is judged between lines.
    pub fn is_estimated(&self) -> bool {
        self.finest().is_some_and(|finest| match &self.stages[finest].form {
            Form::Line(line) => line.read == ReadBy::Estimate,
            Form::Drum(drum) => drum.read == ReadBy::Estimate,
            Form::Dial(_) | Form::Vernier(_) | Form::Fixed(_) => false,
        })
    }

    /// The same tool with its last digit judged between lines, its settings as fine as that. Unchanged where its definition
    /// does not say how finely that is done.
    #[must_use]
    pub fn estimated(&self) -> Self {
        let (Some(step), Some(finest)) = (self.estimate_step(), self.finest()) else { return self.clone() };
        let mut tool = self.refined(self.parts_for(step).unwrap_or(Parts(1)));
        match &mut tool.stages[finest].form {
            Form::Line(line) => line.read = ReadBy::Estimate,
            Form::Drum(drum) => drum.read = ReadBy::Estimate,
            Form::Dial(_) | Form::Vernier(_) | Form::Fixed(_) => {}
        }
        tool.step = tool.lattice.at(step).unwrap_or(tool.step);
        if let (Notation::Decimal { places }, Some(needed)) = (tool.notation, step.decimal_places()) {
            tool.notation = Notation::Decimal { places: places.max(needed) };
        }
        tool
    }

    /// The parts into which a quantum must be divided for a value to be a whole number of them; none where that is finer
    /// than any eye.
    pub fn parts_for(&self, value: Exact) -> Option<Parts> {
        let quantum = self.lattice.quantum();
        (1..=MOST_PARTS.0).map(Parts).find(|parts| {
            let part = quantum.over(Exact::whole(i128::from(parts.0)));
            value.over(part).to_whole().is_some()
        })
    }

    /// The same tool on a lattice so many times finer: settings may lie between its lines. It is read as before.
    #[must_use]
    pub fn refined(&self, parts: Parts) -> Self {
        let mut tool = self.clone();
        tool.lattice = Lattice::new(self.lattice.quantum().over(Exact::whole(i128::from(parts.0))));
        for at in [&mut tool.least_count, &mut tool.step, &mut tool.low, &mut tool.high] {
            *at = *at * parts.0;
        }
        if parts != Parts(1) {
            tool.step = Quanta(1);
        }
        for stage in &mut tool.stages {
            stage.form.refine(parts);
        }
        for way in tool.offers.iter_mut().flat_map(|offer| &mut offer.ways) {
            way.change.refine(parts);
        }
        for length in tool.choices.iter_mut().flat_map(|choice| &mut choice.lengths) {
            length.value = length.value * parts.0;
        }
        tool
    }
}

impl Form {
    /// The same lengths in quanta so many times finer.
    fn refine(&mut self, parts: Parts) {
        match self {
            Self::Line(line) => {
                line.division = line.division * parts.0;
                line.begin = line.begin * parts.0;
                line.end = line.end * parts.0;
                if let Sides::One { whole: Some(whole), .. } | Sides::Split { whole, .. } = &mut line.sides {
                    *whole = *whole * parts.0;
                }
                refine_marks(&mut line.tiers, &mut line.numerals, parts);
            }
            Self::Drum(drum) => {
                drum.division = drum.division * parts.0;
                refine_marks(&mut drum.tiers, &mut drum.numerals, parts);
            }
            Self::Dial(dial) => {
                dial.division = dial.division * parts.0;
                refine_marks(&mut dial.tiers, &mut dial.numerals, parts);
            }
            Self::Vernier(vernier) => {
                vernier.part = vernier.part * parts.0;
                vernier.least_count = vernier.least_count * parts.0;
                refine_marks(&mut vernier.tiers, &mut vernier.numerals, parts);
            }
            Self::Fixed(length) => *length = *length * parts.0,
        }
    }
}

fn refine_marks(tiers: &mut [Quanta], numerals: &mut [Numerals], parts: Parts) {
    for at in tiers.iter_mut().chain(numerals.iter_mut().flat_map(|rule| [&mut rule.every, &mut rule.worth]))
    {
        *at = *at * parts.0;
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::instrument::Catalogue;

    #[test]
    fn a_finer_lattice_changes_no_value() {
        let catalogue = Catalogue::new(Vec::new());
        for tool in catalogue.ids().filter_map(|id| catalogue.get(id)) {
            let fine = tool.refined(Parts(10));
            assert_eq!(tool.value(tool.low), fine.value(fine.low), "{}", tool.id);
            assert_eq!(tool.value(tool.high), fine.value(fine.high), "{}", tool.id);
            assert_eq!(tool.value(tool.least_count), fine.value(fine.least_count), "{}", tool.id);
            assert_eq!(tool.value(tool.start()), fine.value(fine.start()), "{}", tool.id);
            assert_eq!(fine.refined(Parts(1)), fine, "{}", tool.id);
        }
    }

    #[test]
    fn parts_for_a_value() {
        let catalogue = Catalogue::new(Vec::new());
        let tool = catalogue.get("micrometer-inch").expect("shipped");
        assert_eq!(tool.parts_for(Exact::ratio(491, 1000)), Some(Parts(1)));
        assert_eq!(tool.parts_for(Exact::ratio(4915, 10_000)), Some(Parts(2)));
        assert_eq!(tool.parts_for(Exact::ratio(4913, 10_000)), Some(Parts(10)));
        assert_eq!(tool.parts_for(Exact::ratio(49_131, 100_000)), None);
    }
}
