//! A line of the coarse scale is not counted.

use super::{Case, Misread, On, Wrong};
use crate::exact::Quanta;

/// One line too few counted on the sleeve or main scale.
pub static LINE_MISSED: Misread = Misread {
    id: "line-missed",
    name: "a line missed",
    formula: "scale - one division (one whole division on a sleeve with half lines)",
    cure: "Say the figure, then count every line after it aloud up to the last one passed.",
    on: &[On::Drum, On::Vernier],
    answers,
};

fn answers(case: &Case<'_>) -> Vec<Wrong> {
    case.lines()
        .filter(|(_, step)| case.finer_follows(step))
        .filter_map(|(line, step)| {
            let division = line.whole().unwrap_or(line.division);
            (step.value - division >= Quanta::ZERO).then(|| {
                let did = format!(
                    "You counted one {} line too few, worth {}.",
                    case.stage_name(step),
                    case.worth(division)
                );
                case.taking(step, step.value - division, did)
            })
        })
        .collect()
}
