//! A constant length is added a second time.

use super::{Case, Misread, On, Wrong};

/// A constant length is added twice.
pub static FIXED_TWICE: Misread = Misread {
    id: "fixed-twice",
    name: "constant length added twice",
    formula: "constant length + constant length",
    cure: "Write the constant length down once, first of all, and add to it only what the scales show.",
    on: &[On::Fixed],
    answers,
};

fn answers(case: &Case<'_>) -> Vec<Wrong> {
    case.fixed()
        .map(|(length, step)| {
            let did =
                format!("You added the {} twice: {} too much.", case.stage_name(step), case.worth(length));
            case.taking(step, length + length, did)
        })
        .collect()
}
