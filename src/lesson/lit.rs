//! What is lit in a step.

use super::fill::stage_of;
use super::{Fault, Point, Step};
use crate::exact::Quanta;
use crate::instrument::{Form, Instrument};
use crate::reading::{Share, ShareKind};

impl Step {
    /// What is lit: the shares of the stages that it names, or single lines as shares of their own.
    pub fn lit(&self, point: &Point) -> Result<Vec<Share>, Fault> {
        let tool = &point.stand.tool;
        let mut all = Vec::new();
        for name in &self.light {
            let fault = || Fault::NoLine(name.clone());
            if let Some(stage) = stage_of(tool, name) {
                all.extend(point.stand.shares.iter().filter(|share| share.stage == stage).cloned());
            } else {
                let (stage, number) = name.rsplit_once(" line ").ok_or_else(fault)?;
                let stage = stage_of(tool, stage).ok_or_else(fault)?;
                all.push(single(tool, stage, number.parse().map_err(|_| fault())?).ok_or_else(fault)?);
            }
        }
        Ok(all)
    }
}

/// One line of a stage, by its number from the scale's zero. What it runs into is not meant.
fn single(tool: &Instrument, stage: usize, number: i64) -> Option<Share> {
    let at = match &tool.stages[stage].form {
        Form::Line(line) if line.division * number <= line.end => line.division * number,
        Form::Drum(drum) if number < drum.parts => drum.division * number,
        Form::Dial(dial) if number < dial.parts => dial.division * number,
        Form::Vernier(vernier) if number <= vernier.parts => vernier.part * number,
        _ => return None,
    };
    (number >= 0).then_some(Share {
        stage,
        kind: ShareKind::Lines { count: number },
        at: Some(at),
        value: Quanta::ZERO,
    })
}
