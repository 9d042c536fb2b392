//! A vernier can give its least count.
//!
//! Each line of a vernier must have its own turn to coincide. With n parts over m divisions of the main scale that is so
//! when m is one less than a multiple of n (direct and long verniers) or one more (retrograde ones); then one line more
//! reads one n-th of a division more. Any other m makes lines coincide out of order, or two at once, or none.
//!
//! Example: 25 parts over 25 divisions, where all lines coincide together and nothing can be read.

use super::measure::{main_division, of_shape, runs};
use crate::diag::Diagnostic;
use crate::instrument::schema::{Definition, Shape};

pub(super) fn check(def: &Definition, faults: &mut Vec<Diagnostic>) {
    for (at, vernier) in of_shape(def, Shape::Vernier) {
        let (Some(parts), Some(over)) = (&vernier.parts, &vernier.over) else { continue };
        if main_division(def, at).is_none() || runs(parts.value, over.value).is_some() {
            continue;
        }
        let (n, m) = (parts.value, over.value);
        let message = format!(
            "{n} parts over {m} divisions cannot be read: its lines do not coincide one after another"
        );
        // The nearest span of the kind that is usual, and of the same length.
        let near = (m + 1 + n / 2).div_euclid(n).max(1) * n - 1;
        let fault =
            Diagnostic::new("no-coincidence", over.span.clone(), message).label("divisions they span");
        faults.push(fault.related(parts.span.clone(), "its parts").fix(format!("over = {near}")));
    }
}
