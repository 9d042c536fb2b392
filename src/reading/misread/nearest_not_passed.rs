//! The nearest line of the coarse scale is taken instead of the one last passed.

use super::{Case, Misread, On, Wrong};

/// More than half way to the next line of the coarse scale, that line is taken.
pub static NEAREST_NOT_PASSED: Misread = Misread {
    id: "nearest-not-passed",
    name: "nearest line instead of the last one passed",
    formula: "scale + one division, when the finer scale stands past its half",
    cure: "On the coarse scale only what has been passed counts; how near the next line is, the fine scale says.",
    on: &[On::Drum, On::Vernier],
    answers,
};

fn answers(case: &Case<'_>) -> Vec<Wrong> {
    case.lines()
        .filter(|(line, step)| case.finer_follows(step) && case.left_above(step) * 2 > line.division)
        .map(|(line, step)| {
            let did = format!(
                "You took the nearest {} line, which has not been reached: {} too much.",
                case.stage_name(step),
                case.worth(line.division)
            );
            case.taking(step, step.value + line.division, did)
        })
        .collect()
}
