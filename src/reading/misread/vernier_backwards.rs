//! The vernier is counted from its far end.

use super::{Case, Misread, On, Wrong};

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
    case.verniers()
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
