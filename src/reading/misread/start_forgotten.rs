//! What the tool read at the start is not taken off.

use super::{Asks, Case, Misread, On, Wrong};
use crate::reading::{Change, Turned};

/// The second picture is answered as if the first had stood at 0.
pub static START_FORGOTTEN: Misread = Misread {
    id: "start-forgotten",
    name: "start not taken off",
    formula: "what it reads now",
    cure: "Write down what it reads on the master, or before the cut; a change is always the second less the first.",
    on: &[On::Collar, On::Indicator],
    answers,
};

fn answers(case: &Case<'_>) -> Vec<Wrong> {
    let Some(start) = case.change.start else { return Vec::new() };
    // Going back, the start is what is taken from: leaving it out gives no answer.
    if !matches!(case.asks, Asks::Change | Asks::Diameter | Asks::Travel)
        || case.change.turned == Turned::Back
    {
        return Vec::new();
    }
    let did = format!("You left out the start: it stood at {} before.", case.worth(start));
    vec![Wrong { answer: case.resting_on(Change { start: None, ..case.change }), stage: None, did }]
}
