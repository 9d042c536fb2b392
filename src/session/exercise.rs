//! The paper of a drill set gone through: an exercise, a skills check, or the same form for oneself.
//!
//! Where it is told at the end what was right, nothing of it is told before, and the answers go into the learner's record then:
//! a list of what was right would be the telling.

mod kept;

use super::bench::{Act, Bench, Stand};
use super::practice;
use crate::class::seal::paper_seed;
use crate::class::sitting::{End, Entry, Purpose, Sitting};
use crate::class::verdict::{Judged, Outcome, judge};
use crate::drill::record::Attempt;
use crate::drill::set::{Allowed, DrillSet, Feedback, Item, deal};
use crate::drill::task::Task;
use crate::drill::{Kind, Seed};
use crate::instrument::Catalogue;
use crate::learner::plan::Plan;
use std::time::Duration;

/// A set being gone through. It can be put away as text and taken up again.
#[derive(Clone, Debug)]
pub struct Exercise {
    set: DrillSet,
    seed: Seed,
    /// Which try of its card it is.
    nth: u32,
    paper: Vec<Item>,
    sitting: Sitting,
    /// Which question is up, from 0, and the part of it that is answered next, from 1.
    at: (usize, usize),
    /// Time used before it was shown last.
    spent: Duration,
    /// When it was shown last; none while it is put away.
    since: Option<Duration>,
}

/// Whose sitting it is.
#[derive(Clone, Debug)]
pub struct Whose {
    /// Made by chance: 16 hexadecimal digits.
    pub id: String,
    /// The learner's name or short code.
    pub learner: String,
    /// The number of the issued card that is answered.
    pub card: Option<String>,
    /// What the card is for; without one the set says it.
    pub purpose: Option<Purpose>,
    /// Which try of the card it is, from 1.
    pub nth: u32,
    /// Now, UTC as RFC 3339.
    pub at: String,
}

/// What an adapter must carry out, in this order.
#[derive(Clone, Debug)]
pub enum Keep {
    /// The answer is put down on the sitting.
    Append(Box<Entry>),
    /// Answers are put down in the learner's record.
    Save(Vec<Attempt>),
    /// The sitting has come to its end.
    End(End),
}

/// Where an exercise goes on.
#[derive(Clone)]
pub enum On {
    /// With the bench as it is: another part of the question, or the answer still stands open.
    Here,
    /// With another question.
    Next(Box<Bench>),
    /// Nowhere: it has come to its end.
    Over(Vec<Keep>),
}

/// What cannot be asked.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Missing {
    /// An instrument of the set is not there.
    Instrument(String),
    /// The instrument has no question of this kind, at this place of the paper.
    Question(u32),
}

impl Exercise {
    /// Begins a set. The seed of its paper follows from whose it is, so that nobody chooses an easy one; a set that has its own
    /// goes by that.
    pub fn begin(set: DrillSet, catalogue: &Catalogue, whose: Whose) -> Result<Self, Missing> {
        let seed = paper_seed(whose.card.as_deref(), &whose.learner, whose.nth, &whose.id);
        let own = if set.pass.is_some() { Purpose::SelfTest } else { Purpose::Exercise };
        let Whose { id, learner, card, purpose, nth, at } = whose;
        let purpose = purpose.unwrap_or(own);
        let sitting = Sitting {
            id,
            learner,
            set: set.id.clone(),
            revision: set.revision.clone(),
            purpose,
            card,
            nth,
            begun: at,
            ended: None,
            interruptions: 0,
            end: End::Open,
            entries: Vec::new(),
            lacks: Vec::new(),
        };
        Self::over(set, catalogue, seed, sitting).map(|exercise| Self { nth, ..exercise })
    }

    fn over(set: DrillSet, catalogue: &Catalogue, seed: Seed, sitting: Sitting) -> Result<Self, Missing> {
        if let Some(gone) = set.portions.iter().find(|portion| catalogue.get(&portion.instrument).is_none()) {
            return Err(Missing::Instrument(gone.instrument.clone()));
        }
        let paper = deal(&set, catalogue, seed);
        if let Some(bad) = paper.iter().find(|item| item.task(catalogue).is_none()) {
            return Err(Missing::Question(bad.place));
        }
        let mut exercise =
            Self { set, seed, nth: 1, paper, sitting, at: (0, 1), spent: Duration::ZERO, since: None };
        exercise.at = exercise.after_last(catalogue);
        Ok(exercise)
    }

