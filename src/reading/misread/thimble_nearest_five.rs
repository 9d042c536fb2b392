//! The thimble is rounded to its numbered lines.

use super::{Case, Misread, On, Wrong};

/// The thimble is read to the nearest fifth line only.
pub static THIMBLE_NEAREST_FIVE: Misread = Misread {
    id: "thimble-nearest-five",
    name: "thimble rounded to its figures",
    formula: "thimble line = nearest multiple of five, halves up",
    cure: "Count on from the figure below the datum line, line by line.",
    on: &[On::Drum],
    answers,
};

fn answers(case: &Case<'_>) -> Vec<Wrong> {
    case.drums()
        .map(|(drum, step)| {
            let line = step.value.passed(drum.division);
            let taken = (2 * line + 5).div_euclid(10) * 5;
            let did = format!(
                "You read the {} to its figures: line {line} was taken for {taken}.",
                case.stage_name(step)
            );
            case.taking(step, drum.division * taken, did)
        })
        .collect()
}
