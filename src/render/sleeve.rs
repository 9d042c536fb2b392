//! A micrometer's sleeve with the thimble's edge over it.
//!
//! The edge stays on a cell boundary and the sleeve's lines carry the fraction of a cell. A line that the edge has just reached
//! ends at the edge; one that it has not reached is not drawn at all, however near it is. On a reversed sleeve a line that the
//! edge has just reached is covered, and the next one is the first that is drawn.

use super::band::{Lit, figure_ink, line_rows};
use super::glyphs::{DOTS, LineStyle};
use super::grid::{Ink, Paper};
use super::paint::{Area, Painter, middle_cell};
use super::{Marks, Request};
use crate::exact::Quanta;
use crate::instrument::{NumeralSize, Side};
use crate::scene::{Item, Scene};
use std::ops::Range;

/// Cells of the thimble right of its edge.
const THIMBLE: i64 = 8;
/// Where the sleeve begins: the reserved column and two cells of frame are left of it.
const SLEEVE: i64 = 3;
/// What stands between two texts engraved on the tool.
const BETWEEN_TEXTS: &str = "   ";
/// Where a sleeve vernier's lines begin, right of their figures.
pub(super) const VERNIER_LINES: i64 = SLEEVE + 2;

/// Where the parts of a sleeve lie.
pub(super) struct Sleeve<'a> {
    pub(super) scene: &'a Scene,
    /// First column of the thimble.
    pub(super) edge: i64,
    /// Columns of the sleeve.
    pub(super) cols: Range<i64>,
    /// Rows of the longest line.
    reach: i64,
    lit: &'a [Lit],
}

/// Dots or cells by which the sleeve is drawn.
enum Along {
    /// Dots per division of the thimble; the edge is rounded down to one.
    Dots { per: i64, division: Quanta },
    /// Cells per division of the sleeve; the edge is rounded down to one.
    Cells { per: i64, division: Quanta },
}

impl<'a> Sleeve<'a> {
    /// The sleeve of a scene; none where no figure of it would be sure to be in view, or what is stamped on it is cut off.
    pub(super) fn new(scene: &'a Scene, request: &'a Request) -> Option<Self> {
        let edge = request.cols - THIMBLE;
        let lengths = i64::try_from(scene.tracks[0].lengths).expect("at most seven lengths");
        let sleeve = Self { scene, edge, cols: SLEEVE..edge, reach: lengths.clamp(2, 3), lit: &request.lit };
        sleeve.along(request.lines).filter(|_| request.cols >= Self::stamped_cols(scene)).map(|_| sleeve)
    }

    /// Columns that show what is stamped on the tool with the lengths that are fitted, the edge's sign beside it.
    fn stamped_cols(scene: &Scene) -> i64 {
        Self::stamped_end(scene) + 1 + THIMBLE
    }

    fn stamped_end(scene: &Scene) -> i64 {
        let text = scene.engraved[..scene.stamped].join(BETWEEN_TEXTS);
        SLEEVE + i64::try_from(text.chars().count()).expect("short texts")
    }

    /// The first column after what is stamped on the tool with the lengths that are fitted.
    pub(super) fn stamped_to(&self) -> i64 {
        Self::stamped_end(self.scene)
    }

    /// Columns at which a figure is sure to be in view, and what is stamped on the tool.
    pub(super) fn needs_cols(scene: &Scene, style: LineStyle) -> i64 {
        let (dots, label) = match style {
            LineStyle::Thin | LineStyle::Bars => (Self::figure_dots(scene), 2 * DOTS),
            LineStyle::Cell | LineStyle::Ascii => (2 * DOTS * Self::lines_per_figure(scene), 2 * DOTS),
        };
        ((dots + label + DOTS - 1) / DOTS + SLEEVE + THIMBLE).max(Self::stamped_cols(scene))
    }

    fn figure_dots(scene: &Scene) -> i64 {
        Self::figures(scene).passed(scene.tracks[1].pitch.unwrap_or(Quanta(1)))
    }

    fn lines_per_figure(scene: &Scene) -> i64 {
        Self::figures(scene).passed(scene.tracks[0].pitch.unwrap_or(Quanta(1)))
    }

    /// The distance between figures; where there is but one, the whole sleeve.
    fn figures(scene: &Scene) -> Quanta {
        let end = || scene.tracks[0].items.last().map_or(Quanta::ZERO, Item::at);
        scene.tracks[0].figure_spacing(NumeralSize::Small).unwrap_or_else(end)
    }

    /// The least of `steps` dots or cells so that figures, which are so many of them apart, leave a cell free.
    fn apart(&self, steps: i64, cell: i64) -> i64 {
        let width = self.scene.tracks[0].items.iter().filter_map(|item| match item {
            Item::Graduation { figure: Some(figure), .. } => Some(figure.number.to_string().len()),
            _ => None,
        });
        let cells = width.max().and_then(|width| i64::try_from(width).ok()).unwrap_or(0) + 1;
        (cells * cell + steps - 1) / steps.max(1)
    }

