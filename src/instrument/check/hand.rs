//! Only a sleeve can be covered as the reading grows.
//!
//! `grows = "covering"` reverses a sleeve and its thimble together, as a right-hand screw does. Without a thimble there is
//! nothing that covers, and a vernier on a reversed sleeve is not drawn.
//!
//! Example: `grows = "covering"` on a depth gauge whose bar slides past a vernier.

use super::measure::of_shape;
use crate::diag::Diagnostic;
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
    }
}
