//! Floor 1. What an instrument is: a list of stages, coarse to fine, described by a TOML file.
//!
//! | type | what it is |
//! |---|---|
//! | [`Instrument`] | a checked definition; every length in whole quanta |
//! | [`Stage`], [`Form`] | one step of the reading: line, drum, dial, vernier or fixed |
//! | [`Variant`] | what differs between makers of the same instrument, and what is fitted to it |
//! | [`Estimate`] | how a digit is judged between the lines of the finest stage |
//! | [`State`] | what has become of a tool: figures worn, a tag |
//! | [`Offer`] | a key of a variant with its alternatives |
//! | [`Other`], [`Joined`] | a second set of scales on the same tool, and how the two hang together |
//! | [`Tooth`], [`Pitch`] | chordal values of gear teeth, from a table |
//! | [`Choice`] | a fixed length that is chosen: rods, a collar, frames |
//! | [`Travel`] | how a tool is moved by hand: strokes, ends, the way its reading grows |
//! | [`Catalogue`] | the shipped definitions with the user's own on top |
//! | [`Revision`] | the content hash that goes into every attempt |
//!
//! The file format is read by [`schema`], judged by [`check`], one rule a file.

mod both_ways;
mod care;
mod catalogue;
pub mod check;
mod chordal;
pub mod crib;
mod dial;
mod estimate;
mod fitted;
mod other;
pub mod schema;
mod shared;
mod stage;
mod state;
pub mod targets;
mod travel;
mod variant;

pub use both_ways::{DIRECTION, SetUp};
pub use care::{CareCard, care_card};
pub use catalogue::{Catalogue, Origin};
pub use chordal::{Pitch, Tooth, teeth};
pub use dial::{Body, Contact, Dial, Face, Sense, SmallHand, Takes, Turns};
pub use estimate::{Estimate, MOST_PARTS, Nought, Parts};
pub use fitted::{Choice, Length};
pub use other::{Joined, Other, READS, Set};
pub use shared::Shared;
pub use stage::{
    Course, Drum, Figured, Form, Line, NumeralSize, Numerals, ReadBy, Runs, Side, Sides, Stage, Vernier,
    figure_at, tier_at,
};
pub use state::{State, WornFigure};
pub use targets::Tenths;
pub use travel::{Ends, Heading, Stroke, Toward, Travel};
pub use variant::{Change, Offer, Variant, Way};

use crate::exact::{Exact, Lattice, Notation, Quanta, Unit};

/// A checked instrument.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Instrument {
    /// Its id, `micrometer-metric`.
    pub id: String,
    /// What a person calls it: `Outside micrometer, 0.01 mm`.
    pub title: String,
    /// The family it is taught with: `micrometer`, `caliper`, `rule`, `lesson`.
    pub family: String,
    /// The unit it is graduated in.
    pub unit: Unit,
    /// What a quantum is worth.
    pub lattice: Lattice,
    /// How its readings are written.
    pub notation: Notation,
    /// The smallest value read without estimating.
    pub least_count: Quanta,
    /// How a digit beyond that is estimated, where its definition says so.
    pub estimate: Option<Estimate>,
    /// The fineness of its settings.
    pub step: Quanta,
    /// The lowest setting.
    pub low: Quanta,
    /// The highest setting.
    pub high: Quanta,
    /// Coarse to fine.
    pub stages: Shared<Vec<Stage>>,
    /// What makers do differently, and how it is held.
    pub offers: Shared<Vec<Offer>>,
    /// Fixed lengths that are chosen.
    pub choices: Shared<Vec<Choice>>,
    /// Which length of each is fitted. The stages, the range and what is engraved are those of the tool so fitted.
    pub fitted: Vec<usize>,
    /// Whether the reading grows by uncovering or by covering the sleeve.
    pub grows: Grows,
    /// Which member moves.
    pub moves: Moves,
    /// Which way round it is held.
    pub held: Held,
    /// Whether it can have a zero error.
    pub zero: Zero,
    /// How it stands to the part whose angle is asked for; empty where only the reading is.
    pub set_ups: Vec<SetUp>,
    /// What is engraved on the tool, each a short text: `0-25 mm`, `0.01 mm`.
    pub engraved: Shared<Vec<String>>,
    /// What somebody calls the one that is theirs.
    pub label: Option<String>,
    /// The time in which a right reading is wanted, where an instructor set one.
    pub target: Option<Tenths>,
    /// What has become of it since it was made.
    pub state: State,
    /// Where its geometry is published.
    pub source: String,
    /// The content hash of its definition.
    pub revision: Revision,
    /// A second set of scales on the same tool.
    pub other: Option<Box<Other>>,
}

