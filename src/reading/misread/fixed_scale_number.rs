//! At the coincidence the other scale's number is taken.

use super::{Case, Misread, On, Wrong};
use crate::instrument::{Form, Runs};

/// Where the lines meet, the number of the scale under the vernier is taken instead of the vernier's.
pub static FIXED_SCALE_NUMBER: Misread = Misread {
    id: "fixed-scale-number",
    name: "number taken from the wrong scale",
    formula: "vernier = number of the line it meets x least count",
    cure: "Where the lines meet, read the vernier's own number; the line it meets only tells which one it is.",
    on: &[On::Vernier],
    answers,
};

fn answers(case: &Case<'_>) -> Vec<Wrong> {
    let mut all = Vec::new();
    for (vernier, step) in case.verniers() {
        let Some(coarse) = case.reading.steps[..step.stage].last() else { continue };
        let division = match &case.instrument.stages[coarse.stage].form {
            Form::Line(line) => line.division,
            Form::Drum(drum) => drum.division,
            Form::Dial(_) | Form::Vernier(_) | Form::Fixed(_) => continue,
        };
        let line = step.value.passed(vernier.least_count);
        let towards = match vernier.runs {
            Runs::Forward => 1,
            Runs::Backward => -1,
        };
        let met = (coarse.value + step.value + vernier.part * (line * towards)).passed(division);
        let did = format!(
            "Where the lines meet you took the number of the {} line, {met}, for the vernier's, {line}.",
            case.stage_name(coarse)
        );
        all.push(case.taking(step, vernier.least_count * met, did));
    }
    all
}
