//! Fixed lengths that are chosen: rods, a spacing collar, a frame out of a set of frames.

use super::{Form, Instrument, Stage, Variant};
use crate::exact::{Quanta, Quantity};

/// A fixed length that is chosen.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Choice {
    /// What is chosen, in one word: `rod`, `collar`, `frame`.
    pub name: String,
    /// How many other stages stand before it.
    pub position: usize,
    /// What there is to choose from; the first is fitted where nobody chooses.
    pub lengths: Vec<Length>,
    /// All of them come up in practice, else the first only.
    pub practised: bool,
    /// The number of the only one that comes up, on a tool that somebody has.
    pub owned: Option<usize>,
}

/// One of the lengths of a [`Choice`].
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Length {
    /// What it adds; nought adds no stage.
    pub value: Quanta,
    /// The same as the definition spells it: `2 in`.
    pub written: String,
    /// What is stamped on the tool with this length; empty where nothing is.
    pub stamped: String,
}

impl Instrument {
    /// How many of the engraved texts, from the first on, are stamped with a length that is chosen.
    pub fn stamped(&self) -> usize {
        let fitted = self.choices.iter().zip(&self.fitted);
        fitted.filter(|(choice, n)| !choice.lengths[**n].stamped.is_empty()).count()
    }

    pub(super) fn length_of(&self, choice: &Choice, text: &str) -> Option<usize> {
        let quantity =
            Quantity::parse(text).or_else(|_| Quantity::parse(&format!("{text} {}", self.unit.symbol())));
        let quantity = quantity.ok().filter(|quantity| quantity.unit == self.unit)?;
        let at = self.lattice.at(quantity.value)?;
        choice.lengths.iter().position(|length| length.value == at)
    }

    /// The instrument as a variant has it, the set of scales that it reads in front and its lengths fitted: its scales, its range,
    /// its fixed stages and what is stamped on it.
    #[must_use]
    pub fn fitted(&self, variant: &Variant) -> Self {
        self.reading_set(variant).with_lengths(variant)
    }

    fn with_lengths(&self, variant: &Variant) -> Self {
        let mut tool = self.clone();
        let sum = |of: &Self| -> Quanta {
            of.choices.iter().zip(&of.fitted).map(|(c, n)| c.lengths[*n].value).sum()
        };
        let stamps = |of: &Self| -> Vec<String> {
            let stamp = |(choice, n): (&Choice, &usize)| choice.lengths[*n].stamped.clone();
            of.choices.iter().zip(&of.fitted).map(stamp).filter(|text| !text.is_empty()).collect()
        };
        let engraved = self.engraved[self.stamped()..].iter().cloned();
        tool.fitted = self.choices.iter().map(|choice| choice.index(variant)).collect();
        if !self.choices.is_empty() {
            tool.engraved = stamps(&tool).into_iter().chain(engraved).collect();
        }
        let longer = sum(&tool) - sum(self);
        (tool.low, tool.high) = (self.low + longer, self.high + longer);
        let chosen = |stage: &Stage| {
            matches!(stage.form, Form::Fixed(_))
                && self.choices.iter().any(|choice| choice.name == stage.name)
        };
        if tool.stages.iter().any(chosen) {
            tool.stages.retain(|stage| !chosen(stage));
        }
        tool.take(variant);
        let mut put_in = 0;
        for (choice, n) in self.choices.iter().zip(&tool.fitted) {
            let length = choice.lengths[*n].value;
            if length != Quanta::ZERO {
                let stage = Stage { name: choice.name.clone(), form: Form::Fixed(length) };
                tool.stages.insert(choice.position + put_in, stage);
                put_in += 1;
            }
        }
        tool
    }
}

impl Choice {
    /// A variant with the length of a number fitted.
    pub fn fit(&self, variant: Variant, number: usize) -> Variant {
        let plain = variant.without(&self.name);
        if number > 0 { plain.with(&self.name, &self.lengths[number].written) } else { plain }
    }

    /// The number of the length that a variant fits.
    pub(super) fn index(&self, variant: &Variant) -> usize {
        let written = variant.value(&self.name);
        written.and_then(|text| self.lengths.iter().position(|length| length.written == text)).unwrap_or(0)
    }
}
