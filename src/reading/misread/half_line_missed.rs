//! The half line shows and is not counted.

use super::{Case, Misread, On, Wrong};

/// The half line after the last whole line shows and is not counted.
pub static HALF_LINE_MISSED: Misread = Misread {
    id: "half-line-missed",
    name: "half line missed",
    formula: "sleeve - half, when a half line shows after the last whole line",
    cure: "After the last whole line look on the other lines once more: does a half line show before the edge?",
    on: &[On::HalfLines],
    answers,
};

fn answers(case: &Case<'_>) -> Vec<Wrong> {
    case.lines()
        .filter_map(|(line, step)| {
            let half = step.value.left_of(line.whole()?);
            (half.0 > 0).then(|| {
                let shows = if case.is_covering() { "is covered" } else { "shows" };
                let did = format!(
                    "You stopped at the last whole line; the half line after it {shows} as well, worth {}.",
                    case.worth(half)
                );
                case.taking(step, step.value - half, did)
            })
        })
        .collect()
}
