//! The vernier's share is added one decimal place off.

use super::{Case, Misread, On, Wrong};
use crate::exact::Exact;

/// The vernier's line is right, and added ten times too large.
pub static VERNIER_WRONG_DECIMAL: Misread = Misread {
    id: "vernier-wrong-decimal",
    name: "vernier added in the wrong decimal",
    formula: "vernier x 10",
    cure: "What one step of the vernier is worth is engraved on the tool: say it before adding.",
    on: &[On::Vernier],
    answers: |case| answers(case, Exact::whole(10), "ten times too much"),
};

/// The vernier's line is right, and a tenth of it is added.
pub static VERNIER_A_TENTH: Misread = Misread {
    id: "vernier-a-tenth",
    name: "vernier added one decimal too far down",
    formula: "vernier / 10",
    cure: "What one step of the vernier is worth is engraved on the tool: say it before adding.",
    on: &[On::Vernier],
    answers: |case| answers(case, Exact::ratio(1, 10), "a tenth of it"),
};

fn answers(case: &Case<'_>, times: Exact, how: &str) -> Vec<Wrong> {
    case.verniers()
        .map(|(_, step)| {
            let share = case.instrument.value(step.value) * times;
            let did = format!(
                "The {} line is right, and worth {}; you added {how}.",
                case.stage_name(step),
                case.worth(step.value)
            );
            case.taking_value(step, share, did)
        })
        .collect()
}
