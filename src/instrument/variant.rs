//! Variants: the same instrument as different makers make it, and as it is held; what is fitted to it.
//!
//! A definition offers keys, each with its alternatives, the first being the one that is drawn when nobody chooses. A variant
//! is a list of choices among them and among the lengths that can be fitted; [`Instrument::fitted`] makes the tool of it.

use super::both_ways::DIRECTION;
use super::other::READS;
use super::{Choice, Course, Figured, Form, Held, Instrument, Line, Parts, Side, Sides, SmallHand};
use crate::exact::Quanta;

/// A key that a definition offers, `halves`, with its alternatives.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Offer {
    /// The key, one word.
    pub key: String,
    /// What there is to choose from; the first is drawn where nobody chooses.
    pub ways: Vec<Way>,
    /// The number of the only one that comes up, on a tool that somebody has.
    pub owned: Option<usize>,
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
    /// What the figures of a straight scale count.
    Figures {
        /// The scale's stage, chosen lengths not counted.
        stage: usize,
        /// What a figure 1 is worth.
        worth: Quanta,
    },
    /// How many divisions a vernier spans; the scale before it reaches as much further.
    Span {
        /// The vernier's stage, chosen lengths not counted.
        stage: usize,
        /// Divisions that all its parts together span.
        over: i64,
        /// One part.
        part: Quanta,
        /// Where the scale before it ends.
        end: Quanta,
    },
    /// The way a small hand turns.
    SmallHand(SmallHand),
    /// The way round the tool is held.
    Held(Held),
    /// Where the figures of a scale figured both ways grow to.
    Direction(Course),
}

impl Change {
    /// The same in quanta so many times finer.
    pub(super) fn refine(&mut self, parts: Parts) {
        match self {
            Self::Figures { worth, .. } => *worth = *worth * parts.0,
            Self::Span { part, end, .. } => (*part, *end) = (*part * parts.0, *end * parts.0),
            Self::Halves(_) | Self::SmallHand(_) | Self::Held(_) | Self::Direction(_) => {}
        }
    }
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

/// The key of what somebody calls their own, in records.
pub(super) const TOOL: &str = "tool";
/// The key of a sleeve's half lines.
pub(super) const HALVES: &str = "halves";

impl Offer {
    /// A variant with the alternative of a number.
    pub fn choose(&self, variant: Variant, number: usize) -> Variant {
        if number == 0 && self.key != HALVES {
            variant.without(&self.key)
        } else {
            variant.with(&self.key, &self.ways[number].word)
        }
    }

    /// True where all alternatives are equally common.
    fn is_equal(&self) -> bool {
        [HALVES, DIRECTION].contains(&self.key.as_str())
    }

    /// The number of the alternative that comes up where nobody chooses.
    fn usual(&self) -> usize {
        self.owned.unwrap_or(0)
    }
}

impl Instrument {
    /// The variants of the tool itself that occur, the first length of every choice fitted: the usual ones, then with each of
    /// them one other thing that is [unusual](Self::unusual). The first is the one that is drawn when nobody chooses.
    pub fn variants(&self) -> Vec<Variant> {
        let usual = self.usual();
        let unusual: Vec<Variant> = usual.iter().flat_map(|variant| self.unusual(variant)).collect();
        usual.into_iter().chain(unusual).collect()
    }

    /// The variants that are equally common: half lines on either side, a protractor's zero moved to either side, all else as in
    /// the first alternative.
    pub fn usual(&self) -> Vec<Variant> {
        let equal = self.offers.iter().filter(|offer| offer.is_equal() && offer.owned.is_none());
        equal.fold(vec![self.plain()], |variants, offer| {
            let each = |variant: &Variant| -> Vec<Variant> {
                (0..offer.ways.len()).map(|n| self.ordered(&offer.choose(variant.clone(), n))).collect()
            };
            variants.iter().flat_map(each).collect()
        })
    }

    /// The usual form nearest to a variant: its half lines where they are, its lengths fitted, all else as nobody chooses.
    pub fn usual_of(&self, variant: &Variant) -> Variant {
        let others = self.offers.iter().filter(|offer| !offer.is_equal());
        let variant = others.fold(variant.clone(), |variant, offer| offer.choose(variant, offer.usual()));
        self.ordered(&variant)
    }

