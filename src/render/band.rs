//! One level scale on one plate: its lines down to (or up from) the reading edge, its figures beyond them.

use super::glyphs::DOTS;
use super::grid::Ink;
use super::paint::{Area, Painter, middle_cell};
use crate::exact::Quanta;
use crate::instrument::NumeralSize;
use crate::scene::{Figure, Item, Track};
use std::ops::Range;

/// Lines to be lit up: a track of the scene, and positions counted from that track's zero.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Lit {
    /// The track.
    pub track: usize,
    /// The position on it.
    pub at: Quanta,
}

/// On which side of its reading edge a band lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Facing {
    /// Above the edge; its lines stand on the edge.
    Above,
    /// Below the edge; its lines hang from it.
    Below,
}

/// Where a band is drawn.
pub(super) struct Band<'a> {
    pub(super) track: &'a Track,
    pub(super) facing: Facing,
    /// The first row below the edge.
    pub(super) edge: i64,
    /// Rows of the longest line.
    pub(super) reach: i64,
    pub(super) cols: Range<i64>,
    /// Line 0 doubles as the datum line and is longer than the rest.
    pub(super) datum: bool,
    /// Columns that its figures may use.
    pub(super) figure_cols: Range<i64>,
    /// What to light up on this track.
    pub(super) lit: Vec<Quanta>,
}

/// The rows a line of a length class takes, out of `reach` for the longest.
pub(super) fn line_rows(tier: usize, lengths: usize, reach: i64) -> i64 {
    let tier = i64::try_from(tier).expect("at most seven lengths");
    match lengths {
        0 | 1 => (reach - 1).max(1),
        2 => (reach - 2 * tier).max(1),
        3 => (reach - tier).max(1),
        _ => {
            let last = i64::try_from(lengths).expect("at most seven lengths") - 1;
            (reach - tier * (reach - 1) / last).max(1)
        }
    }
}

