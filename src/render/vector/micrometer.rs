//! A micrometer: sleeve and thimble, in the hand and laid flat.

use super::level::{ends, interval, per_quantum, type_size};
use super::picture::{
    Area, Grey, LINE, Picture, Scale, UNIT, cap, figure_size, line_length, text_width, whole_units,
};
use super::strip::{Facing, Strip, depth};
use crate::exact::Quanta;
use crate::instrument::Side;
use crate::render::Lit;
use crate::scene::{Item, Plate, Scene, Track, View};
use std::ops::Range;

/// The frame, left of the sleeve.
const FRAME: i64 = 160 * UNIT;
/// The graduated part of the thimble; the grip begins after it.
const COLLAR: i64 = 190 * UNIT;
/// What is in view right of the thimble's edge at the end of its travel.
const THIMBLE: i64 = 280 * UNIT;
/// The distance between neighbouring lines of a sleeve.
const SLEEVE_PITCH: i64 = 25 * UNIT;
/// The distance between neighbouring lines of a thimble or vernier, upright.
const UPRIGHT_PITCH: i64 = 28 * UNIT;
/// The longest line of a sleeve.
const REACH: i64 = 64 * UNIT;
/// The longest line of a thimble.
const THIMBLE_REACH: i64 = 78 * UNIT;
/// The size of figures.
const SIZE: i64 = 28 * UNIT;
/// Where the lines of a sleeve vernier begin, right of the frame and their figures.
const VERNIER_LINES: i64 = FRAME + 44 * UNIT;

/// Draws it.
pub(super) fn draw(scene: &Scene, lit: &[Lit]) -> Picture {
    match scene.view {
        View::Held => held(scene, lit),
        View::Flat => flat(scene, lit),
    }
}

/// The parts that both views share.
struct Tool<'a> {
    scene: &'a Scene,
    lit: &'a [Lit],
    /// The sleeve's zero: at its left end, on a reversed one at its right.
    zero: i64,
    /// Hundredths of a unit per quantum along the sleeve, negative on a reversed one.
    along: i64,
    /// Where the thimble begins.
    edge: i64,
    width: i64,
}

impl<'a> Tool<'a> {
    fn new(scene: &'a Scene, lit: &'a [Lit]) -> Self {
        let sleeve = &scene.tracks[0];
        let pitch = sleeve.pitch.unwrap_or(Quanta(1)).0;
        let along = (SLEEVE_PITCH / pitch).max(1);
        let zero = match vernier(scene) {
            Some(_) => VERNIER_LINES + 56 * UNIT,
            None => FRAME + 40 * UNIT,
        };
        let last = sleeve.items.last().map_or(Quanta::ZERO, Item::at);
        let edge_at = scene.edges.first().map_or(Quanta::ZERO, |edge| edge.at);
        let width = whole_units(zero + last.0 * along + THIMBLE);
        let zero = if sleeve.sense < 0 { zero + last.0 * along } else { zero };
        let along = along * sleeve.sense;
        // A line just reached is wholly in view, and only then; on a reversed sleeve it is covered, and the next one still
        // stands clear of the edge.
        let edge = zero + edge_at.0 * along + LINE / 2;
        Self { scene, lit, zero, along, edge, width }
    }

    fn is_lit(&self, track: usize, at: Quanta) -> bool {
        self.lit.iter().any(|lit| lit.track == track && lit.at == at)
    }

    /// From the datum line to the far side of the sleeve, on a side with lines.
    fn depth() -> i64 {
        whole_units(REACH + SIZE / 4 + cap(SIZE) + SIZE / 2)
    }

    fn has_lines(&self, wanted: Side) -> bool {
        let on_side =
            |item: &Item| matches!(item, Item::Graduation { side: Some(side), .. } if *side == wanted);
        self.scene.tracks[0].items.iter().any(on_side)
    }

    fn plates(&self, page: &mut Picture, all: Range<i64>, sleeve: Range<i64>) {
        let area = |left, right, rows: &Range<i64>| Area { left, right, top: rows.start, bottom: rows.end };
        page.plate(area(0, FRAME, &all), Grey::Frame);
        page.plate(area(FRAME, self.edge, &sleeve), self.scene.tracks[0].plate.into());
        page.plate(area(self.edge, self.edge + COLLAR, &all), self.scene.tracks[1].plate.into());
        page.plate(area(self.edge + COLLAR, self.width, &all), Grey::Frame);
    }

