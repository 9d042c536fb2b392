//! A drum's or a dial's turn is the division of the line stage before it.
//!
//! One turn of a thimble moves the edge by one lead of the screw, and the sleeve has one line a turn; so have the bar
//! beside a dial and the counter on it. Where the two differ
//! every reading past the first line is wrong, and nobody sees it from the picture.
//!
//! Example: the misprint of the metric screw as 0.05 mm (a published manual, "pitch 0.05 mm"), with 50 thimble lines of
//! 0.01 mm, which make 0.5 mm.

use super::measure::{before, divides, of_shape, spell};
use crate::diag::Diagnostic;
use crate::exact::Exact;
use crate::instrument::schema::{Definition, Shape};

pub(super) fn check(def: &Definition, faults: &mut Vec<Diagnostic>) {
    for (at, drum) in of_shape(def, Shape::Drum).chain(of_shape(def, Shape::Dial)) {
        let Some(line) = before(def, at).map(|n| &def.stages[n]) else { continue };
        let (Some(lead), Some(division), Some(parts)) = (&line.division, &drum.division, &drum.parts) else {
            continue;
        };
        let turn = division.value * Exact::whole(i128::from(parts.value));
        if line.shape() != Some(Shape::Line) || turn == lead.value {
            continue;
        }
        let message = format!(
            "{} parts of {} make {} a turn, but the lines of the {} stand {} apart",
            parts.value,
            spell(def, division.value),
            spell(def, turn),
            line.called(),
            spell(def, lead.value)
        );
        let ten = Exact::whole(10);
        let slip = turn == lead.value * ten || turn * ten == lead.value;
        let fix = match lead.value.over(division.value).to_whole() {
            Some(count) if divides(division.value, lead.value) && !slip && count > 1 => {
                format!("parts = {count}")
            }
            _ => format!("division = \"{}\" in the stage of the {}", spell(def, turn), line.called()),
        };
        // A decimal slip stands on the sleeve more often than on the thimble: the thimble's lines are counted.
        let (at, other) = if slip { (lead, parts.span.clone()) } else { (division, lead.span.clone()) };
        let note = if slip { "so many parts a turn" } else { "one turn moves the edge this far" };
        let mut fault = Diagnostic::new("turn", at.span.clone(), message).related(other, note);
        if !slip {
            fault = fault.related(parts.span.clone(), "so many parts a turn");
        }
        faults.push(fault.fix(fix));
    }
}
