//! What a question of a lesson asks for.

use super::fill::{fill, line_number, stage_of};
use super::{Ask, Fault, Point};
use crate::exact::{Exact, Typed};

/// What is asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Wanted {
    /// A value, in base units.
    Value(Exact),
    /// The number of a line.
    Number(i64),
}

impl Wanted {
    /// Whether a typed text gives it.
    pub fn is(self, typed: &Typed) -> bool {
        match self {
            Self::Value(value) => typed.value == value,
            Self::Number(number) => typed.text.trim().parse::<i64>() == Ok(number),
        }
    }
}

impl Ask {
    /// What it asks for at a point.
    pub fn wanted(&self, point: &Point) -> Result<Wanted, Fault> {
        let stand = &point.stand;
        let (word, name) = self.answer.split_once(' ').unwrap_or((&self.answer, ""));
        let stage = stage_of(&stand.tool, name);
        let value = |at| Wanted::Value(stand.tool.value(at));
        let found = match word {
            "reading" if name.is_empty() => Some(value(stand.reading.total)),
            "least" if name.is_empty() => Some(value(stand.tool.least_count)),
            "stage" => stage.and_then(|stage| stand.shown_by(stage)).map(value),
            "line" => {
                let of = |share: &&crate::reading::Share| Some(share.stage) == stage;
                let share = stand.shares.iter().find(of);
                share.and_then(|share| line_number(&share.kind)).map(Wanted::Number)
            }
            "figure" => fill(&format!("{{{}}}", self.answer), point)?.parse().ok().map(Wanted::Number),
            "less" => {
                let at = |n: &str| point.readings.get(n.parse::<usize>().ok()?.checked_sub(1)?).copied();
                name.split_once(' ').and_then(|(more, less)| Some(at(more)? - at(less)?)).map(value)
            }
            _ => None,
        };
        found.ok_or_else(|| Fault::NoAnswer(self.answer.clone()))
    }

    /// The right answer as it is written.
    pub fn written(&self, point: &Point) -> Result<String, Fault> {
        let tool = &point.stand.tool;
        Ok(match self.wanted(point)? {
            Wanted::Value(value) => tool.notation.spell_with_unit(value, tool.unit),
            Wanted::Number(number) => number.to_string(),
        })
    }

    /// The question with every place filled.
    pub fn asked(&self, point: &Point) -> Result<String, Fault> {
        fill(&self.question, point)
    }

    /// What is said afterwards, with every place filled.
    pub fn told(&self, point: &Point) -> Result<String, Fault> {
        fill(&self.then, point)
    }
}
