//! Two misreads held at once, on different steps. They are thought of only after an answer that no single one gives, so that
//! whoever holds one is judged as if there were no pairs.

use super::belief::{count, slipped};
use super::inquiry::SURE;
use super::suspects::Predicted;
use crate::exact::Exact;

/// That someone holds two.
const PAIR: f64 = 0.05;
/// How often each of the two is applied.
const APPLIED: f64 = 0.95;
/// How often a finger or an eye slips.
const SLIP: f64 = 0.05;
/// Wrong answers that both must have been seen in: of the two together, and of either.
const TOGETHER: u32 = 2;
const IN_ALL: u32 = 3;

/// What one pair has come to.
struct Pair {
    which: (usize, usize),
    likelihood: f64,
    together: u32,
    in_all: u32,
}

/// What the answers come to where two are held.
pub(super) struct Held {
    /// The most probable pair.
    pub(super) pair: (usize, usize),
    /// How probable it is.
    pub(super) probability: f64,
    /// It is sure, and was seen often enough.
    pub(super) is_sure: bool,
    /// How probable it is that two are held, whichever.
    pub(super) any: f64,
}

/// Two that are held. `single` is the logarithm of how likely the answers are to all other explanations together.
pub(super) fn held(heard: &[(Predicted, Exact)], single: f64) -> Option<Held> {
    let suspects = heard.first()?.0.answers.len();
    let pairs = (0..suspects).flat_map(|one| (one + 1..suspects).map(move |other| (one, other)));
    let pairs: Vec<Pair> = pairs.filter_map(|which| Pair::of(which, heard)).collect();
    // Pairs that never met in a question count as well: each is as likely as another.
    let all = count(suspects * (suspects.max(1) - 1) / 2);
    let weight = |pair: &Pair| PAIR / all * (pair.likelihood - single).exp();
    let weights: f64 = pairs.iter().map(weight).sum();
    let sum = 1.0 - PAIR + weights;
    let best = pairs.iter().max_by(|a, b| a.likelihood.total_cmp(&b.likelihood))?;
    let probability = weight(best) / sum;
    let is_sure = probability >= SURE && best.together >= TOGETHER && best.in_all >= IN_ALL;
    Some(Held { pair: best.which, probability, is_sure, any: weights / sum })
}

impl Pair {
    /// None where the two never made an answer together.
    fn of(which: (usize, usize), heard: &[(Predicted, Exact)]) -> Option<Self> {
        let mut pair = Self { which, likelihood: 0.0, together: 0, in_all: 0 };
        for (predicted, answer) in heard {
            let (one, other) = (&predicted.answers[which.0], &predicted.answers[which.1]);
            let right = std::slice::from_ref(&predicted.right);
            let both = predicted.together(which.0, which.1);
            if !both.is_empty() && both.contains(answer) {
                pair.together += 1;
            }
            pair.in_all += u32::from(
                *answer != predicted.right && [one, other, &both].iter().any(|all| all.contains(answer)),
            );
            let share = |answers: &[Exact]| {
                let answers = if answers.is_empty() { right } else { answers };
                if answers.contains(answer) { 1.0 / count(answers.len()) } else { 0.0 }
            };
            // Where they do not add up, whichever is met first is done.
            let done = if !both.is_empty() {
                share(&both)
            } else if one.is_empty() {
                share(other)
            } else if other.is_empty() {
                share(one)
            } else {
                0.5 * (share(one) + share(other))
            };
            let meant = APPLIED * APPLIED * done
                + APPLIED * (1.0 - APPLIED) * (share(one) + share(other))
                + (1.0 - APPLIED) * (1.0 - APPLIED) * share(right);
            let from = if !both.is_empty() {
                both.as_slice()
            } else if one.is_empty() {
                other
            } else {
                one
            };
            let slip = slipped(if from.is_empty() { right } else { from }, *answer, predicted);
            pair.likelihood += ((1.0 - SLIP) * meant + SLIP * slip).ln();
        }
        (pair.together > 0).then_some(pair)
    }
}
