//! Scales before what divides them.
//!
//! The reading is taken coarse to fine: a drum or a vernier only means something beside the scale it divides. So the first
//! scale is a line, or a dial that stands alone; a drum or a dial follows a line; a vernier follows a line or a drum, and one scale has one vernier; a stage that is
//! divided by another is read at the graduation last passed. Fixed lengths stand before the scales or after them.
//!
//! Example: a file whose first stage is the vernier, with the main scale after it.

use super::measure::{after, before};
use crate::diag::Diagnostic;
use crate::instrument::ReadBy;
use crate::instrument::schema::{Definition, Draft, Shape};

pub(super) fn check(def: &Definition, faults: &mut Vec<Diagnostic>) {
    if !def.stages.is_empty() && def.stages.iter().all(|stage| stage.shape() == Some(Shape::Fixed)) {
        let span = def.stages[0].header.clone();
        let fault = Diagnostic::new("stage-order", span, "there is no scale, only fixed lengths");
        faults.push(fault.fix("add a stage with form = \"line\""));
    }
    for (at, stage) in def.stages.iter().enumerate() {
        place(def, at, stage, faults);
        if let (Some(read), Some(next)) = (&stage.read, after(def, at))
            && read.value == ReadBy::Nearest
        {
            let next = &def.stages[next];
            let message = format!(
                "the {} is divided by the {}: it is read at the line last passed",
                stage.called(),
                next.called()
            );
            let fault = Diagnostic::new("read-by", read.span.clone(), message);
            faults.push(fault.related(next.header.clone(), "gives the rest").fix("read = \"last-passed\""));
        }
    }
}

fn place(def: &Definition, at: usize, stage: &Draft, faults: &mut Vec<Diagnostic>) {
    let Some(form) = &stage.form else { return };
    let base = before(def, at).map(|n| &def.stages[n]);
    if base.is_some_and(|base| base.form.is_none()) {
        return;
    }
    let (message, fix) = match (form.value, base.and_then(Draft::shape)) {
        (Shape::Fixed, Some(_)) if after(def, at).is_some() => (
            format!("the {} stands between a scale and what divides it", stage.called()),
            "put the fixed stage before the first scale or after the last",
        ),
        (Shape::Fixed, _)
        | (Shape::Line | Shape::Dial, None)
        | (Shape::Drum | Shape::Dial, Some(Shape::Line))
        | (Shape::Vernier, Some(Shape::Line | Shape::Drum)) => return,
        (Shape::Line, Some(_)) => (
            "a second line stage: a reading begins with one scale".to_owned(),
            "describe the second scale in a file of its own",
        ),
        (Shape::Drum, _) => (
            format!("the {} is a drum without a line stage before it", stage.called()),
            "put the stage of the sleeve before the drum",
        ),
        (Shape::Dial, Some(_)) => (
            format!("the {} is a dial after a scale that is no line stage", stage.called()),
            "put the stage of the bar or the counter before the dial",
        ),
        (Shape::Vernier, Some(Shape::Dial)) => (
            format!("the {} is a vernier on a dial", stage.called()),
            "take out the stage: a dial is read by its hand",
        ),
        (Shape::Vernier, Some(_)) => (
            format!("the {} is a second vernier on one scale", stage.called()),
            "describe the second vernier in a file of its own",
        ),
        (Shape::Vernier, None) => (
            format!("the {} is a vernier without a scale before it", stage.called()),
            "put the stage of the main scale before the vernier",
        ),
    };
    let mut fault = Diagnostic::new("stage-order", form.span.clone(), message).fix(fix);
    if let Some(base) = base {
        fault = fault.related(base.header.clone(), "the scale before it");
    }
    faults.push(fault);
}
