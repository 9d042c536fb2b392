//! The part of the model that belongs to exercises and checks.

use super::benching::BenchScreen;
use super::command::Place;
use super::model::{LEAST, Model, Screen};
use crate::class::card::Card;
use crate::class::sitting::{Entry, Purpose, Sitting};
use crate::class::verdict::Judged;
use crate::drill::set::{Allowed, DrillSet, Shelf};
use crate::session::{Bench, Exercise, Programme};
use crate::wording::exercise as say;
use std::collections::BTreeMap;
use std::time::Duration;

/// What a question at the bench belongs to.
pub enum PartOf {
    /// A run of some kinds.
    Run,
    /// The paper of a set.
    Paper(Box<Exercise>),
    /// A sitting that is over: an answer looked at again.
    Past {
        /// Which of the wrong ones it is, from 1, and of how many.
        nth: (usize, usize),
    },
}

/// What there is to do beside practice, and what was done of it.
pub struct Sets {
    /// The sets, in the order of the course.
    pub all: Shelf,
    /// Job cards for this learner, the next due first.
    pub cards: Vec<Issued>,
    /// The last sitting over each, by the set's id.
    pub last: BTreeMap<String, Sitting>,
    /// Where the page for the supervisor is written, if that was asked for.
    pub page: Option<String>,
}

impl Sets {
    /// Those of a shelf; nothing is known yet of what was done.
    pub fn new(all: Shelf) -> Self {
        Self { all, cards: Vec::new(), last: BTreeMap::new(), page: None }
    }

    /// Lines of the list: the job cards, then the sets.
    pub fn lines(&self) -> usize {
        self.cards.len() + self.all.ids().count()
    }

    /// The id of the set on a line that is none of a card.
    pub fn id_at(&self, line: usize) -> Option<&str> {
        self.all.ids().nth(line.checked_sub(self.cards.len())?)
    }

    /// The job card of a number.
    pub fn card(&self, number: &str) -> Option<&Issued> {
        self.cards.iter().find(|issued| issued.card.number == number)
    }
}

/// A job card that was issued.
#[derive(Clone, Debug)]
pub struct Issued {
    /// The card.
    pub card: Card,
    /// Its set.
    pub set: DrillSet,
    /// What was done with it on this machine.
    pub stands: Stands,
}

/// How a job card stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stands {
    /// Not begun.
    New,
    /// Begun, and left.
    Left,
    /// Done.
    Done,
}

/// The page before a set is begun.
pub struct StartScreen {
    /// It, begun or taken up.
    pub exercise: Exercise,
    /// What cannot be drawn in the window as it was looked at.
    pub needs: Option<Needs>,
    /// The first line in view.
    pub from: usize,
}

/// What a window would have to be.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Needs {
    /// Cells across and down.
    pub size: (i64, i64),
    /// The questions that have no room.
    pub questions: Vec<u32>,
}

/// The page after its end.
pub struct ResultScreen {
    /// It.
    pub exercise: Exercise,
    /// What it comes to.
    pub judged: Judged,
    /// The chosen one of those that went wrong.
    pub chosen: usize,
    /// Time used.
    pub spent: Duration,
}

impl ResultScreen {
    /// Of an exercise that has come to its end.
    pub fn new(exercise: Exercise, model: &Model) -> Self {
        let judged = exercise.judged(&model.catalogue);
        let spent = exercise.spent(model.now);
        Self { exercise, judged, chosen: 0, spent }
    }

    /// The answers that were not right, in order, one a question.
    pub fn wrong(&self) -> Vec<&Entry> {
        let entries = &self.exercise.sitting().entries;
        let wrong = self.judged.questions.iter().filter(|question| !question.right);
        wrong
            .filter_map(|question| {
                let mut of = entries.iter().filter(|entry| entry.place == question.place);
                of.find(|entry| !entry.attempt.verdict.is_right())
            })
            .collect()
    }

    /// What the page is called where nobody named a file: `self-test-first-rule-2026-03-09.txt`.
    pub fn page_name(&self) -> String {
        let sitting = self.exercise.sitting();
        let day = sitting.begun.get(..10).unwrap_or_default();
        format!("{}-{}-{day}.txt", say::called(sitting.purpose).replace(' ', "-"), sitting.set)
    }

    /// The page for the supervisor.
    pub fn page(&self, model: &Model) -> Vec<String> {
        let (set, sitting) = (self.exercise.set(), self.exercise.sitting());
        let plan = self.exercise.plan();
        say::page::page(set, sitting, (&self.judged, plan.as_ref()), self.spent, &model.catalogue)
    }
}

impl BenchScreen {
    /// A question of a paper.
    pub fn of_paper(exercise: Exercise, run: Bench, now: Duration) -> Self {
        let screen = Self::of_task(run, now);
        Self { glass_rule: exercise.glass(), part_of: PartOf::Paper(Box::new(exercise)), ..screen }
    }

