//! The slack of a handwheel that was turned back is not taken off.

use super::{Case, Misread, On, Wrong};
use crate::exact::Quanta;
use crate::reading::Change;

/// The slack is left in.
pub static BACKLASH_FORGOTTEN: Misread = Misread {
    id: "backlash-forgotten",
    name: "backlash not taken off",
    formula: "what the collar turned, slack and all",
    cure: "Turned back, the collar moves first and the slide only after the slack: take it off, or come up from the old side.",
    on: &[On::Collar],
    answers,
};

fn answers(case: &Case<'_>) -> Vec<Wrong> {
    let lost = case.change.lost();
    if lost == Quanta::ZERO {
        return Vec::new();
    }
    let answer = case.resting_on(Change { slack: Quanta::ZERO, ..case.change });
    let did = format!(
        "It was turned back: the first {} of the collar is slack and moved nothing.",
        case.worth(lost)
    );
    vec![Wrong { answer, stage: None, did }]
}
