//! A vernier, line by line; and two pairs of scales on one beam.

use super::{Meets, Miss, Seen, Whose, graduations, pair, ways};
use crate::exact::Quanta;
use crate::instrument::Side;
use crate::scene::{Beside, Item, Scene, Track};

/// Two pairs of one beam, from the top down, whichever is read.
pub(super) fn on_beam(scene: &Scene, beside: &Beside) -> Vec<Seen> {
    // Without the word of what lies there.
    let of = |scene: &Scene| -> Vec<Seen> {
        pair(scene).into_iter().filter(|seen| !matches!(seen, Seen::Tool { .. })).collect()
    };
    let read = Seen::OnBeam { edge: beside.lies.other(), whose: Whose::Read, seen: of(scene) };
    let other = Seen::OnBeam { edge: beside.lies, whose: Whose::Other, seen: of(&beside.scene) };
    match beside.lies {
        Side::Above => vec![other, read],
        Side::Below => vec![read, other],
    }
}

/// Each line of a vernier, and where the nearest line of the other scale is.
pub(super) fn lines(seen: &mut Vec<Seen>, track: &Track, other: &Track) {
    let (Some(stage), Some(other_stage)) = (track.stage, other.stage) else { return };
    let (Some(part), Some(division)) = (track.pitch, other.pitch) else { return };
    let (lower, upper) = ways(other.axis);
    let left = part.left_of(division);
    let hair = left.min(division - left);
    let end = other.items.last().map_or(Quanta::ZERO, Item::at);
    for (line, item) in graduations(track, Quanta::ZERO).enumerate() {
        let place = track.place(item.at);
        let from_zero = (place - other.origin) * other.sense;
        let (below, above) =
            (division * from_zero.passed(division), division * (from_zero.passed(division) + 1));
        // A straight scale has no lines before its 0 and after its last one.
        let there = |at: Quanta| other.period.is_some() || (Quanta::ZERO <= at && at <= end);
        let (to_lower, to_upper) = (from_zero - below, above - from_zero);
        let upper_is_nearer = !there(below) || (there(above) && to_upper < to_lower);
        let by = |miss: Quanta| if miss <= hair { Miss::Hair } else { Miss::Plain };
        let meets = if to_lower == Quanta::ZERO && there(below) {
            Meets::InLine
        } else if to_lower == to_upper && there(below) && there(above) {
            Meets::HalfWay
        } else if upper_is_nearer == (other.sense > 0) {
            Meets::Beside { way: upper, by: by(if upper_is_nearer { to_upper } else { to_lower }) }
        } else {
            Meets::Beside { way: lower, by: by(if upper_is_nearer { to_upper } else { to_lower }) }
        };
        let figure = item.figure.map(|(number, _)| number);
        seen.push(Seen::VernierLine { stage, other: other_stage, line, figure, meets });
    }
}
