//! From a pose to a display list.

use super::item::{Axis, Cover, Edge, Figure, Item, Kind, Plate, Scene, Track, TrackForm, View};
use super::wear::wear;
use super::{beside, dial};
use crate::exact::{Quanta, Unit};
use crate::instrument::{
    Course, Drum, Figured, Form, Grows, Instrument, Line, Moves, NumeralSize, Numerals, Runs, Side, Turns,
    Variant, Vernier, figure_at, tier_at,
};
use crate::reading::{Pose, StagePose};

/// What can be seen of an instrument in a pose.
pub fn build(instrument: &Instrument, pose: &Pose, variant: &Variant, view: View) -> Scene {
    let mut scene = Scene {
        kind: Kind::Rule,
        view,
        held: instrument.held,
        unit: instrument.unit,
        tracks: Vec::new(),
        edges: Vec::new(),
        covers: Vec::new(),
        engraved: instrument.engraved.to_vec(),
        stamped: instrument.stamped(),
        tags: Vec::new(),
        beside: beside::of(instrument, pose, variant, view),
    };
    let drum_axis = match view {
        View::Held => Axis::Up,
        View::Flat => Axis::Across,
    };
    let bar_moves = instrument.moves == Moves::MainScale;
    let mut line_index = Quanta::ZERO;
    let mut course = Course::Rightward;
    let mut travel = Quanta::ZERO;
    let mut turns = Turns::Uncounted;
    let mut counter = 1;
    for (stage, (part, stands)) in instrument.stages.iter().zip(&pose.stages).enumerate() {
        match (&part.form, *stands) {
            (Form::Line(line), StagePose::Line { index }) => {
                line_index = index;
                let plate = if bar_moves { Plate::Moving } else { Plate::Fixed };
                course = line.runs;
                let axis = axis(course, view, instrument.unit);
                scene.tracks.push(line_track(&part.name, stage, line, variant.halves(), plate, axis));
            }
            (Form::Drum(drum), StagePose::Drum { index }) => {
                scene.kind = Kind::Sleeve;
                travel = index;
                scene.tracks.push(drum_track(&part.name, stage, drum, index, drum_axis));
            }
            (Form::Dial(dial), StagePose::Dial { hand }) => {
                turns = dial.turns;
                counter = dial::counter_sense(dial);
                travel = hand;
                dial::add(&mut scene, &part.name, stage, dial, hand);
            }
            (Form::Vernier(vernier), StagePose::Vernier { zero }) => {
                let on_drum = scene.kind == Kind::Sleeve;
                let plate = if on_drum || bar_moves { Plate::Fixed } else { Plate::Moving };
                let (axis, sense, origin) = if on_drum {
                    (drum_axis, 1, Quanta::ZERO)
                } else {
                    (axis(course, view, instrument.unit), sense(course), zero * sense(course))
                };
                let mut track = vernier_track(&part.name, stage, vernier, origin, plate, axis);
                track.sense *= sense;
                scene.tracks.push(track);
                if !on_drum {
                    scene.kind = Kind::Pair;
                }
            }
            _ => {}
        }
    }
    match scene.kind {
        Kind::Rule => {
            let axis = axis(course, view, instrument.unit);
            let name = if axis == Axis::Round { "index line" } else { "work" };
            scene.tracks.push(index_track(name, line_index * sense(course), Plate::Moving, axis));
        }
        Kind::Pair => {}
        Kind::Dial if turns == Turns::Uncounted => {}
        Kind::Dial => dial::count(&mut scene, turns, counter, line_index, travel),
        Kind::Sleeve => {
            if scene.tracks.len() < 3 {
                scene.tracks.push(index_track("datum", Quanta::ZERO, Plate::Fixed, drum_axis));
            }
            cover_sleeve(&mut scene, instrument.grows, line_index, travel);
        }
    }
    wear(&mut scene, &instrument.state);
    scene
}

/// Which way a scale lies: angles round a disc; upright only where the tool stands and is looked at as it stands.
fn axis(course: Course, view: View, unit: Unit) -> Axis {
    match (course, view) {
        _ if unit == Unit::Minute => Axis::Round,
        (Course::Upward, View::Held) => Axis::Up,
        _ => Axis::Across,
    }
}

/// Whether a straight scale grows along its axis.
fn sense(course: Course) -> i64 {
    match course {
        Course::Rightward | Course::Upward => 1,
        Course::Leftward => -1,
    }
}

/// The instrument quanta at which the setting stands in a scene: where the edge, the small hand, the hand, the work's end or
/// the vernier's zero is.
pub fn stands(scene: &Scene) -> Quanta {
    match scene.kind {
        Kind::Rule | Kind::Pair => scene.tracks[1].origin,
        Kind::Sleeve => scene.edges.first().map_or(Quanta::ZERO, |edge| scene.tracks[0].place(edge.at)),
        Kind::Dial if scene.edges.is_empty() => -scene.tracks[0].origin * scene.tracks[0].sense,
        Kind::Dial => scene.edges.first().map_or(Quanta::ZERO, |edge| scene.tracks[0].place(edge.at)),
    }
}

