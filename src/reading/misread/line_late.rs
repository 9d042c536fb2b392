//! The line just passed is not counted.

use super::{Case, Misread, On, Wrong};

/// Just past a full turn or division the line just reached is not taken as passed.
pub static LINE_LATE: Misread = Misread {
    id: "line-late",
    name: "line just passed not counted",
    formula: "scale - one division, when the finer scale stands in its first tenth",
    cure: "The finer scale decides: just past its 0, the line at the edge counts even where it can hardly be seen.",
    on: &[On::Drum, On::Vernier],
    answers,
};

fn answers(case: &Case<'_>) -> Vec<Wrong> {
    case.lines()
        .filter(|(line, step)| {
            let left = case.left_above(step);
            case.finer_follows(step) && left * 10 < line.division && step.value >= line.division
        })
        .map(|(line, step)| {
            let did = format!(
                "You left out the {} line that was only just {}: {} too little. The fine scale is past its 0.",
                case.stage_name(step),
                if case.is_covering() { "covered" } else { "passed" },
                case.worth(line.division)
            );
            case.taking(step, step.value - line.division, did)
        })
        .collect()
}
