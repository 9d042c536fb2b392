//! A figure that counts tenths of an inch taken for something else.

use super::{Case, Misread, On, Wrong};
use crate::exact::{Exact, Quanta};

/// The sleeve's figure is taken as whole inches.
pub static FIGURE_AS_INCHES: Misread = Misread {
    id: "figure-as-inches",
    name: "figure taken as inches",
    formula: "figure x 1 in instead of figure x 0.1 in",
    cure: "The small figures of sleeve and bar are tenths of an inch: 2 is two hundred thousandths.",
    on: &[On::TenthFigures],
    answers: |case| answers(case, Exact::whole(1), "whole inches"),
};

/// The sleeve's figure is taken as hundredths.
pub static FIGURE_AS_HUNDREDTHS: Misread = Misread {
    id: "figure-as-hundredths",
    name: "figure taken as hundredths",
    formula: "figure x 0.01 in instead of figure x 0.1 in",
    cure: "The small figures of sleeve and bar are tenths of an inch: 2 is two hundred thousandths.",
    on: &[On::TenthFigures],
    answers: |case| answers(case, Exact::ratio(1, 100), "hundredths of an inch"),
};

fn answers(case: &Case<'_>, worth: Exact, taken_as: &str) -> Vec<Wrong> {
    case.lines()
        .filter_map(|(line, step)| {
            let rule = line.numerals.iter().find(|rule| super::counts_tenths(case.instrument, rule))?;
            let at = rule.every * step.value.passed(rule.every);
            let figure = rule.figure_at(at).filter(|figure| *figure > 0)?;
            let share = Exact::whole(i128::from(figure));
            let right = case.instrument.value(rule.worth * figure);
            let taken = case.instrument.value(step.value) - right + share * worth;
            let did = format!(
                "You took the {} figure {figure} for {taken_as}; it counts tenths of an inch.",
                case.stage_name(step)
            );
            (step.value >= Quanta::ZERO).then(|| case.taking_value(step, taken, did))
        })
        .collect()
}
