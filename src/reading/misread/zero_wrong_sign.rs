//! The zero error is taken the wrong way.

use super::{Asks, Case, Misread, On, Wrong};

/// The zero error is added instead of taken off.
pub static ZERO_WRONG_SIGN: Misread = Misread {
    id: "zero-wrong-sign",
    name: "zero allowed for the wrong way",
    formula: "corrected = reading + zero error",
    cure: "A tool that reads more than nought when closed reads too much: take it off. One that reads less: add it.",
    on: &[On::ZeroError],
    answers,
};

fn answers(case: &Case<'_>) -> Vec<Wrong> {
    if case.asks != Asks::Corrected {
        return Vec::new();
    }
    let did = format!("You added the zero error of {}; it is taken off.", case.worth(case.zero_error));
    vec![Wrong { answer: case.instrument.value(case.reading.total + case.zero_error), stage: None, did }]
}
