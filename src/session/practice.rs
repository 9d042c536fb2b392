//! Practice on one instrument: read, answer, see why, next.

use super::order::Order;
use super::watch::{Choose, Watch};
use crate::drill::record::Attempt;
use crate::drill::{GENERATOR, Mark, Question, Said, Seed, mark, question};
use crate::exact::{Nonsense, parse_answer};
use crate::instrument::Instrument;
use crate::learner::again::Outcome;
use crate::learner::diagnosis::{Diagnosis, Heard, Suspects};
use crate::learner::gates::Target;
use crate::reading::{Share, shares};
use std::time::Duration;

/// A run of questions on one instrument.
#[derive(Clone)]
pub struct Practice {
    learner: String,
    seed: Seed,
    question: Question,
    /// The instrument with what is fitted to it for this question, under its conditions.
    tool: Instrument,
    phase: Phase,
    glass_used: bool,
    asked: u32,
    right: u32,
    /// What is made of the answers, if anything.
    watch: Option<Watch>,
    order: Order,
}

/// Where a question stands.
#[derive(Clone)]
pub enum Phase {
    /// Something is seen before the work: the picture of this number of [`Question::earlier`].
    Before(usize),
    /// The reading is asked for.
    Asking {
        /// What was wrong with the last text typed, if it was no reading at all.
        again: Option<Nonsense>,
    },
    /// Answered and marked; waiting until it is on disk.
    Answered(Answered),
}

/// An answered question.
#[derive(Clone)]
pub struct Answered {
    /// The answer as typed; empty when passed over.
    pub answer: String,
    /// The mark.
    pub mark: Mark,
    /// The explanation.
    pub shares: Vec<Share>,
}

/// How the question was shown, for the record.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Shown {
    /// `held` or `flat`.
    pub view: crate::drill::record::View,
    /// The line style's word.
    pub lines: &'static str,
    /// Width of the picture in cells.
    pub cols: u32,
    /// Height of the picture in cells.
    pub rows: u32,
    /// True when a glass was open because the whole could not be drawn.
    pub glass: bool,
}

/// What the learner does.
#[derive(Clone, Debug)]
pub enum Step {
    /// Has seen the picture that comes before the work.
    Seen,
    /// Uses the glass.
    Glass,
    /// Takes the tool in its usual form, because the picture of this one cannot be drawn at this size.
    Plainly,
    /// Enters a text.
    Answer {
        /// The text.
        text: String,
        /// Since the picture was shown.
        took: Duration,
        /// The time now, UTC as RFC 3339.
        at: String,
        /// How it was shown.
        shown: Shown,
    },
    /// Passes the question over.
    Skip {
        /// Since the picture was shown.
        took: Duration,
        /// The time now, UTC as RFC 3339.
        at: String,
        /// How it was shown.
        shown: Shown,
    },
    /// Goes on to the next question.
    Next,
    /// Goes on to the question of this number, unless a missed one comes back first.
    NextAs(u32),
}

/// What an adapter must carry out.
#[derive(Clone, Debug)]
pub enum Effect {
    /// Write the attempt down; the next question must not show before that has been tried.
    Save(Box<Attempt>),
}

impl Practice {
    /// A new run, its first question posed.
    pub fn new(instrument: &Instrument, learner: impl Into<String>, seed: Seed) -> Self {
        let first = question(instrument, seed, 1);
        let tool = first.tool(instrument);
        let phase = phase_after(&first, &tool, 0);
        Self {
            learner: learner.into(),
            seed,
            question: first,
            tool,
            phase,
            glass_used: false,
            asked: 0,
            right: 0,
            watch: None,
            order: Order::new(seed, 1),
        }
    }

    /// The same run with traps mixed in from the next question on.
    #[must_use]
    pub fn trapped(self) -> Self {
        Self { order: self.order.trapped(), ..self }
    }

    /// The same run in which settings that were missed or slow come back.
    #[must_use]
    pub fn bringing_back(self) -> Self {
        Self { order: self.order.bringing_back(), ..self }
    }

    /// Which question of the run is up, from 1; one that came back counts again.
    pub fn turn(&self) -> u32 {
        self.order.count()
    }

    /// The first number of those from which the next question is chosen.
    pub fn beyond(&self) -> u32 {
        self.order.beyond()
    }

    /// The number at which the run goes on when it is left now.
    pub fn goes_on_at(&self, instrument: &Instrument) -> u32 {
        let open = !matches!(self.phase, Phase::Answered(_)) && !self.order.came_back();
        if open { self.question.number } else { self.order.following(instrument) }
    }

    /// The same run watched: what the answers say is found out, and may choose the questions.
    #[must_use]
    pub fn watched(mut self, instrument: &Instrument, choose: Choose) -> Self {
        let watch = Watch::new(self.seed, choose);
        self.watch = Some(watch);
        if choose == Choose::Telling {
            self.pose(instrument, 1);
        }
        self
    }

    /// How many questions were watched.
    pub(super) fn watched_questions(&self) -> u32 {
        self.watch.as_ref().map_or(0, Watch::heard)
    }

    /// Which misreads are looked for, in a run that is watched.
    pub fn suspects(&self) -> Option<&Suspects> {
        self.watch.as_ref().and_then(Watch::suspects)
    }

    /// Begins to watch at once, not at the first answer.
    pub(super) fn watch_now(&mut self, instrument: &Instrument) {
        if let Some(watch) = &mut self.watch {
            watch.begin(instrument);
        }
    }

