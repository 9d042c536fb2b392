//! The raw file format: every key with its place, nothing judged beyond its own spelling.
//!
//! | type | what it is |
//! |---|---|
//! | [`Written`] | a value and where it stands in the file |
//! | [`Definition`] | a file as it was written; what is missing or faulty is `None` |
//! | [`Second`] | a second set of scales on the same tool |
//! | [`Draft`], [`Shape`] | one stage of it |
//! | [`Figures`] | one rule for figures |
//! | [`keys()`] | every key as data: where it stands, what it holds, what it says |
//!
//! [`read`] goes on after every fault, so that one run of it names them all. What fits together is judged by
//! [`super::check`].

mod crib;
mod keys;
mod limits;
mod offered;
mod other;
mod quantity;
mod reader;
mod sort;
mod stage;
mod stage_table;
mod syntax;
mod table;
mod targets;
mod text;
mod top;

pub use crib::{Listed, read_crib};
pub(crate) use keys::words;
pub use keys::{Key, Kind, Need, Place, keys, keys_of};
pub(crate) use quantity::Sign;
pub(crate) use reader::{Fields, Reader};
pub(crate) use sort::{Sort, opened};
pub(crate) use table::key;
pub use targets::{Timed, read_targets};
pub(crate) use text::corrected;
pub use text::shown;

use super::{
    Body, Contact, Counts, Course, Face, Figured, Grows, Held, Joined, Moves, Nought, NumeralSize, ReadBy,
    Sense, SetUp, Side, SmallHand, Takes, Turns, Zero,
};
use crate::diag::{Diagnostic, SourceText, Span};
use crate::exact::{Exact, Unit};

/// A value and where it stands in the file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Written<T> {
    /// The value.
    pub value: T,
    /// The value's place.
    pub span: Span,
}

/// A definition as it was written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Definition {
    /// The first key of the file: where to point when a key is missing.
    pub top: Span,
    /// Its id.
    pub id: Option<Written<String>>,
    /// What a person calls it.
    pub title: Option<Written<String>>,
    /// The family it is taught with.
    pub family: Option<Written<String>>,
    /// The unit of every quantity in the file.
    pub unit: Option<Written<Unit>>,
    /// The lowest setting.
    pub low: Option<Written<Exact>>,
    /// The highest setting.
    pub high: Option<Written<Exact>>,
    /// The smallest value read without estimating.
    pub least_count: Option<Written<Exact>>,
    /// The fineness of settings, where it is not the least count.
    pub settings: Option<Written<Exact>>,
    /// How readings are written, where it is not by decimals (or degrees).
    pub style: Option<Written<Style>>,
    /// The direction in which the reading grows.
    pub grows: Option<Written<Grows>>,
    /// The member that moves.
    pub moves: Option<Moves>,
    /// Whether it can have a zero error.
    pub zero: Option<Zero>,
    /// Which ways round it is held.
    pub held: Option<Written<Vec<Held>>>,
    /// How it stands to the part whose angle is asked for.
    pub set_ups: Vec<Written<SetUp>>,
    /// What is engraved on it.
    pub engraved: Vec<Written<String>>,
    /// Where its geometry is published.
    pub source: Option<Written<String>>,
    /// Coarse to fine.
    pub stages: Vec<Draft>,
    /// A second set of scales on the same tool.
    pub other: Option<Box<Second>>,
}

/// A second set of scales as it was written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Second {
    /// Where it is on the tool.
    pub joined: Option<Written<Joined>>,
    /// What the two sets are called, this one last.
    pub reads: Vec<Written<String>>,
    /// Its scales; what belongs to the whole tool is `None`.
    pub scales: Definition,
}

/// The ways of writing a reading.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Style {
    /// `0.250`.
    Decimal,
    /// `1 3/64`.
    Fraction,
    /// `35°10'`.
    Angle,
}

/// The forms of a stage.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shape {
    /// A straight scale.
    Line,
    /// A scale that repeats every turn.
    Drum,
    /// A round scale with a hand.
    Dial,
    /// Parts over the divisions of the scale before it.
    Vernier,
    /// A constant length.
    Fixed,
}

