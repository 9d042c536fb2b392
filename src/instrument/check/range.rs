//! The range lies on the graduations and on the scale.
//!
//! Settings run from the lowest to the highest in whole steps, beginning at or above the fixed lengths, and the scale must
//! reach as far as they do: with a vernier by its whole span more, or its last lines would hang in the air.
//!
//! Example: a 6 in main scale with `end = "6 in"`, whose 25-part vernier needs another 0.6 in at the top of the range.

use super::measure::{divides, end, needed_end, of_shape, round_up, spell, start, step, value};
use crate::diag::Diagnostic;
use crate::instrument::Face;
use crate::instrument::schema::{Definition, Shape};

pub(super) fn check(def: &Definition, faults: &mut Vec<Diagnostic>) {
    ends(def, faults);
    for (at, line) in of_shape(def, Shape::Line) {
        let (Some(division), Some(written)) = (&line.division, &line.end) else { continue };
        if !divides(division.value, written.value) {
            let message =
                format!("the {} ends at {}, between two lines", line.called(), spell(def, written.value));
            let fault = Diagnostic::new("scale-end", written.span.clone(), message);
            let fix = format!("end = \"{}\"", spell(def, round_up(written.value, division.value)));
            faults.push(fault.related(division.span.clone(), "its division").fix(fix));
        } else if let (Some(needed), Some(end)) = (needed_end(def, at), end(def, at))
            && end < needed
        {
            let message = format!(
                "the {} ends at {}, but {} is needed",
                line.called(),
                spell(def, end),
                spell(def, needed)
            );
            let mut fault = Diagnostic::new("scale-end", written.span.clone(), message);
            if let Some(high) = &def.high {
                fault = fault.related(high.span.clone(), "the highest setting, plus a vernier's span");
            }
            faults.push(fault.fix(format!("end = \"{}\"", spell(def, round_up(needed, division.value)))));
        }
    }
}

fn ends(def: &Definition, faults: &mut Vec<Diagnostic>) {
    let (Some(low), Some(high)) = (&def.low, &def.high) else { return };
    if low.value >= high.value {
        let message = format!("the range ends at {}, where it begins or before", spell(def, high.value));
        let fault = Diagnostic::new("range", high.span.clone(), message);
        let fix = format!("range = [\"{}\", \"{}\"]", spell(def, high.value), spell(def, low.value));
        let fix = if low.value == high.value {
            "write the lower setting first, then a higher one".to_owned()
        } else {
            fix
        };
        faults.push(fault.related(low.span.clone(), "where it begins").fix(fix));
        return;
    }
    let start = start(def);
    let plus_or_minus = def.stages.iter().any(|stage| value(stage.face.as_ref()) == Some(Face::Balanced));
    if low.value < start && !plus_or_minus {
        let message = format!(
            "the range begins at {}, below the fixed length of {}",
            spell(def, low.value),
            spell(def, start)
        );
        let fault = Diagnostic::new("range", low.span.clone(), message);
        let fix = format!(
            "range = [\"{}\", \"{}\"]",
            spell(def, start),
            spell(def, high.value + start - low.value)
        );
        faults.push(fault.fix(fix));
    }
    let Some(step) = step(def) else { return };
    let lengths = def.stages.iter().flat_map(|stage| stage.length.iter().chain(&stage.lengths));
    for (what, key, end) in [("range", "range end", low), ("range", "range end", high)]
        .into_iter()
        .chain(lengths.map(|length| ("fixed-length", "fixed length", length)))
    {
        if !divides(step.value, end.value) {
            let message = format!(
                "the {key} {} is no whole number of {}",
                spell(def, end.value),
                spell(def, step.value)
            );
            let fault = Diagnostic::new(what, end.span.clone(), message);
            let fix = format!("the next that is: \"{}\"", spell(def, round_up(end.value, step.value)));
            faults.push(fault.related(step.span.clone(), "what it is read to").fix(fix));
        }
    }
}
