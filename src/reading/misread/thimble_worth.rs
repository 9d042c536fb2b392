//! A thimble line is taken for another decimal than it is worth.

use super::{Case, Misread, On, Wrong};
use crate::exact::{Exact, Unit};

/// Thimble lines are counted as tenths: of a thousandth of an inch, or of a millimetre.
pub static THIMBLE_AS_TENTHS: Misread = Misread {
    id: "thimble-as-tenths",
    name: "thimble lines counted as tenths",
    formula: "thimble line x 0.0001 in, or x 0.1 mm",
    cure: "What one thimble line is worth is engraved on the tool: read it there before anything else.",
    on: &[On::Drum],
    answers: |case| match case.instrument.unit {
        Unit::Inch => answers(case, Exact::ratio(1, 10_000), "0.0001 in"),
        Unit::Millimetre => answers(case, Exact::ratio(1, 10), "0.1 mm"),
        Unit::Minute => Vec::new(),
    },
};

/// Thimble lines are counted as thousandths.
pub static THIMBLE_AS_THOUSANDTHS: Misread = Misread {
    id: "thimble-as-thousandths",
    name: "thimble lines counted as thousandths",
    formula: "thimble line x 0.001, where it is worth more",
    cure: "What one thimble line is worth is engraved on the tool: read it there before anything else.",
    on: &[On::Drum],
    answers: |case| {
        let worth = if case.instrument.unit == Unit::Inch { "0.001 in" } else { "0.001 mm" };
        answers(case, Exact::ratio(1, 1000), worth)
    },
};

fn answers(case: &Case<'_>, worth: Exact, said: &str) -> Vec<Wrong> {
    case.drums()
        .map(|(drum, step)| {
            let line = step.value.passed(drum.division);
            let did = format!(
                "You counted each {} line as {said}; it is worth {}.",
                case.stage_name(step),
                case.worth(drum.division)
            );
            case.taking_value(step, worth * Exact::whole(i128::from(line)), did)
        })
        .collect()
}
