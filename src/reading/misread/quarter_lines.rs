//! Lines worth 0.025 in counted as something else.

use super::{Case, Misread, On, Wrong};
use crate::exact::Exact;
use crate::instrument::Line;

/// The lines after the figure are counted as 0.020 in each.
pub static QUARTER_AS_TWENTY: Misread = Misread {
    id: "quarter-as-twenty",
    name: "0.025 counted as 0.020",
    formula: "scale = figure + 0.020 in for each line after it",
    cure: "Four lines make a tenth of an inch: 25, 50, 75. Say them while counting.",
    on: &[On::Fortieths],
    answers: |case| answers(case, 20),
};

/// The lines after the figure are counted as 0.010 in each.
pub static QUARTER_AS_TEN: Misread = Misread {
    id: "quarter-as-ten",
    name: "0.025 counted as 0.010",
    formula: "scale = figure + 0.010 in for each line after it",
    cure: "Four lines make a tenth of an inch: 25, 50, 75. Say them while counting.",
    on: &[On::Fortieths],
    answers: |case| answers(case, 10),
};

/// True for a scale with forty lines to the inch, every fourth one numbered.
pub(super) fn has_fortieths(division: Exact) -> bool {
    division == Exact::ratio(1, 40)
}

fn answers(case: &Case<'_>, thousandths: i128) -> Vec<Wrong> {
    let forty = |(line, _): &(&Line, _)| has_fortieths(case.instrument.value(line.division));
    case.lines()
        .filter(forty)
        .filter_map(|(line, step)| {
            let tenth = line.division * 4;
            let count = step.value.left_of(tenth).passed(line.division);
            (count > 0).then(|| {
                let figured = case.instrument.value(tenth * step.value.passed(tenth));
                let taken = figured + Exact::ratio(thousandths, 1000) * Exact::whole(i128::from(count));
                let did = format!(
                    "You counted the {count} {} after the figure as 0.0{thousandths} in each; each is worth 0.025.",
                    if count == 1 { "line" } else { "lines" },
                );
                case.taking_value(step, taken, did)
            })
        })
        .collect()
}
