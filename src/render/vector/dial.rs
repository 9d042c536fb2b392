//! A dial or a collar: the bar up to the jaw's edge or the counter with its small hand, the rim unrolled under the hand, and
//! in the hand the round face as an overview.

use super::level::type_size;
use super::picture::{Area, Grey, LINE, OVERVIEW, Picture, UNIT, cap, figure_size, text_width, whole_units};
use super::strip::{Facing, Strip, depth};
use crate::exact::Quanta;
use crate::instrument::NumeralSize;
use crate::render::Lit;
use crate::render::circle::{STEPS, on_circle, step};
use crate::scene::{Figure, Item, Scene, Track, TrackForm, View};
use std::ops::Range;

/// The width of the picture.
const WIDTH: i64 = 1600 * UNIT;
/// The fixed jaw, left of the bar, and the moving one right of its edge.
const JAW: i64 = 200 * UNIT;
/// The distance of the rim of the round face from its middle.
const RADIUS: i64 = 220 * UNIT;
/// The small hand's own.
const SMALL: i64 = 50 * UNIT;

/// Where the round face is drawn.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Face {
    /// Below the unrolled rim, as on a screen.
    Below,
    /// Right of it, where there is room on paper.
    Beside,
}

/// Draws it.
pub(super) fn draw(scene: &Scene, lit: &[Lit], place: Face) -> Picture {
    let rim = scene.edges.len();
    let size = type_size(WIDTH);
    let tool = Tool { scene, lit, size, reach: 2 * size };
    let coarse = if rim == 0 { 0 } else { 2 * size + tool.depth(0) + size };
    let tag = if scene.tags.is_empty() { 0 } else { 2 * size };
    let engraving = 2 * size + tag;
    let edge = whole_units(engraving + coarse + tool.reach + size / 2);
    let bottom = edge + tool.depth(rim);
    let has_face = scene.view == View::Held && scene.tracks[rim].form == TrackForm::Dial;
    let face = if has_face { 2 * RADIUS + 6 * size } else { 0 };
    let middle = match place {
        Face::Below => (WIDTH / 2, bottom + 2 * size + RADIUS),
        Face::Beside => (WIDTH + 2 * size + RADIUS, size + RADIUS),
    };
    let (width, height) = match place {
        Face::Beside if has_face => (middle.0 + RADIUS + size, bottom.max(middle.1 + RADIUS + size)),
        Face::Beside | Face::Below => (WIDTH, bottom + face),
    };

    let mut page = Picture::new(width, whole_units(height));
    page.plate(Area { left: 0, right: WIDTH, top: 0, bottom: engraving - tag }, Grey::Frame);
    let at = whole_units(engraving + size);
    match scene.tracks.len() {
        3 => tool.bar(&mut page, at),
        4 => tool.counter(&mut page, at + size),
        _ => {}
    }
    tool.unrolled(&mut page, rim, edge);
    page.texts_from(size, engraving - tag - size / 2, size * 3 / 4, &scene.engraved);
    page.texts_from(size, engraving - size / 2, size * 3 / 4, &scene.tags);
    if has_face {
        tool.round(&mut page, rim, middle);
    }
    page
}

/// What all parts share.
struct Tool<'a> {
    scene: &'a Scene,
    lit: &'a [Lit],
    /// The size of small figures.
    size: i64,
    /// The longest line.
    reach: i64,
}

/// A place so far from a centre at a step of the circle about it.
fn about(centre: (i64, i64), radius: i64, step: i64) -> (i64, i64) {
    let (right, up) = on_circle(radius, step);
    (centre.0 + right, centre.1 - up)
}

/// The distance between the figures that tell the most.
fn widest(track: &Track) -> Quanta {
    let spacing = track.figure_spacing(NumeralSize::Large).or(track.figure_spacing(NumeralSize::Small));
    spacing.unwrap_or(track.pitch.unwrap_or(Quanta(1)))
}

