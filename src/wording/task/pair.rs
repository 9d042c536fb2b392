//! Two pictures that a trap separates.

use super::line_worth::plain;
use super::prompt;
use crate::drill::task::{Part, Trap, Worth};
use crate::exact::Exact;
use crate::instrument::{Form, Grows};

/// Which of the two is this size?
pub(super) fn which(part: &Part, value: Exact) -> Vec<String> {
    let value = part.tool.notation.spell_with_unit(value, part.tool.unit);
    vec![format!("One of the two reads {value}. Which one?")]
}

/// What does the other read?
pub(super) fn other(part: &Part, place: usize) -> Vec<String> {
    vec![format!("Now {}. {}", says(place), prompt(&part.tool, part.question.asks))]
}

/// What a picture is called.
pub(super) fn says(place: usize) -> &'static str {
    if place == 0 { "the first" } else { "the second" }
}

/// What was done by who took this picture for the size.
pub(super) fn taken(place: usize, did: &str) -> String {
    format!("You took {}. {did}", says(place))
}

/// What separates the two.
pub(super) fn separates(part: &Part, trap: Trap) -> String {
    let tool = &part.tool;
    let name = |stage: usize| tool.stages.get(stage).map_or("finer scale", |stage| stage.name.as_str());
    let finer = |stage: usize| {
        let after = tool.stages.iter().skip(stage + 1).find(|stage| !matches!(stage.form, Form::Fixed(_)));
        after.map_or("finer scale", |stage| stage.name.as_str())
    };
    match trap {
        Trap::JustPassed { stage } => format!(
            "A line of the {} has just been reached in one and not quite in the other: the {} decides, near its end or just past its 0.",
            name(stage),
            finer(stage)
        ),
        Trap::OneTurn { stage } => {
            let done = if tool.grows == Grows::Covering { "covered" } else { "passed" };
            format!(
                "The {} is the same in both; one line more of the {} is {done} in one of them: {}.",
                finer(stage),
                name(stage),
                plain(tool, Worth::Line { stage }.of(tool))
            )
        }
        Trap::VernierEnd { stage } => format!(
            "The {} stands at its last line in one and at its 0 in the other: only with the 0 has the line before it been reached.",
            name(stage)
        ),
        Trap::EitherSideOfFigure { stage } => format!(
            "As many lines of the {} before a figure in one as after it in the other: see which way its figures grow.",
            name(stage)
        ),
        Trap::PlusAndMinus { stage } => format!(
            "As many lines of the {} on the plus side in one as on the minus side in the other.",
            name(stage)
        ),
    }
}
