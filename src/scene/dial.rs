//! The tracks of a dial: what counts its turns, the rim, the hand.

use super::build::{graduation, index_track};
use super::item::{Axis, Cover, Edge, Item, Kind, Plate, Scene, Track, TrackForm};
use crate::exact::Quanta;
use crate::instrument::{Body, Dial, Sense, SmallHand, Turns};

fn sense(dial: &Dial) -> i64 {
    match dial.sense {
        Sense::Clockwise => 1,
        Sense::CounterClockwise => -1,
    }
}

/// 1 where the figures of the counter run with the clock, -1 against it.
pub(super) fn counter_sense(dial: &Dial) -> i64 {
    match dial.small_hand {
        SmallHand::With => sense(dial),
        SmallHand::Against => -sense(dial),
    }
}

/// Adds a dial, read at `hand`, and what it is read against.
pub(super) fn add(scene: &mut Scene, name: &str, stage: usize, dial: &Dial, hand: Quanta) {
    scene.kind = Kind::Dial;
    let sense = sense(dial);
    let (form, axis, plate, read_by, other) = match dial.body {
        Body::Face => (TrackForm::Dial, Axis::Round, Plate::Fixed, "hand", Plate::Moving),
        Body::Collar => (TrackForm::Drum, Axis::Across, Plate::Moving, "index line", Plate::Fixed),
    };
    let items = (0..dial.parts)
        .map(|n| dial.division * n)
        .map(|at| graduation(at, dial.tier_at(at), None, dial.figure_at(at)))
        .collect();
    scene.tracks.push(Track {
        id: name.to_owned(),
        stage: Some(stage),
        plate,
        form,
        axis,
        sense,
        origin: -hand * sense,
        period: Some(dial.turn()),
        pitch: Some(dial.division),
        lengths: dial.tiers.len() + 1,
        items,
    });
    scene.tracks.push(index_track(read_by, Quanta::ZERO, other, axis));
}

/// Sets the jaw or the small hand on the scale that counts the turns of the dial after it.
pub(super) fn count(scene: &mut Scene, turns: Turns, sense: i64, at: Quanta, hand: Quanta) {
    let turn = scene.tracks[1].period.expect("a dial repeats");
    let half = Quanta(turn.0 / 2);
    let lead = (at - hand + half).left_of(turn) - half;
    scene.edges.push(Edge { track: 0, at, lead });
    match turns {
        Turns::Bar => {
            let end = scene.tracks[0].items.last().map_or(Quanta::ZERO, Item::at);
            if at < end {
                scene.covers.push(Cover { track: 0, from: at, to: end });
            }
        }
        Turns::Counter => {
            scene.tracks[0].sense = sense;
            scene.tracks.push(index_track("small hand", at * sense, Plate::Moving, Axis::Across));
        }
        Turns::Uncounted => {}
    }
}
