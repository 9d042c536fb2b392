//! Variants: the same instrument as different makers make it, and as it is held; what is fitted to it.
//!
//! A definition offers keys, each with its alternatives, the first being the one that is drawn when nobody chooses. A variant
//! is a list of choices among them and among the lengths that can be fitted; [`Instrument::fitted`] makes the tool of it.

use super::other::READS;
use super::{Choice, Course, Figured, Form, Instrument, Line, Side, Sides};

/// A key that a definition offers, `halves`, with its alternatives.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Offer {
    /// The key, one word.
    pub key: String,
    /// What there is to choose from; the first is drawn where nobody chooses.
    pub ways: Vec<Way>,
}

/// One alternative of an [`Offer`].
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Way {
    /// Its word, `above`.
    pub word: String,
    /// What it changes on the tool.
    pub change: Change,
}

/// What an alternative changes on the tool.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Change {
    /// The side of the datum line on which a sleeve's half lines stand.
    Halves(Side),
    /// Where the figures of a scale figured both ways grow to.
    Direction(Course),
}

/// What differs between makers of the same instrument, how it is held, and what is fitted to it: choices, spelled
/// `halves=above rod=2 in`.
#[derive(Clone, Debug, Default, PartialEq, Eq, Hash)]
pub struct Variant {
    /// Keys and words, in the definition's order, lengths last. The side of half lines is always named, all else only where it is
    /// not the first alternative.
    chosen: Vec<(String, String)>,
}

impl Variant {
    /// The variant as options and records spell it: empty, `halves=above`, `halves=above rod=2 in`.
    pub fn word(&self) -> String {
        let pairs = self.chosen.iter().map(|(key, word)| format!("{key}={word}"));
        pairs.collect::<Vec<_>>().join(" ")
    }

    /// What is chosen for a key; none where that is the first alternative.
    pub fn value(&self, key: &str) -> Option<&str> {
        self.chosen.iter().find(|(known, _)| known == key).map(|(_, word)| word.as_str())
    }

    /// With one choice more, or another one for its key.
    #[must_use]
    pub fn with(mut self, key: &str, word: &str) -> Self {
        match self.chosen.iter_mut().find(|(known, _)| known == key) {
            Some(pair) => word.clone_into(&mut pair.1),
            None => self.chosen.push((key.to_owned(), word.to_owned())),
        }
        self
    }

    /// Without a choice for a key.
    #[must_use]
    pub fn without(mut self, key: &str) -> Self {
        self.chosen.retain(|(known, _)| known != key);
        self
    }

    /// The side of the datum line on which a sleeve's half lines stand, where that is chosen.
    pub fn halves(&self) -> Option<Side> {
        let word = self.value(HALVES)?;
        [Side::Above, Side::Below].into_iter().find(|side| side.word() == word)
    }
}

/// The key of a sleeve's half lines.
const HALVES: &str = "halves";

impl Offer {
    /// A variant with the alternative of a number.
    pub fn choose(&self, variant: Variant, number: usize) -> Variant {
        if number == 0 && self.key != HALVES {
            variant.without(&self.key)
        } else {
            variant.with(&self.key, &self.ways[number].word)
        }
    }

    /// The offer of a sleeve's half lines.
    pub(super) fn of_halves(sides: &[Side]) -> Self {
        let way = |side: &Side| Way { word: side.word().to_owned(), change: Change::Halves(*side) };
        Self { key: HALVES.to_owned(), ways: sides.iter().map(way).collect() }
    }
}

impl Instrument {
    /// The variants of the tool itself that occur, one key varied at a time and the first length of every choice fitted. The
    /// first is the one that is drawn when nobody chooses.
    pub fn variants(&self) -> Vec<Variant> {
        let plain = self.plain();
        let other = |offer: &Offer| -> Vec<Variant> {
            (1..offer.ways.len()).map(|n| self.ordered(&offer.choose(plain.clone(), n))).collect()
        };
        let others: Vec<Variant> = self.offers.iter().flat_map(other).collect();
        std::iter::once(plain.clone()).chain(others).collect()
    }

