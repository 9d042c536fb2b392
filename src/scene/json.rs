//! The display list as JSON, `draw --format json`.

use super::build::stands;
use super::item::{Axis, Item, Plate, Scene, Track, TrackForm};
use crate::exact::Quanta;
use crate::instrument::Instrument;
use serde::Serialize;

/// The document. `at` counts from the track's own zero, `origin` is that zero, both in quanta of the instrument.
#[derive(Serialize)]
pub struct Document<'a> {
    linefall_draw: u32,
    instrument: &'a str,
    revision: &'a str,
    unit: &'a str,
    quantum: String,
    reading: String,
    zero_error: String,
    tracks: Vec<TrackOut<'a>>,
    edges: Vec<EdgeOut<'a>>,
    covers: Vec<CoverOut<'a>>,
    lens: Option<i64>,
    #[serde(skip_serializing_if = "<[String]>::is_empty")]
    tags: &'a [String],
    /// The other scales: of the same jaw, or the slide that is set by itself.
    #[serde(skip_serializing_if = "Option::is_none")]
    other: Option<Box<OtherOut<'a>>>,
}

/// A second set of scales, in quanta of its own.
#[derive(Serialize)]
struct OtherOut<'a> {
    unit: &'a str,
    quantum: String,
    reading: String,
    tracks: Vec<TrackOut<'a>>,
}

#[derive(Serialize)]
struct TrackOut<'a> {
    id: &'a str,
    plate: &'static str,
    form: &'static str,
    axis: &'static str,
    sense: i64,
    origin: i64,
    period: Option<i64>,
    items: Vec<ItemOut>,
}

#[derive(Serialize)]
struct ItemOut {
    kind: &'static str,
    at: i64,
    tier: usize,
    label: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    side: Option<&'static str>,
}

#[derive(Serialize)]
struct EdgeOut<'a> {
    track: &'a str,
    at: i64,
    lead: i64,
}

#[derive(Serialize)]
struct CoverOut<'a> {
    track: &'a str,
    from: i64,
    to: i64,
}

/// The document of a scene standing at `reading`, with the other set of scales where the tool has two.
pub fn document<'a>(
    instrument: &'a Instrument,
    scene: &'a Scene,
    reading: Quanta,
    zero_error: Quanta,
    lens: Option<i64>,
    other: Option<(&'a Instrument, &'a Scene)>,
) -> Document<'a> {
    let name = |track: usize| scene.tracks[track].id.as_str();
    Document {
        linefall_draw: 1,
        instrument: &instrument.id,
        revision: &instrument.revision.0,
        unit: instrument.unit.symbol(),
        quantum: instrument.spell_with_unit(Quanta(1)),
        reading: instrument.spell(reading),
        zero_error: instrument.spell(zero_error),
        tracks: scene.tracks.iter().map(track_out).collect(),
        edges: scene
            .edges
            .iter()
            .map(|edge| EdgeOut { track: name(edge.track), at: edge.at.0, lead: edge.lead.0 })
            .collect(),
        covers: scene
            .covers
            .iter()
            .map(|cover| CoverOut { track: name(cover.track), from: cover.from.0, to: cover.to.0 })
            .collect(),
        lens,
        tags: &scene.tags,
        other: other.map(|(tool, scene)| {
            Box::new(OtherOut {
                unit: tool.unit.symbol(),
                quantum: tool.spell_with_unit(Quanta(1)),
                reading: tool.spell(stands(scene) + tool.start()),
                tracks: scene.tracks.iter().map(track_out).collect(),
            })
        }),
    }
}

fn track_out(track: &Track) -> TrackOut<'_> {
    TrackOut {
        id: &track.id,
        plate: match track.plate {
            Plate::Fixed => "fixed",
            Plate::Moving => "moving",
        },
        form: match track.form {
            TrackForm::Line => "line",
            TrackForm::Drum => "drum",
            TrackForm::Dial => "dial",
            TrackForm::Vernier => "vernier",
            TrackForm::Index => "index",
        },
        axis: match track.axis {
            Axis::Across => "across",
            Axis::Up => "up",
            Axis::Round => "round",
        },
        sense: track.sense,
        origin: track.origin.0,
        period: track.period.map(|period| period.0),
        items: track.items.iter().map(item_out).collect(),
    }
}

fn item_out(item: &Item) -> ItemOut {
    match item {
        Item::Graduation { at, tier, side, figure } => ItemOut {
            kind: "graduation",
            at: at.0,
            tier: *tier,
            label: figure.map(|figure| figure.number.to_string()),
            side: side.map(crate::instrument::Side::word),
        },
        Item::Index { at } => ItemOut { kind: "index", at: at.0, tier: 0, label: None, side: None },
    }
}