    /// What the answers say, in a run that is watched.
    pub fn diagnosis(&self) -> Option<Diagnosis> {
        self.watch.as_ref().and_then(Watch::diagnosis)
    }

    /// The run of `seed` taken up again at question `number`.
    pub fn resume(instrument: &Instrument, learner: impl Into<String>, seed: Seed, number: u32) -> Self {
        let question = question(instrument, seed, number);
        let tool = question.tool(instrument);
        let phase = phase_after(&question, &tool, 0);
        Self {
            question,
            tool,
            phase,
            order: Order::new(seed, number),
            ..Self::new(instrument, learner, seed)
        }
    }

    /// What the run started from.
    pub fn seed(&self) -> Seed {
        self.seed
    }

    /// The question that is up.
    pub fn question(&self) -> &Question {
        &self.question
    }

    /// The instrument as it lies there, with what is fitted to it for this question.
    pub fn tool(&self) -> &Instrument {
        &self.tool
    }

    /// Where it stands.
    pub fn phase(&self) -> &Phase {
        &self.phase
    }

    /// Questions answered in this run.
    pub fn asked(&self) -> u32 {
        self.asked
    }

    /// Of them right.
    pub fn right(&self) -> u32 {
        self.right
    }

    /// Carries out a step. The instrument is the one the run was made for.
    pub fn step(&mut self, instrument: &Instrument, step: Step) -> Vec<Effect> {
        match (step, &self.phase) {
            (Step::Seen, Phase::Before(number)) => {
                self.phase = phase_after(&self.question, &self.tool, number + 1);
                Vec::new()
            }
            (Step::Plainly, Phase::Before { .. } | Phase::Asking { .. }) => {
                self.question = self.question.clone().plainly(instrument);
                self.tool = self.question.tool(instrument);
                Vec::new()
            }
            (Step::Glass, Phase::Asking { .. }) => {
                self.glass_used = true;
                Vec::new()
            }
            (Step::Answer { text, took, at, shown }, Phase::Asking { .. }) => {
                match parse_answer(&text, self.tool.unit) {
                    Err(again) => {
                        self.phase = Phase::Asking { again: Some(again) };
                        Vec::new()
                    }
                    Ok(typed) => {
                        let mark = mark(&self.question.case(&self.tool), &typed);
                        let wrong = Heard::Wrong(typed.value);
                        self.hear(instrument, if mark.verdict.is_right() { Heard::Right } else { wrong });
                        self.answered(typed.text, mark, took, at, &shown)
                    }
                }
            }
            (Step::Skip { took, at, shown }, Phase::Asking { .. }) => {
                let mark = Mark::skipped(&self.question.case(&self.tool));
                self.hear(instrument, Heard::Skipped);
                self.answered(String::new(), mark, took, at, &shown)
            }
            (Step::Next, Phase::Answered(_)) => {
                self.go_on(instrument, self.order.following(instrument));
                Vec::new()
            }
            (Step::NextAs(number), Phase::Answered(_)) => {
                self.go_on(instrument, number);
                Vec::new()
            }
            _ => Vec::new(),
        }
    }

    fn hear(&mut self, instrument: &Instrument, heard: Heard) {
        if let Some(watch) = &mut self.watch {
            watch.hear(instrument, &self.question, &self.tool, heard);
        }
    }

    fn go_on(&mut self, instrument: &Instrument, number: u32) {
        let back = self.order.due();
        self.pose(instrument, back.unwrap_or(number));
    }

    /// Poses the next question: the one of this number, unless a watch chooses.
    fn pose(&mut self, instrument: &Instrument, number: u32) {
        let chosen = self.watch.as_mut().and_then(|watch| watch.choose(instrument));
        self.question = chosen.unwrap_or_else(|| question(instrument, self.seed, number));
        self.tool = self.question.tool(instrument);
        self.phase = phase_after(&self.question, &self.tool, 0);
        self.glass_used = false;
        self.order.posed(self.question.number);
    }

    fn answered(
        &mut self,
        answer: String,
        mark: Mark,
        took: Duration,
        at: String,
        shown: &Shown,
    ) -> Vec<Effect> {
        if mark.verdict.is_answer() {
            self.asked += 1;
        }
        if mark.verdict.is_right() {
            self.right += 1;
        }
        let attempt = self.record(&answer, &mark, took, at, shown);
        self.order.heard(self.question.number, Outcome::of(&attempt, Target::of(&self.tool)));
        let shares = shares(&self.tool, &self.question.reading);
        self.phase = Phase::Answered(Answered { answer, mark, shares });
        vec![Effect::Save(Box::new(attempt))]
    }

    fn record(&self, answer: &str, mark: &Mark, took: Duration, at: String, shown: &Shown) -> Attempt {
        let said = Said {
            learner: self.learner.clone(),
            at,
            generator: self.watch.as_ref().map_or(GENERATOR, Watch::generator),
            seed: self.seed.0,
            view: shown.view,
            glass: self.glass_used || shown.glass,
            lines: shown.lines.to_owned(),
            cols: shown.cols,
            rows: shown.rows,
            answer: answer.to_owned(),
            took_ms: u64::try_from(took.as_millis()).unwrap_or(u64::MAX),
        };
        said.record(&self.question, &self.tool, mark)
    }
}

/// The phase when so many of the earlier pictures have been seen.
fn phase_after(question: &Question, tool: &Instrument, seen: usize) -> Phase {
    if seen < question.earlier(tool).len() { Phase::Before(seen) } else { Phase::Asking { again: None } }
}
