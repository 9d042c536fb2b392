//! Only a sleeve can be covered as the reading grows.
//!
//! `grows = "covering"` reverses a sleeve and its thimble together, as a right-hand screw does. Without a thimble there is
//! nothing that covers, and a vernier on a reversed sleeve is not drawn. Its last line has a figure, because at the end of the
//! range it is the only one that still shows.
//!
//! Example: `grows = "covering"` on a depth gauge whose bar slides past a vernier.

use super::measure::{divides, end, of_shape, round_up, spell};
use crate::diag::{Diagnostic, Span};
use crate::instrument::Grows;
use crate::instrument::schema::{Definition, Shape};

pub(super) fn check(def: &Definition, faults: &mut Vec<Diagnostic>) {
    let Some(grows) = def.grows.as_ref().filter(|grows| grows.value == Grows::Covering) else { return };
    if def.stages.iter().any(|stage| stage.shape().is_none()) {
        return;
    }
    let mut say = |message: &str| {
        let fault = Diagnostic::new("grows", grows.span.clone(), message);
        faults.push(fault.fix("grows = \"uncovering\""));
    };
    if of_shape(def, Shape::Drum).next().is_none() {
        say("no drum covers a scale here");
    } else if of_shape(def, Shape::Vernier).next().is_some() {
        say("a sleeve with a vernier is not drawn reversed");
    } else {
        last_line(def, grows.span.clone(), faults);
    }
}

/// Near the end of the range only the last lines of a reversed sleeve are left in view: one of them has a figure.
fn last_line(def: &Definition, grows: Span, faults: &mut Vec<Diagnostic>) {
    let Some((at, sleeve)) = of_shape(def, Shape::Line).next() else { return };
    let distances = sleeve.numerals.iter().flatten().filter_map(|rule| rule.every.as_ref());
    let Some(every) = distances.min_by_key(|every| every.value) else { return };
    let Some(end) = end(def, at).filter(|end| !divides(every.value, *end)) else { return };
    let message = format!(
        "the last line of the {}, at {}, has no figure: when the others are covered nothing tells where it is",
        sleeve.called(),
        spell(def, end)
    );
    let fault =
        Diagnostic::new("grows", every.span.clone(), message).related(grows, "covers the lines before it");
    faults.push(fault.fix(format!("end = \"{}\"", spell(def, round_up(end, every.value)))));
}