    fn along(&self, style: LineStyle) -> Option<Along> {
        let width = (self.cols.end - self.cols.start) * DOTS - 2 * DOTS;
        match style {
            LineStyle::Thin | LineStyle::Bars => {
                let division = self.scene.tracks[1].pitch?;
                let apart = self.scene.tracks[0].pitch?.passed(division);
                let per = (style.least_pitch() + apart - 1) / apart;
                let per = per.max(self.apart(Self::figure_dots(self.scene), DOTS));
                (Self::figure_dots(self.scene) * per <= width).then_some(Along::Dots { per, division })
            }
            LineStyle::Cell | LineStyle::Ascii => {
                let division = self.scene.tracks[0].pitch?;
                let least = self.apart(Self::lines_per_figure(self.scene), 1).max(2);
                (least..=least.max(4))
                    .rev()
                    .find(|per| per * DOTS * Self::lines_per_figure(self.scene) <= width)
                    .map(|per| Along::Cells { per, division })
            }
        }
    }

    /// Rows that the lines and figures take above and below the datum line.
    pub(super) fn rows_beside_datum(&self) -> (i64, i64) {
        let side_rows = |wanted: Side| {
            let rows = self.scene.tracks[0].items.iter().filter_map(|item| match item {
                Item::Graduation { tier, side: Some(side), figure, .. } if *side == wanted => {
                    let lines = line_rows(*tier, self.scene.tracks[0].lengths, self.reach);
                    Some(lines.max(if figure.is_some() { self.reach + 1 } else { 0 }))
                }
                _ => None,
            });
            rows.max().unwrap_or(0)
        };
        (side_rows(Side::Above), side_rows(Side::Below))
    }

    /// The dot within its row at which the datum line lies, so that the sleeve's lines reach it.
    pub(super) fn datum_phase(&self, style: LineStyle) -> i64 {
        match (style, self.rows_beside_datum()) {
            (LineStyle::Thin, (0, _)) => DOTS - 1,
            (LineStyle::Bars | LineStyle::Cell | LineStyle::Ascii, _) | (LineStyle::Thin, (_, 0)) => 0,
            (LineStyle::Thin, _) => DOTS / 2 - 1,
        }
    }

    /// Lays the plates, the datum line and the sleeve's lines. `rows` are the rows of the tool, the first being the frame's
    /// band with the engraving; `datum` is the row of the datum line.
    pub(super) fn draw(&self, painter: &mut Painter<'_>, request: &Request, rows: &Range<i64>, datum: i64) {
        let tool = rows.start + 1..rows.end;
        painter.plate(&Area::new(1..self.edge, rows.start..rows.start + 1), Paper::Frame);
        painter.plate(&Area::new(1..SLEEVE, tool.clone()), Paper::Frame);
        painter.plate(&Area::new(self.cols.clone(), tool.clone()), Paper::Fixed);
        painter.plate(&Area::new(self.edge..request.cols, tool), Paper::Moving);
        painter.text(SLEEVE, rows.start, &self.scene.engraved.join(BETWEEN_TEXTS), Ink::Engraving);
        if request.marks == Marks::Shown {
            let signs = painter.style.signs();
            painter.text(self.edge - 1, rows.start, &signs.left_of_edge.to_string(), Ink::Note);
            painter.text(self.edge, rows.start, &signs.right_of_edge.to_string(), Ink::Note);
        }
        let from = if self.scene.tracks[2].pitch.is_some() { VERNIER_LINES } else { self.cols.start };
        let line = datum * DOTS + self.datum_phase(painter.style);
        painter.level(line, &Area::new(from..self.edge, datum..datum + 1), Ink::Line);
        self.lines(painter, datum);
    }

    fn lines(&self, painter: &mut Painter<'_>, datum: i64) {
        let Some(along) = self.along(painter.style) else { return };
        let edge_at = self.scene.edges[0].at;
        let track = &self.scene.tracks[0];
        for item in &track.items {
            let Item::Graduation { at, tier, side: Some(side), figure } = item else { continue };
            if self.scene.hides(0, *at) {
                continue;
            }
            let back = match along {
                Along::Dots { per, division } => {
                    let away = edge_at.passed(division) - at.passed(division);
                    away * track.sense * per + painter.style.line_width()
                }
                Along::Cells { per, division } => {
                    let edge = (edge_at * per).passed(division);
                    let away = edge - at.passed(division) * per;
                    // Rounded down, an edge that uncovers stands one cell short of where it is, one that covers does not.
                    (away * track.sense + (track.sense + 1) / 2) * DOTS
                }
            };
            let dot = self.edge * DOTS - back;
            let rows = line_rows(*tier, track.lengths, self.reach);
            let (rows, figure_row) = match side {
                Side::Above => (datum - rows..datum, datum - self.reach - 1),
                Side::Below => (datum + 1..datum + 1 + rows, datum + 1 + self.reach),
            };
            let lit = self.lit.iter().any(|lit| lit.track == 0 && lit.at == *at);
            let ink = if lit { Ink::Lit } else { Ink::Line };
            if !painter.upright(dot, &Area::new(self.cols.clone(), rows), ink) {
                continue;
            }
            let centre = middle_cell(dot, painter.style);
            if let Some(figure) = figure {
                let text = figure.number.to_string();
                let ink = if lit { Ink::Pointer } else { figure_ink(figure.size) };
                painter.figure(centre, figure_row, &text, ink, &self.cols);
            } else if lit {
                let [from_above, from_below, ..] = painter.style.signs().pointers;
                let sign = if *side == Side::Above { from_above } else { from_below };
                painter.figure(centre, figure_row, &sign.to_string(), Ink::Pointer, &self.cols);
            }
        }
    }
}
