//! The main scale is read where the lines meet instead of at the vernier's zero.

use super::{Case, Misread, On, Wrong};
use crate::exact::Quanta;
use crate::instrument::Runs;
use crate::reading::read::Step;

/// The scale under the vernier is read at the coincidence, and the vernier's line added.
pub static COINCIDENCE_NUMBER: Misread = Misread {
    id: "coincidence-number",
    name: "scale read at the coincidence",
    formula: "scale = its line at the coincidence; the vernier's line added",
    cure: "The scale is read at the vernier's 0; at the coincidence only the vernier's own line counts.",
    on: &[On::Vernier],
    answers: |case| answers(case, |step| step.value),
};

/// The scale under the vernier is read at the coincidence, and nothing added.
pub static COINCIDENCE_ALONE: Misread = Misread {
    id: "coincidence-alone",
    name: "scale read at the coincidence, vernier left out",
    formula: "scale = its line at the coincidence; vernier = 0",
    cure: "The scale is read at the vernier's 0; at the coincidence only the vernier's own line counts.",
    on: &[On::Vernier],
    answers: |case| answers(case, |_| Quanta::ZERO),
};

fn answers(case: &Case<'_>, share: fn(&Step) -> Quanta) -> Vec<Wrong> {
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
        let total = case.reading.total - coarse.value - step.value + met + share(step);
        all.push(Wrong { answer: case.answered(total), stage: Some(coarse.stage), did });
    }
    all
}