    /// What is less common than a variant: another alternative of one key.
    pub fn unusual(&self, variant: &Variant) -> Vec<Variant> {
        let open = self.offers.iter().filter(|offer| !offer.is_equal() && offer.owned.is_none());
        let others = |offer: &Offer| -> Vec<Variant> {
            (1..offer.ways.len()).map(|n| self.ordered(&offer.choose(variant.clone(), n))).collect()
        };
        open.flat_map(others).collect()
    }

    /// The tool of a word as somebody has it: nothing but that variant comes up; a length that is not named stays open.
    pub fn owned(&self, word: &str) -> Option<Self> {
        let variant = self.variant(word)?;
        let named = |key: &str| {
            word.split_whitespace().any(|part| part.split_once('=').is_some_and(|(k, _)| k == key))
        };
        let mut tool = self.clone();
        // Which way a protractor is turned is no property of it.
        for offer in tool.offers.iter_mut().filter(|offer| offer.key != DIRECTION) {
            let chosen = variant.value(&offer.key);
            offer.owned =
                Some(offer.ways.iter().position(|way| Some(way.word.as_str()) == chosen).unwrap_or(0));
        }
        for choice in tool.choices.iter_mut().filter(|choice| named(&choice.name)) {
            choice.owned = Some(choice.index(&variant));
        }
        Some(tool)
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
            // Whose tool it was changes nothing about it.
            if *key == TOOL {
                continue;
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
        let offers = self.offers.iter();
        let variant = offers.fold(plain, |variant, offer| offer.choose(variant, offer.usual()));
        let owned = |choice: &Choice| choice.owned.is_some_and(|n| n > 0);
        self.choices
            .iter()
            .filter(|choice| owned(choice))
            .fold(variant, |variant, choice| choice.fit(variant, choice.owned.unwrap_or(0)))
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
        let offers = self.offers.clone();
        for offer in &offers {
            let chosen = variant.value(&offer.key);
            let way = offer.ways.iter().find(|way| Some(way.word.as_str()) == chosen);
            // What stands as it is to be is left alone: it goes on being shared.
            if let Some(way) = way.or(offer.ways.first()).filter(|way| !self.stands(&way.change)) {
                self.change(&way.change);
            }
        }
    }

    /// Whether a change would change nothing.
    fn stands(&self, change: &Change) -> bool {
        let mut forms = self.stages.iter().map(|stage| &stage.form);
        match *change {
            Change::Direction(course) => forms.all(|form| match form {
                Form::Line(line) => line.figured != Figured::BothWays || line.runs == course,
                _ => true,
            }),
            Change::Halves(side) => forms.all(|form| match form {
                Form::Line(Line { sides: Sides::Split { halves, .. }, .. }) => {
                    halves.is_sorted_by_key(|known| *known != side)
                }
                _ => true,
            }),
            Change::Figures { stage, worth } => forms.nth(stage).is_none_or(|form| match form {
                Form::Line(line) => line.numerals.iter().all(|rule| rule.worth == worth),
                _ => true,
            }),
            Change::SmallHand(turns) => forms.all(|form| match form {
                Form::Dial(dial) => dial.small_hand == turns,
                _ => true,
            }),
            Change::Held(held) => self.held == held,
            Change::Span { .. } => false,
        }
    }

    fn change(&mut self, change: &Change) {
        match *change {
            Change::Direction(course) => self.turn_to(course),
            Change::Halves(side) => self.lines(|line| {
                if let Sides::Split { halves, .. } = &mut line.sides {
                    halves.sort_by_key(|known| *known != side);
                }
            }),
            Change::Figures { stage, worth } => {
                if let Some(Form::Line(line)) = self.form(stage) {
                    for rule in &mut line.numerals {
                        rule.worth = worth;
                    }
                }
            }
            Change::Span { stage, over, part, end } => {
                if let Some(Form::Line(line)) = stage.checked_sub(1).and_then(|before| self.form(before)) {
                    line.end = end;
                }
                if let Some(Form::Vernier(vernier)) = self.form(stage) {
                    (vernier.over, vernier.part) = (over, part);
                }
            }
            Change::SmallHand(turns) => {
                for stage in &mut self.stages {
                    if let Form::Dial(dial) = &mut stage.form {
                        dial.small_hand = turns;
                    }
                }
            }
            Change::Held(held) => self.held = held,
        }
    }

    fn form(&mut self, stage: usize) -> Option<&mut Form> {
        self.stages.get_mut(stage).map(|stage| &mut stage.form)
    }

    fn lines(&mut self, change: impl Fn(&mut Line)) {
        for stage in &mut self.stages {
            if let Form::Line(line) = &mut stage.form {
                change(line);
            }
        }
    }
}
