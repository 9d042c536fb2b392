//! A scale that runs another way than from left to right has a vernier.
//!
//! Some calipers have an inside scale that runs right to left, and a height gauge stands upright; both are read against a
//! vernier that runs along. A rule is laid as its work lies, and a sleeve runs from the frame to the thimble.
//!
//! Example: `runs = "upward"` on the sleeve of a micrometer.

use super::measure::{after, of_shape};
use crate::diag::Diagnostic;
use crate::instrument::Course;
use crate::instrument::schema::{Definition, Shape};

pub(super) fn check(def: &Definition, faults: &mut Vec<Diagnostic>) {
    for (at, line) in of_shape(def, Shape::Line) {
        let Some(runs) = line.runs.as_ref().filter(|runs| runs.value != Course::Rightward) else { continue };
        let next = after(def, at).map(|next| def.stages[next].shape());
        if matches!(next, Some(Some(Shape::Vernier) | None)) {
            continue;
        }
        let message = format!("the {} runs from left to right: no vernier follows it", line.called());
        faults.push(Diagnostic::new("runs", runs.span.clone(), message).fix("runs = \"left-to-right\""));
    }
}
