//! The angle of the stylus is not allowed for.

use super::{Asks, Case, Misread, On, Wrong};
use crate::exact::Notation;
use crate::reading::Change;

/// The reading of a lever is taken for its movement.
pub static ANGLE_FORGOTTEN: Misread = Misread {
    id: "angle-forgotten",
    name: "angle of the stylus not allowed for",
    formula: "reading, without the factor of the angle",
    cure: "Keep the stylus as near to level with the work as it goes; where it stands steeper, take the factor from the table.",
    on: &[On::Lever],
    answers,
};

fn answers(case: &Case<'_>) -> Vec<Wrong> {
    let Some(angle) = case.change.angle.filter(|_| matches!(case.asks, Asks::Change | Asks::Movement)) else {
        return Vec::new();
    };
    let did = format!(
        "You left out the angle: at {} degrees the contact moves {} of what the dial shows.",
        angle.degrees(),
        Notation::Decimal { places: 2 }.spell(angle.factor())
    );
    vec![Wrong { answer: case.resting_on(Change { angle: None, ..case.change }), stage: None, did }]
}
