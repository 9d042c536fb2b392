//! The next line is counted before it is reached.

use super::{Case, Misread, On, Wrong};

/// Just under a full turn or division the next line is taken as passed.
pub static LINE_EARLY: Misread = Misread {
    id: "line-early",
    name: "next line counted too early",
    formula: "scale + one division, when the finer scale stands in its last tenth",
    cure: "The finer scale decides: just under its end, the line that is about to show has not been reached.",
    on: &[On::Drum, On::Vernier],
    answers,
};

fn answers(case: &Case<'_>) -> Vec<Wrong> {
    case.lines()
        .filter(|(line, step)| {
            let left = case.left_above(step);
            case.finer_follows(step) && left * 10 >= line.division * 9
        })
        .map(|(line, step)| {
            let did = format!(
                "You counted the {} line that was only about to {}: {} too much. The fine scale has not come round to it.",
                case.stage_name(step),
                if case.is_covering() { "be covered" } else { "show" },
                case.worth(line.division)
            );
            case.taking(step, step.value + line.division, did)
        })
        .collect()
}
