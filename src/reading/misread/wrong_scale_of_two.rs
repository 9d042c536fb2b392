//! The other one of two sets of scales is read.

use super::{Asks, Case, Misread, On, Wrong};
use crate::exact::{Exact, Unit};
use crate::reading::read;

/// Of two scales on one beam, or of two slides, the other one is read: given as it stands, or turned into the unit asked.
pub static WRONG_SCALE_OF_TWO: Misread = Misread {
    id: "wrong-scale-of-two",
    name: "wrong one of two scales read",
    formula: "the other scale's reading, as it stands or turned into the unit asked",
    cure: "Say the unit first, find the scale and the vernier with its least count on them, then read only those two.",
    on: &[On::TwoScales],
    answers,
};

/// The most places that somebody writes who has turned a reading into another unit.
const PLACES: u32 = 4;

fn answers(case: &Case<'_>) -> Vec<Wrong> {
    let (Some(other), Some(pose)) = (&case.instrument.other, &case.pose.beside) else {
        return Vec::new();
    };
    let (here, there) = (case.instrument, &other.tool);
    let mut total = read(there, pose).total;
    if case.asks == Asks::Corrected && case.instrument.on_same_jaw().is_some() {
        total = total - here.setting_beside(there, case.zero_error);
    }
    let stands = there.value(total);
    let word = &other.words[1];
    let read_it = format!("You read the {word} scale: {}.", there.spell_with_unit(total));
    let as_it_stands = Wrong { answer: stands, stage: None, did: read_it.clone() };
    let in_unit = turned(stands, there.unit, here.unit);
    let rounded = (1..=PLACES).map(|places| Wrong {
        answer: round(in_unit, places),
        stage: None,
        did: format!("{read_it} What you gave is that, turned into {}.", here.unit),
    });
    std::iter::once(as_it_stands).chain(rounded).collect()
}

fn turned(value: Exact, from: Unit, to: Unit) -> Exact {
    let inch = Exact::ratio(127, 5);
    match (from, to) {
        (Unit::Inch, Unit::Millimetre) => value * inch,
        (Unit::Millimetre, Unit::Inch) => value.over(inch),
        _ => value,
    }
}

/// To so many decimal places, half away from nought.
fn round(value: Exact, places: u32) -> Exact {
    let scale = Exact::whole((0..places).fold(1, |n, _| n * 10));
    let steps = value.abs() * scale + Exact::ratio(1, 2);
    let steps = Exact::whole(steps.numerator().div_euclid(steps.denominator())).over(scale);
    if value.is_negative() { -steps } else { steps }
}
