//! A figure that counts centimetres is taken for millimetres, or the other way round.

use super::{Case, Misread, On, Wrong};
use crate::exact::Exact;

/// The figures' unit is mistaken: a decimal slip of the figure alone.
pub static CENTIMETRE_SLIP: Misread = Misread {
    id: "centimetre-slip",
    name: "centimetres and millimetres mixed up",
    formula: "figure / 10 where it counts centimetres, figure x 10 where it counts millimetres",
    cure: "Count the lines from one figure to the next before you read: ten of a millimetre make its figures 1 2 3 centimetres.",
    on: &[On::Centimetres],
    answers,
};

fn answers(case: &Case<'_>) -> Vec<Wrong> {
    let instrument = case.instrument;
    let scales = case.lines().filter(|_| CENTIMETRE_SLIP.happens_on(instrument));
    let wrong = scales.filter_map(|(line, step)| {
        let rule = line.numerals.first()?;
        let (every, worth) = (instrument.value(rule.every), instrument.value(rule.worth));
        let centimetre = Exact::whole(10);
        every.over(centimetre).to_whole()?;
        let times = match worth {
            worth if worth == centimetre => Exact::ratio(1, 10),
            worth if worth == Exact::whole(1) => centimetre,
            _ => return None,
        };
        let figured = instrument.value(rule.every * step.value.passed(rule.every));
        let figure = rule.figure_at(rule.every * step.value.passed(rule.every))?;
        let (is, taken) = if times == centimetre { ("mm", "cm") } else { ("cm", "mm") };
        let did = format!("You took the figure {figure} for {figure} {taken}; it counts {is}.");
        Some(Wrong { answer: case.expected() - figured + figured * times, stage: Some(step.stage), did })
    });
    wrong.collect()
}
