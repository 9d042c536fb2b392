//! Smaller is said for larger.

use super::{Asks, Case, Misread, On, Wrong};

/// The first is taken from the second the wrong way round.
pub static CHANGE_REVERSED: Misread = Misread {
    id: "change-reversed",
    name: "larger and smaller exchanged",
    formula: "reading on the master - reading on the part",
    cure: "A larger part pushes the contact in and the hand the plus way: say larger or smaller first, then how much.",
    on: &[On::Indicator],
    answers,
};

fn answers(case: &Case<'_>) -> Vec<Wrong> {
    if case.asks != Asks::Change {
        return Vec::new();
    }
    let did = "You took the part from the master; it is the part less the master.".to_owned();
    vec![Wrong { answer: -case.expected(), stage: None, did }]
}
