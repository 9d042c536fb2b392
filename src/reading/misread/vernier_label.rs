//! A figure of the vernier taken for the number of its line, or the reverse.

use super::{Case, Misread, On, Wrong};
use crate::exact::Quanta;
use crate::instrument::{Numerals, Vernier};

/// The figure beside the line is taken as the line's number.
pub static LABEL_AS_LINE: Misread = Misread {
    id: "label-as-line",
    name: "vernier figure taken for a line number",
    formula: "vernier = (last figure + lines after it) x least count",
    cure: "The figures of this vernier are not line numbers: find out first what the step from one figure to the next is worth.",
    on: &[On::VernierLabels],
    answers: |case| answers(case, as_line, "You counted the figure as so many lines"),
};

/// The line's number is taken as a figure.
pub static LINE_AS_LABEL: Misread = Misread {
    id: "line-as-label",
    name: "vernier line number taken for a figure",
    formula: "vernier = line number x worth of one figure",
    cure: "The figures of this vernier are not line numbers: count lines in least counts, read figures as engraved.",
    on: &[On::VernierLabels],
    answers: |case| answers(case, as_label, "You counted every line as a whole figure"),
};

/// The rule of the figures, where they are not the numbers of the lines.
pub(super) fn labels(vernier: &Vernier) -> Option<&Numerals> {
    vernier.numerals.first().filter(|rule| rule.worth != vernier.least_count)
}

fn as_line(vernier: &Vernier, rule: &Numerals, value: Quanta) -> Quanta {
    let figured = rule.every * value.passed(rule.every);
    let lines = (value - figured).passed(vernier.least_count);
    vernier.least_count * (figured.passed(rule.worth) + lines)
}

fn as_label(vernier: &Vernier, rule: &Numerals, value: Quanta) -> Quanta {
    rule.worth * value.passed(vernier.least_count)
}

fn answers(case: &Case<'_>, taken: fn(&Vernier, &Numerals, Quanta) -> Quanta, said: &str) -> Vec<Wrong> {
    case.verniers()
        .filter_map(|(vernier, step)| {
            let share = taken(vernier, labels(vernier)?, step.value);
            let did = format!("{said}: {} instead of {}.", case.worth(share), case.worth(step.value));
            Some(case.taking(step, share, did))
        })
        .collect()
}