    /// Each of [`Self::variants`] with every combination of lengths.
    pub fn fittings(&self) -> Vec<Variant> {
        let mut all = self.variants();
        all.extend(self.sets().into_iter().skip(1));
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
        let mut pairs: Vec<(&str, String)> = Vec::new();
        for part in word.split_whitespace() {
            match (part.split_once('='), pairs.last_mut()) {
                (Some((key, value)), _) => pairs.push((key, value.to_owned())),
                (None, Some((_, value))) => {
                    value.push(' ');
                    value.push_str(part);
                }
                (None, None) => return None,
            }
        }
        let mut variant = self.plain();
        for (n, (key, value)) in pairs.iter().enumerate() {
            if pairs[..n].iter().any(|(other, _)| other == key) {
                return None;
            }
            variant = if *key == READS {
                self.sets().into_iter().nth(self.set_words().iter().position(|word| word == value)?)?
            } else if let Some(offer) = self.offers.iter().find(|offer| offer.key == *key) {
                offer.choose(variant, offer.ways.iter().position(|way| way.word == *value)?)
            } else {
                let choice = self.choices.iter().find(|choice| choice.name == *key)?;
                choice.fit(variant, self.length_of(choice, value)?)
            };
        }
        Some(self.ordered(&variant))
    }

    /// The variant that is drawn when nobody chooses.
    pub fn plain(&self) -> Variant {
        let set = self.other.as_ref().and_then(|other| other.second_is_read());
        let plain = set.map_or_else(Variant::default, |word| Variant::default().with(READS, word));
        self.offers.iter().fold(plain, |variant, offer| offer.choose(variant, 0))
    }

    /// The words of a variant, key by key as `key=word|word`, for someone who wrote another.
    pub fn offered(&self) -> Vec<String> {
        let key = |key: &str, words: Vec<&str>| format!("{key}={}", words.join("|"));
        let offers =
            self.offers.iter().map(|o| key(&o.key, o.ways.iter().map(|way| way.word.as_str()).collect()));
        let lengths = |choice: &Choice| {
            key(&choice.name, choice.lengths.iter().map(|length| length.written.as_str()).collect())
        };
        let sets = self.other.iter().map(|_| key(READS, self.set_words()));
        sets.chain(offers).chain(self.choices.iter().map(lengths)).collect()
    }

    /// The same choices in the definition's order.
    fn ordered(&self, variant: &Variant) -> Variant {
        let keys = std::iter::once(READS).chain(self.offers.iter().map(|offer| offer.key.as_str()));
        let keys = keys.chain(self.choices.iter().map(|choice| choice.name.as_str()));
        let pair = |key: &str| variant.value(key).map(|word| (key.to_owned(), word.to_owned()));
        Variant { chosen: keys.filter_map(pair).collect() }
    }

    /// Carries out what a variant changes on the tool; what it does not name is as in the first alternative.
    pub(super) fn take(&mut self, variant: &Variant) {
        for offer in self.offers.clone() {
            let chosen = variant.value(&offer.key);
            let way = offer.ways.iter().find(|way| Some(way.word.as_str()) == chosen);
            if let Some(way) = way.or(offer.ways.first()) {
                self.change(&way.change);
            }
        }
    }

    fn change(&mut self, change: &Change) {
        match change {
            Change::Direction(course) => self.turn_to(*course),
            Change::Halves(side) => {
                for stage in &mut self.stages {
                    if let Form::Line(Line { sides: Sides::Split { halves, .. }, .. }) = &mut stage.form {
                        halves.sort_by_key(|known| known != side);
                    }
                }
            }
        }
    }

    /// What the scales offer, from the stages as they were built.
    pub(super) fn offers_of(stages: &[super::Stage]) -> Vec<Offer> {
        let halves = stages.iter().find_map(|stage| match &stage.form {
            Form::Line(Line { sides: Sides::Split { halves, .. }, .. }) => Some(Offer::of_halves(halves)),
            _ => None,
        });
        let both = |stage: &super::Stage| matches!(&stage.form, Form::Line(line) if line.figured == Figured::BothWays);
        let direction = stages.iter().any(both).then(Offer::of_direction);
        halves.into_iter().chain(direction).collect()
    }
}
