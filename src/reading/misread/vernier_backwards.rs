//! The vernier is counted from its far end.

use super::{Case, Misread, On, Wrong};
use crate::instrument::Figured;

/// The vernier's lines are counted from its far end.
pub static VERNIER_BACKWARDS: Misread = Misread {
    id: "vernier-backwards",
    name: "vernier counted backwards",
    formula: "vernier line = (parts - line) mod parts",
    cure: "Start at the vernier's 0 and count the way its figures grow.",
    on: &[On::Vernier],
    answers,
};

fn answers(case: &Case<'_>) -> Vec<Wrong> {
    // A double vernier has a half where this would be right.
    case.verniers()
        .filter(|(vernier, _)| vernier.figured == Figured::OneWay)
        .map(|(vernier, step)| {
            let line = step.value.passed(vernier.least_count);
            let taken = (vernier.parts - line).rem_euclid(vernier.parts);
            let did = format!(
                "You counted the vernier from its far end: line {line} from the 0 is line {taken} from the other end."
            );
            case.taking(step, vernier.least_count * taken, did)
        })
        .collect()
}
