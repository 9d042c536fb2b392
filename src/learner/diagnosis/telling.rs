//! The question that tells most: expected information gain over a pool of fresh candidates.

use super::belief::{Belief, Hypothesis, UNLISTED_RIGHT, count};
use super::inquiry::{Inquiry, SURE};
use super::suspects::{Predicted, Suspects, Tools};
use crate::drill::{Draw, Question, Seed};
use crate::exact::Exact;
use crate::instrument::Instrument;

/// How many candidates there are to choose from.
pub const POOL: u32 = 400;
/// How many of them are new at every question.
pub const FRESH: u32 = 20;
/// Candidates this close to the best are as good.
const AS_GOOD: f64 = 0.99;

/// The candidates there are to choose from. At question n of an inquiry they are the numbers from [`FRESH`] (n - 1) + 1 on of the
/// seed's candidates, so the pool depends on seed and n alone.
#[derive(Clone)]
pub struct Pool {
    tools: Tools,
    seed: Seed,
    next: u32,
    candidates: Vec<Entry>,
}

/// A candidate and who answers alike on it.
#[derive(Clone)]
struct Entry {
    number: u32,
    /// For each suspect the numbers of its answers among the different ones, from 1; 0 is the right one.
    groups: Vec<Group>,
    different: usize,
}

#[derive(Clone, Copy)]
struct Group {
    suspect: u16,
    /// How many answers the suspect has here.
    of: u16,
    answer: u16,
}

impl Pool {
    /// The pool of an instrument for the first question.
    pub fn new(instrument: &Instrument, suspects: &Suspects, seed: Seed) -> Self {
        let tools = Tools::of(instrument);
        let mut pool = Self { tools, seed, next: 1, candidates: Vec::new() };
        pool.draw(suspects, POOL);
        pool
    }

    /// Puts new candidates in the place of the oldest: the pool for the next question.
    pub fn renew(&mut self, suspects: &Suspects) {
        self.candidates.drain(..usize::try_from(FRESH).map_or(0, |fresh| fresh.min(self.candidates.len())));
        self.draw(suspects, FRESH);
    }

    /// Takes a candidate out of the pool: it was put.
    pub fn take(&mut self, number: u32) -> Question {
        self.candidates.retain(|entry| entry.number != number);
        self.tools.candidate(self.seed, number).0
    }

    /// The number of the candidate that tells most, or of any that is as good.
    pub fn choose(&self, inquiry: &Inquiry, chance: &mut Draw) -> u32 {
        let (leading, probability) = inquiry.belief().ranked()[0];
        let worth: Vec<f64> = if probability >= SURE {
            self.candidates.iter().map(|entry| entry.settles(inquiry, leading)).collect()
        } else {
            let belief = inquiry.belief();
            let of = |n| (belief.of(Hypothesis::Suspect(n)), belief.applied(n));
            let held: Vec<(f64, f64)> = (0..inquiry.suspects().count()).map(of).collect();
            self.candidates.iter().map(|entry| entry.gain(belief, &held)).collect()
        };
        let best = worth.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        let enough = best - (1.0 - AS_GOOD) * best.abs();
        let as_good: Vec<u32> = self
            .candidates
            .iter()
            .zip(&worth)
            .filter(|(_, worth)| **worth >= enough)
            .map(|(entry, _)| entry.number)
            .collect();
        let n = chance.below(u32::try_from(as_good.len()).unwrap_or(u32::MAX));
        as_good[usize::try_from(n).expect("a small number")]
    }

    fn draw(&mut self, suspects: &Suspects, how_many: u32) {
        for number in self.next..self.next + how_many {
            let (question, tool) = self.tools.candidate(self.seed, number);
            let predicted = suspects.predict(&question, self.tools.get(tool));
            self.candidates.push(Entry::new(number, &predicted));
        }
        self.next += how_many;
    }
}

impl Entry {
    fn new(number: u32, predicted: &Predicted) -> Self {
        let mut different: Vec<Exact> = Vec::new();
        let mut groups = Vec::new();
        for (suspect, answers) in predicted.answers.iter().enumerate() {
            for answer in answers {
                let known = different.iter().position(|other| other == answer);
                let place = known.unwrap_or_else(|| {
                    different.push(*answer);
                    different.len() - 1
                });
                groups.push(Group {
                    suspect: small(suspect),
                    of: small(answers.len()),
                    answer: small(place + 1),
                });
            }
        }
        Self { number, groups, different: different.len() }
    }

    /// The expected information gain in bits, slips aside: what the answer is uncertain by, less what it would be uncertain by if
    /// the hypothesis were known.
    fn gain(&self, belief: &Belief, held: &[(f64, f64)]) -> f64 {
        // The last place is for the answers of something unlisted.
        let mut mass = vec![0.0; self.different + 2];
        let unlisted = belief.of(Hypothesis::Unlisted);
        let mut known = unlisted * split(UNLISTED_RIGHT);
        mass[self.different + 1] = unlisted * (1.0 - UNLISTED_RIGHT);
        mass[0] = 1.0 - mass[self.different + 1];
        for group in &self.groups {
            let of = f64::from(group.of);
            let (p, applied) = held[usize::from(group.suspect)];
            mass[usize::from(group.answer)] += applied * p / of;
            mass[0] -= applied * p / of;
            known += p * (split(applied) + applied * of.log2()) / of;
        }
        mass.iter().map(|m| uncertain(*m)).sum::<f64>() - known
    }

    /// How much a candidate helps to settle what is all but sure: a question on which the leader stands alone, or one that gives
    /// many misreads their chance.
    fn settles(&self, inquiry: &Inquiry, leading: Hypothesis) -> f64 {
        match leading {
            Hypothesis::Suspect(leader) => {
                let own: Vec<&Group> =
                    self.groups.iter().filter(|group| usize::from(group.suspect) == leader).collect();
                let shared = |group: &Group| {
                    usize::from(group.suspect) != leader && own.iter().any(|own| own.answer == group.answer)
                };
                let company: f64 = self
                    .groups
                    .iter()
                    .filter(|group| shared(group))
                    .map(|group| inquiry.belief().of(Hypothesis::Suspect(usize::from(group.suspect))) + 1e-3)
                    .sum();
                if own.is_empty() { 0.0 } else { 1.0 / (1.0 + 100.0 * company) }
            }
            Hypothesis::Correct => {
                let mut covered: Vec<u16> = self
                    .groups
                    .iter()
                    .map(|group| group.suspect)
                    .filter(|suspect| inquiry.is_uncovered(usize::from(*suspect)))
                    .collect();
                covered.dedup();
                count(covered.len())
            }
            Hypothesis::Unlisted => 1.0,
        }
    }
}

fn small(n: usize) -> u16 {
    u16::try_from(n).expect("there are few misreads")
}

fn uncertain(p: f64) -> f64 {
    if p > 0.0 { -p * p.log2() } else { 0.0 }
}

fn split(p: f64) -> f64 {
    uncertain(p) + uncertain(1.0 - p)
}
