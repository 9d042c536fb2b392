//! The reading is taken from 180 degrees where it should not be.

use super::{Case, Misread, On, Wrong};
use crate::instrument::SetUp;

/// The reading is taken from 180 degrees.
pub static SUPPLEMENT_TAKEN: Misread = Misread {
    id: "supplement-taken",
    name: "taken from 180 degrees",
    formula: "180 - reading",
    cure: "Look whether the angle asked for is wider than a square corner before you take a reading from 180 degrees.",
    on: &[On::SetUps],
    answers,
};

fn answers(case: &Case<'_>) -> Vec<Wrong> {
    case.angle_for(
        SetUp::Supplement,
        "You took the reading from 180 degrees.",
        &[SetUp::AsRead, SetUp::Complement],
    )
}
