//! The bench: task after task of some kinds on one instrument, part by part.

use super::practice::{Effect, Shown};
use crate::drill::record::Attempt;
use crate::drill::task::{Given, Marked, Part, TASK_GENERATOR, Task, Wanted, task};
use crate::drill::{GENERATOR, Kind, Seed};
use crate::exact::{Nonsense, Quanta, parse_answer};
use crate::instrument::Instrument;
use std::time::Duration;

/// A run of tasks on one instrument, its kinds in turn.
#[derive(Clone)]
pub struct Bench {
    learner: String,
    seed: Seed,
    kinds: Vec<Kind>,
    task: Task,
    part: usize,
    /// Where the tool stands that is being set.
    at: Quanta,
    stand: Stand,
    glass_used: bool,
    asked: u32,
    right: u32,
}

/// Where a part stands.
#[derive(Clone)]
pub enum Stand {
    /// It is asked.
    Asking {
        /// What was wrong with the last text typed, if it was no figure at all.
        again: Option<Nonsense>,
    },
    /// The tool that is being set is locked, and is looked at again before it is left.
    Locked,
    /// Answered and marked; waiting until it is on disk.
    Told(Told),
}

/// An answered part.
#[derive(Clone)]
pub struct Told {
    /// What was answered.
    pub given: Given,
    /// The mark.
    pub marked: Marked,
}

/// When and how it was answered, for the record.
#[derive(Clone, Debug)]
pub struct Noted {
    /// Since the part was shown.
    pub took: Duration,
    /// The time now, UTC as RFC 3339.
    pub at: String,
    /// How it was shown.
    pub shown: Shown,
}

/// What the learner does.
#[derive(Clone, Debug)]
pub enum Act {
    /// Uses the glass.
    Glass,
    /// Enters a text.
    Type(String, Noted),
    /// Takes one of the answers offered.
    Choose(usize, Noted),
    /// Moves the tool that is being set.
    Move(Quanta),
    /// Locks it.
    Lock,
    /// Loosens the lock, to set it again.
    Loosen,
    /// Leaves it as it stands.
    Leave(Noted),
    /// Passes the part over.
    Skip(Noted),
    /// Goes on to the next part or task.
    Next,
}

impl Bench {
    /// A run, its first task posed; none where no kind makes sense on the instrument.
    pub fn new(
        instrument: &Instrument,
        learner: impl Into<String>,
        kinds: Vec<Kind>,
        seed: Seed,
    ) -> Option<Self> {
        Self::resume(instrument, learner, kinds, seed, 1)
    }

    /// The run of `seed` taken up at task `number`.
    pub fn resume(
        instrument: &Instrument,
        learner: impl Into<String>,
        kinds: Vec<Kind>,
        seed: Seed,
        number: u32,
    ) -> Option<Self> {
        let task = posed(instrument, &kinds, seed, number)?;
        let mut bench = Self {
            learner: learner.into(),
            seed,
            kinds,
            task,
            part: 0,
            at: Quanta::ZERO,
            stand: Stand::Asking { again: None },
            glass_used: false,
            asked: 0,
            right: 0,
        };
        bench.show();
        Some(bench)
    }

    /// What the run started from.
    pub fn seed(&self) -> Seed {
        self.seed
    }

    /// Its kinds.
    pub fn kinds(&self) -> &[Kind] {
        &self.kinds
    }

    /// The task that is up.
    pub fn task(&self) -> &Task {
        &self.task
    }

    /// Its part that is up.
    pub fn part(&self) -> &Part {
        &self.task.parts[self.part]
    }

    /// Which part that is, from 1, and of how many.
    pub fn which(&self) -> (usize, usize) {
        (self.part + 1, self.task.parts.len())
    }

    /// Where the part stands.
    pub fn stand(&self) -> &Stand {
        &self.stand
    }

    /// Where the tool stands that is being set.
    pub fn at(&self) -> Quanta {
        self.at
    }

    /// Parts answered in this run, and of them right.
    pub fn score(&self) -> (u32, u32) {
        (self.asked, self.right)
    }

