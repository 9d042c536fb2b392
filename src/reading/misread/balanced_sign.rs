//! The wrong half of a balanced face.

use super::{Case, Misread, On, Wrong};
use crate::instrument::Face;

/// Plus taken for minus on a face that is figured both ways.
pub static BALANCED_SIGN: Misread = Misread {
    id: "balanced-sign",
    name: "plus and minus exchanged",
    formula: "- reading",
    cure: "First say on which side of 0 the hand is; only then how far.",
    on: &[On::BalancedDial],
    answers,
};

fn answers(case: &Case<'_>) -> Vec<Wrong> {
    case.dials()
        .filter(|(dial, _)| dial.face == Face::Balanced)
        .map(|(_, step)| {
            let did = format!(
                "You read the {} on the wrong side of 0: it shows {}.",
                case.stage_name(step),
                case.worth(step.value)
            );
            case.taking(step, -step.value, did)
        })
        .collect()
}
