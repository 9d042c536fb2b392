//! The reading is given where the part has the wide angle.

use super::{Case, Misread, On, Wrong};
use crate::instrument::SetUp;

/// The reading is not taken from 180 degrees.
pub static SUPPLEMENT_NOT_TAKEN: Misread = Misread {
    id: "supplement-not-taken",
    name: "not taken from 180 degrees",
    formula: "reading in place of 180 - reading",
    cure: "Look which side of the blade the work lies on: on the open side the part's angle is wider than 90 degrees.",
    on: &[On::SetUps],
    answers,
};

fn answers(case: &Case<'_>) -> Vec<Wrong> {
    case.angle_for(
        SetUp::AsRead,
        "You gave what the tool reads; the work lies on the other side of the blade.",
        &[SetUp::Supplement],
    )
}