    /// Where it goes on after the last answer put down.
    fn after_last(&self, catalogue: &Catalogue) -> (usize, usize) {
        let Some(last) = self.sitting.entries.last() else { return (0, 1) };
        let Some(at) = self.paper.iter().position(|item| item.place == last.place) else { return (0, 1) };
        let parts = self.paper[at].task(catalogue).map_or(1, |task| task.parts.len());
        let part = usize::try_from(last.part).unwrap_or(parts);
        if part < parts { (at, part + 1) } else { (at + 1, 1) }
    }

    /// The setting under which a learner's last sitting of a set is put away.
    pub fn key_of(learner: &str, set: &str) -> String {
        format!("exercise/{learner}/{set}")
    }

    /// The setting under which this one is put away: that of the job card where there is one.
    pub fn key(&self) -> String {
        Self::key_of(&self.sitting.learner, self.sitting.card.as_ref().unwrap_or(&self.sitting.set))
    }

    /// Which try of its card it is, from 1.
    pub fn nth(&self) -> u32 {
        self.nth
    }

    /// The set.
    pub fn set(&self) -> &DrillSet {
        &self.set
    }

    /// The seed of the sitting.
    pub fn seed(&self) -> Seed {
        self.seed
    }

    /// The sitting so far.
    pub fn sitting(&self) -> &Sitting {
        &self.sitting
    }

    /// The questions, in order.
    pub fn paper(&self) -> &[Item] {
        &self.paper
    }

    /// Whether the glass may be opened.
    pub fn glass(&self) -> Allowed {
        self.set.glass
    }

    /// When it is told what was right.
    pub fn feedback(&self) -> Feedback {
        self.set.feedback
    }

    /// True while nothing may be told.
    pub fn is_silent(&self) -> bool {
        self.set.feedback == Feedback::AtTheEnd && self.sitting.end == End::Open
    }

    /// The number of the question that is up, from 1, and of how many.
    pub fn which(&self) -> (u32, u32) {
        let count = u32::try_from(self.paper.len()).unwrap_or(u32::MAX);
        (u32::try_from(self.at.0 + 1).unwrap_or(u32::MAX).min(count), count)
    }

    /// The rule by which it is passed.
    pub fn plan(&self) -> Option<Plan> {
        self.set.pass.as_ref().map(|pass| Plan::of(pass, self.set.count))
    }

    /// What it comes to as it stands.
    pub fn judged(&self, catalogue: &Catalogue) -> Judged {
        judge(self.plan().as_ref(), self.sitting.end, &self.sitting.entries, catalogue)
    }

    /// The clock goes on. Taken up after an answer was given, it counts as interrupted.
    pub fn shown(&mut self, now: Duration) {
        if self.since.is_none() && (self.spent > Duration::ZERO || !self.sitting.entries.is_empty()) {
            self.sitting.interruptions += 1;
        }
        self.since.get_or_insert(now);
    }

    /// The clock stops.
    pub fn hidden(&mut self, now: Duration) {
        self.spent = self.spent(now);
        self.since = None;
    }

    /// Time used.
    pub fn spent(&self, now: Duration) -> Duration {
        self.spent + self.since.map_or(Duration::ZERO, |since| now.saturating_sub(since))
    }

    /// Time left, where there is a limit.
    pub fn left(&self, now: Duration) -> Option<Duration> {
        let limit = Duration::from_secs(u64::from(self.set.time?));
        Some(limit.saturating_sub(self.spent(now)))
    }

    /// The question that is up; none when all is answered, or it has come to its end.
    pub fn bench(&self, catalogue: &Catalogue) -> Option<Bench> {
        let item = self.paper.get(self.at.0).filter(|_| self.sitting.end == End::Open)?;
        if let (2.., Some(last)) = (self.at.1, self.sitting.entries.last()) {
            // What was answered before says where the glass opens.
            let mut bench = self.look_back(catalogue, last)?;
            bench.act(catalogue.get(&item.instrument)?, Act::Next);
            return Some(bench);
        }
        self.posed(catalogue, item, self.at.1)
    }

