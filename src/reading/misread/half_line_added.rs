//! A half line is counted that does not show.

use super::{Case, Misread, On, Wrong};

/// A half line is counted that is still covered.
pub static HALF_LINE_ADDED: Misread = Misread {
    id: "half-line-added",
    name: "half line counted that does not show",
    formula: "sleeve + half, when no half line shows after the last whole line",
    cure: "Add the half only when its line is uncovered; near a full turn the thimble decides.",
    on: &[On::HalfLines],
    answers,
};

fn answers(case: &Case<'_>) -> Vec<Wrong> {
    case.lines()
        .filter_map(|(line, step)| {
            let none_shows = step.value.is_multiple_of(line.whole()?);
            none_shows.then(|| {
                let shows = if case.is_covering() { "is covered" } else { "shows" };
                let did = format!(
                    "You added {} for a half line, but none {shows} after the last whole line.",
                    case.worth(line.division)
                );
                case.taking(step, step.value + line.division, did)
            })
        })
        .collect()
}
