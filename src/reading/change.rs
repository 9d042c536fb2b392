//! A change between two pictures: an indicator on the master and on the part, a collar before and after the cut; and the angle
//! of a lever's stylus.
//!
//! The collar of a handwheel shows the part of a turn; the whole turns are counted at its 0. Between screw and nut there is
//! slack: turned back, the collar moves that far before the slide does. Come up to again from the same side, it cancels.

use super::angle::Angle;
use super::asks::Asks;
use crate::exact::{Exact, Quanta};
use crate::instrument::{Dial, Form, Instrument, Takes};

/// What a question rests on beside the picture that is measured from. The default is nothing.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Change {
    /// Where the tool stood in the picture seen first.
    pub start: Option<Quanta>,
    /// How many times the collar's 0 passed the index line on the way from there.
    pub passed: i64,
    /// How the handwheel was turned from there.
    pub turned: Turned,
    /// How far the collar turns back before the slide moves.
    pub slack: Quanta,
    /// How the stylus stands to the work.
    pub angle: Option<Angle>,
}

/// How a handwheel was turned. Every start was come up to the way the figures grow.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Turned {
    /// The way the figures grow.
    #[default]
    On,
    /// Back, against them.
    Back,
    /// Too far, so back a whole turn and on again: as if it had gone on alone.
    OnAgain,
}

impl Turned {
    /// Each of them.
    pub const ALL: [Self; 3] = [Self::On, Self::Back, Self::OnAgain];

    /// The word of options and records.
    pub fn word(self) -> &'static str {
        match self {
            Self::On => "on",
            Self::Back => "back",
            Self::OnAgain => "on-again",
        }
    }

    /// Reads the word.
    pub fn from_word(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|turned| turned.word() == word)
    }
}

impl Change {
    /// How far the collar of a dial has turned, the way it was turned, up to `end`.
    pub fn collar(&self, dial: &Dial, end: Quanta) -> Quanta {
        let start = self.start.unwrap_or_default();
        let turns = dial.turn() * self.passed;
        match self.turned {
            Turned::On | Turned::OnAgain => end - start + turns,
            Turned::Back => start - end + turns,
        }
    }

    /// The slack that is to be taken off: none where the line was come up to from the same side.
    pub fn lost(&self) -> Quanta {
        match self.turned {
            Turned::On | Turned::OnAgain => Quanta::ZERO,
            Turned::Back => self.slack,
        }
    }

    /// The right answer for a tool that reads `end`.
    pub fn answer(&self, tool: &Instrument, asks: Asks, end: Quanta) -> Exact {
        let start = self.start.unwrap_or_default();
        let factor = self.angle.map_or(Exact::ONE, Angle::factor);
        match (asks, collar(tool)) {
            (Asks::Diameter | Asks::Travel, Some(dial)) => {
                tool.value(self.collar(dial, end) - self.lost()) * times(dial.takes, asks)
            }
            _ => tool.value(end - start) * factor,
        }
    }
}

/// What a collar's movement is multiplied by: the diameter changes by twice what the slide moves.
pub fn times(takes: Option<Takes>, asks: Asks) -> Exact {
    match (takes, asks) {
        (Some(Takes::Diameter), Asks::Travel) => Exact::ratio(1, 2),
        (Some(Takes::Radius) | None, Asks::Diameter) => Exact::whole(2),
        _ => Exact::ONE,
    }
}

/// The collar of a handwheel.
pub fn collar(tool: &Instrument) -> Option<&Dial> {
    use crate::instrument::Body;
    dial(tool).filter(|dial| dial.body == Body::Collar)
}

/// The dial of an indicator: it compares, so it is neither a collar nor the dial of a caliper.
pub fn indicator(tool: &Instrument) -> Option<&Dial> {
    use crate::instrument::{Body, Turns};
    dial(tool).filter(|dial| dial.body == Body::Face && dial.turns != Turns::Bar)
}

/// The dial of a test indicator, which is moved by a lever.
pub fn lever(tool: &Instrument) -> Option<&Dial> {
    use crate::instrument::Contact;
    indicator(tool).filter(|dial| dial.contact == Contact::Lever)
}

fn dial(tool: &Instrument) -> Option<&Dial> {
    tool.stages.iter().find_map(|stage| match &stage.form {
        Form::Dial(dial) => Some(dial),
        Form::Line(_) | Form::Drum(_) | Form::Vernier(_) | Form::Fixed(_) => None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::instrument::Catalogue;

    fn thou(n: i128) -> Exact {
        Exact::ratio(n, 1000)
    }

    /// Common practice, worked by hand: from 94 on past 0 to 28 are 6 + 28 lines.
    #[test]
    fn a_cut_past_nought() {
        let catalogue = Catalogue::new(Vec::new());
        let tool = catalogue.get("cross-slide-dial-inch").expect("shipped");
        let cut = Change { start: Some(Quanta(94)), passed: 1, slack: Quanta(6), ..Change::default() };
        let end = Quanta(28);
        assert_eq!(cut.answer(tool, Asks::Diameter, end), thou(34));
        assert_eq!(cut.answer(tool, Asks::Travel, end), thou(17));
        let again = Change { turned: Turned::OnAgain, ..cut };
        assert_eq!(again.answer(tool, Asks::Diameter, end), thou(34));
        // Back from 94 past 0 to 28: 94 + 72 lines, the first 6 of them slack; the slide has moved half of 160.
        let back = Change { turned: Turned::Back, ..cut };
        assert_eq!(back.answer(tool, Asks::Travel, end), thou(80));
    }

    /// Common practice, worked by hand: from 3,50 past 0 twice to 0,25 are 0,50 + 4,00 + 0,25.
    #[test]
    fn a_collar_for_the_radius() {
        let catalogue = Catalogue::new(Vec::new());
        let tool = catalogue.get("cross-slide-dial-metric").expect("shipped");
        let cut = Change { start: Some(Quanta(70)), passed: 2, ..Change::default() };
        assert_eq!(cut.answer(tool, Asks::Travel, Quanta(5)), Exact::ratio(475, 100));
        assert_eq!(cut.answer(tool, Asks::Diameter, Quanta(5)), Exact::ratio(95, 10));
    }

    /// W76: cnccookbook.com, cosine error: 0.010 at 60 degrees is 0.005.
    #[test]
    fn a_lever_at_an_angle() {
        let catalogue = Catalogue::new(Vec::new());
        let tool = catalogue.get("lever-indicator-metric").expect("shipped");
        let steep = Change { angle: Angle::of(60), ..Change::default() };
        assert_eq!(steep.answer(tool, Asks::Movement, Quanta(10)), Exact::ratio(5, 100));
        let from = Change { start: Some(Quanta(-2)), ..steep };
        assert_eq!(from.answer(tool, Asks::Change, Quanta(8)), Exact::ratio(5, 100));
    }
}
