//! Reading a pose correctly, stage by stage, as a person does it.

use super::coincidence::{coincident_lines, line_taken};
use super::pose::{Pose, StagePose};
use crate::exact::Quanta;
use crate::instrument::{Dial, Form, Instrument, ReadBy, Vernier};

/// What the scales show, correctly read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Reading {
    /// One step a stage, coarse to fine.
    pub steps: Vec<Step>,
    /// Their sum: the reading, before any zero error is taken off.
    pub total: Quanta,
}

/// What one stage shows.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Step {
    /// Which stage of the instrument.
    pub stage: usize,
    /// What is looked at.
    pub seen: Seen,
    /// Its share of the sum.
    pub value: Quanta,
}

/// What is looked at in a step.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Seen {
    /// The graduation last passed, at this distance from the scale's zero.
    LastPassed(Quanta),
    /// The graduation nearest to the line or edge.
    Nearest(Quanta),
    /// Vernier lines in line (none, one, or first and last), and the one taken.
    InLine {
        /// All that are exactly in line.
        lines: Vec<i64>,
        /// The one that is read.
        taken: i64,
    },
    /// The graduation last passed, and the part of a division beyond it.
    Estimated {
        /// The graduation, from the scale's zero.
        passed: Quanta,
        /// The part, as the eye judges it.
        beyond: Quanta,
    },
    /// A constant.
    Fixed,
}

/// Reads a pose.
pub fn read(instrument: &Instrument, pose: &Pose) -> Reading {
    let judged = instrument.estimate_step().and_then(|step| instrument.lattice.at(step)).unwrap_or(Quanta(1));
    let by = |read, index, division| by(read, index, division, judged);
    let mut steps = Vec::with_capacity(instrument.stages.len());
    for (stage, (form, stands)) in instrument.stages.iter().map(|s| &s.form).zip(&pose.stages).enumerate() {
        let finer = instrument.stages.get(stage + 1).map(|s| &s.form);
        let (seen, value) = match (form, *stands) {
            (Form::Line(line), StagePose::Line { index }) => match (finer, pose.stages.get(stage + 1)) {
                (Some(Form::Drum(drum)), Some(StagePose::Drum { index: on_datum })) => {
                    passed(Quanta(turns(drum.turn(), index, *on_datum)), line.division)
                }
                (Some(Form::Dial(dial)), Some(StagePose::Dial { hand })) => {
                    passed(Quanta(turns(dial.turn(), index, *hand)), line.division)
                }
                _ => by(line.read, index, line.division),
            },
            (Form::Drum(drum), StagePose::Drum { index }) => by(drum.read, index, drum.division),
            (Form::Dial(dial), StagePose::Dial { hand }) => round(dial, hand, &by),
            (Form::Vernier(vernier), StagePose::Vernier { zero }) => {
                let division = division_before(instrument, stage);
                in_line(vernier, zero, division)
            }
            (Form::Fixed(length), StagePose::Fixed) => (Seen::Fixed, *length),
            _ => unreachable!("a pose has the forms of its instrument"),
        };
        steps.push(Step { stage, seen, value });
    }
    let total = steps.iter().map(|step| step.value).sum();
    Reading { steps, total }
}

/// The turn that the edge is in, settled by the thimble or the hand: an edge a little early or late changes nothing.
fn turns(turn: Quanta, edge: Quanta, on_datum: Quanta) -> i64 {
    let doubled = edge + edge - on_datum - on_datum + turn;
    doubled.passed(turn + turn)
}

fn passed(count: Quanta, division: Quanta) -> (Seen, Quanta) {
    let at = division * count.0;
    (Seen::LastPassed(at), at)
}

/// `judged` is one step of a digit that is estimated.
fn by(read: ReadBy, index: Quanta, division: Quanta, judged: Quanta) -> (Seen, Quanta) {
    match read {
        ReadBy::LastPassed => passed(Quanta(index.passed(division)), division),
        ReadBy::Nearest | ReadBy::Coincidence => {
            let nearest = division * (index + index + division).passed(division + division);
            (Seen::Nearest(nearest), nearest)
        }
        ReadBy::Estimate => {
            let value = judged * (index + index + judged).passed(judged + judged);
            let passed = division * value.passed(division);
            (Seen::Estimated { passed, beyond: value - passed }, value)
        }
    }
}

/// A hand on a dial: seen is the place on the dial, plus or minus on a balanced one is what it is worth.
fn round(dial: &Dial, hand: Quanta, by: &dyn Fn(ReadBy, Quanta, Quanta) -> (Seen, Quanta)) -> (Seen, Quanta) {
    let (seen, at) = by(dial.read, hand, dial.division);
    (seen, dial.worth(at))
}

fn in_line(vernier: &Vernier, zero: Quanta, division: Quanta) -> (Seen, Quanta) {
    let lines = coincident_lines(vernier, zero, division);
    let taken = line_taken(vernier, zero, division);
    (Seen::InLine { lines, taken }, vernier.least_count * taken)
}

/// The division of the scale that the vernier at `stage` is read against.
pub(super) fn division_before(instrument: &Instrument, stage: usize) -> Quanta {
    instrument.stages[..stage]
        .iter()
        .rev()
        .find_map(|s| match &s.form {
            Form::Line(line) => Some(line.division),
            Form::Drum(drum) => Some(drum.division),
            Form::Dial(_) | Form::Vernier(_) | Form::Fixed(_) => None,
        })
        .expect("the definition was checked: a vernier follows a scale")
}