impl Band<'_> {
    /// Rows of figures beyond the lines: one, or two where there are large ones.
    pub(super) fn figure_rows(track: &Track) -> i64 {
        i64::from(Self::has(track, NumeralSize::Small)) + i64::from(Self::has(track, NumeralSize::Large))
    }

    /// Whether a scale has any figure of a size.
    fn has(track: &Track, size: NumeralSize) -> bool {
        let of_size =
            |item: &Item| matches!(item, Item::Graduation { figure: Some(f), .. } if f.size == size);
        track.items.iter().any(of_size)
    }

    /// Draws the lines and figures. `place` gives the dot of a place in instrument quanta.
    pub(super) fn draw(&self, painter: &mut Painter<'_>, place: &dyn Fn(Quanta) -> i64) {
        let lines = self.lines(place);
        let mut first_drawn = None;
        let mut last_drawn = 0;
        let mut small = Vec::new();
        let mut figures = [(NumeralSize::Small, false), (NumeralSize::Large, false)];
        for (n, (dot, item)) in lines.iter().enumerate() {
            if !painter.upright(*dot, &self.line_area(item), self.ink(item)) {
                continue;
            }
            first_drawn.get_or_insert(n);
            last_drawn = n;
            let centre = middle_cell(*dot, painter.style);
            let lit = self.lit.contains(&item.at());
            if lit {
                self.point_at(painter, centre, item);
            }
            let Item::Graduation { figure: Some(figure), .. } = item else { continue };
            let row = self.figure_row(figure.size);
            let text = figure.number.to_string();
            let ink = if lit { Ink::Pointer } else { figure_ink(figure.size) };
            if painter.figure(centre, row, &text, ink, &self.figure_cols) {
                small.push(centre);
                for (size, drawn) in &mut figures {
                    *drawn |= *size == figure.size;
                }
            }
        }
        if let Some(first) = first_drawn
            && self.track.is_both_ways()
        {
            if let [] | [_] = small[..] {
                self.mark_beside(painter, &lines, [first, last_drawn], small.first().copied());
            }
            self.lit_before_view(painter, &lines[..first]);
        } else if let Some(first) = first_drawn {
            for (size, drawn) in figures {
                if !drawn {
                    self.mark_before(painter, &lines, first, size);
                }
            }
            self.lit_before_view(painter, &lines[..first]);
        }
    }

    /// A sign beyond the end of a lit line that has no figure there.
    fn point_at(&self, painter: &mut Painter<'_>, col: i64, item: &Item) {
        let area = self.line_area(item);
        if area.rows.end - area.rows.start >= self.reach {
            return;
        }
        let [from_above, from_below, ..] = painter.style.signs().pointers;
        let (row, sign) = match self.facing {
            Facing::Above => (area.rows.start - 1, from_above),
            Facing::Below => (area.rows.end, from_below),
        };
        painter.text(col, row, &sign.to_string(), Ink::Pointer);
    }

    /// A lit figure that comes before the window stands at the end where the window begins.
    fn lit_before_view(&self, painter: &mut Painter<'_>, hidden: &[(i64, &Item)]) {
        for (_, item) in hidden {
            let Item::Graduation { at, figure: Some(figure), .. } = item else { continue };
            if self.lit.contains(at) {
                self.at_beginning(painter, figure.size, figure.number, "", Ink::Pointer);
            }
        }
    }

    /// All lines that could be in the window, the way their figures grow.
    fn lines(&self, place: &dyn Fn(Quanta) -> i64) -> Vec<(i64, &Item)> {
        let (from, to) = (self.cols.start * DOTS, self.cols.end * DOTS);
        let turns = match self.track.period {
            None => 0..=0,
            Some(_) => -1..=2,
        };
        let period = self.track.period.unwrap_or_default();
        // Where figures beyond the window are told at both ends, all are needed.
        let all = self.track.period.is_some() || self.track.is_both_ways();
        let near =
            |dot: i64| if self.track.sense < 0 { dot > from - (to - from) } else { dot < to + (to - from) };
        turns
            .flat_map(|turn| self.track.items.iter().map(move |item| (turn, item)))
            .map(|(turn, item)| (place(self.track.place(item.at() + period * turn)), item))
            .filter(|(dot, _)| all || near(*dot))
            .collect()
    }

    fn line_area(&self, item: &Item) -> Area {
        let rows = match item {
            Item::Index { .. } => self.reach,
            Item::Graduation { at, .. } if self.datum && *at == Quanta::ZERO => self.reach,
            Item::Graduation { tier, .. } if self.datum => {
                line_rows(*tier, self.track.lengths, self.reach - 1)
            }
            Item::Graduation { tier, .. } => line_rows(*tier, self.track.lengths, self.reach),
        };
        let rows = match self.facing {
            Facing::Above => self.edge - rows..self.edge,
            Facing::Below => self.edge..self.edge + rows,
        };
        Area::new(self.cols.clone(), rows)
    }

    fn ink(&self, item: &Item) -> Ink {
        if self.lit.contains(&item.at()) { Ink::Lit } else { Ink::Line }
    }

    fn figure_row(&self, size: NumeralSize) -> i64 {
        let beyond = match size {
            NumeralSize::Small => 0,
            NumeralSize::Large => i64::from(Self::has(self.track, NumeralSize::Small)),
        };
        match self.facing {
            Facing::Above => self.edge - self.reach - 1 - beyond,
            Facing::Below => self.edge + self.reach + beyond,
        }
    }

    /// A figure that comes before the window, at the end where the window begins: `20‹3` at the left, or `3›20` at the right on
    /// a scale that grows from right to left.
    fn at_beginning(&self, painter: &mut Painter<'_>, size: NumeralSize, number: i64, after: &str, ink: Ink) {
        let signs = painter.style.signs();
        let (col, text) = if self.track.sense < 0 {
            let text = format!("{after}{}{number}", signs.right_of);
            (self.cols.end - i64::try_from(text.chars().count()).expect("a short text"), text)
        } else {
            (self.cols.start, format!("{number}{}{after}", signs.left_of))
        };
        painter.text(col, self.figure_row(size), &text, ink);
    }

    /// On a scale figured both ways two figures tell which way it is read. Where fewer are in view, the nearest ones beyond the
    /// window stand at its ends: `20‹3` at the left, three lines before the first in view, `3›30` at the right. One of them does
    /// where a figure is in view, at the end that is further from it.
    fn mark_beside(
        &self,
        painter: &mut Painter<'_>,
        lines: &[(i64, &Item)],
        [first, last]: [usize; 2],
        in_view: Option<i64>,
    ) {
        let number = |item: &Item| match item {
            Item::Graduation { figure: Some(figure), .. } => Some(figure.number),
            _ => None,
        };
        let figure = |n: usize| Some((n, number(lines[n].1)?));
        let before = (0..first).rev().find_map(figure).map(|(n, number)| (number, first - n));
        let after = (last + 1..lines.len()).find_map(figure).map(|(n, number)| (number, n - last));
        let (left, right) = if self.track.sense < 0 { (after, before) } else { (before, after) };
        let signs = painter.style.signs();
        let row = self.figure_row(NumeralSize::Small);
        let middle = i64::midpoint(self.cols.start, self.cols.end);
        if let Some((number, lines)) = left.filter(|_| in_view.is_none_or(|cell| cell >= middle)) {
            painter.text(self.cols.start, row, &format!("{number}{}{lines}", signs.left_of), Ink::Figure);
        }
        if let Some((number, lines)) = right.filter(|_| in_view.is_none_or(|cell| cell < middle)) {
            let text = format!("{lines}{}{number}", signs.right_of);
            let cells = i64::try_from(text.chars().count()).expect("a short text");
            painter.text(self.cols.end - cells, row, &text, Ink::Figure);
        }
    }

    /// No figure of this size is in view: the nearest one before it stands where the window begins. A small one is told with how
    /// many lines the first line in view comes after it.
    fn mark_before(
        &self,
        painter: &mut Painter<'_>,
        lines: &[(i64, &Item)],
        first: usize,
        size: NumeralSize,
    ) {
        let figured = |sizes: &[NumeralSize]| {
            lines[..=first].iter().enumerate().rev().find_map(|(n, (_, item))| match item {
                Item::Graduation { figure: Some(Figure { number, size }), .. } if sizes.contains(size) => {
                    Some((n, *number))
                }
                _ => None,
            })
        };
        // Before the first small figure of a scale, lines are counted from the large 0 that it begins with.
        let begins = || figured(&[NumeralSize::Large]).filter(|(n, _)| *n < first);
        let found = match size {
            NumeralSize::Large => figured(&[size]),
            NumeralSize::Small => figured(&[size]).or_else(begins),
        };
        let Some((n, number)) = found else { return };
        let after = match size {
            NumeralSize::Large => String::new(),
            NumeralSize::Small => (first - n).to_string(),
        };
        self.at_beginning(painter, size, number, &after, figure_ink(size));
    }
}

pub(super) fn figure_ink(size: NumeralSize) -> Ink {
    match size {
        NumeralSize::Large => Ink::LargeFigure,
        NumeralSize::Small => Ink::Figure,
    }
}
