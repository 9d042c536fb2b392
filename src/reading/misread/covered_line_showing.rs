//! A line that still shows is taken for a covered one.

use super::{Case, Misread, On, Wrong};

/// The line beside the edge is counted though it still shows.
pub static COVERED_LINE_STILL_SHOWING: Misread = Misread {
    id: "covered-line-still-showing",
    name: "line still showing counted as covered",
    formula: "sleeve + one division",
    cure: "The line beside the edge has not been reached; the one before it, under the thimble, is the last that counts.",
    on: &[On::Covering],
    answers,
};

fn answers(case: &Case<'_>) -> Vec<Wrong> {
    if !case.is_covering() {
        return Vec::new();
    }
    case.lines()
        .filter(|(line, step)| case.finer_follows(step) && step.value < line.end)
        .map(|(line, step)| {
            let did = format!(
                "You counted the line beside the edge, which still shows: {} too much.",
                case.worth(line.division)
            );
            case.taking(step, step.value + line.division, did)
        })
        .collect()
}
