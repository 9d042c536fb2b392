//! Where every member stands.

use crate::exact::Quanta;
use crate::instrument::{Form, Instrument};

/// Where every member of an instrument stands, stage by stage.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Pose {
    /// One entry a stage, in the instrument's order.
    pub stages: Vec<StagePose>,
    /// Where the other set of scales stands: on the same jaw at its setting nearest to it, on a slide of its own where that was
    /// set.
    pub beside: Option<Box<Pose>>,
}

/// Where one stage stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum StagePose {
    /// The edge, index or vernier zero stands this far from the scale's zero.
    Line {
        /// The distance; below zero when a zero error puts it there.
        index: Quanta,
    },
    /// This much of a turn stands on the datum line, from 0 up to but not including a turn.
    Drum {
        /// The part of a turn.
        index: Quanta,
    },
    /// The hand stands this far round the dial, from 0 up to but not including a turn.
    Dial {
        /// The part of a turn.
        hand: Quanta,
    },
    /// The vernier's zero stands this far along the scale it is read against.
    Vernier {
        /// The distance.
        zero: Quanta,
    },
    /// A constant length.
    Fixed,
}

/// The pose for a setting. `lead` is how far the edge (or small hand) runs ahead of the thimble (or hand) (0 on a well-adjusted tool).
pub fn pose(instrument: &Instrument, setting: Quanta, lead: Quanta) -> Pose {
    let travel = setting - instrument.start();
    let mut before = travel;
    let mut stages = Vec::with_capacity(instrument.stages.len());
    for (n, stage) in instrument.stages.iter().enumerate() {
        stages.push(match &stage.form {
            Form::Line(_) => {
                let next = instrument.stages.get(n + 1).map(|s| &s.form);
                let turns_next = matches!(next, Some(Form::Drum(_) | Form::Dial(_)));
                let index = if turns_next { travel + lead } else { travel };
                before = travel;
                StagePose::Line { index }
            }
            Form::Drum(drum) => {
                before = travel.left_of(drum.turn());
                StagePose::Drum { index: before }
            }
            Form::Dial(dial) => {
                before = travel.left_of(dial.turn());
                StagePose::Dial { hand: before }
            }
            Form::Vernier(_) => StagePose::Vernier { zero: before },
            Form::Fixed(_) => StagePose::Fixed,
        });
    }
    let beside = instrument.on_same_jaw().map(|other| {
        let setting = instrument.setting_beside(&other.tool, setting);
        Box::new(pose(&other.tool, setting, Quanta::ZERO))
    });
    Pose { stages, beside }
}
