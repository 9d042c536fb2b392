//! Lines and vernier on their sides of the datum line.
//!
//! Only a sleeve has a datum line. Its lines stand on one side (`side`), or whole ones on one and half ones on the other
//! (`halves`, the sides that makers put the half lines on); `whole` says which lines are whole. A vernier on a sleeve takes
//! the side that the lines leave free. Without any of these keys its lines would stand nowhere.
//!
//! Example: `halves = ["below"]` without `whole = "1 mm"`: nobody could say which lines are halves.

use super::measure::{after, before, divides, of_shape, spell};
use crate::diag::Diagnostic;
use crate::exact::Exact;
use crate::instrument::schema::{Definition, Draft, Shape};

pub(super) fn check(def: &Definition, faults: &mut Vec<Diagnostic>) {
    for (at, line) in of_shape(def, Shape::Line) {
        let next = after(def, at).and_then(|next| def.stages[next].shape());
        if matches!(next, None | Some(Shape::Dial | Shape::Vernier | Shape::Line)) {
            no_datum(def, at, line, faults);
        } else {
            sleeve(def, line, faults);
        }
    }
    for (at, vernier) in of_shape(def, Shape::Vernier) {
        on_vernier(def, at, vernier, faults);
    }
}

/// A scale without a drum has no datum line.
fn no_datum(def: &Definition, at: usize, line: &Draft, faults: &mut Vec<Diagnostic>) {
    if after(def, at).is_some_and(|next| def.stages[next].shape().is_none()) {
        return;
    }
    let places = [
        ("side", line.side.as_ref().map(|w| &w.span)),
        ("whole", line.whole.as_ref().map(|w| &w.span)),
        ("halves", line.halves.as_ref().map(|w| &w.span)),
    ];
    for (key, span) in places.into_iter().filter_map(|(key, span)| span.map(|span| (key, span))) {
        let message = format!("the {} has no datum line, so no `{key}`: no drum follows it", line.called());
        faults.push(Diagnostic::new("sides", span.clone(), message).fix(format!("take out `{key}`")));
    }
}

fn sleeve(def: &Definition, line: &Draft, faults: &mut Vec<Diagnostic>) {
    if let Some(halves) = &line.halves {
        let mut fault = None;
        if let Some(side) = &line.side {
            let clash =
                Diagnostic::new("sides", halves.span.clone(), "`halves` and `side` exclude each other");
            fault = Some(
                clash.related(side.span.clone(), "all lines on one side").fix("take out `side` or `halves`"),
            );
        } else if halves.value.is_empty()
            || (halves.value.len() == 2 && halves.value[0] == halves.value[1])
            || halves.value.len() > 2
        {
            let wrong =
                Diagnostic::new("sides", halves.span.clone(), "`halves` names each side once at most");
            fault = Some(wrong.fix("halves = [\"below\", \"above\"]"));
        } else if line.whole.is_none() {
            let message = "`halves` needs `whole`: the distance of the whole lines";
            let division = line.division.as_ref().map_or(Exact::ZERO, |division| division.value);
            let missing = Diagnostic::new("sides", halves.span.clone(), message);
            fault = Some(missing.fix(format!("whole = \"{}\"", spell(def, division * Exact::whole(2)))));
        }
        faults.extend(fault);
    }
    let Some(whole) = &line.whole else {
        if line.side.is_none() && line.halves.is_none() {
            let message =
                format!("the {} has a datum line: on which side do its lines stand?", line.called());
            let fault = Diagnostic::new("sides", line.header.clone(), message);
            faults.push(fault.fix("side = \"below\""));
        }
        return;
    };
    if line.halves.is_none() && line.side.is_none() {
        let fault = Diagnostic::new("sides", whole.span.clone(), "`whole` needs `halves` or `side`");
        faults.push(fault.fix("halves = [\"below\", \"above\"]"));
    }
    if let Some(division) = &line.division
        && (!divides(division.value, whole.value) || whole.value <= division.value)
    {
        let message = format!(
            "whole lines every {} are no multiple of the division of {}",
            spell(def, whole.value),
            spell(def, division.value)
        );
        let fault = Diagnostic::new("sides", whole.span.clone(), message);
        let fix = format!("whole = \"{}\"", spell(def, division.value * Exact::whole(2)));
        faults.push(fault.related(division.span.clone(), "the division").fix(fix));
    }
}

fn on_vernier(def: &Definition, at: usize, vernier: &Draft, faults: &mut Vec<Diagnostic>) {
    let Some(drum) = before(def, at) else { return };
    match def.stages[drum].shape() {
        Some(Shape::Line) => {
            if let Some(side) = &vernier.side {
                let message = format!("the {} has no datum line beside it, so no `side`", vernier.called());
                faults.push(Diagnostic::new("sides", side.span.clone(), message).fix("take out `side`"));
            }
        }
        Some(Shape::Drum) => {
            let Some(sleeve) = before(def, drum).map(|n| &def.stages[n]) else { return };
            if let Some(halves) = &sleeve.halves {
                let message = format!(
                    "a vernier takes one side of the {}: half lines stand with the whole ones",
                    sleeve.called()
                );
                let fault = Diagnostic::new("sides", halves.span.clone(), message);
                faults.push(
                    fault
                        .related(vernier.header.clone(), "the vernier")
                        .fix("side = \"below\" instead of `halves`"),
                );
            }
            if let (Some(own), Some(lines)) = (&vernier.side, &sleeve.side)
                && own.value == lines.value
            {
                let message = format!(
                    "the {} and the lines of the {} stand on one side",
                    vernier.called(),
                    sleeve.called()
                );
                let fault = Diagnostic::new("sides", own.span.clone(), message);
                let fix = format!("side = \"{}\"", lines.value.other().word());
                faults.push(fault.related(lines.span.clone(), "the lines").fix(fix));
            }
        }
        _ => {}
    }
}
