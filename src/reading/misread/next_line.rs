//! The line after the right one is taken.

use super::{Case, Misread, On, Wrong};

/// On the thimble the line after the right one is taken, again and again.
pub static THIMBLE_NEXT_LINE: Misread = Misread {
    id: "thimble-next-line",
    name: "thimble read to the next line",
    formula: "thimble line + 1",
    cure: "The thimble line last passed counts, not the one that is coming.",
    on: &[On::Drum],
    answers: thimble,
};

/// On the vernier the line after the right one is taken, again and again.
pub static VERNIER_NEXT_LINE: Misread = Misread {
    id: "vernier-next-line",
    name: "vernier read to the next line",
    formula: "vernier line + 1",
    cure: "Check both neighbours of your line: they must miss by the same amount, one to each side.",
    on: &[On::Vernier],
    answers: vernier,
};

fn thimble(case: &Case<'_>) -> Vec<Wrong> {
    case.drums()
        .map(|(drum, step)| {
            let did = format!(
                "You took the {} line after the right one: {} too much.",
                case.stage_name(step),
                case.worth(drum.division)
            );
            case.taking(step, step.value + drum.division, did)
        })
        .collect()
}

fn vernier(case: &Case<'_>) -> Vec<Wrong> {
    case.verniers()
        .map(|(vernier, step)| {
            let did = format!(
                "You took the {} line after the one that runs straight through: {} too much.",
                case.stage_name(step),
                case.worth(vernier.least_count)
            );
            case.taking(step, step.value + vernier.least_count, did)
        })
        .collect()
}
