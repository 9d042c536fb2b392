//! The answer is given in the other unit.

use super::{Case, Misread, On, Wrong};
use crate::exact::{Exact, Unit};

/// Inches given for millimetres, or the reverse.
pub static OTHER_UNIT: Misread = Misread {
    id: "other-unit",
    name: "inches and millimetres mixed up",
    formula: "right answer x 25.4, or / 25.4",
    cure: "The unit asked for stands in the question, the unit of the tool on the tool.",
    on: &[On::Lengths],
    answers,
};

fn answers(case: &Case<'_>) -> Vec<Wrong> {
    let inch = Exact::ratio(254, 10);
    let right = case.expected();
    let (exact, own, other, places) = match case.instrument.unit {
        Unit::Inch => (right * inch, "inches", "millimetres", [2, 3]),
        Unit::Millimetre => (right.over(inch), "millimetres", "inches", [3, 4]),
        Unit::Minute => return Vec::new(),
    };
    let mut answers = vec![exact];
    answers.extend(places.map(|places| exact.rounded(places)));
    answers.dedup();
    answers
        .into_iter()
        .map(|answer| Wrong {
            answer,
            stage: None,
            did: format!("That is the same size in {other}; the tool reads in {own}."),
        })
        .collect()
}
