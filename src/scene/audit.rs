//! What cannot occur in a display list. The drawing code relies on it; a test audits every shipped instrument.

use super::item::{Axis, Item, Kind, Scene, TrackForm};

/// A broken promise of the display list.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Fault {
    /// The number of tracks is not what the kind says.
    TrackCount,
    /// A track's items are not in range order, or two stand at one place.
    Order {
        /// The track.
        track: usize,
    },
    /// A graduation's length class is not below the track's number of lengths.
    Tier {
        /// The track.
        track: usize,
    },
    /// A scale without a figure.
    NoFigure {
        /// The track.
        track: usize,
    },
    /// A period that is not the items' span, or on something else than a drum or a dial.
    Period {
        /// The track.
        track: usize,
    },
    /// A straight scale that stands upright or lies round a disc without what is read against it.
    Direction {
        /// The track.
        track: usize,
    },
    /// A sleeve reversed without its thimble, or a thimble without its sleeve: no screw does that.
    Hand,
    /// Two pairs of scales on one jaw that are not two level pairs.
    Beside,
    /// An edge or cover over a track that is not there.
    Dangling,
}

/// Every broken promise of a display list; empty for one that may be drawn.
pub fn audit(scene: &Scene) -> Vec<Fault> {
    let mut faults = Vec::new();
    let expected = match scene.kind {
        Kind::Rule | Kind::Pair => 2..=2,
        Kind::Sleeve => 3..=3,
        Kind::Dial => 2..=4,
    };
    if !expected.contains(&scene.tracks.len()) {
        faults.push(Fault::TrackCount);
    }
    for (n, track) in scene.tracks.iter().enumerate() {
        if track.items.is_empty() || track.items.windows(2).any(|pair| pair[0].at() >= pair[1].at()) {
            faults.push(Fault::Order { track: n });
        }
        let tier_of = |item: &Item| match item {
            Item::Graduation { tier, .. } => *tier,
            Item::Index { .. } => 0,
        };
        if track.items.iter().any(|item| tier_of(item) >= track.lengths) {
            faults.push(Fault::Tier { track: n });
        }
        let figured = |item: &Item| matches!(item, Item::Graduation { figure: Some(_), .. });
        if track.form != TrackForm::Index && !track.items.iter().any(figured) {
            faults.push(Fault::NoFigure { track: n });
        }
        let turn = track.pitch.zip(i64::try_from(track.items.len()).ok()).map(|(pitch, count)| pitch * count);
        match (track.form, track.period) {
            (TrackForm::Drum | TrackForm::Dial, period) if period.is_some() && period == turn => {}
            (TrackForm::Line | TrackForm::Vernier | TrackForm::Index, None) => {}
            _ => faults.push(Fault::Period { track: n }),
        }
        let same = scene.tracks.iter().all(|other| other.axis == track.axis);
        let beside = same && (scene.kind == Kind::Pair || track.axis == Axis::Round);
        if track.form == TrackForm::Line && track.axis != Axis::Across && !beside {
            faults.push(Fault::Direction { track: n });
        }
    }
    if scene.kind == Kind::Sleeve && scene.tracks.len() > 1 && scene.tracks[0].sense != scene.tracks[1].sense
    {
        faults.push(Fault::Hand);
    }
    let tracks =
        scene.edges.iter().map(|edge| edge.track).chain(scene.covers.iter().map(|cover| cover.track));
    if tracks.into_iter().any(|track| track >= scene.tracks.len()) {
        faults.push(Fault::Dangling);
    }
    if let Some(beside) = &scene.beside {
        let level = |scene: &Scene| {
            scene.kind == Kind::Pair
                && scene.tracks.iter().all(|track| track.axis == Axis::Across && track.sense > 0)
        };
        if !level(scene) || !level(&beside.scene) || beside.scene.beside.is_some() {
            faults.push(Fault::Beside);
        }
        faults.extend(audit(&beside.scene));
    }
    faults
}
