//! The reading is taken from 90 degrees where it should not be.

use super::{Case, Misread, On, Wrong};
use crate::instrument::SetUp;

/// The reading is taken from 90 degrees.
pub static COMPLEMENT_TAKEN: Misread = Misread {
    id: "complement-taken",
    name: "taken from 90 degrees",
    formula: "90 - reading",
    cure: "The tool reads from blade along base to blade in use: take a reading from 90 degrees only against a square face.",
    on: &[On::SetUps],
    answers,
};

fn answers(case: &Case<'_>) -> Vec<Wrong> {
    case.angle_for(
        SetUp::Complement,
        "You took the reading from 90 degrees.",
        &[SetUp::AsRead, SetUp::Supplement],
    )
}