/// One stage as it was written. Keys that its form does not have are `None` or empty.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Draft {
    /// Its header.
    pub header: Span,
    /// Its form.
    pub form: Option<Written<Shape>>,
    /// The part that carries it.
    pub name: Option<Written<String>>,
    /// The value between neighbours.
    pub division: Option<Written<Exact>>,
    /// The last graduation.
    pub end: Option<Written<Exact>>,
    /// Divisions in a turn, or parts of a vernier.
    pub parts: Option<Written<i64>>,
    /// Divisions that all parts of a vernier span.
    pub over: Option<Written<i64>>,
    /// Other spans that it is made with.
    pub other_spans: Vec<Written<i64>>,
    /// The length of a fixed stage.
    pub length: Option<Written<Exact>>,
    /// The lengths a fixed stage can be chosen from.
    pub lengths: Vec<Written<Exact>>,
    /// What is stamped on the tool with each.
    pub stamped: Vec<Written<String>>,
    /// Whether only the first of them comes up in practice.
    pub first_only: bool,
    /// Which lines are long.
    pub tiers: Vec<Written<Exact>>,
    /// What the figures count, where makers differ.
    pub figures: Option<Written<Vec<Counts>>>,
    /// Figures; `None` where the list itself could not be read.
    pub numerals: Option<Vec<Figures>>,
    /// On which side of the datum line it stands.
    pub side: Option<Written<Side>>,
    /// The distance of the whole lines of a sleeve that has half lines.
    pub whole: Option<Written<Exact>>,
    /// On which sides the half lines may stand.
    pub halves: Option<Written<Vec<Side>>>,
    /// How it is read, where that is not the usual way.
    pub read: Option<Written<ReadBy>>,
    /// How finely a digit is judged between its lines.
    pub estimate: Option<Written<Exact>>,
    /// How far off such a digit may be either way.
    pub accept: Option<Written<Exact>>,
    /// Whether such a digit must be written where it is a nought.
    pub nought: Option<Written<Nought>>,
    /// The way its figures grow, where that is not from left to right.
    pub runs: Option<Written<Course>>,
    /// Whether it is figured one way from its nought or both ways.
    pub figured: Option<Written<Figured>>,
    /// How a dial is figured.
    pub face: Option<Written<Face>>,
    /// Which way a dial's figures run.
    pub sense: Option<Written<Sense>>,
    /// What carries a dial.
    pub body: Option<Written<Body>>,
    /// What counts a dial's turns.
    pub turns: Option<Written<Turns>>,
    /// Which ways the small hand of a counter turns.
    pub counter: Option<Written<Vec<SmallHand>>>,
    /// What a collar says is taken off.
    pub takes: Option<Written<Takes>>,
    /// What moves a dial.
    pub contact: Option<Written<Contact>>,
}

impl Draft {
    /// Its form, if it could be read.
    pub fn shape(&self) -> Option<Shape> {
        self.form.as_ref().map(|form| form.value)
    }

    /// What to call it in a sentence.
    pub fn called(&self) -> &str {
        match (&self.name, self.shape()) {
            (Some(name), _) => &name.value,
            (None, Some(Shape::Line)) => "line stage",
            (None, Some(Shape::Drum)) => "drum",
            (None, Some(Shape::Dial)) => "dial",
            (None, Some(Shape::Vernier)) => "vernier",
            (None, Some(Shape::Fixed)) => "fixed stage",
            (None, None) => "stage",
        }
    }
}

/// A rule for figures as it was written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Figures {
    /// The whole rule.
    pub span: Span,
    /// The distance between figures.
    pub every: Option<Written<Exact>>,
    /// What a figure counts.
    pub worth: Option<Written<Exact>>,
    /// After this many the figures start again at 0.
    pub wrap: Option<Written<i64>>,
    /// After this many they count down to 0 again.
    pub back: Option<Written<i64>>,
    /// Their size.
    pub size: NumeralSize,
}

/// What [`read`] found.
#[derive(Clone, Debug)]
pub struct Outcome {
    /// The definition, as far as it could be read.
    pub definition: Option<Definition>,
    /// Every fault of spelling.
    pub faults: Vec<Diagnostic>,
    /// False when a syntax error may have hidden keys: rules about what is missing would mislead.
    pub whole: bool,
}

/// Reads a file. Never stops at the first fault, but refuses one that is far too large.
pub fn read(source: &SourceText) -> Outcome {
    let (table, mut reader) = match opened(source, &sort::DEFINITION) {
        Ok(opened) => opened,
        Err(faults) => return Outcome { definition: None, faults, whole: false },
    };
    let definition = top::definition(&mut reader, table.get_ref());
    let whole = reader.whole;
    Outcome { definition: Some(definition), faults: reader.into_faults(), whole }
}
