//! The diameter is given for the radius, and the other way about.

use super::{Asks, Case, Misread, On, Wrong};
use crate::exact::Exact;

/// Twice the right answer.
pub static DIAMETER_FOR_RADIUS: Misread = Misread {
    id: "diameter-for-radius",
    name: "diameter given for radius",
    formula: "twice the right answer",
    cure: "Look what is engraved: a collar for the diameter is not doubled, and the slide moves half of it.",
    on: &[On::Collar],
    answers: |case| {
        answers(case, Exact::whole(2), "Twice too much: the diameter changes by twice what the slide moves")
    },
};

/// Half the right answer.
pub static RADIUS_FOR_DIAMETER: Misread = Misread {
    id: "radius-for-diameter",
    name: "radius given for diameter",
    formula: "half the right answer",
    cure: "Look what is engraved: a collar for the radius is doubled for the diameter, and the slide moves all of it.",
    on: &[On::Collar],
    answers: |case| {
        answers(case, Exact::ratio(1, 2), "Half of it: the slide moves half of what the diameter changes")
    },
};

fn answers(case: &Case<'_>, times: Exact, how: &str) -> Vec<Wrong> {
    let engraved = case.instrument.engraved.join(", ");
    match case.asks {
        Asks::Diameter | Asks::Travel => {
            let did = format!("{how}; engraved here: {engraved}.");
            vec![Wrong { answer: case.expected() * times, stage: None, did }]
        }
        _ => Vec::new(),
    }
}
