//! The other pair of scales of a tool that has two on one jaw.

use super::build::build;
use super::item::{Beside, Scene, View};
use crate::exact::{Exact, Unit};
use crate::instrument::{Instrument, Joined, Side, Variant};
use crate::reading::Pose;

/// What can be seen of the other scales in a pose.
pub(super) fn of(instrument: &Instrument, pose: &Pose, variant: &Variant, view: View) -> Option<Box<Beside>> {
    let (other, pose) = (instrument.on_same_jaw()?, pose.beside.as_ref()?);
    let lies = if other.joined == Joined::Above { Side::Above } else { Side::Below };
    let scene = build(&other.tool, pose, variant, view);
    let length = |of: &Instrument| {
        let quantum = of.lattice.quantum();
        if of.unit == Unit::Inch { quantum * Exact::ratio(127, 5) } else { quantum }
    };
    let ratio = length(&other.tool).over(length(instrument));
    let whole = |n: i128| i64::try_from(n).expect("quanta of two scales of one tool");
    Some(Box::new(Beside { lies, scene, ratio: (whole(ratio.numerator()), whole(ratio.denominator())) }))
}

/// The pairs of a scene from the top down: one, or the two of one jaw.
pub fn pairs(scene: &Scene) -> Vec<&Scene> {
    match &scene.beside {
        None => vec![scene],
        Some(beside) if beside.lies == Side::Above => vec![&beside.scene, scene],
        Some(beside) => vec![scene, &beside.scene],
    }
}
