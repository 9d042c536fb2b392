//! A round scale with a hand that goes round once a turn: a dial face, or the collar of a handwheel with an index line.

use super::stage::{NumeralSize, Numerals, ReadBy, figure_at, tier_at};
use crate::exact::Quanta;

/// A round scale.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Dial {
    /// The value between neighbours.
    pub division: Quanta,
    /// Divisions in one turn.
    pub parts: i64,
    /// As [`super::Line::tiers`].
    pub tiers: Vec<Quanta>,
    /// As [`super::Line::numerals`].
    pub numerals: Vec<Numerals>,
    /// How it is read.
    pub read: ReadBy,
    /// How it is figured.
    pub face: Face,
    /// Which way its figures run.
    pub sense: Sense,
    /// What carries it.
    pub body: Body,
    /// What counts its turns.
    pub turns: Turns,
    /// What a collar says is taken off.
    pub takes: Option<Takes>,
    /// What moves it.
    pub contact: Contact,
}

/// How a dial is figured.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Face {
    /// All the way round: 0 10 20 ... 90.
    Continuous,
    /// Both ways from 0, read plus or minus: 0 10 20 30 40 50 40 30 20 10.
    Balanced,
}

/// Which way the figures of a dial run.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sense {
    /// With the hands of a clock.
    Clockwise,
    /// Against them: a reversed face, for depth and bore gauges.
    CounterClockwise,
}

/// What carries a round scale.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Body {
    /// A face over which a hand goes.
    Face,
    /// The collar of a handwheel, which turns under an index line.
    Collar,
}

/// What counts the turns of a dial.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Turns {
    /// The lines of a bar, uncovered by the jaw.
    Bar,
    /// A small hand, one line a turn.
    Counter,
    /// Nothing: it is read within one turn.
    Uncounted,
}

/// What the lines of a cross-slide's collar say is taken off.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Takes {
    /// A line is worth what comes off the diameter: the slide moves half of it.
    Diameter,
    /// A line is worth what the slide moves: twice that comes off the diameter.
    Radius,
}

/// What moves the hand of a dial.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Contact {
    /// A plunger, which stands square to the work.
    Plunger,
    /// A lever, whose stylus may stand at an angle to the work.
    Lever,
}

impl Dial {
    /// The value of one turn.
    pub fn turn(&self) -> Quanta {
        self.division * self.parts
    }

    /// What a place on the dial, from its 0 the way its figures run, is worth: below zero in the other half of a balanced one.
    pub fn worth(&self, at: Quanta) -> Quanta {
        match self.face {
            Face::Balanced if at + at > self.turn() => at - self.turn(),
            Face::Continuous | Face::Balanced => at,
        }
    }

    /// The figure at a place.
    pub fn figure_at(&self, at: Quanta) -> Option<(i64, NumeralSize)> {
        figure_at(&self.numerals, self.off_zero(at))
    }

    /// The length class of the line at a place.
    pub fn tier_at(&self, at: Quanta) -> usize {
        tier_at(&self.tiers, self.off_zero(at))
    }

    fn off_zero(&self, at: Quanta) -> Quanta {
        match self.face {
            Face::Continuous => at,
            Face::Balanced => at.min(self.turn() - at),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn dial(face: Face) -> Dial {
        let numerals = vec![Numerals {
            every: Quanta(20),
            worth: Quanta(2),
            by: 1,
            wrap: None,
            back: None,
            size: NumeralSize::Small,
        }];
        Dial {
            division: Quanta(2),
            parts: 80,
            tiers: vec![Quanta(20)],
            numerals,
            read: ReadBy::Nearest,
            face,
            sense: Sense::Clockwise,
            body: Body::Face,
            turns: Turns::Uncounted,
            takes: None,
            contact: Contact::Plunger,
        }
    }

    fn figures(dial: &Dial) -> Vec<i64> {
        (0..dial.parts).filter_map(|n| dial.figure_at(dial.division * n)).map(|(figure, _)| figure).collect()
    }

    #[test]
    fn a_balanced_face_is_figured_both_ways() {
        assert_eq!(figures(&dial(Face::Continuous)), [0, 10, 20, 30, 40, 50, 60, 70]);
        assert_eq!(figures(&dial(Face::Balanced)), [0, 10, 20, 30, 40, 30, 20, 10]);
    }

    #[test]
    fn the_other_half_of_a_balanced_face_is_minus() {
        let balanced = dial(Face::Balanced);
        let worth = [0, 2, 80, 82, 158].map(|at| balanced.worth(Quanta(at)).0);
        assert_eq!(worth, [0, 2, 80, -78, -2]);
        assert_eq!(dial(Face::Continuous).worth(Quanta(158)), Quanta(158));
        assert_eq!([balanced.tier_at(Quanta(140)), balanced.tier_at(Quanta(142))], [0, 1]);
    }
}
