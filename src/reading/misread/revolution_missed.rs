//! A turn of the hand is not counted.

use super::{Case, Misread, On, Wrong};
use crate::exact::Quanta;

/// One turn of the hand too few.
pub static REVOLUTION_MISSED: Misread = Misread {
    id: "revolution-missed",
    name: "a turn of the hand missed",
    formula: "turns - one",
    cure: "Read the bar or the small hand first, aloud; the large hand only gives what comes after it.",
    on: &[On::Turns],
    answers,
};

fn answers(case: &Case<'_>) -> Vec<Wrong> {
    case.turns()
        .filter(|(line, step)| step.value - line.division >= Quanta::ZERO)
        .map(|(line, step)| {
            let did = format!(
                "You counted one turn of the hand too few: the {} had gone a line further, worth {}.",
                case.stage_name(step),
                case.worth(line.division)
            );
            case.taking(step, step.value - line.division, did)
        })
        .collect()
}
