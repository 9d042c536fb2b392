//! One step alone: what does the sleeve say, and nothing else?

use super::{Asked, Figure, Part, Wanted};
use crate::drill::draw::Draw;
use crate::drill::generate::Seed;
use crate::drill::record::Asks;
use crate::drill::{Kind, question};
use crate::instrument::{Form, Instrument};

/// A stage among those with lines of their own. A tool read in one step has none: its step is the reading.
pub(super) fn parts(instrument: &Instrument, seed: Seed, number: u32, draw: &mut Draw) -> Option<Vec<Part>> {
    let question = question(instrument, seed, number).asking(Asks::Reading);
    let tool = question.tool(instrument);
    let lined = |stage: &usize| !matches!(tool.stages[*stage].form, Form::Fixed(_));
    let stages: Vec<usize> = question.reading.steps.iter().map(|step| step.stage).filter(lined).collect();
    if stages.len() < 2 {
        return None;
    }
    let place = draw.below(u32::try_from(stages.len()).ok()?);
    let stage = stages[usize::try_from(place).ok()?];
    let mut part = Part::reading(instrument, question);
    let step = part.question.reading.steps.iter().find(|step| step.stage == stage)?;
    let expected = tool.value(step.value);
    let slips = part.slips_of_stage(stage, expected);
    part.kind = Kind::OneStep;
    part.asked = Asked::Step { stage };
    part.wanted = Wanted::Figure(Figure {
        unit: tool.unit,
        notation: tool.notation,
        expected,
        accepted: [expected; 2],
        slips,
    });
    Some(vec![part])
}
