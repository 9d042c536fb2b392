//! An instrument ready to be asked about: what is the same for all questions on it is made once.
//!
//! Whoever looks at many questions of one instrument keeps it; for a single one it is made and thrown away.

use super::change::changed;
use super::condition_draw::{conditioned, may_be_conditioned};
use super::draw::Draw;
use super::generate::Seed;
use super::part::part_asked;
use super::question::Question;
use super::two_sets;
use crate::exact::Quanta;
use crate::instrument::{Instrument, Variant, Zero};
use std::cell::{OnceCell, RefCell};
use std::rc::Rc;

/// Which version of the generator draws.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Version {
    One,
    Two,
}

/// One question in so many is on a less common variant.
const UNUSUAL: u32 = 6;

/// An instrument and what is drawn from.
pub(super) struct Ready<'a> {
    instrument: &'a Instrument,
    /// The tool with its first lengths fitted.
    first: Instrument,
    /// The variants that are equally common, each with the less common ones beside it.
    usual: Vec<(Variant, OnceCell<Vec<Variant>>)>,
    tools: RefCell<Vec<(Variant, Rc<Instrument>)>>,
}

/// What is drawn first of a question.
pub(super) struct Sketch {
    size: Quanta,
    /// The reading when closed.
    pub(super) zero_error: Quanta,
    /// Which maker's variant it is, and what is fitted to it.
    pub(super) variant: Variant,
    /// False where nothing can be out of order.
    pub(super) may_be_odd: bool,
}

impl<'a> Ready<'a> {
    pub(super) fn new(instrument: &'a Instrument) -> Self {
        let first = instrument.fitted(&Variant::default());
        let usual = first.usual().into_iter().map(|variant| (variant, OnceCell::new())).collect();
        Self { instrument, first, usual, tools: RefCell::new(Vec::new()) }
    }

    /// The instrument.
    pub(super) fn instrument(&self) -> &'a Instrument {
        self.instrument
    }

    /// The tool of a variant.
    pub(super) fn tool(&self, variant: &Variant) -> Rc<Instrument> {
        let known =
            self.tools.borrow().iter().find(|(known, _)| known == variant).map(|(_, tool)| tool.clone());
        known.unwrap_or_else(|| {
            let tool = Rc::new(self.instrument.fitted(variant));
            self.tools.borrow_mut().push((variant.clone(), Rc::clone(&tool)));
            tool
        })
    }

    /// The tool of a question, under its conditions.
    pub(super) fn tool_of(&self, question: &Question) -> Rc<Instrument> {
        let fitted = self.tool(&question.variant);
        if question.conditions.leave_the_tool() { fitted } else { Rc::new(question.conditions.tool(&fitted)) }
    }

    /// The sketch of [`Self::question`]; none on a tool with two sets of scales, which is drawn in another way.
    pub(super) fn sketch(&self, seed: Seed, number: u32) -> Option<Sketch> {
        if self.first.other.is_some() {
            return None;
        }
        let sketch = self.sketched(seed, number, Version::Two).0;
        Some(Sketch { may_be_odd: may_be_conditioned(self.instrument, seed, number), ..sketch })
    }

    /// Question `number` (from 1) of the run of a seed.
    pub(super) fn question(&self, seed: Seed, number: u32) -> Question {
        if self.first.other.is_some() {
            return two_sets::question(&self.first, &mut self.key(seed, number), number);
        }
        let (plain, mut draw) = self.drawn(seed, number, Version::Two);
        let tool = self.tool(&plain.variant);
        let question = part_asked(changed(plain.clone(), &tool, &mut draw), &tool, &mut draw);
        if question == plain { conditioned(&tool, question, seed) } else { question }
    }

    /// A tool in good order, and what draws on.
    pub(super) fn drawn(&self, seed: Seed, number: u32, version: Version) -> (Question, Draw) {
        let (Sketch { size, zero_error, variant, .. }, draw) = self.sketched(seed, number, version);
        let (first, tool) = (&self.first, self.tool(&variant));
        let setting = (size + zero_error).max(first.low).min(first.high) - first.low + tool.low;
        (Question::new(&tool, number, setting, zero_error, variant), draw)
    }

    fn key(&self, seed: Seed, number: u32) -> Draw {
        Draw::keyed("linefall question 1", &self.first, seed, number)
    }

    fn sketched(&self, seed: Seed, number: u32, version: Version) -> (Sketch, Draw) {
        let (first, mut draw) = (&self.first, self.key(seed, number));
        let settings = (first.high - first.low).passed(first.step) + 1;
        let settings =
            u32::try_from(settings).expect("the definition was checked: a bounded number of settings");
        let size = first.low + first.step * i64::from(draw.below(settings));
        let zero_error = match first.zero {
            Zero::None => Quanta::ZERO,
            Zero::CanBeOff => draw.zero_error(first.least_count),
        };
        let (usual, unusual) = &self.usual[draw.place(self.usual.len())];
        let mut variant = usual.clone();
        if version == Version::Two {
            let unusual = unusual.get_or_init(|| first.unusual(usual));
            if !unusual.is_empty() && draw.below(UNUSUAL) == 0 {
                variant = draw.one_of(unusual);
            }
        }
        for choice in first.choices.iter().filter(|choice| choice.practised && choice.owned.is_none()) {
            let count = u32::try_from(choice.lengths.len()).expect("few lengths");
            variant = choice.fit(variant, usize::try_from(draw.below(count)).expect("a small number"));
        }
        (Sketch { size, zero_error, variant, may_be_odd: true }, draw)
    }
}
