//! The thimble is not read.

use super::{Case, Misread, On, Wrong};
use crate::exact::Quanta;

/// The sleeve is read and the thimble is left out.
pub static THIMBLE_IGNORED: Misread = Misread {
    id: "thimble-ignored",
    name: "thimble left out",
    formula: "thimble = 0",
    cure: "After the sleeve say which thimble line stands at the datum line; even 0 is said.",
    on: &[On::Drum],
    answers,
};

fn answers(case: &Case<'_>) -> Vec<Wrong> {
    case.drums()
        .map(|(_, step)| {
            let did = format!(
                "You left the {} out: its line at the datum line is worth {}.",
                case.stage_name(step),
                case.worth(step.value)
            );
            case.taking(step, Quanta::ZERO, did)
        })
        .collect()
}
