//! The explanation of a reading: each line that is looked at, with its share of the sum.

use super::read::{Reading, Seen};
use crate::exact::Quanta;
use crate::instrument::{Dial, Face, Form, Instrument, Line, NumeralSize, Parts};

/// One part of the sum.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Share {
    /// Which stage it comes from.
    pub stage: usize,
    /// What is looked at.
    pub kind: ShareKind,
    /// The line that shows it, counted from the stage's own zero in scale quanta (for a vernier: the line's number).
    pub at: Option<Quanta>,
    /// What it is worth.
    pub value: Quanta,
}

/// What a share is read from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ShareKind {
    /// A figure on a straight scale.
    Figure {
        /// The figure as engraved.
        figure: i64,
        /// Large or small.
        size: NumeralSize,
    },
    /// So many whole lines after the figure.
    Lines {
        /// How many.
        count: i64,
    },
    /// The half line after the last whole line.
    HalfLine,
    /// The scale's zero is not reached: one division is taken off.
    BelowZero,
    /// A drum's line on the datum, or the last one passed.
    DrumLine {
        /// Its number, 0 at the figure 0.
        line: i64,
    },
    /// The dial's line that the hand is at.
    DialLine {
        /// Its number, 0 at the figure 0; on a balanced face counted from 0 either way.
        line: i64,
        /// The half of a balanced face; none on a continuous one, and at 0.
        half: Option<Half>,
    },
    /// A vernier line in line.
    VernierLine {
        /// Its number.
        line: i64,
    },
    /// The part of a division beyond the line last passed, as the eye judges it.
    Judged {
        /// So many steps of the digit.
        steps: i64,
        /// Steps in a division.
        of: Parts,
    },
    /// A constant length.
    Fixed,
}

/// A half of a balanced face.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Half {
    /// The way the figures run.
    Plus,
    /// The other way.
    Minus,
}

impl ShareKind {
    /// True when the share's place is the number of a line, not a distance.
    pub fn counts_lines(&self) -> bool {
        matches!(self, Self::VernierLine { .. })
    }
}

/// The shares of a reading. They add up to its total.
pub fn shares(instrument: &Instrument, reading: &Reading) -> Vec<Share> {
    let mut all = Vec::new();
    for step in &reading.steps {
        let stage = step.stage;
        match (&instrument.stages[stage].form, &step.seen) {
            (Form::Line(line), Seen::LastPassed(at) | Seen::Nearest(at)) => {
                line_shares(&mut all, stage, line, *at);
            }
            (Form::Drum(drum), Seen::LastPassed(at) | Seen::Nearest(at)) => all.push(Share {
                stage,
                kind: ShareKind::DrumLine { line: at.passed(drum.division) },
                at: Some(*at),
                value: step.value,
            }),
            (Form::Dial(dial), Seen::LastPassed(at) | Seen::Nearest(at)) => all.push(Share {
                stage,
                kind: dial_line(dial, step.value),
                at: Some(at.left_of(dial.turn())),
                value: step.value,
            }),
            (form, Seen::Estimated { passed, beyond }) => {
                match form {
                    Form::Line(line) => line_shares(&mut all, stage, line, *passed),
                    Form::Drum(drum) => all.push(Share {
                        stage,
                        kind: ShareKind::DrumLine { line: passed.passed(drum.division) },
                        at: Some(*passed),
                        value: *passed,
                    }),
                    Form::Dial(_) | Form::Vernier(_) | Form::Fixed(_) => {}
                }
                all.extend(judged(instrument, stage, *beyond));
            }
            (Form::Vernier(_), Seen::InLine { taken, .. }) => all.push(Share {
                stage,
                kind: ShareKind::VernierLine { line: *taken },
                at: Some(Quanta(*taken)),
                value: step.value,
            }),
            _ => all.push(Share { stage, kind: ShareKind::Fixed, at: None, value: step.value }),
        }
    }
    all
}

/// The share of a digit that is estimated.
fn judged(instrument: &Instrument, stage: usize, beyond: Quanta) -> Option<Share> {
    let of = instrument.estimate?.parts;
    let step = instrument.lattice.at(instrument.estimate_step()?)?;
    let kind = ShareKind::Judged { steps: beyond.passed(step), of };
    Some(Share { stage, kind, at: None, value: beyond })
}

fn dial_line(dial: &Dial, value: Quanta) -> ShareKind {
    let half = match dial.face {
        Face::Balanced if value > Quanta::ZERO => Some(Half::Plus),
        Face::Balanced if value < Quanta::ZERO => Some(Half::Minus),
        Face::Balanced | Face::Continuous => None,
    };
    ShareKind::DialLine { line: value.passed(dial.division).abs(), half }
}

pub(super) fn line_shares(all: &mut Vec<Share>, stage: usize, line: &Line, at: Quanta) {
    if at < Quanta::ZERO {
        all.push(Share { stage, kind: ShareKind::BelowZero, at: None, value: at });
        return;
    }
    let mut done = Quanta::ZERO;
    for rule in &line.numerals {
        let figured = rule.every * at.passed(rule.every);
        if figured > done
            || (done == Quanta::ZERO && figured == Quanta::ZERO && rule.size == NumeralSize::Small)
        {
            let figure = rule.figure_at(figured).expect("a multiple of `every` has a figure");
            let kind = ShareKind::Figure { figure, size: rule.size };
            all.push(Share { stage, kind, at: Some(figured), value: figured - done });
            done = figured;
        }
    }
    let whole = line.whole().unwrap_or(line.division);
    let lines = (at - done).passed(whole);
    if lines > 0 {
        done += whole * lines;
        let value = whole * lines;
        all.push(Share { stage, kind: ShareKind::Lines { count: lines }, at: Some(done), value });
    }
    if at > done {
        all.push(Share { stage, kind: ShareKind::HalfLine, at: Some(at), value: at - done });
    }
}