/// The direction in which an edge travels as the reading grows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Grows {
    /// Outside micrometers and everything with a main scale.
    Uncovering,
    /// Depth and jaw-type inside micrometers.
    Covering,
}

/// The member that moves when the instrument is set.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Moves {
    /// The vernier along the main scale, the thimble over the sleeve, the work along the rule.
    Finer,
    /// The bar or main scale under a fixed vernier.
    MainScale,
}

/// Which way round a tool is held.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Held {
    /// As it is usually drawn.
    Usual,
    /// Half a turn round: the thimble to the left, the vernier above the scale. Only figures are then drawn as they are read.
    Turned,
}

/// What the figures of a metric scale count.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Counts {
    /// Millimetres: 10 20 30.
    Millimetres,
    /// Centimetres: 1 2 3.
    Centimetres,
}

/// Whether a zero error is possible.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Zero {
    /// It can be off; the reading when closed is subtracted.
    CanBeOff,
    /// It has no closed position (a rule, a bare lesson scale).
    None,
}

/// The content hash of a definition: the first 16 hexadecimal digits of the BLAKE3 of its text.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Revision(pub String);

impl Revision {
    /// The revision of a definition's text.
    pub fn of(text: &str) -> Self {
        let hash = blake3::hash(text.as_bytes()).to_hex();
        Self(hash[..16].to_owned())
    }
}

impl Instrument {
    /// The value of a position.
    pub fn value(&self, at: Quanta) -> Exact {
        self.lattice.value(at)
    }

    /// A position written the way this instrument's readings are written.
    pub fn spell(&self, at: Quanta) -> String {
        self.notation.spell(self.value(at))
    }

    /// The same with the unit.
    pub fn spell_with_unit(&self, at: Quanta) -> String {
        self.notation.spell_with_unit(self.value(at), self.unit)
    }

    /// Its least count: without the digit that is estimated beyond it.
    pub fn spell_least_count(&self) -> String {
        let value = self.value(self.least_count);
        match self.notation {
            Notation::Decimal { .. } => {
                Notation::decimal_for(self.unit, value).unwrap_or(self.notation).spell(value)
            }
            Notation::Fraction | Notation::Angle => self.notation.spell(value),
        }
    }

    /// How far its zero may be off either way: a turn of the thimble or dial, else a division of the first scale.
    pub fn most_off(&self) -> Quanta {
        let forms = || self.stages.iter().map(|stage| &stage.form);
        let turn = forms().find_map(|form| match form {
            Form::Drum(drum) => Some(drum.turn()),
            Form::Dial(dial) => Some(dial.turn()),
            Form::Line(_) | Form::Vernier(_) | Form::Fixed(_) => None,
        });
        let division = || {
            forms().find_map(|form| match form {
                Form::Line(line) => Some(line.division),
                Form::Drum(_) | Form::Dial(_) | Form::Vernier(_) | Form::Fixed(_) => None,
            })
        };
        turn.or_else(division).unwrap_or(Quanta::ZERO)
    }

    /// The sum of the fixed stages: where its scales begin.
    pub fn start(&self) -> Quanta {
        self.stages
            .iter()
            .map(|stage| match stage.form {
                Form::Fixed(length) => length,
                Form::Line(_) | Form::Drum(_) | Form::Dial(_) | Form::Vernier(_) => Quanta::ZERO,
            })
            .sum()
    }

    /// Every setting, lowest first.
    pub fn settings(&self) -> impl Iterator<Item = Quanta> + use<> {
        let (low, step) = (self.low, self.step);
        let count = (self.high - self.low).passed(step);
        (0..=count).map(move |n| low + step * n)
    }
}
