//! A main scale that stands upright, its vernier to the right of it.

use super::level::{WIDTH, ends, interval, per_quantum, type_size};
use super::picture::{Area, Picture, Scale, cap, figure_size, line_length, text_width, whole_units};
use crate::exact::Quanta;
use crate::instrument::NumeralSize;
use crate::render::Lit;
use crate::scene::{Item, Scene, Track};
use std::ops::Range;

/// One scale: its lines begin at the reading edge, its figures stand beyond them.
struct Column<'a> {
    track: &'a Track,
    /// The track's number in the scene.
    number: usize,
    /// -1 left of the edge, 1 right of it.
    away: i64,
    edge: i64,
    /// The longest line.
    reach: i64,
    /// The size of small figures.
    size: i64,
    /// From where down to where it has lines.
    window: Range<i64>,
}

/// Draws it. The window begins one numbered interval below the vernier and ends one above it.
pub(super) fn pair(scene: &Scene, lit: &[Lit]) -> Picture {
    let (main, vernier) = (&scene.tracks[0], &scene.tracks[1]);
    let (first, last) = ends(vernier);
    let beside = interval(main);
    let window = last - first + beside + beside;
    let pitch = |track: &Track| track.pitch.unwrap_or(Quanta(1)).0;
    let per = per_quantum(pitch(main).min(pitch(vernier)), window.0, WIDTH);
    let size = type_size(window.0 * per);
    let margin = size;
    let height = window.0 * per + 2 * margin;
    let place = move |at: Quanta| height - margin - (at - first + beside).0 * per;

    let reach = 3 * size;
    let column =
        |track, number, away, edge, window| Column { track, number, away, edge, reach, size, window };
    let edge = whole_units(column(main, 0, -1, 0, 0..0).depth());
    let engraving = size * 3 / 4;
    let widest = scene.engraved.iter().map(|text| text_width(text, engraving)).max().unwrap_or(0);
    let figures = edge + whole_units(column(vernier, 1, 1, 0, 0..0).depth());
    let right = whole_units(figures + widest + 2 * size);
    let mut page = Picture::new(right, height);
    page.scale = Scale { along: per, miss: per };
    let overhang = 2 * size;
    let slide = place(last) - overhang..place(first) + overhang;
    page.plate(Area { left: 0, right: edge, top: 0, bottom: height }, main.plate.into());
    page.plate(Area { left: edge, right, top: slide.start, bottom: slide.end }, vernier.plate.into());
    let all =
        [column(main, 0, -1, edge, margin..height - margin), column(vernier, 1, 1, edge, slide.clone())];
    for column in &all {
        column.draw(&mut page, lit, &place);
    }
    let mut baseline = slide.start + overhang;
    for text in &scene.engraved {
        page.text(figures + widest / 2, baseline, engraving, text);
        baseline += 2 * engraving;
    }
    page
}

impl Column<'_> {
    /// From the reading edge to the far side of the plate.
    fn depth(&self) -> i64 {
        self.reach + 3 * self.size + if self.has(NumeralSize::Large) { 3 * self.size } else { 0 }
    }

    fn has(&self, size: NumeralSize) -> bool {
        self.track
            .items
            .iter()
            .any(|item| matches!(item, Item::Graduation { figure: Some(figure), .. } if figure.size == size))
    }

    /// The middle of the figures of a size.
    fn middle(&self, of: NumeralSize) -> i64 {
        let beyond = match of {
            NumeralSize::Large if self.has(NumeralSize::Small) => 4 * self.size,
            NumeralSize::Large | NumeralSize::Small => self.size * 3 / 2,
        };
        self.edge + self.away * (self.reach + beyond)
    }

    fn draw(&self, page: &mut Picture, lit: &[Lit], place: &dyn Fn(Quanta) -> i64) {
        let mut large_seen = !self.has(NumeralSize::Large);
        let mut before = None;
        for item in &self.track.items {
            let y = place(self.track.place(item.at()));
            let Item::Graduation { at, tier, figure, .. } = item else { continue };
            if y > self.window.end {
                before = figure.filter(|figure| figure.size == NumeralSize::Large).or(before);
            }
            if !(self.window.start..=self.window.end).contains(&y) {
                continue;
            }
            let length = line_length(*tier, self.track.lengths, self.reach);
            let is_lit = lit.iter().any(|lit| lit.track == self.number && lit.at == *at);
            page.line((self.edge, y), (self.edge + self.away * length, y), is_lit);
            let Some(figure) = figure else { continue };
            let size = figure_size(figure.size, self.size);
            page.text(self.middle(figure.size), y + cap(size) / 2, size, &figure.number.to_string());
            large_seen |= figure.size == NumeralSize::Large;
        }
        // No large figure is in the window: the nearest one below it stands at its foot.
        if let Some(figure) = before.filter(|_| !large_seen) {
            let size = figure_size(NumeralSize::Large, self.size);
            let text = format!("{}\u{25be}", figure.number);
            page.text(self.middle(NumeralSize::Large), self.window.end, size, &text);
        }
    }
}
