//! A turn of the handwheel is not counted.

use super::{Asks, Case, Misread, On, Wrong};
use crate::reading::Change;
use crate::reading::change::collar;

/// One turn of the handwheel too few.
pub static TURN_NOT_COUNTED: Misread = Misread {
    id: "turn-not-counted",
    name: "a turn of the handwheel not counted",
    formula: "collar after - collar before + (turns - one)",
    cure: "Say the turn aloud each time the collar's 0 comes past the index line.",
    on: &[On::Collar],
    answers,
};

fn answers(case: &Case<'_>) -> Vec<Wrong> {
    let Some(dial) = collar(case.instrument) else { return Vec::new() };
    if !matches!(case.asks, Asks::Diameter | Asks::Travel) || case.change.passed == 0 {
        return Vec::new();
    }
    let answer = case.resting_on(Change { passed: case.change.passed - 1, ..case.change });
    let did = format!(
        "You counted one turn too few: each time the 0 came past, a turn of {} is added.",
        case.worth(dial.turn())
    );
    // The smaller of two readings taken from the larger one has no sign.
    vec![Wrong { answer: answer.abs(), stage: None, did }]
}
