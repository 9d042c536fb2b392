//! How likely each explanation of the answers is: the posterior.

use super::prior::Prior;
use super::suspects::{Predicted, Suspects};
use crate::exact::Exact;

/// How often a finger or an eye slips, whatever is believed.
const SLIP: f64 = 0.05;
/// How often a misread that is held is applied: nearly always, or four times in five.
const APPLIED: [f64; 2] = [0.98, 0.80];
/// How likely each of them is before the first answer.
const APPLIED_PRIOR: [f64; APPLIED.len()] = [0.9, 0.1];
/// What a slip is: a neighbouring line, another misread's answer, one digit typed wrong, or anything at all.
const NEIGHBOUR: f64 = 0.35;
const BORROWED: f64 = 0.25;
const DIGIT: f64 = 0.3;
const ANYTHING: f64 = 0.1;
/// About how many readings an instrument shows.
const READINGS: f64 = 2000.0;
/// About how many figures differ from one in a single digit.
const OTHER_DIGITS: f64 = 40.0;
/// Someone whose way of reading is not listed: how often right, and one line off to either side.
pub(super) const UNLISTED_RIGHT: f64 = 0.25;
const UNLISTED_NEIGHBOUR: f64 = 0.075;
const UNLISTED_ANYTHING: f64 = 0.003;
/// How much of a misread a correction takes away, and how much of one comes back by itself, per question of a repair.
const REPAIRED: f64 = 0.10;
const RELAPSED: f64 = 0.01;

/// An explanation of the answers.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Hypothesis {
    /// Reads correctly, slips aside.
    Correct,
    /// Holds the suspect of this number of [`Suspects::all`].
    Suspect(usize),
    /// Holds something that is not listed.
    Unlisted,
}

/// The probability of every hypothesis.
#[derive(Clone, Debug, PartialEq)]
pub struct Belief {
    correct: f64,
    /// For each suspect, one for each of [`APPLIED`].
    suspects: Vec<[f64; APPLIED.len()]>,
    unlisted: f64,
    /// How many misreads are left aside.
    aside: usize,
    /// The logarithm of how likely the answers were, all in all.
    evidence: f64,
}

impl Belief {
    /// Before the first answer.
    pub fn before(suspects: &Suspects, prior: &Prior) -> Self {
        let shares: Vec<f64> = suspects.all().iter().map(|suspect| prior.weight(suspect)).collect();
        // Those left aside weigh one each, as nothing is known of them.
        let sum: f64 = shares.iter().sum::<f64>() + count(suspects.aside());
        let rest = 1.0 - prior.correct - prior.unlisted;
        let each = |share: &f64| rest * share / sum.max(f64::MIN_POSITIVE);
        let held = shares.iter().map(|share| APPLIED_PRIOR.map(|rate| rate * each(share))).collect();
        let aside = suspects.aside();
        let (correct, unlisted) = (prior.correct, prior.unlisted);
        let mut belief = Self { correct, suspects: held, unlisted, aside, evidence: 0.0 };
        belief.normalise();
        belief
    }

    /// The probability of a hypothesis.
    pub fn of(&self, hypothesis: Hypothesis) -> f64 {
        match hypothesis {
            Hypothesis::Correct => self.correct,
            Hypothesis::Suspect(n) => self.suspects[n].iter().sum(),
            Hypothesis::Unlisted => self.unlisted,
        }
    }

    /// How often a suspect is applied if it is held, by what was answered.
    pub(super) fn applied(&self, suspect: usize) -> f64 {
        let p = &self.suspects[suspect];
        let sum: f64 = p.iter().sum();
        let weighted: f64 = p.iter().zip(APPLIED).map(|(p, applied)| p * applied).sum();
        if sum > 0.0 { weighted / sum } else { APPLIED[0] }
    }

    /// All hypotheses, the most probable first; of equal ones the more particular.
    pub fn ranked(&self) -> Vec<(Hypothesis, f64)> {
        let suspects =
            self.suspects.iter().enumerate().map(|(n, p)| (Hypothesis::Suspect(n), p.iter().sum()));
        let mut all: Vec<_> = std::iter::once((Hypothesis::Correct, self.correct))
            .chain(suspects)
            .chain(std::iter::once((Hypothesis::Unlisted, self.unlisted)))
            .collect();
        all.sort_by(|(_, a), (_, b)| b.total_cmp(a));
        all
    }

