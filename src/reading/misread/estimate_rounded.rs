//! The digit between lines is not judged.

use super::super::read::Seen;
use super::{Case, Misread, On, Wrong};

/// A line is given where a digit between lines was wanted.
pub static ESTIMATE_ROUNDED: Misread = Misread {
    id: "estimate-rounded",
    name: "digit between lines left at the line",
    formula: "finest scale = line last passed, or the line after it",
    cure: "Judge how far the line you read against stands between two lines, and write that as one digit more.",
    on: &[On::Estimate],
    answers,
};

fn answers(case: &Case<'_>) -> Vec<Wrong> {
    let mut all = Vec::new();
    for step in &case.reading.steps {
        let Seen::Estimated { passed, beyond } = step.seen else { continue };
        let Some(apart) = case.instrument.finest_division() else { continue };
        for (line, which) in [(passed, "last passed"), (passed + apart, "after it")] {
            let did = format!(
                "You gave the {} line {which}; what it stands beyond the line last passed is {}.",
                case.stage_name(step),
                case.worth(beyond)
            );
            all.push(case.taking(step, line, did));
        }
    }
    all
}
