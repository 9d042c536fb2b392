//! Tools with two sets of scales: two units on one jaw, or two slides.
//!
//! An [`Instrument`] is one set of scales that can be read; the second one stands in its [`Other`], and
//! [`Instrument::fitted`] puts the one that a variant asks for (`reads=in`) in front. So nobody below it knows of two.

use super::{Instrument, Variant};
use crate::exact::{Exact, Quanta, Unit};

/// The second set of scales of a tool.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Other {
    /// Where these scales are, seen from the set that is read.
    pub joined: Joined,
    /// The set that is read.
    pub read: Set,
    /// What the set that is read and this one are called: `mm` and `in`, `thickness` and `height`.
    pub words: [String; 2],
    /// The scales, as a tool of their own.
    pub tool: Instrument,
}

/// Where the second set of scales is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Joined {
    /// On the same beam and jaw, along the upper edge: its vernier lies above its main scale.
    Above,
    /// On the same beam and jaw, along the lower edge.
    Below,
    /// On a slide of its own, set by itself.
    OwnSlide,
}

/// One of the two sets, in the order of the definition.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Set {
    /// The one the file begins with; read where nobody chooses.
    First,
    /// The one in its table `[other]`.
    Second,
}

/// The key of a variant that says which set is read.
pub const READS: &str = "reads";

impl Joined {
    fn seen_from_there(self) -> Self {
        match self {
            Self::Above => Self::Below,
            Self::Below => Self::Above,
            Self::OwnSlide => Self::OwnSlide,
        }
    }
}

impl Other {
    /// The word of the second set, where that is read.
    pub(super) fn second_is_read(&self) -> Option<&str> {
        (self.read == Set::Second).then(|| self.word_of(Set::Second))
    }

    /// What the set of the definition's order is called.
    fn word_of(&self, set: Set) -> &str {
        &self.words[usize::from(self.read != set)]
    }
}

impl Instrument {
    /// The variants that read one set of scales or the other; a tool with one set has one.
    pub fn sets(&self) -> Vec<Variant> {
        let plain = self.plain().without(READS);
        let second = self.other.iter().map(|other| plain.clone().with(READS, other.word_of(Set::Second)));
        std::iter::once(plain.clone()).chain(second).collect()
    }

    /// The words for the sets of scales, the first set's first.
    pub fn set_words(&self) -> Vec<&str> {
        let of = |other: &'_ Other| [Set::First, Set::Second].map(|set| usize::from(other.read != set));
        self.other
            .as_deref()
            .map_or_else(Vec::new, |other| of(other).into_iter().map(|n| other.words[n].as_str()).collect())
    }

    /// The other scales of the same jaw.
    pub fn on_same_jaw(&self) -> Option<&Other> {
        self.other.as_deref().filter(|other| other.joined != Joined::OwnSlide)
    }

    /// The slide that is set by itself.
    pub fn own_slide(&self) -> Option<&Other> {
        self.other.as_deref().filter(|other| other.joined == Joined::OwnSlide)
    }

    /// The setting of the other scales of the same jaw that is nearest to where the jaw stands; half way goes up.
    ///
    /// A jaw stands in one place, and hardly any place is a setting of both scales. Were the other scale drawn between its
    /// settings, the one with two lines straight in line would give away which of them is asked; so it is drawn at its
    /// nearest setting, never more than half its least count off, less than a caliper may be wrong.
    pub fn setting_beside(&self, other: &Self, setting: Quanta) -> Quanta {
        let place = self.value(setting) * millimetres(self.unit);
        let steps = place.over(other.value(other.step) * millimetres(other.unit)) + Exact::ratio(1, 2);
        let steps = steps.numerator().div_euclid(steps.denominator());
        other.step * i64::try_from(steps).expect("a setting of a tool of that size")
    }

    /// The tool with the set of scales in front that a variant reads.
    pub(super) fn reading_set(&self, variant: &Variant) -> Self {
        let Some(other) = &self.other else { return self.clone() };
        let second = variant.value(READS) == Some(other.word_of(Set::Second));
        let wanted = if second { Set::Second } else { Set::First };
        if wanted == other.read {
            return self.clone();
        }
        let [here, there] = other.words.clone();
        let tool = Self { other: None, ..self.clone() };
        let turned =
            Other { joined: other.joined.seen_from_there(), read: wanted, words: [there, here], tool };
        Self { other: Some(Box::new(turned)), ..other.tool.clone() }
    }
}

/// What one of a unit is in millimetres; angles have no second scale.
pub(super) fn millimetres(unit: Unit) -> Exact {
    match unit {
        Unit::Inch => Exact::ratio(127, 5),
        Unit::Millimetre | Unit::Minute => Exact::whole(1),
    }
}
