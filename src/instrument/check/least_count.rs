//! The stated least count is what the finest stage gives.
//!
//! Answers are asked, spelled and marked to the least count. One that the scales do not give asks for digits that cannot be
//! read, or throws away digits that can.
//!
//! Example: a 50-part vernier on millimetres with `least-count = "0.05 mm"`; it gives 0.02 mm.

use super::measure::{before, counts, divides, finest, spell};
use crate::diag::Diagnostic;
use crate::instrument::schema::{Definition, Shape};

pub(super) fn check(def: &Definition, faults: &mut Vec<Diagnostic>) {
    let Some(stated) = &def.least_count else { return };
    if let Some(settings) = &def.settings
        && !divides(settings.value, stated.value)
    {
        let message = format!(
            "settings of {} do not go into the least count of {}",
            spell(def, settings.value),
            spell(def, stated.value)
        );
        let fault = Diagnostic::new("settings", settings.span.clone(), message);
        let fix = format!("settings = \"{}\"", spell(def, stated.value));
        faults.push(fault.related(stated.span.clone(), "the least count").fix(fix));
    }
    let Some((at, given)) = finest(def).and_then(|at| counts(def, at).map(|given| (at, given))) else {
        return;
    };
    if given == stated.value {
        return;
    }
    let stage = &def.stages[at];
    let message =
        format!("the {} reads to {}, not to {}", stage.called(), spell(def, given), spell(def, stated.value));
    let mut fault = Diagnostic::new("least-count", stated.span.clone(), message);
    let place = match stage.shape() {
        Some(Shape::Vernier) => stage.parts.as_ref().map(|parts| parts.span.clone()),
        _ => stage.division.as_ref().map(|division| division.span.clone()),
    };
    if let Some(place) = place {
        fault = fault.related(place, "the finest scale");
    }
    // A vernier's least count is that of its scale over its parts.
    let scale = before(def, at).filter(|_| stage.shape() == Some(Shape::Vernier));
    if let Some(division) = scale.and_then(|scale| def.stages[scale].division.as_ref()) {
        fault = fault.related(division.span.clone(), "divided by its parts");
    }
    faults.push(fault.fix(format!("least-count = \"{}\"", spell(def, given))));
}
