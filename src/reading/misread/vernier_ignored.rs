//! The vernier is not read.

use super::{Case, Misread, On, Wrong};
use crate::exact::Quanta;

/// The coarse scales are read and the vernier is left out.
pub static VERNIER_IGNORED: Misread = Misread {
    id: "vernier-ignored",
    name: "vernier left out",
    formula: "vernier = 0",
    cure: "After the last line passed always look along the vernier for the one line that runs straight through.",
    on: &[On::Vernier],
    answers,
};

fn answers(case: &Case<'_>) -> Vec<Wrong> {
    case.verniers()
        .map(|(_, step)| {
            let did = format!(
                "You left the vernier out: the line that runs straight through is worth {}.",
                case.worth(step.value)
            );
            case.taking(step, Quanta::ZERO, did)
        })
        .collect()
}
