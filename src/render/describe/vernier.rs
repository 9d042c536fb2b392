//! A vernier, line by line; and two pairs of scales on one beam.

use super::{Line, Meets, Miss, Seen, Way, Whose, graduations, pair, ways};
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
    let double = track.is_both_ways();
    let mut lines: Vec<Line> = graduations(track, Quanta::ZERO).collect();
    if double && track.sense < 0 {
        // From left to right.
        lines.reverse();
    }
    for item in lines {
        let number = item.at.passed(part);
        let half = match number * track.sense {
            n if n < 0 && double => Some(Way::Left),
            n if n > 0 && double => Some(Way::Right),
            _ => None,
        };
        let line = usize::try_from(number.abs()).expect("a vernier has few lines");
        let place = track.place(item.at);
        let from_zero = (place - other.origin) * other.sense;
        let (below, above) =
            (division * from_zero.passed(division), division * (from_zero.passed(division) + 1));
        // A straight scale has no lines before its first and after its last one.
        let begin = other.items.first().map_or(Quanta::ZERO, Item::at);
        let there = |at: Quanta| other.period.is_some() || (begin <= at && at <= end);
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
        seen.push(Seen::VernierLine { stage, other: other_stage, half, line, figure, meets });
    }
}
