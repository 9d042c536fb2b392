//! A turn of the handwheel is counted that was none.

use super::{Asks, Case, Misread, On, Wrong};
use crate::reading::Change;
use crate::reading::change::collar;

/// One turn of the handwheel too many.
pub static TURN_COUNTED_TWICE: Misread = Misread {
    id: "turn-counted-twice",
    name: "a turn of the handwheel counted twice",
    formula: "collar after - collar before + (turns + one)",
    cure: "A turn is counted when the collar's 0 comes past the index line, and at no other place.",
    on: &[On::Collar],
    answers,
};

fn answers(case: &Case<'_>) -> Vec<Wrong> {
    let Some(dial) = collar(case.instrument) else { return Vec::new() };
    if !matches!(case.asks, Asks::Diameter | Asks::Travel) {
        return Vec::new();
    }
    let answer = case.resting_on(Change { passed: case.change.passed + 1, ..case.change });
    let did = format!("You counted one turn of {} too many.", case.worth(dial.turn()));
    vec![Wrong { answer, stage: None, did }]
}
