//! The thimble is counted against its figures.

use super::{Case, Misread, On, Wrong};

/// The thimble's lines are counted against the way its figures grow.
pub static THIMBLE_BACKWARDS: Misread = Misread {
    id: "thimble-backwards",
    name: "thimble counted backwards",
    formula: "thimble line = (lines in a turn - line) mod lines in a turn",
    cure: "Find the figures on both sides of the datum line and count from the smaller to the larger.",
    on: &[On::Drum],
    answers,
};

fn answers(case: &Case<'_>) -> Vec<Wrong> {
    case.drums()
        .map(|(drum, step)| {
            let line = step.value.passed(drum.division);
            let taken = (drum.parts - line).rem_euclid(drum.parts);
            let did = format!(
                "You counted the {} against its figures: line {line} was taken for {taken}.",
                case.stage_name(step)
            );
            case.taking(step, drum.division * taken, did)
        })
        .collect()
}
