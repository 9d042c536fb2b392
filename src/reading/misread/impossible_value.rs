//! A value that the tool cannot give.

use super::{Case, Misread, On, Wrong};
use crate::exact::{Exact, Notation, Quanta};

/// A value between two that the tool can give: an odd last digit on a 0.02 mm scale, 52 minutes on a protractor.
pub static IMPOSSIBLE_VALUE: Misread = Misread {
    id: "impossible-value",
    name: "a value the tool cannot give",
    formula: "between two neighbouring values of the scale",
    cure: "What one step is worth is engraved on the tool: every reading is a multiple of it.",
    on: &[On::CoarseLastDigit],
    answers,
};

/// The worth of the last digit written, where the tool reads in steps of several of it.
pub(super) fn last_digit(notation: Notation, least_count: Exact) -> Option<Exact> {
    let digit = match notation {
        Notation::Decimal { places } => Exact::ratio(1, 10_i128.pow(places)),
        Notation::Angle => Exact::whole(1),
        Notation::Fraction => return None,
    };
    (digit < least_count).then_some(digit)
}

fn answers(case: &Case<'_>) -> Vec<Wrong> {
    let tool = case.instrument;
    let least_count = tool.value(tool.least_count);
    let Some(digit) = last_digit(tool.notation, least_count) else { return Vec::new() };
    let right = case.expected();
    let mut all = Vec::new();
    let mut off = digit;
    while off < least_count {
        for answer in [right + off, right - off] {
            all.push(Wrong {
                answer,
                stage: None,
                did: format!(
                    "This tool cannot read {}: it goes in steps of {}.",
                    tool.notation.spell(answer),
                    case.worth(tool.least_count)
                ),
            });
        }
        off = off + digit;
    }
    all.retain(|wrong| tool.value(Quanta(0)) <= wrong.answer || right < Exact::whole(0));
    all
}
