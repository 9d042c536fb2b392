//! A dial or a collar: the bar up to the jaw's edge or the counter with its small hand, the rim unrolled under the hand, and
//! in the hand the round face as an overview.

use super::level::{per_quantum, type_size};
use super::page::{Area, Grey, LINE, Page, UNIT, cap, text_width, whole_units};
use super::strip::{Facing, Strip, depth};
use crate::exact::Quanta;
use crate::instrument::NumeralSize;
use crate::render::Lit;
use crate::render::circle::{STEPS, on_circle, step};
use crate::scene::{Item, Scene, Track, TrackForm, View};

/// The width of the picture.
const WIDTH: i64 = 1600 * UNIT;
/// The fixed jaw, left of the bar, and the moving one right of its edge.
const JAW: i64 = 200 * UNIT;
/// The distance of the rim of the round face from its middle.
const RADIUS: i64 = 220 * UNIT;
/// The small hand's own.
const SMALL: i64 = 56 * UNIT;

/// Draws it.
pub(super) fn draw(scene: &Scene, lit: &[Lit]) -> Page {
    let rim = scene.edges.len();
    let size = type_size(WIDTH);
    let reach = 2 * size;
    let coarse = if rim == 0 { 0 } else { 2 * size + depth(&scene.tracks[0], reach, size) + size };
    let engraving = 2 * size;
    let edge = whole_units(engraving + coarse + reach + size / 2);
    let bottom = edge + depth(&scene.tracks[rim], reach, size);
    let has_face = scene.view == View::Held && scene.tracks[rim].form == TrackForm::Dial;
    let face = if has_face { 2 * RADIUS + 6 * size } else { 0 };

    let mut page = Page::new(WIDTH, whole_units(bottom + face));
    page.plate(Area { left: 0, right: WIDTH, top: 0, bottom: engraving }, Grey::Frame);
    let at = whole_units(engraving + size);
    match scene.tracks.len() {
        3 => bar(&mut page, scene, lit, at, reach, size),
        4 => counter(&mut page, scene, lit, at + size, reach, size),
        _ => {}
    }
    unrolled(&mut page, scene, lit, rim, edge, bottom, reach, size);
    page.texts_from(size, engraving - size / 2, size * 3 / 4, &scene.engraved);
    if has_face {
        round(&mut page, scene, rim, (WIDTH / 2, bottom + 2 * size + RADIUS), size);
    }
    page
}

fn strip<'a>(track: &'a Track, number: usize, edge: i64, reach: i64, size: i64) -> Strip<'a> {
    let window = 0..WIDTH;
    Strip { track, number, facing: Facing::Below, edge, reach, size, window, stop: false }
}

/// The distance between the figures that tell the most.
fn widest(track: &Track) -> Quanta {
    let spacing = track.figure_spacing(NumeralSize::Large).or(track.figure_spacing(NumeralSize::Small));
    spacing.unwrap_or(track.pitch.unwrap_or(Quanta(1)))
}

/// A bar: what the jaw leaves in view of it.
fn bar(page: &mut Page, scene: &Scene, lit: &[Lit], top: i64, reach: i64, size: i64) {
    let track = &scene.tracks[0];
    let bottom = top + depth(track, reach, size);
    let jaw = WIDTH - JAW;
    let pitch = track.pitch.unwrap_or(Quanta(1)).0;
    // A figure is always in view; every quantum is whole hundredths.
    let room = jaw - JAW - 3 * size;
    let per = (room / widest(track).0).min(120 * UNIT / pitch).max(1);
    let place = move |at: Quanta| jaw - LINE / 2 + (at - scene.edges[0].at).0 * per;
    page.plate(Area { left: 0, right: JAW, top, bottom }, Grey::Frame);
    page.plate(Area { left: JAW, right: jaw, top, bottom }, Grey::Fixed);
    page.plate(Area { left: jaw, right: WIDTH, top, bottom }, Grey::Moving);
    // A figure that the jaw would cut is not drawn.
    let window = JAW + size / 2..jaw;
    Strip { window, ..strip(track, 0, top, reach, size) }.draw(page, lit, &place);
}

