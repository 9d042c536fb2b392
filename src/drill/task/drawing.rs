//! What a drawing asks of a part, and what follows from its size: good, rework, tag it and ask, or a finer tool.
//!
//! The rules, in this order (common practice):
//! 1. More than one division beyond a limit is out, whatever the tool. Where metal is left the part can be cut again; where it
//!    is gone the part is tagged and somebody is asked: an apprentice does not scrap.
//! 2. Four divisions of the tool must go into the tolerance (ten is the rule of thumb, four the least); else a finer tool.
//! 3. One division out, or less, is no reason to condemn a part: it is measured again with a finer tool.
//! 4. All else is good. On the limit is in.

use crate::exact::{Exact, TitleBlock, Tolerance};

/// What is done with a part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Decision {
    /// It is good.
    Good,
    /// It can be cut again.
    Rework,
    /// It is tagged, and somebody is asked.
    Tag,
    /// It is measured again with a finer tool.
    Finer,
}

impl Decision {
    /// Every one, in the order in which they are offered.
    pub const ALL: [Self; 4] = [Self::Good, Self::Rework, Self::Tag, Self::Finer];

    /// The word that stands in a record.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Good => "good",
            Self::Rework => "rework",
            Self::Tag => "tag-and-ask",
            Self::Finer => "finer-tool",
        }
    }

    /// The one that a word means.
    pub fn from_word(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|decision| decision.word() == word)
    }
}

/// Why.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Because {
    /// Every size is between the limits, or on one.
    In,
    /// It is so much larger than the upper limit.
    TooLarge(Exact),
    /// It is so much smaller than the lower limit.
    TooSmall(Exact),
    /// One size is out, by no more than a division.
    OneOut,
    /// Too few divisions of the tool go into the tolerance.
    TooCoarse,
}

/// A feature of a part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Feature {
    /// A shaft's diameter.
    Shaft,
    /// A length over two faces.
    Length,
    /// A face above the surface plate.
    Height,
    /// The angle of a wedge.
    Wedge,
    /// A bore's diameter.
    Bore,
    /// How deep a pocket is.
    Pocket,
    /// The angle of a notch.
    Notch,
}

impl Feature {
    /// The word in a record.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Shaft => "shaft",
            Self::Length => "length",
            Self::Height => "height",
            Self::Wedge => "wedge",
            Self::Bore => "bore",
            Self::Pocket => "pocket",
            Self::Notch => "notch",
        }
    }

    /// True where a size that is too large has metal left; else it is the size that is too small.
    pub const fn is_outside(self) -> bool {
        matches!(self, Self::Shaft | Self::Length | Self::Height | Self::Wedge)
    }

    /// True of what is round.
    pub const fn is_round(self) -> bool {
        matches!(self, Self::Shaft | Self::Bore)
    }
}

/// How the drawing says it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Callout {
    /// The tolerance stands beside the size.
    Written,
    /// Nothing does: the title block holds.
    TitleBlock(TitleBlock),
    /// A fit class, whose limits stand on a card.
    Fit(&'static str),
}

/// How often the part was measured, and where.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Taken {
    /// Once.
    Once,
    /// At one end and at the other.
    BothEnds,
    /// At one place, in two directions.
    TwoDirections,
}

/// A size on a drawing, and how the part was measured.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Drawing {
    /// What it is the size of.
    pub feature: Feature,
    /// From where to where it may be.
    pub tolerance: Tolerance,
    /// How the drawing says so.
    pub callout: Callout,
    /// Where the part was measured.
    pub taken: Taken,
}

/// Divisions of a tool that must go into a tolerance.
const LEAST_DIVISIONS: i128 = 4;

impl Drawing {
    /// What is done with a part of these sizes, measured with a tool of this least count: the largest and the smallest decide.
    pub fn judge(&self, least_count: Exact, sizes: &[Exact]) -> (Decision, Because) {
        let over = sizes.iter().map(|size| *size - self.tolerance.high).max().unwrap_or(Exact::ZERO);
        let under = sizes.iter().map(|size| self.tolerance.low - *size).max().unwrap_or(Exact::ZERO);
        let large = (over, Because::TooLarge(over));
        let small = (under, Because::TooSmall(under));
        let (gone, left) = if self.feature.is_outside() { (small, large) } else { (large, small) };
        let divisions = self.tolerance.width().over(least_count);
        if gone.0 > least_count {
            (Decision::Tag, gone.1)
        } else if left.0 > least_count {
            (Decision::Rework, left.1)
        } else if divisions < Exact::whole(LEAST_DIVISIONS) {
            (Decision::Finer, Because::TooCoarse)
        } else if over > Exact::ZERO || under > Exact::ZERO {
            (Decision::Finer, Because::OneOut)
        } else {
            (Decision::Good, Because::In)
        }
    }

