//! A round of questions: so many, on one instrument or on several in turn.

use super::practice::{Answered, Effect, Phase, Practice, Step};
use super::watch::Choose;
use crate::drill::{Question, Seed, Verdict};
use crate::instrument::Instrument;
use crate::learner::diagnosis::{Diagnosis, Status, Suspects};

/// A round. Each instrument has its own run of the seed's questions, so that a record of it can be posed again.
#[derive(Clone)]
pub struct Round<'a> {
    stations: Vec<(&'a Instrument, Practice)>,
    count: u32,
    until: Until,
    number: u32,
    right: u32,
    answered: u32,
    skipped: u32,
}

/// When a round ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Until {
    /// After the last question.
    Count,
    /// As soon as the answers have told how someone reads, or that is given up.
    Told,
}

impl<'a> Round<'a> {
    /// A round of `count` questions, its first one posed. There must be an instrument.
    pub fn new(instruments: &[&'a Instrument], learner: &str, seed: Seed, count: u32) -> Self {
        assert!(!instruments.is_empty(), "a round has an instrument");
        let stations = instruments
            .iter()
            .map(|instrument| (*instrument, Practice::new(instrument, learner, seed)))
            .collect();
        let until = Until::Count;
        let mut round = Self { stations, count, until, number: 1, right: 0, answered: 0, skipped: 0 };
        round.see_all();
        round
    }

    /// The same round watched: what the answers say is found out for each instrument, and may choose the questions.
    #[must_use]
    pub fn watched(mut self, choose: Choose, until: Until) -> Self {
        let watched = |(instrument, practice): (&'a Instrument, Practice)| {
            let practice = practice.watched(instrument, choose);
            (instrument, practice)
        };
        self.stations = self.stations.into_iter().map(watched).collect();
        if let [(instrument, practice)] = &mut self.stations[..] {
            practice.watch_now(instrument);
        }
        self.until = until;
        self.see_all();
        self
    }

    /// What the answers say about reading the instrument that is up, in a round that is watched.
    pub fn diagnosis(&self) -> Option<Diagnosis> {
        self.practice().diagnosis()
    }

    /// Which misreads are looked for, in a watched round on one instrument.
    pub fn suspects(&self) -> Option<&Suspects> {
        if self.stations.len() == 1 { self.practice().suspects() } else { None }
    }

    /// How many questions were put on the instrument that is up, in a round that is watched.
    pub fn asked_here(&self) -> u32 {
        self.practice().watched_questions()
    }

    /// What the answers of a watched round on one instrument say; nothing for several.
    pub fn outcome(&self) -> Option<Diagnosis> {
        (self.stations.len() == 1).then(|| self.diagnosis()).flatten()
    }

    /// The instrument of the question that is up, with what is fitted to it.
    pub fn instrument(&self) -> &Instrument {
        self.practice().tool()
    }

    /// The question that is up.
    pub fn question(&self) -> &Question {
        self.practice().question()
    }

    /// Its number in the round, from 1.
    pub fn number(&self) -> u32 {
        self.number
    }

    /// How many there are.
    pub fn count(&self) -> u32 {
        self.count
    }

    /// Where the question stands. The closed tool is shown beside the question and never waited for.
    pub fn phase(&self) -> &Phase {
        self.practice().phase()
    }

    /// The question's answer, once it has one.
    pub fn answered(&self) -> Option<&Answered> {
        match self.phase() {
            Phase::Answered(answered) => Some(answered),
            Phase::Before(_) | Phase::Asking { .. } => None,
        }
    }

    /// So far right, answered, and passed over.
    pub fn score(&self) -> (u32, u32, u32) {
        (self.right, self.answered, self.skipped)
    }

    /// Uses the glass, answers or passes over.
    pub fn step(&mut self, step: Step) -> Vec<Effect> {
        let open = self.answered().is_none();
        let effects = self.take(step);
        if let Some(verdict) = self.answered().filter(|_| open).map(|answered| answered.mark.verdict) {
            match verdict {
                Verdict::Skipped => self.skipped += 1,
                Verdict::Right | Verdict::RightValue => {
                    self.answered += 1;
                    self.right += 1;
                }
                Verdict::Misread | Verdict::Other => self.answered += 1,
            }
        }
        effects
    }

    /// Poses the next question; false when there is none left, or this one is still open.
    pub fn advance(&mut self) -> bool {
        let told = self.diagnosis().is_some_and(|diagnosis| diagnosis.status != Status::Open);
        let over = self.number >= self.count || (told && self.until == Until::Told);
        if over || self.answered().is_none() {
            return false;
        }
        self.number += 1;
        // The first time round, a run's first question is up already.
        if self.answered().is_some() {
            self.take(Step::Next);
        }
        self.see_all();
        true
    }

    /// What is seen before the work is shown beside the question.
    fn see_all(&mut self) {
        while matches!(self.phase(), Phase::Before(_)) {
            self.take(Step::Seen);
        }
    }

    fn take(&mut self, step: Step) -> Vec<Effect> {
        let station = self.station();
        let (instrument, practice) = &mut self.stations[station];
        practice.step(instrument, step)
    }

    fn practice(&self) -> &Practice {
        &self.stations[self.station()].1
    }

    fn station(&self) -> usize {
        let stations = u32::try_from(self.stations.len()).expect("fewer instruments than questions");
        usize::try_from((self.number - 1) % stations).expect("the place of an instrument")
    }
}

#[cfg(test)]
mod tests {
    use super::super::practice::Shown;
    use super::*;
    use crate::drill::record::View;
    use crate::instrument::Catalogue;
    use std::time::Duration;

    fn answer(text: String) -> Step {
        let shown = Shown { view: View::Flat, lines: "ascii", cols: 80, rows: 24, glass: false };
        Step::Answer { text, took: Duration::from_secs(1), at: String::new(), shown }
    }

    #[test]
    fn instruments_take_turns_and_keep_their_own_numbers() {
        let catalogue = Catalogue::new(Vec::new());
        let instruments: Vec<_> =
            ["rule-metric", "micrometer-inch"].iter().filter_map(|id| catalogue.get(id)).collect();
        let mut round = Round::new(&instruments, "me", Seed(3), 5);
        let mut met = Vec::new();
        loop {
            met.push((round.instrument().id.clone(), round.question().number));
            assert!(!round.advance(), "an open question stays");
            assert!(round.step(answer("nonsense".to_owned())).is_empty());
            let instrument = round.instrument();
            let right = instrument.notation.spell(round.question().expected(instrument));
            assert_eq!(round.step(answer(right.clone())).len(), 1);
            assert!(round.step(answer(right)).is_empty(), "answered once");
            if !round.advance() {
                break;
            }
        }
        let met: Vec<_> = met.iter().map(|(id, n)| (id.as_str(), *n)).collect();
        let (rule, micrometer) = ("rule-metric", "micrometer-inch");
        assert_eq!(met, [(rule, 1), (micrometer, 1), (rule, 2), (micrometer, 2), (rule, 3)]);
        assert_eq!(round.score(), (5, 5, 0));
    }
}