/// A counter and its small hand.
fn counter(page: &mut Page, scene: &Scene, lit: &[Lit], edge: i64, reach: i64, size: i64) {
    let track = &scene.tracks[0];
    let last = track.items.last().map_or(Quanta(1), Item::at);
    let per = (WIDTH / 2 / last.0).max(1);
    let (left, right) = (0, last.0 * per + 4 * size);
    let place = move |at: Quanta| 2 * size + at.0 * per;
    page.plate(Area { left, right, top: edge - size, bottom: edge }, Grey::Moving);
    page.plate(Area { left, right, top: edge, bottom: edge + depth(track, reach, size) }, Grey::Fixed);
    strip(track, 0, edge, reach, size).draw(page, lit, &place);
    let hand = place(scene.edges[0].at);
    page.line((hand, edge - size), (hand, edge), false);
}

/// Less than a turn of the rim, so that each line stands there once.
#[allow(clippy::too_many_arguments)]
fn unrolled(
    page: &mut Page,
    scene: &Scene,
    lit: &[Lit],
    rim: usize,
    edge: i64,
    bottom: i64,
    reach: i64,
    size: i64,
) {
    let track = &scene.tracks[rim];
    let pitch = track.pitch.unwrap_or(Quanta(1));
    let spacing = track.figure_spacing(NumeralSize::Small).unwrap_or(pitch * 10);
    let half = (spacing + pitch * 2).0.min(pitch.0 * 45);
    let per = per_quantum(pitch.0, 2 * half, WIDTH - 2 * size) - UNIT;
    let place = move |at: Quanta| WIDTH / 2 + at.0 * per;
    page.plate(Area { left: 0, right: WIDTH, top: edge - reach, bottom: edge }, Grey::Fixed);
    page.plate(Area { left: 0, right: WIDTH, top: edge, bottom }, Grey::Moving);
    for (number, facing) in [(rim, Facing::Below), (rim + 1, Facing::Above)] {
        let track = &scene.tracks[number];
        let window = size..WIDTH - size;
        Strip { facing, window, ..strip(track, number, edge, reach, size) }.draw(page, lit, &place);
    }
}

/// The round face: its lines, figures and hands, and the value of one division.
fn round(page: &mut Page, scene: &Scene, rim: usize, middle: (i64, i64), size: i64) {
    let track = &scene.tracks[rim];
    let turn = track.period.map_or(1, |turn| turn.0);
    let at = |centre: (i64, i64), radius: i64, step: i64| {
        let (right, up) = on_circle(radius, step);
        (centre.0 + right, centre.1 - up)
    };
    let half = RADIUS + size;
    let area = Area { left: middle.0 - half, right: middle.0 + half, top: middle.1 - half, bottom: middle.1 + half };
    page.plate(area, Grey::Frame);
    for item in &track.items {
        let Item::Graduation { at: place, tier, figure, .. } = item else { continue };
        let step = track.sense * step(place.0, turn);
        let inner = if *tier == 0 { RADIUS * 6 / 7 } else { RADIUS * 19 / 20 };
        page.line(at(middle, inner, step), at(middle, RADIUS, step), false);
        if let Some(figure) = figure {
            let (x, y) = at(middle, RADIUS * 3 / 4, step);
            page.text(x, y + cap(size * 3 / 4) / 2, size * 3 / 4, &figure.number.to_string());
        }
    }
    page.line(middle, at(middle, RADIUS * 6 / 7, step(-track.origin.0, turn)), false);
    if let (Some(counter), Some(small)) = (scene.tracks.first(), scene.tracks.get(3)) {
        let whole = counter.items.last().map_or(1, |item| item.at().0);
        let centre = (middle.0, middle.1 + RADIUS / 2);
        for n in (0..STEPS).step_by(40) {
            page.line(at(centre, SMALL * 5 / 6, n), at(centre, SMALL, n), false);
        }
        page.line(centre, at(centre, SMALL * 2 / 3, step(small.origin.0, whole)), false);
    }
    if let Some(division) = scene.engraved.last() {
        page.text(middle.0, middle.1 - RADIUS / 3, size * 3 / 4, division);
    }
    let note = "overview";
    page.text(middle.0 + half + text_width(note, size) / 2 + size, middle.1 + half, size * 3 / 4, note);
}
