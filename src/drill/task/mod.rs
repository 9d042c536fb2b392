//! Questions of every kind beside a plain reading: what is shown, what is asked, how it is answered, and the mark.
//!
//! A [`Task`] has parts that are answered one after the other. Each part says which pictures are seen with it, what is asked
//! (data: the sentences stand in `wording`) and what is wanted. One kind a file: a function that makes a task of a seed.
//! The versioned generator is [`task`]: same kind, instrument, seed and number, same task, in every release; a kind's sampling
//! is never edited, only followed by another version.

mod by_heart;
mod callouts;
mod drawing;
mod in_or_out;
mod kind;
mod mark;
mod one_step;
mod set_it;
mod shop_speech;
mod slip;
mod what_now;

pub use by_heart::{INCH, Sum, Turned};
pub use drawing::{Because, Callout, Decision, Drawing, Feature, Taken};
pub use kind::Kind;
pub use mark::{Given, Marked};
pub use shop_speech::Manner;
pub use what_now::{Action, Closed, SetBy, Story, Used, Whose};

use super::draw::Draw;
use super::generate::Seed;
use super::mark::Found;
use super::question::Question;
use super::sight::Sight;
use super::{question_1, two_sets};
use crate::exact::{Exact, Notation, Quanta, Unit};
use crate::instrument::{Instrument, Variant};

/// The version of the generator that [`task`] is. The hundreds say which generator a record's number means.
pub const TASK_GENERATOR: u32 = 201;

/// A question of some kind.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Task {
    /// The kind.
    pub kind: Kind,
    /// Its number in the run, from 1.
    pub number: u32,
    /// What is answered, one after the other. Never empty.
    pub parts: Vec<Part>,
}

/// One thing to answer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Part {
    /// What it counts as in the record: a whole reading is [`Kind::Read`] in whatever task it stands.
    pub kind: Kind,
    /// The tool standing where it stands, and for a reading what is asked of it. The record is made of it.
    pub question: Question,
    /// The tool as it lies there: with what is fitted to it, under the conditions.
    pub tool: Instrument,
    /// What is seen with it: nothing, one picture, or two to be compared.
    pub pictures: Vec<Sight>,
    /// What is asked.
    pub asked: Asked,
    /// What is wanted.
    pub wanted: Wanted,
}

/// What is asked, for `wording` to spell.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Asked {
    /// The whole reading, as in practice.
    Reading,
    /// What one stage alone shows.
    Step {
        /// The stage.
        stage: usize,
    },
    /// To set it to a size: the [`Setting`] less the zero error.
    Size,
    /// What is done with the closed tool that is seen.
    WhatNow(Story),
    /// What is done with the part, held against its drawing.
    InOrOut(Box<Drawing>),
    /// A sum without a picture.
    ByHeart(Sum),
    /// The figures of what is said.
    Heard {
        /// How it is said.
        manner: Manner,
        /// The value, in the tool's unit.
        value: Exact,
    },
    /// How a figure is said, or what the tool reads if there is a picture.
    SaidHow {
        /// How everything offered is said.
        manner: Manner,
        /// The value, in the tool's unit.
        value: Exact,
    },
}

/// What is wanted for an answer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Wanted {
    /// The answer to the part's question, typed, marked as in practice.
    Reading,
    /// A figure, typed.
    Figure(Figure),
    /// One of several.
    Choice(Choice),
    /// The tool, set by hand.
    Setting(Setting),
}

/// A figure that is typed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Figure {
    /// Its unit.
    pub unit: Unit,
    /// How it is written.
    pub notation: Notation,
    /// The right one.
    pub expected: Exact,
    /// From where to where it is right.
    pub accepted: [Exact; 2],
    /// Wrong ones that have a name.
    pub slips: Vec<Found>,
}

/// A choice among several answers.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Choice {
    /// What can be chosen, as it is listed.
    pub options: Vec<Offered>,
    /// The right one.
    pub right: usize,
}

/// One of the answers to choose from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Offered {
    /// What it says.
    pub says: Says,
    /// The misread it comes from, if it is a reading.
    pub slip: Option<&'static str>,
}

/// What an offered answer says.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Says {
    /// A value, in the tool's unit.
    Value(Exact),
    /// A word of the kind's own list; it stands in the record, and `wording` has a sentence for it.
    Word(&'static str),
}

/// A tool to be set to a size.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Setting {
    /// Where it stands at first.
    pub from: Quanta,
    /// Where it is to stand.
    pub to: Quanta,
    /// How far it is moved by locking it the first time, to be seen when it is looked at again.
    pub creeps: Quanta,
}

/// Task `number` (from 1) of a kind, of the run of `seed` on an instrument; none where the kind makes no sense on it.
pub fn task(kind: Kind, instrument: &Instrument, seed: Seed, number: u32) -> Option<Task> {
    let mut draw = Draw::keyed(&format!("linefall task 1 {kind}"), instrument, seed, number);
    let parts = match kind {
        Kind::Read => vec![Part::reading(instrument, super::question(instrument, seed, number))],
        Kind::OneStep => one_step::parts(instrument, seed, number, &mut draw)?,
        Kind::SetIt => set_it::parts(instrument, seed, number, &mut draw),
        Kind::WhatNow => what_now::parts(instrument, seed, number, &mut draw)?,
        Kind::InOrOut => in_or_out::parts(instrument, seed, number, &mut draw)?,
        Kind::ByHeart => by_heart::parts(instrument, number, &mut draw),
        Kind::ShopSpeech => shop_speech::parts(instrument, seed, number, &mut draw)?,
    };
    Some(Task { kind, number, parts })
}

/// A question on a tool in good order, on its lines, whatever of its forms are usual: size, zero error and what is fitted.
fn in_good_order(instrument: &Instrument, seed: Seed, number: u32, draw: &mut Draw) -> Question {
    let first = instrument.fitted(&Variant::default());
    if first.other.is_some() {
        return two_sets::question(&first, draw, number);
    }
    question_1(instrument, seed, number)
}

/// The kinds that make sense on an instrument.
pub fn kinds(instrument: &Instrument) -> Vec<Kind> {
    let fits = |kind: &Kind| (1..=4).any(|number| task(*kind, instrument, Seed(1), number).is_some());
    Kind::ALL.iter().copied().filter(fits).collect()
}

impl Part {
    /// A whole reading, its work shown; what comes before the work can be looked at again.
    pub fn reading(instrument: &Instrument, question: Question) -> Self {
        let tool = question.tool(instrument);
        let pictures = vec![question.measuring(&tool)];
        Self { kind: Kind::Read, question, tool, pictures, asked: Asked::Reading, wanted: Wanted::Reading }
    }

    /// What is seen before the part's own pictures, in order: the tool closed, where its zero error is to be allowed for.
    pub fn earlier(&self) -> Vec<Sight> {
        match self.asked {
            Asked::Reading | Asked::Size | Asked::InOrOut(_) => self.question.earlier(&self.tool),
            _ => Vec::new(),
        }
    }

    /// Nothing to be seen: the tool lies beside, at its lowest setting.
    fn beside(instrument: &Instrument, number: u32) -> Self {
        let variant = Variant::default();
        let tool = instrument.fitted(&variant);
        let question = Question::new(&tool, number, tool.low, Quanta::ZERO, variant);
        Self { pictures: Vec::new(), ..Self::reading(instrument, question) }
    }
}
