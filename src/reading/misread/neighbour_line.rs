//! The line next to the right one is taken on the finest scale.

use super::{Case, Misread, On, Wrong};
use crate::exact::Quanta;
use crate::instrument::{Face, Form};

/// On the finest scale the line beside the right one is taken.
pub static NEIGHBOUR_LINE: Misread = Misread {
    id: "neighbour-line",
    name: "neighbour line taken",
    formula: "finest scale + one line, or - one line",
    cure: "Check both neighbours of your line: they must miss by the same amount, one to each side.",
    on: &[On::Any],
    answers,
};

fn answers(case: &Case<'_>) -> Vec<Wrong> {
    let finest = case.reading.steps.iter().rev().find(|step| !case.is_fixed(step));
    let Some(step) = finest else { return Vec::new() };
    let both_ways =
        matches!(&case.instrument.stages[step.stage].form, Form::Dial(d) if d.face == Face::Balanced);
    let (line, highest) = match &case.instrument.stages[step.stage].form {
        Form::Vernier(vernier) => (vernier.least_count, Some(vernier.least_count * vernier.parts)),
        Form::Drum(drum) => (drum.division, Some(drum.turn())),
        Form::Dial(dial) => (dial.division, Some(dial.turn())),
        Form::Line(line) => (line.division, Some(line.end)),
        Form::Fixed(_) => return Vec::new(),
    };
    [step.value + line, step.value - line]
        .into_iter()
        .filter(|taken| {
            (both_ways || *taken >= Quanta::ZERO) && highest.is_none_or(|highest| *taken <= highest)
        })
        .map(|taken| {
            let side = if taken > step.value { "after" } else { "before" };
            let did = format!("You took the {} line just {side} the right one.", case.stage_name(step));
            case.taking(step, taken, did)
        })
        .collect()
}
