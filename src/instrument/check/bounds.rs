//! A size that can be drawn and learnt.
//!
//! Every line is drawn and every setting is walked through by tests and plans, so a definition has at most 100,000 of each,
//! eight stages, and a quantum that is not absurdly fine.
//!
//! Example: a 150 mm range with `settings = "0.001 mm"`, which has 150,001 settings.

use super::measure::{end, of_shape, quantum, spell, step};
use crate::diag::Diagnostic;
use crate::exact::Exact;
use crate::instrument::schema::{Definition, Shape};

/// Graduations of one scale, and settings of one instrument.
const MOST: i128 = 100_000;
/// Quanta from nought to the end of a scale.
const MOST_QUANTA: i128 = 10_000_000;
/// Stages of one instrument.
const STAGES: usize = 8;

pub(super) fn check(def: &Definition, faults: &mut Vec<Diagnostic>) {
    if let Some(extra) = def.stages.get(STAGES) {
        let message = format!("an instrument has at most {STAGES} stages");
        let fault = Diagnostic::new("too-many-stages", extra.header.clone(), message);
        faults.push(fault.fix("add the fixed lengths together in one stage"));
    }
    let step = step(def);
    if let (Some(low), Some(high), Some(step)) = (&def.low, &def.high, step)
        && (high.value - low.value).over(step.value) > Exact::whole(MOST)
    {
        let message =
            format!("steps of {} make more than {MOST} settings in this range", spell(def, step.value));
        let fault = Diagnostic::new("too-many-settings", step.span.clone(), message);
        faults.push(
            fault.related(high.span.clone(), "the highest").fix("shorten the range or take larger steps"),
        );
        return;
    }
    let measure = quantum(def);
    for (at, line) in of_shape(def, Shape::Line) {
        let (Some(division), Some(end)) = (&line.division, end(def, at)) else { continue };
        let dense = end.over(division.value) > Exact::whole(MOST);
        if dense || measure.is_some_and(|quantum| end.over(quantum) > Exact::whole(MOST_QUANTA)) {
            let message = format!(
                "the {} has more lines than {MOST}, or its parts are too fine for its length",
                line.called()
            );
            let fault = Diagnostic::new("too-many-lines", division.span.clone(), message);
            faults.push(fault.fix("shorten the range or take a larger division"));
        }
    }
    let complete =
        def.stages.iter().enumerate().all(|(at, stage)| {
            stage.shape() == Some(Shape::Fixed) || super::measure::counts(def, at).is_some()
        });
    if let Some(stated) = &def.least_count
        && complete
        && measure.is_none()
    {
        let message =
            "the divisions, the least count and the settings have no common measure of a useful size";
        let fault = Diagnostic::new("no-common-measure", stated.span.clone(), message);
        faults.push(fault.fix("write divisions that go into each other a whole number of times"));
    }
}