/// Puts the thimble over the sleeve. With a right-hand screw sleeve and thimble are reversed together or not at all; a line
/// exactly at the edge is uncovered, on a reversed sleeve covered.
fn cover_sleeve(scene: &mut Scene, grows: Grows, edge: Quanta, on_datum: Quanta) {
    let turn = scene.tracks[1].period.expect("a thimble repeats");
    let half = Quanta(turn.0 / 2);
    let lead = (edge - on_datum + half).left_of(turn) - half;
    let end = scene.tracks[0].items.last().map_or(Quanta::ZERO, Item::at);
    scene.edges.push(Edge { track: 0, at: edge, lead });
    match grows {
        Grows::Uncovering if edge < end => scene.covers.push(Cover { track: 0, from: edge, to: end }),
        Grows::Covering => {
            for track in &mut scene.tracks[..2] {
                track.sense = -1;
                track.origin = -track.origin;
            }
            if edge >= Quanta::ZERO {
                scene.covers.push(Cover { track: 0, from: Quanta(-1), to: edge.min(end) });
            }
        }
        Grows::Uncovering => {}
    }
}

fn line_track(id: &str, stage: usize, line: &Line, halves: Option<Side>, plate: Plate, axis: Axis) -> Track {
    let items = (line.begin.passed(line.division)..=line.end.passed(line.division))
        .map(|n| line.division * n)
        .map(|at| {
            let side = line.side_at(at, halves);
            graduation(at, tier_at(&line.tiers, at), side, figure(&line.numerals, line.figured, at))
        })
        .collect();
    Track {
        id: id.to_owned(),
        stage: Some(stage),
        plate,
        form: TrackForm::Line,
        axis,
        sense: sense(line.runs),
        origin: Quanta::ZERO,
        period: None,
        pitch: Some(line.division),
        lengths: line.tiers.len() + 1,
        items,
    }
}

fn drum_track(id: &str, stage: usize, drum: &Drum, on_datum: Quanta, axis: Axis) -> Track {
    let items = (0..drum.parts)
        .map(|n| drum.division * n)
        .map(|at| graduation(at, tier_at(&drum.tiers, at), None, figure_at(&drum.numerals, at)))
        .collect();
    Track {
        id: id.to_owned(),
        stage: Some(stage),
        plate: Plate::Moving,
        form: TrackForm::Drum,
        axis,
        sense: 1,
        origin: -on_datum,
        period: Some(drum.turn()),
        pitch: Some(drum.division),
        lengths: drum.tiers.len() + 1,
        items,
    }
}

fn vernier_track(
    id: &str,
    stage: usize,
    vernier: &Vernier,
    origin: Quanta,
    plate: Plate,
    axis: Axis,
) -> Track {
    let first = match vernier.figured {
        Figured::OneWay => 0,
        Figured::BothWays => -vernier.parts,
    };
    let items = (first..=vernier.parts)
        .map(|n| {
            let worth = vernier.least_count * n;
            let figure = figure(&vernier.numerals, vernier.figured, worth);
            graduation(vernier.part * n, tier_at(&vernier.tiers, worth), None, figure)
        })
        .collect();
    Track {
        id: id.to_owned(),
        stage: Some(stage),
        plate,
        form: TrackForm::Vernier,
        axis,
        sense: match vernier.runs {
            Runs::Forward => 1,
            Runs::Backward => -1,
        },
        origin,
        period: None,
        pitch: Some(vernier.part),
        lengths: vernier.tiers.len() + 1,
        items,
    }
}

/// The figure at a position; lines below nought have one only on a scale figured both ways.
fn figure(rules: &[Numerals], figured: Figured, at: Quanta) -> Option<(i64, NumeralSize)> {
    match figured {
        Figured::OneWay if at < Quanta::ZERO => None,
        Figured::BothWays if at < Quanta::ZERO => figure_at(rules, -at),
        Figured::OneWay | Figured::BothWays => figure_at(rules, at),
    }
}

pub(super) fn index_track(id: &str, origin: Quanta, plate: Plate, axis: Axis) -> Track {
    Track {
        id: id.to_owned(),
        stage: None,
        plate,
        form: TrackForm::Index,
        axis,
        sense: 1,
        origin,
        period: None,
        pitch: None,
        lengths: 1,
        items: vec![Item::Index { at: Quanta::ZERO }],
    }
}

pub(super) fn graduation(
    at: Quanta,
    tier: usize,
    side: Option<Side>,
    figure: Option<(i64, NumeralSize)>,
) -> Item {
    let figure = figure.map(|(number, size)| Figure { number, size });
    Item::Graduation { at, tier, side, figure }
}
