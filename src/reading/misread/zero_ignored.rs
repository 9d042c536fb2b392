//! The zero error is not taken off.

use super::{Asks, Case, Misread, On, Wrong};
use crate::exact::Quanta;

/// The zero error is not allowed for.
pub static ZERO_IGNORED: Misread = Misread {
    id: "zero-ignored",
    name: "zero not allowed for",
    formula: "corrected = reading",
    cure: "Size = reading less the zero error, with its sign.",
    on: &[On::ZeroError],
    answers,
};

fn answers(case: &Case<'_>) -> Vec<Wrong> {
    if case.asks != Asks::Corrected {
        return Vec::new();
    }
    let zero = case.worth(case.zero_error);
    let did = if case.instrument.low == Quanta::ZERO {
        format!("You gave the reading itself; closed, the tool reads {zero}.")
    } else {
        format!("You gave the reading itself; the zero error is {zero}.")
    };
    vec![Wrong { answer: case.instrument.value(case.reading.total), stage: None, did }]
}
