//! Scales figured both ways, and verniers that reach back.
//!
//! A disc figured both ways has a double vernier, a half for each way, or an index line; from nothing else could be told which
//! way is read. Both halves of a double vernier are direct. A vernier that reaches back from its zero is drawn level. Figures
//! that count back down can be told only as far as they count up. The part's angle is asked of protractors.
//!
//! Example: `figured = "both-ways"` on the disc and a single vernier after it.

use super::measure::{after, before, is_both_ways, spell, value, vernier};
use crate::diag::{Diagnostic, Span};
use crate::exact::{Exact, Unit};
use crate::instrument::schema::{Definition, Draft, Shape};
use crate::instrument::{Course, Runs, Zero};

pub(super) fn check(def: &Definition, faults: &mut Vec<Diagnostic>) {
    for (at, stage) in def.stages.iter().enumerate() {
        match stage.shape() {
            Some(Shape::Line) if is_both_ways(stage) => scale(def, at, stage, faults),
            Some(Shape::Vernier) => reach(def, at, stage, faults),
            _ => {}
        }
        figures(def, stage, faults);
    }
    set_ups(def, faults);
}

fn figured(stage: &Draft) -> Span {
    stage.figured.as_ref().map_or_else(|| stage.header.clone(), |figured| figured.span.clone())
}

/// What can be read against a scale figured both ways.
fn scale(def: &Definition, at: usize, stage: &Draft, faults: &mut Vec<Diagnostic>) {
    let next = after(def, at).map(|next| &def.stages[next]);
    if let Some(next) = next.filter(|next| next.shape().is_some() && !is_both_ways(next)) {
        let message =
            format!("the {} is figured both ways, but the {} is not", stage.called(), next.called());
        let fix = match next.shape() {
            Some(Shape::Vernier) => "give the vernier figured = \"both-ways\" as well",
            _ => "take out `figured`",
        };
        let fault = Diagnostic::new("figured", figured(stage), message);
        faults.push(fault.related(next.header.clone(), "read against it").fix(fix));
    }
    if let Some(runs) = stage.runs.as_ref().filter(|runs| runs.value != Course::Rightward) {
        let message = format!("the {} is figured both ways: it does not run one way", stage.called());
        let fault = Diagnostic::new("figured", runs.span.clone(), message);
        faults.push(fault.related(figured(stage), "both ways").fix("take out `runs`"));
    }
    if def.zero != Some(Zero::None) {
        let message = format!(
            "the {} is figured both ways: below its 0 it would read on the other side, so it has no zero error",
            stage.called()
        );
        faults.push(Diagnostic::new("figured", figured(stage), message).fix("zero = \"none\""));
    }
}

/// A vernier with lines on the far side of its zero.
fn reach(def: &Definition, at: usize, stage: &Draft, faults: &mut Vec<Diagnostic>) {
    let Some(runs) = vernier(def, at).map(|geometry| geometry.runs) else { return };
    let over = stage.over.as_ref().map_or_else(|| stage.header.clone(), |over| over.span.clone());
    if is_both_ways(stage) && runs == Runs::Backward {
        let parts = value(stage.parts.as_ref()).unwrap_or(2);
        let message =
            format!("the halves of the {} are not direct: each reads against its figures", stage.called());
        let fault = Diagnostic::new("figured", over.clone(), message).fix(format!("over = {}", parts - 1));
        faults.push(fault.related(figured(stage), "figured both ways"));
        return;
    }
    if !is_both_ways(stage) && runs == Runs::Forward {
        return;
    }
    let (what, place) = if is_both_ways(stage) {
        ("is figured both ways", figured(stage))
    } else {
        ("runs back from its zero", over)
    };
    let Some(base) = before(def, at).map(|n| &def.stages[n]) else { return };
    let why = match base.shape() {
        Some(Shape::Drum) => "on a thimble only a direct vernier is drawn",
        _ if value(base.runs.as_ref()) == Some(Course::Upward) => "upright only a direct vernier is drawn",
        _ => return,
    };
    let message = format!("the {} {what}: {why}", stage.called());
    let fix = if is_both_ways(stage) {
        "figured = \"one-way\"".to_owned()
    } else {
        format!("over = {}", value(stage.parts.as_ref()).unwrap_or(2) - 1)
    };
    faults.push(Diagnostic::new("figured", place, message).related(base.header.clone(), "").fix(fix));
}

/// Figures that count back down.
fn figures(def: &Definition, stage: &Draft, faults: &mut Vec<Diagnostic>) {
    for rule in stage.numerals.iter().flatten() {
        let Some(back) = &rule.back else { continue };
        let line = stage.shape() == Some(Shape::Line);
        if let (Some(wrap), true) = (&rule.wrap, line) {
            let message = "figures either start again or count back down".to_owned();
            let fault = Diagnostic::new("back-from", back.span.clone(), message);
            faults.push(fault.related(wrap.span.clone(), "start again").fix("take out `wrap`"));
        } else if !line {
            let message = format!("the {} has no figures that count back down", stage.called());
            faults.push(Diagnostic::new("back-from", back.span.clone(), message).fix("take out `back-from`"));
        }
        let top = rule.worth.as_ref().map(|worth| worth.value * Exact::whole(i128::from(back.value)));
        if let (Some(top), Some(high)) = (top, &def.high)
            && line
            && high.value > top
        {
            let message = format!(
                "beyond {} the figures count back down: a reading of {} could not be told from a smaller one",
                spell(def, top),
                spell(def, high.value)
            );
            let fault = Diagnostic::new("back-from", high.span.clone(), message);
            let low = value(def.low.as_ref()).unwrap_or(Exact::ZERO);
            let fix = format!("range = [\"{}\", \"{}\"]", spell(def, low), spell(def, top));
            faults.push(fault.related(back.span.clone(), "where they turn back").fix(fix));
        }
    }
}

/// What the part's angle is asked in.
fn set_ups(def: &Definition, faults: &mut Vec<Diagnostic>) {
    let Some(first) = def.set_ups.first() else { return };
    let fix = "take out `set-ups`";
    if def.unit.as_ref().is_some_and(|unit| unit.value != Unit::Minute) {
        let message = "set-ups are for protractors: this scale does not read angles";
        faults.push(Diagnostic::new("set-ups", first.span.clone(), message).fix(fix));
        return;
    }
    for (n, one) in def.set_ups.iter().enumerate() {
        if let Some(other) = def.set_ups[..n].iter().find(|other| other.value == one.value) {
            let fault = Diagnostic::new("set-ups", one.span.clone(), "this set-up stands here twice");
            faults.push(fault.related(other.span.clone(), "the first time").fix("take out one of them"));
        }
    }
    if let Some(high) = def.high.as_ref().filter(|high| high.value > Exact::whole(90 * 60)) {
        let message = "beyond 90 deg there is no complement to ask for";
        let fault = Diagnostic::new("set-ups", first.span.clone(), message).fix(fix);
        faults.push(fault.related(high.span.clone(), "the highest"));
    }
}
