//! The wrong half of a double vernier is read.

use super::{Case, Misread, On, Wrong};
use crate::instrument::Figured;

/// The line in line on the half that lies against the way the figures grow is taken.
pub static WRONG_HALF: Misread = Misread {
    id: "wrong-half",
    name: "wrong half of the vernier",
    formula: "vernier line = parts - line",
    cure: "The minutes are read the same way the degrees are growing: use that half of the vernier and no other.",
    on: &[On::DoubleVernier],
    answers,
};

fn answers(case: &Case<'_>) -> Vec<Wrong> {
    case.verniers()
        .filter(|(vernier, _)| vernier.figured == Figured::BothWays)
        .filter_map(|(vernier, step)| {
            let line = step.value.passed(vernier.least_count);
            let taken = vernier.least_count * (vernier.parts - line);
            let did = format!(
                "You read the other half of the vernier, where the line worth {} is in line; the degrees grow the other way.",
                case.worth(taken)
            );
            (line > 0).then(|| case.taking(step, taken, did))
        })
        .collect()
}
