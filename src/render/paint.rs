//! Putting lines, figures and plates into a grid.

use super::Marks;
use super::glyphs::{DOTS, LineStyle, Mark};
use super::grid::{Grid, Ink, Paper};
use std::ops::Range;

/// A rectangle of cells.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Area {
    pub(super) cols: Range<i64>,
    pub(super) rows: Range<i64>,
}

impl Area {
    pub(super) fn new(cols: Range<i64>, rows: Range<i64>) -> Self {
        Self { cols, rows }
    }
}

/// Draws into a grid in one line style.
pub(super) struct Painter<'a> {
    pub(super) grid: &'a mut Grid,
    pub(super) style: LineStyle,
}

impl Painter<'_> {
    /// Lays a plate.
    pub(super) fn plate(&mut self, area: &Area, paper: Paper) {
        for row in area.rows.clone() {
            for col in area.cols.clone() {
                if let Some(cell) = self.grid.at(col, row) {
                    cell.paper = paper;
                }
            }
        }
    }

    /// Writes text from a column on.
    pub(super) fn text(&mut self, col: i64, row: i64, text: &str, ink: Ink) {
        for (col, glyph) in (col..).zip(text.chars()) {
            if let Some(cell) = self.grid.at(col, row) {
                (cell.glyph, cell.ink, cell.swapped) = (glyph, ink, false);
            }
        }
    }

    /// Writes a figure centred on a column, if all of it is inside; the odd half cell is always on the left.
    pub(super) fn figure(
        &mut self,
        centre: i64,
        row: i64,
        text: &str,
        ink: Ink,
        within: &Range<i64>,
    ) -> bool {
        let len = i64::try_from(text.chars().count()).expect("a figure is short");
        let start = centre - len / 2;
        let fits = start >= within.start && start + len <= within.end;
        if fits {
            self.text(start, row, text, ink);
        }
        fits
    }

    /// Draws an upright line starting at a dot, if all of its width is inside `area`.
    pub(super) fn upright(&mut self, dot: i64, area: &Area, ink: Ink) -> bool {
        if !holds(&area.cols, dot, self.style) {
            return false;
        }
        let (first, second) = self.style.upright(phase(dot));
        let col = dot.div_euclid(DOTS);
        for row in area.rows.clone() {
            self.mark(col, row, first, ink);
            if let Some(second) = second {
                self.mark(col + 1, row, second, ink);
            }
        }
        true
    }

    /// Draws a level line starting at a dot down, if all of its width is inside `area`.
    pub(super) fn level(&mut self, dot: i64, area: &Area, ink: Ink) -> bool {
        if !holds(&area.rows, dot, self.style) {
            return false;
        }
        let (first, second) = self.style.level(phase(dot));
        let row = dot.div_euclid(DOTS);
        for col in area.cols.clone() {
            self.mark(col, row, first, ink);
            if let Some(second) = second {
                self.mark(col, row + 1, second, ink);
            }
        }
        true
    }

    /// The signs beside a level reading edge for a reader without colours: `edge` is the first row below it.
    pub(super) fn edge_marks(&mut self, marks: Marks, edge: i64) {
        if marks == Marks::Shown {
            let signs = self.style.signs();
            self.text(0, edge - 1, &signs.above_edge.to_string(), Ink::Note);
            self.text(0, edge, &signs.below_edge.to_string(), Ink::Note);
        }
    }

    fn mark(&mut self, col: i64, row: i64, (glyph, swapped): Mark, ink: Ink) {
        if let Some(cell) = self.grid.at(col, row) {
            (cell.glyph, cell.ink, cell.swapped) = (glyph, ink, swapped);
        }
    }
}

fn phase(dot: i64) -> usize {
    usize::try_from(dot.rem_euclid(DOTS)).expect("a remainder is not negative")
}

/// True when a line starting at a dot lies wholly within cells.
pub(super) fn holds(cells: &Range<i64>, dot: i64, style: LineStyle) -> bool {
    dot >= cells.start * DOTS && dot + style.line_width() <= cells.end * DOTS
}

/// The cell in which the middle of a line starting at a dot lies.
pub(super) fn middle_cell(dot: i64, style: LineStyle) -> i64 {
    (dot + style.line_width() / 2).div_euclid(DOTS)
}
