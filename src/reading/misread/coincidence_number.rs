//! The main scale is read where the lines meet instead of at the vernier's zero.

use super::{Case, Misread, On, Wrong};
use crate::exact::Quanta;
use crate::instrument::Runs;

/// The scale under the vernier is read at the coincidence, with or without adding the vernier's line.
pub static COINCIDENCE_NUMBER: Misread = Misread {
    id: "coincidence-number",
    name: "scale read at the coincidence",
    formula: "scale = its line at the coincidence; the vernier's line added or not",
    cure: "The scale is read at the vernier's 0; at the coincidence only the vernier's own line counts.",
    on: &[On::Vernier],
    answers,
};

fn answers(case: &Case<'_>) -> Vec<Wrong> {
    let mut all = Vec::new();
    for (vernier, step) in case.verniers() {
        let Some(coarse) = case.reading.steps[..step.stage].last() else { continue };
        let line = step.value.passed(vernier.least_count);
        let towards = match vernier.runs {
            Runs::Forward => 1,
            Runs::Backward => -1,
        };
        let met = coarse.value + step.value + vernier.part * (line * towards);
        let scale = case.stage_name(coarse);
        let did = format!("You read the {scale} where the lines meet instead of at the vernier's 0.");
        for vernier_share in [step.value, Quanta::ZERO] {
            let total = case.reading.total - coarse.value - step.value + met + vernier_share;
            all.push(Wrong { answer: case.answered(total), stage: Some(coarse.stage), did: did.clone() });
        }
    }
    all
}