    /// A question from one of its parts on.
    fn posed(&self, catalogue: &Catalogue, item: &Item, part: usize) -> Option<Bench> {
        let bench = Bench::of_paper(self.sitting.learner.clone(), item, item.task(catalogue)?, part);
        if item.kind != Kind::SameAgain {
            return Some(bench);
        }
        let same =
            |of: &Item| (of.kind, &of.instrument, of.seed()) == (item.kind, &item.instrument, item.seed());
        let earlier = self.sitting.entries.iter().take_while(|entry| entry.place != item.place);
        let earlier = earlier.filter(|entry| self.item(entry.place).is_some_and(same));
        let read = earlier.filter_map(|entry| {
            let attempt = &entry.attempt;
            Some((attempt.number, bench.part().typed(&attempt.answer).ok()?))
        });
        let read = read.collect();
        Some(bench.after(read))
    }

    /// The task of a place on the paper.
    pub fn task(&self, catalogue: &Catalogue, place: u32) -> Option<Task> {
        self.item(place)?.task(catalogue)
    }

    fn item(&self, place: u32) -> Option<&Item> {
        self.paper.iter().find(|item| item.place == place)
    }

    /// An answer looked at again.
    pub fn look_back(&self, catalogue: &Catalogue, entry: &Entry) -> Option<Bench> {
        let item = self.item(entry.place)?;
        let part = usize::try_from(entry.part).ok()?;
        let bench = self.posed(catalogue, item, part)?;
        let given = bench.part().given_in(&entry.attempt)?;
        Some(bench.told_again(given))
    }

    /// Carries an act out at the bench of the question that is up. What goes on is [`Exercise::go_on`].
    pub fn act(&mut self, bench: &mut Bench, catalogue: &Catalogue, act: Act) -> Vec<Keep> {
        let forbidden = matches!(act, Act::Glass) && self.set.glass == Allowed::No;
        let Some(item) = self.paper.get(self.at.0).filter(|_| !forbidden && self.sitting.end == End::Open)
        else {
            return Vec::new();
        };
        let Some(instrument) = catalogue.get(&item.instrument) else { return Vec::new() };
        if matches!(act, Act::Next) {
            return Vec::new();
        }
        let place = item.place;
        let mut keep = Vec::new();
        for practice::Effect::Save(attempt) in bench.act(instrument, act) {
            let part = u32::try_from(bench.which().0).unwrap_or(u32::MAX);
            let entry = Entry { place, part, attempt: *attempt };
            self.sitting.entries.push(entry.clone());
            keep.push(Keep::Append(Box::new(entry.clone())));
            if self.set.feedback == Feedback::Now {
                keep.push(Keep::Save(vec![entry.attempt]));
            }
        }
        keep
    }

    /// Goes on from an answered part: to the next one, the next question, or the end.
    pub fn go_on(&mut self, bench: &mut Bench, catalogue: &Catalogue, at: &str) -> On {
        if self.sitting.end != End::Open || !matches!(bench.stand(), Stand::Told(_)) {
            return On::Here;
        }
        if !bench.is_done() {
            self.at.1 = bench.which().0 + 1;
            if let Some(instrument) =
                self.paper.get(self.at.0).and_then(|item| catalogue.get(&item.instrument))
            {
                bench.act(instrument, Act::Next);
            }
            return On::Here;
        }
        self.at = (self.at.0 + 1, 1);
        let decided = self.plan().is_some() && self.judged(catalogue).outcome != Outcome::Open;
        match self.bench(catalogue).filter(|_| !decided) {
            Some(next) => On::Next(Box::new(next)),
            None => On::Over(self.end(End::Done, at)),
        }
    }

    /// Passes the question that is up by, without a trace, because it cannot be shown. Not for a check: that is asked as a whole.
    pub fn pass_by(&mut self, catalogue: &Catalogue, at: &str) -> On {
        if self.sitting.end != End::Open || self.set.pass.is_some() {
            return On::Here;
        }
        self.at = (self.at.0 + 1, 1);
        match self.bench(catalogue) {
            Some(next) => On::Next(Box::new(next)),
            None => On::Over(self.end(End::Done, at)),
        }
    }

    /// Ends it, whatever is still open.
    pub fn end(&mut self, end: End, at: &str) -> Vec<Keep> {
        if self.sitting.end != End::Open {
            return Vec::new();
        }
        (self.sitting.end, self.sitting.ended) = (end, Some(at.to_owned()));
        let mut keep = vec![Keep::End(end)];
        if self.set.feedback == Feedback::AtTheEnd && !self.sitting.entries.is_empty() {
            let all = self.sitting.entries.iter().map(|entry| entry.attempt.clone()).collect();
            keep.push(Keep::Save(all));
        }
        keep
    }
}

#[cfg(test)]
mod tests;