    /// True where nobody who counts half a division either way would say otherwise: not just inside a limit.
    pub(super) fn is_plain(&self, least_count: Exact, size: Exact) -> bool {
        let just_inside = |beyond: Exact| Exact::ZERO < beyond && beyond <= least_count;
        !just_inside(self.tolerance.high - size) && !just_inside(size - self.tolerance.low)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::exact::Quantity;

    fn value(text: &str) -> Exact {
        Quantity::parse(text).expect("a quantity").value
    }

    fn judged(feature: Feature, tolerance: &str, least_count: &str, sizes: &[&str]) -> (Decision, Because) {
        let tolerance = Tolerance::parse(tolerance).expect("a tolerance");
        let drawing = Drawing { feature, tolerance, callout: Callout::Written, taken: Taken::Once };
        let sizes: Vec<Exact> = sizes.iter().map(|size| value(size)).collect();
        drawing.judge(value(least_count), &sizes)
    }

    /// Worked by hand. A larger shaft and a smaller bore can be cut again, the other way not; on the limit is in; ten to one by
    /// rule of thumb, four to one the least; largest and smallest decide: common practice.
    #[test]
    fn worked_by_hand() {
        use Because::{In, OneOut, TooCoarse, TooLarge, TooSmall};
        use Decision::{Finer, Good, Rework, Tag};
        let (shaft, bore) = ("12.48 / 12.52 mm", "0.500 \u{b1}0.002 in");
        let cases = [
            (Feature::Shaft, shaft, "0.01 mm", &["12.50 mm"][..], (Good, In)),
            (Feature::Shaft, shaft, "0.01 mm", &["12.52 mm"], (Good, In)),
            (Feature::Shaft, shaft, "0.01 mm", &["12.48 mm"], (Good, In)),
            (Feature::Shaft, shaft, "0.01 mm", &["12.53 mm"], (Finer, OneOut)),
            (Feature::Shaft, shaft, "0.01 mm", &["12.55 mm"], (Rework, TooLarge(Exact::ratio(3, 100)))),
            (Feature::Shaft, shaft, "0.01 mm", &["12.46 mm"], (Tag, TooSmall(Exact::ratio(2, 100)))),
            (Feature::Shaft, shaft, "0.02 mm", &["12.50 mm"], (Finer, TooCoarse)),
            (Feature::Shaft, shaft, "0.02 mm", &["12.58 mm"], (Rework, TooLarge(Exact::ratio(6, 100)))),
            (Feature::Bore, bore, "0.001 in", &["0.502 in"], (Good, In)),
            (Feature::Bore, bore, "0.001 in", &["0.505 in"], (Tag, TooLarge(Exact::ratio(3, 1000)))),
            (Feature::Bore, bore, "0.001 in", &["0.496 in"], (Rework, TooSmall(Exact::ratio(2, 1000)))),
            // A tapered bore: one end good, the other too small; and a shaft worn at one end.
            (
                Feature::Bore,
                bore,
                "0.001 in",
                &["0.500 in", "0.495 in"],
                (Rework, TooSmall(Exact::ratio(3, 1000))),
            ),
            (
                Feature::Shaft,
                shaft,
                "0.01 mm",
                &["12.45 mm", "12.50 mm"],
                (Tag, TooSmall(Exact::ratio(3, 100))),
            ),
            // Too large at one end and too small at the other: what is gone decides.
            (
                Feature::Shaft,
                shaft,
                "0.01 mm",
                &["12.45 mm", "12.60 mm"],
                (Tag, TooSmall(Exact::ratio(3, 100))),
            ),
        ];
        for (feature, tolerance, least_count, sizes, expected) in cases {
            assert_eq!(judged(feature, tolerance, least_count, sizes), expected, "{tolerance} {sizes:?}");
        }
    }
}
