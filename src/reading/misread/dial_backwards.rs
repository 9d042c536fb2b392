//! The dial is counted against its figures.

use super::{Case, Misread, On, Wrong};
use crate::instrument::Face;

/// A dial figured all the way round is counted the other way, as if its face were reversed.
pub static DIAL_BACKWARDS: Misread = Misread {
    id: "dial-backwards",
    name: "dial counted backwards",
    formula: "dial line = (lines in a turn - line) mod lines in a turn",
    cure: "Find the figures on both sides of the hand and count from the smaller to the larger; some faces run the other way.",
    on: &[On::Dial],
    answers,
};

fn answers(case: &Case<'_>) -> Vec<Wrong> {
    case.dials()
        .filter(|(dial, _)| dial.face == Face::Continuous)
        .map(|(dial, step)| {
            let line = step.value.passed(dial.division);
            let taken = (dial.parts - line).rem_euclid(dial.parts);
            let did = format!(
                "You counted the {} against its figures: line {line} was taken for {taken}.",
                case.stage_name(step)
            );
            case.taking(step, dial.division * taken, did)
        })
        .collect()
}
