//! A turn of the hand is counted before it is complete.

use super::{Case, Misread, On, Wrong};

/// One turn of the hand too many: the nearest line is taken instead of the last one passed.
pub static REVOLUTION_ADDED: Misread = Misread {
    id: "revolution-added",
    name: "a turn of the hand too many",
    formula: "turns + one",
    cure: "Near the end of a turn the next line seems reached; until the hand is past 0 it belongs to the line before.",
    on: &[On::Turns],
    answers,
};

fn answers(case: &Case<'_>) -> Vec<Wrong> {
    case.turns()
        .map(|(line, step)| {
            let did = format!(
                "You took the next line of the {}, {} too much: the hand has not come round to 0 for it.",
                case.stage_name(step),
                case.worth(line.division)
            );
            case.taking(step, step.value + line.division, did)
        })
        .collect()
}
