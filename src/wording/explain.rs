//! The explanation of a reading, a line a share.

use crate::exact::Quanta;
use crate::instrument::{Body, Form, Grows, Instrument, NumeralSize, Parts, SetUp};
use crate::reading::{Asks, Half, Reading, Share, ShareKind};

/// What is looked at for one share, without its value: `sleeve: figure 2`.
pub fn share(instrument: &Instrument, share: &Share) -> String {
    let stage = &instrument.stages[share.stage];
    let name = &stage.name;
    let covering = instrument.grows == Grows::Covering;
    let passed = if covering { "covered" } else { "passed" };
    match &share.kind {
        ShareKind::Figure { figure, size: NumeralSize::Large } => {
            format!("{name}: large figure {figure} {passed}")
        }
        ShareKind::Figure { figure, size: NumeralSize::Small } => {
            let worn = if is_worn(instrument, share) { ", worn away," } else { "" };
            format!("{name}: figure {figure}{worn} {passed}")
        }
        ShareKind::Lines { count } => {
            let whole = match &stage.form {
                Form::Line(line) if line.whole().is_some() => "whole ",
                _ => "",
            };
            let lines = if *count == 1 { "line" } else { "lines" };
            let covered = if covering { " covered" } else { "" };
            format!("{name}: {count} {whole}{lines} after it{covered}")
        }
        ShareKind::HalfLine if covering => format!("{name}: the half line is covered"),
        ShareKind::HalfLine => format!("{name}: the half line shows"),
        ShareKind::BelowZero if covering => format!("{name}: its 0 still shows"),
        ShareKind::BelowZero => format!("{name}: its 0 is not reached"),
        ShareKind::DrumLine { line } => {
            let finer = share.stage + 1 < instrument.stages.len();
            if finer || instrument.is_estimated() {
                format!("{name}: line {line} passed")
            } else {
                format!("{name}: line {line} on the datum line")
            }
        }
        ShareKind::DialLine { line, half } => {
            let half = match half {
                None => "",
                Some(Half::Plus) => " on the plus side,",
                Some(Half::Minus) => " on the minus side,",
            };
            let under = match &stage.form {
                Form::Dial(dial) if dial.body == Body::Collar => "at the index line",
                _ => "under the hand",
            };
            format!("{name}: line {line}{half} {under}")
        }
        ShareKind::VernierLine { line } => format!("{name}: line {line} in line"),
        ShareKind::Judged { steps: 0, .. } => format!("{name}: nothing beyond it"),
        ShareKind::Judged { steps, of } => {
            format!("{name}: about {steps} {} beyond it", share_of(*of, *steps))
        }
        ShareKind::Fixed => format!("{name}: added as stamped"),
    }
}

/// Whether the figure of a share cannot be read any more: its line is counted from one that can.
fn is_worn(instrument: &Instrument, share: &Share) -> bool {
    let (Form::Line(line), Some(at)) = (&instrument.stages[share.stage].form, share.at) else { return false };
    let number = usize::try_from((at - line.begin).passed(line.division));
    instrument.state.worn.iter().any(|worn| worn.stage == share.stage && Ok(worn.line) == number)
}

/// What parts of a division are called.
fn share_of(parts: Parts, count: i64) -> String {
    let one = match parts.0 {
        2 => return if count == 1 { "half".to_owned() } else { "halves".to_owned() },
        3 => "third",
        4 => "quarter",
        5 => "fifth",
        6 => "sixth",
        7 => "seventh",
        8 => "eighth",
        9 => "ninth",
        _ => "tenth",
    };
    if count == 1 { one.to_owned() } else { format!("{one}s") }
}

/// The sum, with the zero error where one is allowed for: `0.200 + 0.075 + 0.011 + 0.0002 = 0.2862 in`.
pub fn sum(
    instrument: &Instrument,
    reading: &Reading,
    shares: &[Share],
    zero_error: Quanta,
    asks: Asks,
) -> String {
    let mut terms = String::new();
    for share in shares.iter().filter(|share| share.value != Quanta::ZERO) {
        let size = instrument.spell(if share.value < Quanta::ZERO { -share.value } else { share.value });
        let sign = match (terms.is_empty(), share.value < Quanta::ZERO) {
            (true, false) => "",
            (true, true) => "-",
            (false, false) => " + ",
            (false, true) => " - ",
        };
        terms.push_str(sign);
        terms.push_str(&size);
    }
    if terms.is_empty() {
        terms.push_str(&instrument.spell(Quanta::ZERO));
    }
    let total = instrument.spell_with_unit(reading.total);
    let adds = shares.iter().filter(|share| share.value != Quanta::ZERO).count() > 1;
    let reads = if adds { format!("{terms} = {total}") } else { total };
    if let Some(set_up) = asks.set_up() {
        let angle = instrument.notation.spell(set_up.angle(instrument.value(reading.total)));
        let reading = instrument.spell(reading.total);
        return match set_up {
            SetUp::AsRead => format!("Reads {reads}; the part's angle is what the tool reads: {angle}"),
            SetUp::Complement => {
                format!("Reads {reads}; the part's angle: 90\u{b0}00' - {reading} = {angle}")
            }
            SetUp::Supplement => {
                format!("Reads {reads}; the part's angle: 180\u{b0}00' - {reading} = {angle}")
            }
        };
    }
    if asks == Asks::Corrected {
        let zero = instrument.spell(zero_error);
        let size = instrument.spell_with_unit(reading.total - zero_error);
        let less = if instrument.low == Quanta::ZERO {
            format!("the {zero} it reads closed")
        } else {
            format!("the zero error of {zero}")
        };
        format!("Reads {reads}; less {less}: size {size}")
    } else {
        reads
    }
}
