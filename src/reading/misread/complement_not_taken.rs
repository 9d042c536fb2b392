//! The reading is given where the part's angle is what is left to a right angle.

use super::{Case, Misread, On, Wrong};
use crate::instrument::SetUp;

/// The reading is not taken from 90 degrees.
pub static COMPLEMENT_NOT_TAKEN: Misread = Misread {
    id: "complement-not-taken",
    name: "not taken from 90 degrees",
    formula: "reading in place of 90 - reading",
    cure: "Trace the angle asked for on the part: between blade and square face it makes a right angle with the reading.",
    on: &[On::SetUps],
    answers,
};

fn answers(case: &Case<'_>) -> Vec<Wrong> {
    case.angle_for(
        SetUp::AsRead,
        "You gave what the tool reads; the angle asked for lies against the square face.",
        &[SetUp::Complement],
    )
}
