//! The stages of an instrument, coarse to fine. Every length is a whole number of the instrument's quanta.

use super::Dial;
use crate::exact::Quanta;

/// One step of the reading.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stage {
    /// The trade's name of the part that carries it: `main scale`, `sleeve`, `thimble`, `vernier`.
    pub name: String,
    /// What it looks like.
    pub form: Form,
}

/// The forms a stage can have.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Form {
    /// A straight scale: rule, main scale, sleeve.
    Line(Line),
    /// A scale that repeats every turn: a thimble.
    Drum(Drum),
    /// A round scale with a hand: a dial, the collar of a handwheel.
    Dial(Dial),
    /// n parts over m divisions of the stage before it.
    Vernier(Vernier),
    /// A constant length: a frame start, a rod.
    Fixed(Quanta),
}

/// How a stage without a finer one after it is read against its line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ReadBy {
    /// The graduation last passed; the next stage gives the rest.
    LastPassed,
    /// The graduation nearest to the line or edge.
    Nearest,
    /// The graduation in line with one of the other scale.
    Coincidence,
    /// The graduation last passed, and the part beyond it as the eye judges it.
    Estimate,
}

/// A straight scale.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Line {
    /// The value between neighbours.
    pub division: Quanta,
    /// The first graduation: nought, or below it where a vernier reaches back or the scale is figured both ways.
    pub begin: Quanta,
    /// The last graduation.
    pub end: Quanta,
    /// The way it is figured from its nought.
    pub figured: Figured,
    /// Which lines are long, longest first: a line gets the first tier that divides it, else the shortest length.
    pub tiers: Vec<Quanta>,
    /// Figures; for each line the first rule that applies counts.
    pub numerals: Vec<Numerals>,
    /// How it is read.
    pub read: ReadBy,
    /// The way its figures grow as the tool is held.
    pub runs: Course,
    /// On a sleeve: where the lines stand.
    pub sides: Sides,
}

/// The way a straight scale's figures grow as the tool is held.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Course {
    /// From left to right.
    Rightward,
    /// From right to left: the inside scale of some calipers.
    Leftward,
    /// From below upward: a height gauge.
    Upward,
}

/// Which side of the datum line a sleeve's lines stand on.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Sides {
    /// A scale without a datum line of its own (rule, main scale).
    None,
    /// All on one side; whole divisions and halves, where it has both, told apart by length.
    One {
        /// The side.
        side: Side,
        /// The distance between the whole lines, on a sleeve that also has halves.
        whole: Option<Quanta>,
    },
    /// Whole divisions (`whole` apart) on one side, the rest on the other. The halves' side is the maker's choice; the sides
    /// that occur are listed, the first being the one that is drawn when nobody chooses.
    Split {
        /// The distance between the figured, whole lines.
        whole: Quanta,
        /// The sides on which the halves may stand.
        halves: Vec<Side>,
    },
}

/// A side of the datum line.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Side {
    /// Above it as the tool is held.
    Above,
    /// Below it.
    Below,
}

impl Side {
    /// The other side.
    #[must_use]
    pub fn other(self) -> Self {
        match self {
            Self::Above => Self::Below,
            Self::Below => Self::Above,
        }
    }

    /// The word used in files and options.
    pub fn word(self) -> &'static str {
        match self {
            Self::Above => "above",
            Self::Below => "below",
        }
    }
}

impl Line {
    /// The distance between whole lines, on a sleeve that also has halves.
    pub fn whole(&self) -> Option<Quanta> {
        match self.sides {
            Sides::None => None,
            Sides::One { whole, .. } => whole,
            Sides::Split { whole, .. } => Some(whole),
        }
    }

    /// The side of the datum line on which the line at a position stands, on a tool whose halves stand on `halves`.
    pub fn side_at(&self, at: Quanta, halves: Option<Side>) -> Option<Side> {
        match &self.sides {
            Sides::None => None,
            Sides::One { side, .. } => Some(*side),
            Sides::Split { whole, halves: known } => {
                let halves = halves.or(known.first().copied())?;
                Some(if at.is_multiple_of(*whole) { halves.other() } else { halves })
            }
        }
    }
}

/// A scale round a drum.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Drum {
    /// The value between neighbours.
    pub division: Quanta,
    /// Divisions in one turn.
    pub parts: i64,
    /// As [`Line::tiers`].
    pub tiers: Vec<Quanta>,
    /// As [`Line::numerals`].
    pub numerals: Vec<Numerals>,
    /// How it is read.
    pub read: ReadBy,
}

impl Drum {
    /// The value of one turn.
    pub fn turn(&self) -> Quanta {
        self.division * self.parts
    }
}

/// A vernier: line k stands `k * part` from its zero and is worth `k * least_count`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Vernier {
    /// Parts (there is one line more than parts).
    pub parts: i64,
    /// Divisions of the scale it is read against that all parts together span.
    pub over: i64,
    /// One part.
    pub part: Quanta,
    /// What one part more reads.
    pub least_count: Quanta,
    /// Direct and long verniers run the way the scale grows, retrograde ones against it.
    pub runs: Runs,
    /// One half after its zero, or one on either side of it.
    pub figured: Figured,
    /// As [`Line::tiers`], in what a line is worth.
    pub tiers: Vec<Quanta>,
    /// As [`Line::numerals`], in what a line is worth.
    pub numerals: Vec<Numerals>,
}

/// The way a vernier's lines run from its zero.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Runs {
    /// As the scale grows (direct, long).
    Forward,
    /// Against it (retrograde).
    Backward,
}

/// The way a scale is figured from its nought.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Figured {
    /// One way.
    OneWay,
    /// Both ways, the same figures on either side: the disc of a protractor, a double vernier.
    BothWays,
}

/// A rule for figures: every so often, counting in units of `worth`, starting again after `wrap`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Numerals {
    /// The distance between figures.
    pub every: Quanta,
    /// What figures count.
    pub worth: Quanta,
    /// What they grow by for it; more than one where they count in less than a quantum: 15 30 45 on lines of five minutes.
    pub by: i64,
    /// After this many the figures start again at 0.
    pub wrap: Option<i64>,
    /// After this many they count down to 0 again: 0 to 90 and back to 0.
    pub back: Option<i64>,
    /// Large figures are the whole inches.
    pub size: NumeralSize,
}

/// The size of figures. The order is the order of importance.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum NumeralSize {
    /// Whole units on a scale that also figures parts: their own row.
    Large,
    /// All others.
    Small,
}

impl Numerals {
    /// The figure at a position, if this rule gives it one.
    pub fn figure_at(&self, at: Quanta) -> Option<i64> {
        if !at.is_multiple_of(self.every) {
            return None;
        }
        let count = at.0.div_euclid(self.worth.0) * self.by;
        Some(match (self.wrap, self.back) {
            (Some(wrap), _) => count.rem_euclid(wrap),
            (None, Some(back)) => back - (count.rem_euclid(2 * back) - back).abs(),
            (None, None) => count,
        })
    }
}

/// The figure at a position by the first rule that gives one, with its size.
pub fn figure_at(rules: &[Numerals], at: Quanta) -> Option<(i64, NumeralSize)> {
    rules.iter().find_map(|rule| rule.figure_at(at).map(|figure| (figure, rule.size)))
}

/// The length class of the line at a position: 0 is the longest, `tiers.len()` the shortest.
pub fn tier_at(tiers: &[Quanta], at: Quanta) -> usize {
    tiers.iter().position(|tier| at.is_multiple_of(*tier)).unwrap_or(tiers.len())
}