    /// Carries an act out. The instrument is the one the run was made for.
    pub fn act(&mut self, instrument: &Instrument, act: Act) -> Vec<Effect> {
        match (act, &self.stand) {
            (Act::Glass, Stand::Asking { .. }) => self.glass_used = true,
            (Act::Type(text, noted), Stand::Asking { .. }) => return self.typed(instrument, &text, noted),
            (Act::Choose(place, noted), Stand::Asking { .. }) => {
                let offered =
                    matches!(&self.part().wanted, Wanted::Choice(choice) if place < choice.options.len());
                if offered {
                    return self.told(instrument, Given::Chosen(place), noted);
                }
            }
            (Act::Move(by), Stand::Asking { .. }) => {
                let tool = &self.part().tool;
                self.at = (self.at + by).max(tool.low).min(tool.high);
            }
            (Act::Lock, Stand::Asking { .. }) => {
                if let Wanted::Setting(setting) = &self.part().wanted {
                    let (creeps, low, high) = (setting.creeps, self.part().tool.low, self.part().tool.high);
                    self.at = (self.at + creeps).max(low).min(high);
                    self.stand = Stand::Locked;
                }
            }
            (Act::Loosen, Stand::Locked) => self.stand = Stand::Asking { again: None },
            (Act::Leave(noted), Stand::Locked) => {
                let left = Given::Left(self.at);
                return self.told(instrument, left, noted);
            }
            (Act::Skip(noted), Stand::Asking { .. } | Stand::Locked) => {
                return self.told(instrument, Given::Skipped, noted);
            }
            (Act::Next, Stand::Told(_)) => self.next(instrument),
            _ => {}
        }
        Vec::new()
    }

    fn typed(&mut self, instrument: &Instrument, text: &str, noted: Noted) -> Vec<Effect> {
        let unit = match &self.part().wanted {
            Wanted::Reading => self.part().tool.unit,
            Wanted::Figure(figure) => figure.unit,
            Wanted::Choice(_) | Wanted::Setting(_) => return Vec::new(),
        };
        match parse_answer(text, unit) {
            Err(again) => {
                self.stand = Stand::Asking { again: Some(again) };
                Vec::new()
            }
            Ok(typed) => self.told(instrument, Given::Typed(typed), noted),
        }
    }

    fn told(&mut self, instrument: &Instrument, given: Given, noted: Noted) -> Vec<Effect> {
        let marked = self.part().mark(&given);
        if marked.verdict.is_answer() {
            self.asked += 1;
        }
        if marked.verdict.is_right() {
            self.right += 1;
        }
        let attempt = self.record(instrument, &given, &marked, noted);
        self.stand = Stand::Told(Told { given, marked });
        vec![Effect::Save(Box::new(attempt))]
    }

    fn next(&mut self, instrument: &Instrument) {
        if self.part + 1 < self.task.parts.len() {
            self.part += 1;
        } else if let Some(task) = posed(instrument, &self.kinds, self.seed, self.task.number + 1) {
            self.task = task;
            self.part = 0;
        }
        self.show();
    }

    fn show(&mut self) {
        self.at = match &self.part().wanted {
            Wanted::Setting(setting) => setting.from,
            _ => self.part().question.setting,
        };
        self.stand = Stand::Asking { again: None };
        self.glass_used = false;
    }

    fn record(&self, instrument: &Instrument, given: &Given, marked: &Marked, noted: Noted) -> Attempt {
        let part = self.part();
        let (tool, question) = (&part.tool, &part.question);
        let Noted { took, at, shown } = noted;
        Attempt {
            learner: self.learner.clone(),
            at,
            instrument: instrument.id.clone(),
            revision: instrument.revision.0.clone(),
            generator: if self.task.kind == Kind::Read { GENERATOR } else { TASK_GENERATOR },
            seed: self.seed.0,
            number: self.task.number,
            variant: tool.record_word(&question.variant),
            conditions: question.conditions.word(tool),
            kind: part.kind,
            given: part.asked.given(part),
            asks: question.asks,
            setting: tool.spell_with_unit(question.setting),
            zero_error: tool.spell_with_unit(question.zero_error),
            view: shown.view,
            glass: self.glass_used || shown.glass,
            lines: shown.lines.to_owned(),
            cols: shown.cols,
            rows: shown.rows,
            answer: part.given_word(given),
            expected: part.expected_word(),
            verdict: marked.verdict,
            misreads: marked.slips.iter().map(|found| found.misread.id.to_owned()).collect(),
            took_ms: u64::try_from(took.as_millis()).unwrap_or(u64::MAX),
        }
    }
}

/// Task `number`: of the kinds in turn, the first from there that makes sense here.
fn posed(instrument: &Instrument, kinds: &[Kind], seed: Seed, number: u32) -> Option<Task> {
    let turn = usize::try_from(number.saturating_sub(1)).ok()?;
    (0..kinds.len()).find_map(|n| task(kinds[(turn + n) % kinds.len()], instrument, seed, number))
}
