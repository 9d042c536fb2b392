//! The vernier's share is added one decimal place off.

use super::{Case, Misread, On, Wrong};
use crate::exact::Exact;

/// The vernier's line is right, its decimal place is not.
pub static VERNIER_WRONG_DECIMAL: Misread = Misread {
    id: "vernier-wrong-decimal",
    name: "vernier added in the wrong decimal",
    formula: "vernier x 10, or vernier / 10",
    cure: "What one step of the vernier is worth is engraved on the tool: say it before adding.",
    on: &[On::Vernier],
    answers,
};

fn answers(case: &Case<'_>) -> Vec<Wrong> {
    let mut all = Vec::new();
    for (_, step) in case.verniers() {
        for (times, how) in [(Exact::whole(10), "ten times too much"), (Exact::ratio(1, 10), "a tenth of it")]
        {
            let share = case.instrument.value(step.value) * times;
            let did = format!(
                "The {} line is right, and worth {}; you added {how}.",
                case.stage_name(step),
                case.worth(step.value)
            );
            all.push(case.taking_value(step, share, did));
        }
    }
    all
}
