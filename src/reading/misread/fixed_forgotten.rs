//! A fixed length is not added: the rod, the spacing collar, where the frame starts.

use super::{Case, Misread, On, Wrong};
use crate::exact::Quanta;

/// The rod that is fitted is not added.
pub static ROD_FORGOTTEN: Misread = Misread {
    id: "rod-forgotten",
    name: "rod not added",
    formula: "reading - rod",
    cure: "Look at the rod first: what is stamped on it comes before anything the sleeve says.",
    on: &[On::Named("rod")],
    answers: |case| answers(case, "rod"),
};

/// The spacing collar that is fitted is not added.
pub static COLLAR_FORGOTTEN: Misread = Misread {
    id: "collar-forgotten",
    name: "spacing collar not added",
    formula: "reading - collar",
    cure: "Rod, collar, head: look for the collar between rod and head before you read the head.",
    on: &[On::Named("collar")],
    answers: |case| answers(case, "collar"),
};

/// What the frame starts at is not added.
pub static FRAME_START_FORGOTTEN: Misread = Misread {
    id: "frame-start-forgotten",
    name: "start of the frame not added",
    formula: "reading - frame",
    cure: "The sleeve of every frame starts at 0; the size stamped on the frame says what to add.",
    on: &[On::Named("frame")],
    answers: |case| answers(case, "frame"),
};

fn answers(case: &Case<'_>, name: &str) -> Vec<Wrong> {
    case.fixed()
        .filter(|(_, step)| case.stage_name(step) == name)
        .map(|(length, step)| {
            let did = format!("You left out the {name}: {} are to be added.", case.worth(length));
            case.taking(step, Quanta::ZERO, did)
        })
        .collect()
}
