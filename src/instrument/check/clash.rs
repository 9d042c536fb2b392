//! Figures that have room.
//!
//! A figure is centred on its line. Lines may be drawn as near as one cell apart, so two figures of one row must be half
//! their widths apart in divisions, or they would run into each other. Asked of scales that lie level, that is of line stages,
//! of dials, which are drawn unrolled, and of verniers on line stages; on drums and their verniers each figure has a row of its own.
//!
//! Example: a millimetre scale with a figure on every line: 10 and 11 need two cells where there is one.

use super::measure::{before, counts, end, of_shape, round_up, spell, value};
use crate::diag::Diagnostic;
use crate::exact::Exact;
use crate::instrument::NumeralSize;
use crate::instrument::schema::{Definition, Draft, Figures, Shape};

pub(super) fn check(def: &Definition, faults: &mut Vec<Diagnostic>) {
    for (at, line) in of_shape(def, Shape::Line) {
        let (Some(division), Some(end)) = (counts(def, at), end(def, at)) else { continue };
        look(def, line, division, end.over(division), faults);
    }
    for (_, dial) in of_shape(def, Shape::Dial) {
        let (Some(division), Some(parts)) = (value(dial.division.as_ref()), value(dial.parts.as_ref()))
        else {
            continue;
        };
        look(def, dial, division, Exact::whole(i128::from(parts)), faults);
    }
    for (at, vernier) in of_shape(def, Shape::Vernier) {
        let level = before(def, at).is_some_and(|base| def.stages[base].shape() == Some(Shape::Line));
        let (Some(count), Some(parts)) = (counts(def, at), value(vernier.parts.as_ref())) else { continue };
        if level {
            look(def, vernier, count, Exact::whole(i128::from(parts)), faults);
        }
    }
}

/// Looks along one scale of so many divisions.
fn look(def: &Definition, stage: &Draft, division: Exact, lines: Exact, faults: &mut Vec<Diagnostic>) {
    const MOST: i128 = 100_000;
    let rules = stage.numerals.as_deref().unwrap_or_default();
    let lines = lines.numerator() / lines.denominator();
    if lines > MOST {
        return;
    }
    for size in [NumeralSize::Large, NumeralSize::Small] {
        let mut last: Option<(i128, usize)> = None;
        for line in 0..=lines {
            let Some((rule, number)) = figure(rules, division * Exact::whole(line)) else { continue };
            if rule.size != size {
                continue;
            }
            let width = number.to_string().len();
            if let Some((before, other)) = last
                && i128::try_from(width + other).is_ok_and(|both| both > 2 * (line - before))
            {
                // Room for the widest figure of the scale, so that the fix is the last.
                let all = (0..=lines).filter_map(|line| figure(rules, division * Exact::whole(line)));
                let widest = all.map(|(_, number)| number.to_string().len()).max();
                push(def, stage, rule, division, widest.unwrap_or(width), faults);
                break;
            }
            last = Some((line, width));
        }
    }
}

/// The rule that gives a position its figure, and the figure.
fn figure(rules: &[Figures], at: Exact) -> Option<(&Figures, i128)> {
    rules.iter().find_map(|rule| {
        let (every, worth) = (value(rule.every.as_ref())?, value(rule.worth.as_ref())?);
        at.over(every).to_whole()?;
        let count = at.over(worth).to_whole()?;
        Some((
            rule,
            match (&rule.wrap, &rule.back) {
                (Some(wrap), _) => count.rem_euclid(i128::from(wrap.value)),
                (None, Some(back)) => back_from(count, i128::from(back.value)),
                (None, None) => count,
            },
        ))
    })
}

/// Counting up to a number and back down to nought.
fn back_from(count: i128, top: i128) -> i128 {
    top - (count.rem_euclid(2 * top) - top).abs()
}

fn push(
    def: &Definition,
    stage: &Draft,
    rule: &Figures,
    division: Exact,
    cells: usize,
    faults: &mut Vec<Diagnostic>,
) {
    let Some(every) = &rule.every else { return };
    let message =
        format!("figures of the {} every {} run into each other", stage.called(), spell(def, every.value));
    let needed = i128::try_from(cells).map_or(division, |cells| division * Exact::whole(cells));
    let fix =
        format!("every = \"{}\"", spell(def, round_up(needed.max(every.value + division), every.value)));
    let mut fault = Diagnostic::new("figures-clash", every.span.clone(), message);
    if let Some(written) = &stage.division {
        fault = fault.related(written.span.clone(), "lines stand this near");
    } else if let Some(parts) = &stage.parts {
        fault = fault.related(parts.span.clone(), "so many lines, a figure's width apart");
    }
    faults.push(fault.label("too few lines between figures").fix(fix));
}