    fn lines(&self, page: &mut Picture, datum: i64) {
        for (at, tier, side, _) in self.in_view() {
            let x = self.zero + at.0 * self.along;
            let length = line_length(tier, self.scene.tracks[0].lengths, REACH);
            let end = match side {
                Side::Above => datum - length,
                Side::Below => datum + length,
            };
            page.line((x, datum), (x, end), self.is_lit(0, at));
        }
    }

    /// The figures; what the thimble's edge covers of one cannot be seen.
    fn figures(&self, page: &mut Picture, datum: i64) {
        for (at, _, side, figure) in self.in_view() {
            let Some((number, size)) = figure else { continue };
            let x = self.zero + at.0 * self.along;
            let baseline = match side {
                Side::Above => datum - REACH - SIZE / 4,
                Side::Below => datum + REACH + SIZE / 4 + cap(size),
            };
            let text = number.to_string();
            let half = text_width(&text, size) / 2;
            if x + half <= self.edge {
                page.text(x, baseline, size, &text);
            } else {
                let area = Area {
                    left: x - 2 * half,
                    right: self.edge,
                    top: baseline - size,
                    bottom: baseline + size / 4,
                };
                page.text_within(x, baseline, size, &text, area);
            }
        }
    }

    /// The sleeve's lines that the thimble leaves in view: where, length class, side, figure with its size.
    fn in_view(&self) -> impl Iterator<Item = (Quanta, usize, Side, Option<(i64, i64)>)> {
        self.scene.tracks[0].items.iter().filter_map(move |item| match item {
            Item::Graduation { at, tier, side, figure } if !self.scene.hides(0, *at) => {
                let figure = figure.map(|figure| (figure.number, figure_size(figure.size, SIZE)));
                Some((*at, *tier, side.unwrap_or(Side::Below), figure))
            }
            _ => None,
        })
    }

    /// What is engraved, on the frame.
    fn engraving(&self, page: &mut Picture, middle: i64) {
        let widest = self.scene.engraved.iter().map(|text| text_width(text, 100)).max().unwrap_or(1);
        let size = whole_units((FRAME - 20 * UNIT) * 100 / widest.max(1)).clamp(8 * UNIT, 24 * UNIT);
        let count = i64::try_from(self.scene.engraved.len()).expect("few texts are engraved on a tool");
        let first = middle - (count - 1) * size * 3 / 4 + cap(size) / 2;
        for (n, text) in (0_i64..).zip(&self.scene.engraved) {
            page.text(FRAME / 2, first + n * size * 3 / 2, size, text);
        }
    }
}

fn vernier(scene: &Scene) -> Option<&Track> {
    scene.tracks.get(2).filter(|track| track.pitch.is_some())
}

/// Sleeve across, thimble upright. A sleeve vernier's lines run along the sleeve, its 0 being the datum line.
fn held(scene: &Scene, lit: &[Lit]) -> Picture {
    let tool = Tool::new(scene, lit);
    let thimble = &scene.tracks[1];
    let pitch = thimble.pitch.unwrap_or(Quanta(1)).0;
    let least = vernier(scene).and_then(|track| track.pitch).map_or(pitch, |part| part.0.min(pitch));
    let per = (UPRIGHT_PITCH + least * UNIT - 1) / (least * UNIT) * UNIT;
    let (low, high) = vernier(scene).map_or((Quanta::ZERO, Quanta::ZERO), ends);
    let division = pitch * per;
    let around = 7 * division + division / 2;
    let (above, below, sleeve_above) = match vernier(scene) {
        Some(_) => {
            let below = (4 * division - low.0 * per).max(Tool::depth() + division / 2);
            let above = high.0 * per + 2 * division;
            (above, below, above - division)
        }
        None => (around, around, Tool::depth()),
    };
    let (above, below) = (whole_units(above), whole_units(below));
    let sleeve = above - whole_units(sleeve_above)..above + Tool::depth();
    let datum = above;
    let height = above + below;
    let down = |place: Quanta| datum - place.0 * per;

    let mut page = Picture::new(tool.width, height);
    page.scale = Scale { along: tool.along.abs(), miss: if vernier(scene).is_some() { per } else { 0 } };
    tool.plates(&mut page, 0..height, sleeve);
    tool.lines(&mut page, datum);
    let mut thimble_figures = Vec::new();
    let period = thimble.period.unwrap_or_default();
    let turns = (-1..=2).flat_map(|turn| thimble.items.iter().map(move |item| (turn, item)));
    for (turn, item) in turns {
        let Item::Graduation { at, tier, figure, .. } = item else { continue };
        let y = down(thimble.place(*at + period * turn));
        if y < SIZE / 2 || y > height - SIZE / 2 {
            continue;
        }
        let end = tool.edge + line_length(*tier, thimble.lengths, THIMBLE_REACH);
        page.line((tool.edge, y), (end, y), tool.is_lit(1, *at));
        if let Some(figure) = figure {
            thimble_figures.push((y, figure_size(figure.size, SIZE), figure.number.to_string()));
        }
    }
    let left = if vernier(scene).is_some() { VERNIER_LINES } else { FRAME };
    for item in scene.tracks.get(2).map_or(&[][..], |track| &track.items) {
        let y = down(scene.tracks[2].place(item.at()));
        page.line((left, y), (tool.edge, y), tool.is_lit(2, item.at()));
    }
    tool.figures(&mut page, datum);
    for (y, size, text) in thimble_figures {
        page.text(tool.edge + THIMBLE_REACH + SIZE, y + cap(size) / 2, size, &text);
    }
    for item in vernier(scene).map_or(&[][..], |track| &track.items) {
        let Item::Graduation { at, figure: Some(figure), .. } = item else { continue };
        let y = down(scene.tracks[2].place(*at));
        let size = SIZE * 6 / 7;
        page.text(FRAME + 24 * UNIT, y + cap(size) / 2, size, &figure.number.to_string());
    }
    tool.engraving(&mut page, datum);
    page
}

