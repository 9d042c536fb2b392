//! The main scale is read at the end of the vernier.

use super::{Case, Misread, On, Wrong};
use crate::instrument::Runs;

/// The main scale is read at the vernier's last line instead of at its 0.
pub static VERNIER_END: Misread = Misread {
    id: "vernier-end",
    name: "scale read at the end of the vernier",
    formula: "scale = its line last passed by the vernier's last line",
    cure: "The vernier's 0 is the pointer, nothing else on the slide is.",
    on: &[On::SlidingVernier],
    answers,
};

fn answers(case: &Case<'_>) -> Vec<Wrong> {
    let mut all = Vec::new();
    for (vernier, step) in case.verniers() {
        let Some((line, coarse)) = case.lines().find(|(_, coarse)| coarse.stage + 1 == step.stage) else {
            continue;
        };
        if vernier.runs == Runs::Backward {
            continue;
        }
        let end = coarse.value + step.value + vernier.part * vernier.parts;
        let taken = line.division * end.passed(line.division);
        let did = format!(
            "You read the {} at the vernier's last line instead of at its 0.",
            case.stage_name(coarse)
        );
        all.push(case.taking(coarse, taken, did));
    }
    all
}
