//! Fixed lengths that are chosen: rods, a spacing collar, a frame out of a set of frames.

use super::{Course, DIRECTION, Form, Instrument, Line, Side, Sides, Stage};
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

/// What differs between makers of the same instrument, and what is fitted to it.
#[derive(Clone, Debug, Default, PartialEq, Eq, Hash)]
pub struct Variant {
    /// The side of the datum line on which a sleeve's half lines stand.
    pub halves: Option<Side>,
    /// Where the figures grow to from the nought of a scale figured both ways, if not to the right.
    pub direction: Option<Course>,
    /// Chosen lengths other than the first: what is chosen, and the length as the definition spells it.
    pub fitted: Vec<(String, String)>,
}

impl Variant {
    /// The variant as options and records spell it: empty, `halves=above`, `halves=above rod=2 in`.
    pub fn word(&self) -> String {
        let halves = self.halves.map(|side| format!("halves={}", side.word()));
        let fitted = self.fitted.iter().map(|(name, length)| format!("{name}={length}"));
        let direction = self.direction.and_then(Course::direction).map(|word| format!("{DIRECTION}={word}"));
        halves.into_iter().chain(direction).chain(fitted).collect::<Vec<_>>().join(" ")
    }
}

impl Instrument {
    /// The variants of the tool itself that occur, the first length of every choice fitted. The first is the one that is drawn
    /// when nobody chooses.
    pub fn variants(&self) -> Vec<Variant> {
        for stage in &self.stages {
            if let Form::Line(Line { sides: Sides::Split { halves, .. }, .. }) = &stage.form {
                let of = |side: &Side| Variant { halves: Some(*side), ..Variant::default() };
                return halves.iter().map(of).collect();
            }
        }
        if self.is_both_ways() {
            let left = Variant { direction: Some(Course::Leftward), ..Variant::default() };
            return vec![Variant::default(), left];
        }
        vec![Variant::default()]
    }

    /// Each of [`Self::variants`] with every combination of lengths.
    pub fn fittings(&self) -> Vec<Variant> {
        let mut all = self.variants();
        for choice in &self.choices {
            let with = |variant: &Variant| -> Vec<Variant> {
                (0..choice.lengths.len()).map(|n| choice.fit(variant.clone(), n)).collect()
            };
            all = all.iter().flat_map(with).collect();
        }
        all
    }

    /// The variant of a word; `None` where this instrument does not come so. A length may be spelled in another way than in the
    /// definition, and its unit left out.
    pub fn variant(&self, word: &str) -> Option<Variant> {
        let known = self.variants();
        let mut variant = known.first()?.clone();
        let mut pairs: Vec<(&str, String)> = Vec::new();
        for part in word.split_whitespace() {
            match (part.split_once('='), pairs.last_mut()) {
                (Some((name, value)), _) => pairs.push((name, value.to_owned())),
                (None, Some((_, value))) => {
                    value.push(' ');
                    value.push_str(part);
                }
                (None, None) => return None,
            }
        }
        for (n, (name, value)) in pairs.iter().enumerate() {
            if pairs[..n].iter().any(|(other, _)| other == name) {
                return None;
            }
            if *name == DIRECTION && self.is_both_ways() {
                let course = Course::from_direction(value)?;
                variant.direction = Some(course).filter(|course| *course != Course::Rightward);
                continue;
            }
            if *name == "halves" {
                variant.halves =
                    known.iter().find(|known| known.halves.map(Side::word) == Some(value))?.halves;
            }
        }
        let chosen = |name: &str| self.choices.iter().any(|choice| choice.name == name);
        let known = |name: &str| name == "halves" || name == DIRECTION && self.is_both_ways() || chosen(name);
        if pairs.iter().any(|(name, _)| !known(name)) {
            return None;
        }
        for choice in &self.choices {
            if let Some((_, value)) = pairs.iter().find(|(name, _)| *name == choice.name) {
                variant = choice.fit(variant, self.length_of(choice, value)?);
            }
        }
        Some(variant)
    }

    /// How many of the engraved texts, from the first on, are stamped with a length that is chosen.
    pub fn stamped(&self) -> usize {
        let fitted = self.choices.iter().zip(&self.fitted);
        fitted.filter(|(choice, n)| !choice.lengths[**n].stamped.is_empty()).count()
    }

    fn length_of(&self, choice: &Choice, text: &str) -> Option<usize> {
        let quantity =
            Quantity::parse(text).or_else(|_| Quantity::parse(&format!("{text} {}", self.unit.symbol())));
        let quantity = quantity.ok().filter(|quantity| quantity.unit == self.unit)?;
        let at = self.lattice.at(quantity.value)?;
        choice.lengths.iter().position(|length| length.value == at)
    }

    /// The instrument with the lengths of a variant fitted: its range, its fixed stages and what is stamped on it.
    #[must_use]
    pub fn fitted(&self, variant: &Variant) -> Self {
        let mut tool = self.clone();
        tool.turn_to(variant.direction.unwrap_or(Course::Rightward));
        let sum = |of: &Self| -> Quanta {
            of.choices.iter().zip(&of.fitted).map(|(c, n)| c.lengths[*n].value).sum()
        };
        let stamps = |of: &Self| -> Vec<String> {
            let stamp = |(choice, n): (&Choice, &usize)| choice.lengths[*n].stamped.clone();
            of.choices.iter().zip(&of.fitted).map(stamp).filter(|text| !text.is_empty()).collect()
        };
        let engraved = self.engraved[self.stamped()..].iter().cloned();
        tool.fitted = self.choices.iter().map(|choice| choice.index(variant)).collect();
        tool.engraved = stamps(&tool).into_iter().chain(engraved).collect();
        let longer = sum(&tool) - sum(self);
        (tool.low, tool.high) = (self.low + longer, self.high + longer);
        let chosen = |stage: &Stage| {
            matches!(stage.form, Form::Fixed(_))
                && self.choices.iter().any(|choice| choice.name == stage.name)
        };
        tool.stages.retain(|stage| !chosen(stage));
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
    pub fn fit(&self, mut variant: Variant, number: usize) -> Variant {
        variant.fitted.retain(|(name, _)| *name != self.name);
        if number > 0 {
            variant.fitted.push((self.name.clone(), self.lengths[number].written.clone()));
        }
        variant
    }

    /// The number of the length that a variant fits.
    fn index(&self, variant: &Variant) -> usize {
        let named = variant.fitted.iter().find(|(name, _)| *name == self.name);
        named
            .and_then(|(_, text)| self.lengths.iter().position(|length| length.written == *text))
            .unwrap_or(0)
    }
}
