//! The decimal point stands one place off.

use super::{Case, Misread, On, Wrong};
use crate::exact::Exact;

/// The decimal point is one place off: ten times too much, or a tenth.
pub static DECIMAL_SLIP: Misread = Misread {
    id: "decimal-slip",
    name: "decimal point slipped",
    formula: "ten times the right answer, or a tenth of it",
    cure: "Look at the size of the work first: could it be ten times larger?",
    on: &[On::Any],
    answers,
};

fn answers(case: &Case<'_>) -> Vec<Wrong> {
    let right = case.expected();
    [(Exact::whole(10), "ten times too large"), (Exact::ratio(1, 10), "ten times too small")]
        .into_iter()
        .map(|(times, how)| Wrong {
            answer: right * times,
            stage: None,
            did: format!("Your figures are right, the decimal point is not: {how}."),
        })
        .collect()
}
