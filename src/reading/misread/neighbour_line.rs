//! The line next to the right one is taken on the finest scale: the one after it, or the one before. They are two misreads, since
//! whoever holds one goes wrong to one side.

use super::{Case, Misread, On, Wrong};
use crate::exact::Quanta;
use crate::instrument::{Face, Form};

/// On the finest scale the line after the right one is taken.
pub static NEXT_LINE: Misread = Misread {
    id: "next-line",
    name: "next line taken",
    formula: "rule or dial + one line",
    cure: "Check both neighbours of your line: they must miss by the same amount, one to each side.",
    on: &[On::Line, On::Dial],
    answers: |case| answers(case, Side::After),
};

/// On the finest scale the line before the right one is taken.
pub static LINE_BEFORE: Misread = Misread {
    id: "line-before",
    name: "line before taken",
    formula: "finest scale - one line",
    cure: "Check both neighbours of your line: they must miss by the same amount, one to each side.",
    on: &[On::Any],
    answers: |case| answers(case, Side::Before),
};

/// On which side of the right line the one taken stands.
#[derive(Clone, Copy)]
enum Side {
    /// Further on.
    After,
    /// Not so far.
    Before,
}

fn answers(case: &Case<'_>, side: Side) -> Vec<Wrong> {
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
    let (taken, word) = match side {
        Side::After => (step.value + line, "after"),
        Side::Before => (step.value - line, "before"),
    };
    // What comes after on a thimble or a vernier has names of its own.
    let named = matches!(&case.instrument.stages[step.stage].form, Form::Drum(_) | Form::Vernier(_));
    if matches!(side, Side::After) && named {
        return Vec::new();
    }
    if !both_ways && (taken < Quanta::ZERO || highest.is_some_and(|highest| taken > highest)) {
        return Vec::new();
    }
    let did = format!("You took the {} line just {word} the right one.", case.stage_name(step));
    vec![case.taking(step, taken, did)]
}