    /// After an answer.
    pub fn hear(&mut self, predicted: &Predicted, answer: Exact) {
        let right = std::slice::from_ref(&predicted.right);
        let answered = |answers: &[Exact]| -> f64 {
            if answers.is_empty() {
                f64::from(u8::from(answer == predicted.right))
            } else {
                share(answers, answer)
            }
        };
        let agree: Vec<f64> = predicted.answers.iter().map(|answers| answered(answers)).collect();
        let correct = answered(&[]);
        let all_agree: f64 = correct + agree.iter().sum::<f64>();
        let others = count(agree.len() + self.aside);
        let slip = |answers: &[Exact], own: f64| {
            let from = if answers.is_empty() { right } else { answers };
            let borrowed = (all_agree - own) / others.max(1.0);
            slipped(from, answer, predicted) + BORROWED * borrowed
        };
        for ((rates, answers), own) in self.suspects.iter_mut().zip(&predicted.answers).zip(&agree) {
            let slipped = SLIP * slip(answers, *own);
            for (p, applied) in rates.iter_mut().zip(APPLIED) {
                let meant = if answers.is_empty() { *own } else { applied * own + (1.0 - applied) * correct };
                *p *= (1.0 - SLIP) * meant + slipped;
            }
        }
        self.correct *= (1.0 - SLIP) * correct + SLIP * slip(&[], correct);
        self.unlisted *= UNLISTED_RIGHT * correct
            + 2.0 * UNLISTED_NEIGHBOUR * beside(right, answer, predicted.line)
            + UNLISTED_ANYTHING;
        self.evidence += self.normalise().ln();
    }

    /// The logarithm of how likely the answers were to all hypotheses together.
    pub(super) fn evidence(&self) -> f64 {
        self.evidence
    }

    /// What a question with its explanation does while a misread is being repaired: some of it goes, and a little of anything
    /// may come back.
    pub fn forget(&mut self, repaired: usize) {
        let mut gone = 0.0;
        for p in &mut self.suspects[repaired] {
            gone += REPAIRED * *p;
            *p -= REPAIRED * *p;
        }
        self.relapse();
        self.correct += gone;
    }

    /// What passes between two questions while nothing is repaired: a little of anything may come up.
    pub fn relapse(&mut self) {
        let back = RELAPSED * self.correct;
        self.correct -= back;
        let each = back / count((self.suspects.len() + self.aside) * APPLIED.len());
        for p in self.suspects.iter_mut().flatten() {
            *p += each;
        }
    }

    fn normalise(&mut self) -> f64 {
        let sum = self.correct + self.unlisted + self.suspects.iter().flatten().sum::<f64>();
        self.correct /= sum;
        self.unlisted /= sum;
        for p in self.suspects.iter_mut().flatten() {
            *p /= sum;
        }
        sum
    }
}

/// How likely a slip from one of these answers ends at another, borrowed ones aside.
pub(super) fn slipped(from: &[Exact], answer: Exact, predicted: &Predicted) -> f64 {
    NEIGHBOUR * beside(from, answer, predicted.line)
        + DIGIT * misdigited(from, answer, predicted.digit)
        + ANYTHING / READINGS
}

/// How likely an answer is to someone who gives one of these, each as often.
fn share(answers: &[Exact], answer: Exact) -> f64 {
    if answers.contains(&answer) { 1.0 / count(answers.len()) } else { 0.0 }
}

/// How likely an answer is to someone who misses one of these by a line, to either side as often.
fn beside(answers: &[Exact], answer: Exact, line: Exact) -> f64 {
    let near = answers.iter().filter(|a| **a + line == answer || **a - line == answer).count();
    0.5 * count(near) / count(answers.len())
}

/// How likely an answer is to someone who means one of these and types one digit wrong.
fn misdigited(answers: &[Exact], answer: Exact, digit: Option<Exact>) -> f64 {
    let Some(digit) = digit else { return 0.0 };
    let one_digit = |meant: &&Exact| {
        let Some(mut off) = (**meant - answer).abs().over(digit).to_whole().filter(|off| *off > 0) else {
            return false;
        };
        while off % 10 == 0 {
            off /= 10;
        }
        off < 10
    };
    count(answers.iter().filter(one_digit).count()) / (count(answers.len()) * OTHER_DIGITS)
}

/// A count as a number to reckon with.
pub(super) fn count(n: usize) -> f64 {
    f64::from(u32::try_from(n).unwrap_or(u32::MAX))
}
