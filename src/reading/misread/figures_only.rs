//! Only the numbered lines of a scale are read.

use super::{Case, Misread, On, Wrong};

/// The last figure is read and the lines after it are left out.
pub static FIGURES_ONLY: Misread = Misread {
    id: "figures-only",
    name: "numbered lines only",
    formula: "scale = its last numbered line",
    cure: "The figure is where counting starts: every line after it up to the edge or the 0 counts as well.",
    on: &[On::Line],
    answers,
};

fn answers(case: &Case<'_>) -> Vec<Wrong> {
    case.lines()
        .filter_map(|(line, step)| {
            let every = line.numerals.iter().map(|rule| rule.every).min()?;
            let left = step.value.left_of(every);
            (left.0 > 0).then(|| {
                let did = format!(
                    "You read the {} at its last figure; the lines after it are worth {} more.",
                    case.stage_name(step),
                    case.worth(left)
                );
                case.taking(step, step.value - left, did)
            })
        })
        .collect()
}
