//! One level scale on one plate: its lines up to the reading edge, its figures beyond them.

use super::picture::{Picture, UNIT, cap, figure_size, line_length, text_width};
use crate::exact::Quanta;
use crate::instrument::NumeralSize;
use crate::render::Lit;
use crate::scene::{Item, Track};
use std::ops::Range;

/// On which side of its reading edge a strip lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Facing {
    /// Above it.
    Above,
    /// Below it.
    Below,
}

/// Where a scale is drawn.
pub(super) struct Strip<'a> {
    pub(super) track: &'a Track,
    /// The track's number in the scene.
    pub(super) number: usize,
    pub(super) facing: Facing,
    /// The reading edge.
    pub(super) edge: i64,
    /// The longest line.
    pub(super) reach: i64,
    /// The size of small figures.
    pub(super) size: i64,
    /// From where to where it has lines; their figures may reach a little beyond.
    pub(super) window: Range<i64>,
    /// Line 0 doubles as the datum line and is longer than the rest.
    pub(super) stop: bool,
}

/// The room between a line and its figure.
fn gap(size: i64) -> i64 {
    size / 4 / UNIT * UNIT
}

fn has_figures(track: &Track, size: NumeralSize) -> bool {
    track
        .items
        .iter()
        .any(|item| matches!(item, Item::Graduation { figure: Some(figure), .. } if figure.size == size))
}

/// From the reading edge to the far side of the plate.
pub(super) fn depth(track: &Track, reach: i64, size: i64) -> i64 {
    let rows = [NumeralSize::Small, NumeralSize::Large]
        .into_iter()
        .filter(|of| has_figures(track, *of))
        .map(|of| cap(figure_size(of, size)) + gap(size))
        .sum::<i64>();
    (reach + rows + 2 * gap(size)) / UNIT * UNIT
}

impl Strip<'_> {
    /// Draws the lines and figures. `place` gives where a place in instrument quanta lies.
    pub(super) fn draw(&self, page: &mut Picture, lit: &[Lit], place: &dyn Fn(Quanta) -> i64) {
        let away = match self.facing {
            Facing::Above => -1,
            Facing::Below => 1,
        };
        let lines = self.lines(place);
        let mut large_seen = !has_figures(self.track, NumeralSize::Large);
        let mut first_drawn = None;
        for (n, (x, item)) in lines.iter().enumerate() {
            if *x < self.window.start || *x > self.window.end {
                continue;
            }
            first_drawn.get_or_insert(n);
            let is_lit = lit.iter().any(|lit| lit.track == self.number && lit.at == item.at());
            page.line((*x, self.edge), (*x, self.edge + away * self.length(item)), is_lit);
            let Item::Graduation { figure: Some(figure), .. } = item else { continue };
            let size = figure_size(figure.size, self.size);
            page.text(*x, self.baseline(figure.size), size, &figure.number.to_string());
            large_seen |= figure.size == NumeralSize::Large;
        }
        if !large_seen && let Some(first) = first_drawn {
            self.mark_before(page, &lines[..=first]);
        }
    }

    /// Every line that could be on the plate, the way their figures grow.
    fn lines(&self, place: &dyn Fn(Quanta) -> i64) -> Vec<(i64, &Item)> {
        let turns = if self.track.period.is_some() { -1..=2 } else { 0..=0 };
        let period = self.track.period.unwrap_or_default();
        turns
            .flat_map(|turn| self.track.items.iter().map(move |item| (turn, item)))
            .map(|(turn, item)| (place(self.track.place(item.at() + period * turn)), item))
            .collect()
    }

    fn length(&self, item: &Item) -> i64 {
        match item {
            Item::Index { .. } => self.reach,
            Item::Graduation { at, .. } if self.stop && *at == Quanta::ZERO => self.reach,
            Item::Graduation { tier, .. } if self.stop => {
                line_length(*tier, self.track.lengths, self.reach * 3 / 4)
            }
            Item::Graduation { tier, .. } => line_length(*tier, self.track.lengths, self.reach),
        }
    }

    pub(super) fn baseline(&self, of: NumeralSize) -> i64 {
        let small = match of {
            NumeralSize::Large if has_figures(self.track, NumeralSize::Small) => {
                cap(self.size) + gap(self.size)
            }
            NumeralSize::Large | NumeralSize::Small => 0,
        };
        let away = self.reach + gap(self.size) + small;
        match self.facing {
            Facing::Above => self.edge - away,
            Facing::Below => self.edge + away + cap(figure_size(of, self.size)),
        }
    }

    /// No large figure is in the window: the nearest one before it stands where the window begins.
    fn mark_before(&self, page: &mut Picture, lines: &[(i64, &Item)]) {
        let large = lines.iter().rev().find_map(|(_, item)| match item {
            Item::Graduation { figure: Some(figure), .. } if figure.size == NumeralSize::Large => {
                Some(figure.number)
            }
            _ => None,
        });
        let Some(number) = large else { return };
        let size = figure_size(NumeralSize::Large, self.size);
        let (text, centre) = if self.track.sense < 0 {
            let text = format!("\u{203a}{number}");
            let centre = self.window.end - text_width(&text, size) / 2;
            (text, centre)
        } else {
            let text = format!("{number}\u{2039}");
            let centre = self.window.start + text_width(&text, size) / 2;
            (text, centre)
        };
        page.text(centre, self.baseline(NumeralSize::Large), size, &text);
    }
}