/// The sleeve as it is, and below it the thimble rolled out under the vernier or the datum line.
fn flat(scene: &Scene, lit: &[Lit]) -> Picture {
    let tool = Tool::new(scene, lit);
    let thimble = &scene.tracks[1];
    let beside_datum = |wanted| if tool.has_lines(wanted) { Tool::depth() } else { SIZE };
    let overhang = SIZE;
    let datum = beside_datum(Side::Above) + overhang;
    let tool_end = datum + beside_datum(Side::Below) + overhang;
    let top = tool_end + 2 * SIZE;

    let pitch = thimble.pitch.unwrap_or(Quanta(1));
    let parts = i64::try_from(thimble.items.len()).expect("a thimble has few lines");
    // A plain thimble is rolled out for less than a turn, so that each line stands there once.
    let around = (pitch * ((parts - 1) / 2).min(12)).max(Quanta(1));
    let (first, last, beside) = vernier(scene).map_or((Quanta::ZERO, Quanta::ZERO, around), |track| {
        let (first, last) = ends(track);
        (first, last, interval(thimble))
    });
    let closest = vernier(scene).and_then(|track| track.pitch).map_or(pitch, |part| part.min(pitch));
    let window = last - first + beside + beside;
    let margin = SIZE * 3 / 2;
    // As wide as the tool above it, or wider where the lines would stand too close.
    let per = per_quantum(closest.0, window.0, 0).max((tool.width - 2 * margin) / (window.0 * UNIT) * UNIT);
    let (width, start) = {
        let strip = window.0 * per + 2 * margin;
        (tool.width.max(strip), whole_units((tool.width - strip).max(0) / 2))
    };
    let place = move |at: Quanta| start + margin + (at - first + beside).0 * per;
    let size = type_size(width).max(SIZE);
    let reach = whole_units(size * 5 / 2);
    let upper = match vernier(scene) {
        Some(track) => depth(track, reach, size),
        None => reach + whole_units(size / 2),
    };
    let edge = top + upper;
    let bottom = edge + depth(thimble, reach, size);

    let mut page = Picture::new(width, bottom);
    page.scale = Scale { along: tool.along.abs(), miss: if vernier(scene).is_some() { per } else { 0 } };
    tool.plates(&mut page, 0..tool_end, overhang..tool_end - overhang);
    let (left, right) = (start, start + window.0 * per + 2 * margin);
    let area = |top, bottom| Area { left, right, top, bottom };
    page.plate(area(top, edge), scene.tracks.get(2).map_or(Plate::Fixed, |track| track.plate).into());
    page.plate(area(edge, bottom), thimble.plate.into());
    tool.lines(&mut page, datum);
    page.line((FRAME, datum), (tool.edge, datum), tool.is_lit(2, Quanta::ZERO));
    tool.figures(&mut page, datum);
    for (number, facing) in [(1, Facing::Below), (2, Facing::Above)] {
        let Some(track) = scene.tracks.get(number) else { continue };
        let stop = number == 2 && track.pitch.is_some();
        let window = start + margin..start + margin + window.0 * per;
        let strip = Strip { track, number, facing, edge, reach, size, window, stop };
        strip.draw(&mut page, lit, &place);
    }
    tool.engraving(&mut page, datum);
    page
}