impl Tool<'_> {
    fn is_lit(&self, track: usize, at: Quanta) -> bool {
        self.lit.iter().any(|lit| lit.track == track && lit.at == at)
    }

    fn depth(&self, number: usize) -> i64 {
        depth(&self.scene.tracks[number], self.reach, self.size)
    }

    fn strip(&self, number: usize, facing: Facing, edge: i64, window: Range<i64>) -> Strip<'_> {
        let track = &self.scene.tracks[number];
        Strip { track, number, facing, edge, reach: self.reach, size: self.size, window, stop: false }
    }

    /// A bar: what the jaw leaves in view of it.
    fn bar(&self, page: &mut Picture, top: i64) {
        let track = &self.scene.tracks[0];
        let bottom = top + self.depth(0);
        let jaw = WIDTH - JAW;
        let pitch = track.pitch.unwrap_or(Quanta(1)).0;
        // A figure is always in view; every quantum is whole hundredths.
        let room = jaw - JAW - 3 * self.size;
        let per = (room / widest(track).0).min(120 * UNIT / pitch).max(1);
        let place = move |at: Quanta| jaw - LINE / 2 + (at - self.scene.edges[0].at).0 * per;
        page.plate(Area { left: 0, right: JAW, top, bottom }, Grey::Frame);
        page.plate(Area { left: JAW, right: jaw, top, bottom }, Grey::Fixed);
        page.plate(Area { left: jaw, right: WIDTH, top, bottom }, Grey::Moving);
        let window = JAW + self.size / 2..jaw;
        let half = |figure: &Figure| {
            let size = figure_size(figure.size, self.size);
            (text_width(&figure.number.to_string(), size) / 2, size)
        };
        // Of a figure that the jaw partly covers, only what lies on the bar can be seen.
        let mut open = track.clone();
        let mut cut = Vec::new();
        for item in &mut open.items {
            let Item::Graduation { at, figure, .. } = item else { continue };
            let x = place(*at);
            if let Some(covered) = figure.take_if(|figure| x <= jaw && x + half(figure).0 > jaw) {
                cut.push((x, covered));
            }
        }
        let strip = Strip { track: &open, ..self.strip(0, Facing::Below, top, window) };
        strip.draw(page, self.lit, &place);
        for (x, figure) in cut {
            let (half, size) = half(&figure);
            let baseline = strip.baseline(figure.size);
            let area =
                Area { left: x - 2 * half, right: jaw, top: baseline - size, bottom: baseline + size / 4 };
            page.text_within(x, baseline, size, &figure.number.to_string(), area);
        }
    }

    /// A counter and its small hand.
    fn counter(&self, page: &mut Picture, edge: i64) {
        let track = &self.scene.tracks[0];
        let last = track.items.last().map_or(Quanta(1), Item::at);
        let per = (WIDTH / 2 / last.0).max(1);
        let (left, right) = (0, last.0 * per + 4 * self.size);
        let start = 2 * self.size + if track.sense < 0 { last.0 * per } else { 0 };
        let place = move |at: Quanta| start + at.0 * per;
        page.plate(Area { left, right, top: edge - self.size, bottom: edge }, Grey::Moving);
        page.plate(Area { left, right, top: edge, bottom: edge + self.depth(0) }, Grey::Fixed);
        self.strip(0, Facing::Below, edge, left..right).draw(page, self.lit, &place);
        let hand = place(track.place(self.scene.edges[0].at));
        page.line((hand, edge), (hand, edge - self.size), self.is_lit(3, Quanta::ZERO));
    }

    /// Less than a turn of the rim, two of its figures always in view.
    fn unrolled(&self, page: &mut Picture, rim: usize, edge: i64) {
        let track = &self.scene.tracks[rim];
        let pitch = track.pitch.unwrap_or(Quanta(1));
        let spacing = track.figure_spacing(NumeralSize::Small).unwrap_or(pitch * 10);
        let window = self.size..WIDTH - self.size;
        let shown = (spacing * 2 + pitch).0;
        let per = (WIDTH - 2 * self.size) / (shown * UNIT) * UNIT;
        let place = move |at: Quanta| WIDTH / 2 + at.0 * per;
        page.plate(Area { left: 0, right: WIDTH, top: edge - self.reach, bottom: edge }, Grey::Fixed);
        page.plate(Area { left: 0, right: WIDTH, top: edge, bottom: edge + self.depth(rim) }, Grey::Moving);
        for (number, facing) in [(rim, Facing::Below), (rim + 1, Facing::Above)] {
            self.strip(number, facing, edge, window.clone()).draw(page, self.lit, &place);
        }
    }

    /// The round face: its lines, figures and hands, and the value of one division.
    fn round(&self, page: &mut Picture, rim: usize, middle: (i64, i64)) {
        let track = &self.scene.tracks[rim];
        let turn = track.period.map_or(1, |turn| turn.0);
        let half = RADIUS + self.size;
        let (left, right) = (middle.0 - half, middle.0 + half);
        page.plate(Area { left, right, top: middle.1 - half, bottom: middle.1 + half }, Grey::Frame);
        let small = self.size * 3 / 4;
        for item in &track.items {
            let Item::Graduation { at, tier, figure, .. } = item else { continue };
            let step = track.sense * step(at.0, turn);
            let inner = if *tier == 0 { RADIUS * 6 / 7 } else { RADIUS * 19 / 20 };
            page.line(about(middle, inner, step), about(middle, RADIUS, step), self.is_lit(rim, *at));
            if let Some(figure) = figure {
                let (x, y) = about(middle, RADIUS * 3 / 4, step);
                page.text(x, y + cap(small) / 2, small, &figure.number.to_string());
            }
        }
        page.line(middle, about(middle, RADIUS * 6 / 7, step(-track.origin.0, turn)), false);
        if let (Some(counter), Some(hand)) = (self.scene.tracks.first(), self.scene.tracks.get(3)) {
            let whole = counter.items.last().map_or(1, |item| item.at().0);
            let centre = (middle.0, middle.1 + RADIUS * 3 / 8);
            for n in (0..STEPS).step_by(40) {
                page.line(about(centre, SMALL * 5 / 6, n), about(centre, SMALL, n), false);
            }
            page.line(centre, about(centre, SMALL * 2 / 3, step(hand.origin.0, whole)), false);
        }
        if let Some(division) = self.scene.engraved.last() {
            page.text(middle.0, middle.1 - RADIUS / 3, small, division);
        }
        page.text(right + text_width(OVERVIEW, small) / 2 + self.size, middle.1 + half, small, OVERVIEW);
    }
}
