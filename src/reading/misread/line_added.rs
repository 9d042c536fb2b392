//! A line of the coarse scale is counted twice, or the nearest taken instead of the last passed.

use super::{Case, Misread, On, Wrong};

/// One line too many counted on the sleeve or main scale.
pub static LINE_ADDED: Misread = Misread {
    id: "line-added",
    name: "a line too many",
    formula: "scale + one division (one whole division on a sleeve with half lines)",
    cure: "Take the last line passed, never the nearest; the line ahead is not reached until the finer scale says so.",
    on: &[On::Drum, On::Vernier],
    answers,
};

fn answers(case: &Case<'_>) -> Vec<Wrong> {
    case.lines()
        .filter(|(_, step)| case.finer_follows(step))
        .map(|(line, step)| {
            let division = line.whole().unwrap_or(line.division);
            let did = format!(
                "You counted one {} line too many, worth {}.",
                case.stage_name(step),
                case.worth(division)
            );
            case.taking(step, step.value + division, did)
        })
        .collect()
}
