//! A sleeve that is covered is read as if it were uncovered.

use super::{Case, Misread, On, Wrong};
use crate::exact::Quanta;

/// What shows is read in place of what is covered.
pub static SHOWN_FOR_COVERED: Misread = Misread {
    id: "shown-for-covered",
    name: "what shows read for what is covered",
    formula: "sleeve end - sleeve - thimble, or sleeve end - line showing + thimble",
    cure: "Here the thimble covers what counts: find the first figure showing, and count down from it under the edge.",
    on: &[On::Covering],
    answers,
};

fn answers(case: &Case<'_>) -> Vec<Wrong> {
    if !case.is_covering() {
        return Vec::new();
    }
    let mut all = Vec::new();
    for (line, step) in case.lines().filter(|(_, step)| case.finer_follows(step)) {
        let thimble = case.left_above(step);
        let did =
            "You read the sleeve as on an outside micrometer; here the lines that the thimble covers count.";
        // The thimble's share stays in the sum, so it is taken off twice where it was counted backwards as well.
        for sleeve in [line.end - step.value - thimble - thimble, line.end - step.value - line.division] {
            if sleeve + thimble >= Quanta::ZERO {
                all.push(case.taking(step, sleeve, did.to_owned()));
            }
        }
    }
    all
}