    /// An answer looked at again.
    pub fn of_past(run: Bench, nth: (usize, usize), now: Duration) -> Self {
        let mut screen = Self::of_task(run, now);
        screen.before = None;
        Self { part_of: PartOf::Past { nth }, ..screen }
    }

    fn of_task(run: Bench, now: Duration) -> Self {
        let instrument = run.part().tool.id.clone();
        let programme = Programme::Kinds(vec![run.task().kind]);
        Self::new(instrument, programme, run, now)
    }

    /// The paper it belongs to.
    pub fn paper(&self) -> Option<&Exercise> {
        match &self.part_of {
            PartOf::Paper(exercise) => Some(exercise),
            PartOf::Run | PartOf::Past { .. } => None,
        }
    }

    /// Nothing may be told now.
    pub fn is_silent(&self) -> bool {
        self.paper().is_some_and(Exercise::is_silent)
    }
}

impl Model {
    /// The exercise that is under way, whatever lies over it.
    pub fn under_way(&self) -> Option<&Exercise> {
        self.screens.iter().rev().find_map(|screen| match screen {
            Screen::Bench(bench) => bench.paper(),
            _ => None,
        })
    }

    /// The same to change, with the number of its screen.
    pub fn under_way_mut(&mut self) -> Option<(usize, &mut Exercise)> {
        self.screens.iter_mut().enumerate().rev().find_map(|(at, screen)| match screen {
            Screen::Bench(bench) => match &mut bench.part_of {
                PartOf::Paper(exercise) => Some((at, &mut **exercise)),
                PartOf::Run | PartOf::Past { .. } => None,
            },
            _ => None,
        })
    }

    /// How long until the clock of a paper says something else; none where none runs.
    pub(super) fn paper_changes_in(&self, now: Duration) -> Option<Duration> {
        let left = self.under_way()?.left(self.now)?;
        Some(say::clock_stands(left).saturating_sub(now.saturating_sub(self.now)))
    }

    /// Which question of a paper it is, and how long there is left.
    pub fn paper_score(&self, exercise: &Exercise, bench: &BenchScreen) -> String {
        let which = say::which(exercise.which(), bench.run.which());
        let right =
            exercise.sitting().entries.iter().filter(|entry| entry.attempt.verdict.is_right()).count();
        let all = exercise.sitting().entries.len();
        let told = if exercise.is_silent() || all == 0 {
            String::new()
        } else {
            format!("   {right} of {all} right")
        };
        let clock =
            exercise.left(self.now).map_or_else(String::new, |left| format!("   {}", say::clock(left)));
        self.labelled(&bench.instrument, format!("{which}{told}{clock}"))
    }

    /// What of the questions still to come cannot be drawn in this window; none where all of them can.
    pub fn needs(&self, exercise: &Exercise) -> Option<Needs> {
        let done = exercise.which().0;
        let least = (i64::from(LEAST.0), i64::from(LEAST.1));
        let mut needs = Needs { size: least, questions: Vec::new() };
        for (number, item) in (1..).zip(exercise.paper()).skip_while(|(number, _)| *number < done) {
            let Some(task) = item.task(&self.catalogue) else { continue };
            let parts = 1..=task.parts.len();
            let wanted = parts.filter_map(|part| {
                let run = Bench::of_paper("", item, task.clone(), part);
                let mut screen = BenchScreen::of_task(run, self.now);
                screen.glass_rule = exercise.glass();
                self.bench_needs(&screen)
            });
            for (cols, rows) in wanted {
                needs.size = (needs.size.0.max(cols), needs.size.1.max(rows));
                if needs.questions.last() != Some(&number) {
                    needs.questions.push(number);
                }
            }
        }
        (!needs.questions.is_empty()).then_some(needs)
    }
}

impl StartScreen {
    /// A set about to be begun.
    pub fn new(exercise: Exercise, model: &Model) -> Self {
        Self { needs: model.needs(&exercise), exercise, from: 0 }
    }

    /// Where commands are looked up.
    pub fn place(&self) -> Place {
        // A job card goes on where it was left.
        let anew = self.goes_on() && self.exercise.sitting().card.is_none();
        if anew { Place::GoOn } else { Place::Start }
    }

    /// It was left and is taken up.
    pub fn goes_on(&self) -> bool {
        !self.exercise.sitting().entries.is_empty()
    }

    /// What has no room keeps it from being begun: a check is asked as a whole, an exercise leaves it out.
    pub fn is_refused(&self) -> bool {
        let check = self.exercise.sitting().purpose != Purpose::Exercise;
        self.needs.is_some() && (check || self.exercise.glass() == Allowed::No)
    }
}
