//! A main scale that stands upright with its vernier to the right of it: an overview, and the glass that it is read through.
//!
//! A column of text has few rows, so the whole vernier is never read upright: the overview shows as many lines as have room,
//! the longest first, and the glass shows all lines of its part at two dots per quantum or more.

use super::band::{figure_ink, line_rows};
use super::glyphs::{DOTS, LineStyle};
use super::grid::{Ink, Paper};
use super::paint::{Area, Painter, middle_cell};
use super::scale::{Pair, Scale};
use super::{Drawing, Extent, Glass, Marks, Refusal, Request, pair};
use crate::exact::Quanta;
use crate::instrument::NumeralSize;
use crate::scene::{Figure, Item, Scene, Track, View};
use std::ops::Range;

/// Cells of the longest line in the overview and in the glass.
const REACHES: [i64; 2] = [3, 6];

/// Draws the view in the hand, or the one laid flat with a word about it where the size does not allow it.
pub(super) fn draw(scene: &Scene, request: &Request) -> Result<Drawing, Refusal> {
    match Plan::new(scene, request) {
        Some(plan) => Ok(plan.draw(scene, request)),
        None => pair::draw_instead(scene, request),
    }
}

struct Plan {
    scale: Scale,
    /// The shortest length of the lines in the overview, of the main scale and of the vernier.
    tiers: [usize; 2],
    dots: i64,
    line: i64,
    /// What stands in the middle of the glass, from the vernier's zero.
    middle: Quanta,
    run_up: i64,
    /// The first column used.
    left: i64,
    /// First column right of the overview's main scale.
    edge: i64,
    /// Column of the bracket that shows where the glass lies.
    bracket: i64,
    /// Columns inside the glass, and its reading edge.
    inside: Range<i64>,
    glass_edge: i64,
    /// Where the engraving begins.
    engraving: i64,
}

impl Plan {
    fn new(scene: &Scene, request: &Request) -> Option<Self> {
        let (main, vernier) = (&scene.tracks[0], &scene.tracks[1]);
        let style = request.lines;
        if request.glass == Glass::Forbidden || vernier.sense < 0 {
            return None;
        }
        let geometry = Pair::new(main, vernier, request.small_cells);
        let scale = geometry.fitting(request.rows - 1, style)?;
        let coarse = style.for_overview();
        let tiers = [sparse(main, scale, coarse)?, sparse(vernier, scale, coarse)?];
        let rows = request.rows - 2;
        let at = |wanted| geometry.glass(rows, style, wanted, 0);
        let dots = request.glass_dots.and_then(|dots| at(Some(dots))).or_else(|| at(request.dots))?;
        let line = match request.glass {
            Glass::At(line) => line.clamp(0, i64::try_from(vernier.items.len()).ok()? - 1),
            Glass::IfNeeded | Glass::Forbidden => 0,
        };
        let of_line = vernier.items[usize::try_from(line).ok()?].at();
        let [small, large] = [NumeralSize::Small, NumeralSize::Large].map(|size| digits(main, size));
        let fine = digits(vernier, NumeralSize::Small);
        let beside = |digits: i64| digits + i64::from(digits > 0);
        let edge = 1 + beside(large) + small + 1 + REACHES[0];
        let bracket = edge + 1 + REACHES[0] + 1 + fine + 1;
        let inside = bracket + 3;
        // A figure out of view takes two cells more: `20▾3`.
        let glass_edge = inside + if large > 0 { large + 2 } else { 0 } + small + 3 + REACHES[1];
        let end = glass_edge + REACHES[1] + 1 + fine + 2;
        let engraving = end + 3;
        let widest = scene.engraved.iter().map(|text| text.chars().count()).max().unwrap_or(0);
        // All this begins in the second column; what is left over stands to both sides.
        let spare = request.cols - engraving - i64::try_from(widest).ok()? - 1;
        if spare < 0 {
            return None;
        }
        let aside = spare / 2;
        Some(Self {
            scale,
            tiers,
            dots,
            line,
            middle: geometry.glass_middle(of_line, rows, style, dots),
            run_up: geometry.run_up(1),
            left: 1 + aside,
            edge: edge + aside,
            bracket: bracket + aside,
            inside: inside + aside..end + aside,
            glass_edge: glass_edge + aside,
            engraving: engraving + aside,
        })
    }

    fn draw(&self, scene: &Scene, request: &Request) -> Drawing {
        let mut grid = request.grid();
        let mut painter = Painter { grid: &mut grid, style: request.lines };
        let zero = scene.tracks[1].origin;
        let centre = zero + self.middle;
        self.overview(&mut painter, scene, request, zero, centre);
        self.glass(&mut painter, scene, request, centre);
        let paper = Paper::from(scene.tracks[1].plate);
        let widest = scene.engraved.iter().map(|text| text.chars().count()).max().unwrap_or(0);
        let right = self.engraving + i64::try_from(widest).unwrap_or(0) + 1;
        let count = i64::try_from(scene.engraved.len()).unwrap_or(0);
        let top = (request.rows - 2 * count) / 2;
        painter.plate(&Area::new(self.engraving - 1..right, top..top + 2 * count + 1), paper);
        for (row, text) in (top + 1..).step_by(2).zip(&scene.engraved) {
            painter.text(self.engraving, row, text, Ink::Engraving);
        }
        Drawing { grid, extent: Extent::Slide, view: View::Held, glass: Some(self.line) }
    }

    fn columns<'a>(
        &self,
        scene: &'a Scene,
        request: &'a Request,
        edges: [i64; 2],
        reach: i64,
        ends: [i64; 2],
    ) -> [Column<'a>; 2] {
        let column = |number: usize, left: bool| Column {
            track: &scene.tracks[number],
            left,
            edge: edges[number],
            end: ends[number],
            reach,
            rows: 1..request.rows,
            shortest: self.tiers[number],
            is_read: false,
            lit: request.lit.iter().filter(|lit| lit.track == number).map(|lit| lit.at).collect(),
        };
        [column(0, true), column(1, false)]
    }

    fn overview(
        &self,
        painter: &mut Painter<'_>,
        scene: &Scene,
        request: &Request,
        zero: Quanta,
        centre: Quanta,
    ) {
        let papers = [0, 1].map(|track: usize| Paper::from(scene.tracks[track].plate));
        let rows = 1..request.rows;
        painter.text(self.left, 0, "overview", Ink::Note);
        painter.plate(&Area::new(self.left..self.edge, rows.clone()), papers[0]);
        painter.plate(&Area::new(self.edge + 1..self.bracket, rows.clone()), papers[1]);
        let style = painter.style;
        painter.style = style.for_overview();
        let grain = painter.style.grain();
        let start = (self.scale.dots(Quanta(self.run_up)) + grain) / grain * grain;
        let foot = request.rows * DOTS - painter.style.line_width() - start;
        let scale = self.scale;
        let place = move |at: Quanta| foot - scale.dots(at - zero);
        let edges = [self.edge, self.edge + 1];
        for column in self.columns(scene, request, edges, REACHES[0], [self.left, self.bracket]) {
            column.draw(painter, &place);
        }
        painter.style = style;
        let half = Quanta((request.rows - 2) * DOTS / (2 * self.dots));
        let row = |at: Quanta| place(at).div_euclid(DOTS).clamp(1, request.rows - 1);
        let (from, to) = (row(centre + half), row(centre - half));
        let signs = painter.style.signs();
        for row in from..=to {
            let glyph = if row == from {
                signs.corners[1]
            } else if row == to {
                signs.corners[3]
            } else {
                signs.upright
            };
            painter.text(self.bracket, row, &glyph.to_string(), Ink::Note);
        }
    }

    fn glass(&self, painter: &mut Painter<'_>, scene: &Scene, request: &Request, centre: Quanta) {
        let papers = [0, 1].map(|track: usize| Paper::from(scene.tracks[track].plate));
        let signs = painter.style.signs();
        let (left, right, bottom) = (self.inside.start - 1, self.inside.end, request.rows - 1);
        let side = usize::try_from(right - left - 1).unwrap_or(0);
        for (row, from) in [(0, 0), (bottom, 2)] {
            let level = signs.level.to_string().repeat(side);
            let text = format!("{}{level}{}", signs.corners[from], signs.corners[from + 1]);
            painter.text(left, row, &text, Ink::Note);
        }
        painter.text(left + 2, bottom, " glass: slide ", Ink::Note);
        for row in 1..bottom {
            painter.text(left, row, &signs.upright.to_string(), Ink::Note);
            painter.text(right, row, &signs.upright.to_string(), Ink::Note);
        }
        painter.plate(&Area::new(self.inside.start..self.glass_edge, 1..bottom), papers[0]);
        painter.plate(&Area::new(self.glass_edge..right, 1..bottom), papers[1]);
        if request.marks == Marks::Shown {
            painter.text(self.glass_edge - 1, 0, &signs.left_of_edge.to_string(), Ink::Note);
            painter.text(self.glass_edge, 0, &signs.right_of_edge.to_string(), Ink::Note);
        }
        let middle = (1 + (request.rows - 2) / 2) * DOTS;
        let dots = self.dots;
        let place = move |at: Quanta| middle - (at - centre).0 * dots;
        let ends = [self.inside.start, self.inside.end];
        for column in self.columns(scene, request, [self.glass_edge; 2], REACHES[1], ends) {
            let column = Column { rows: 1..bottom, shortest: usize::MAX, is_read: true, ..column };
            column.draw(painter, &place);
        }
    }
}

/// The shortest lines of a scale that have room in an overview; none where not even the longest have.
fn sparse(track: &Track, scale: Scale, style: LineStyle) -> Option<usize> {
    let fits = |shortest: &usize| {
        let kept: Vec<Quanta> = track
            .items
            .iter()
            .filter(|item| matches!(item, Item::Graduation { tier, .. } if tier <= shortest))
            .map(Item::at)
            .collect();
        kept.len() > 1
            && kept.windows(2).all(|pair| scale.dots(pair[1]) - scale.dots(pair[0]) >= style.least_pitch())
    };
    (0..track.lengths).rev().find(fits)
}

/// Digits of the longest figure of a size; 0 where there is none.
fn digits(track: &Track, size: NumeralSize) -> i64 {
    let lengths = track.items.iter().filter_map(|item| match item {
        Item::Graduation { figure: Some(figure), .. } if figure.size == size => {
            i64::try_from(figure.number.to_string().len()).ok()
        }
        _ => None,
    });
    lengths.max().unwrap_or(0)
}

/// One upright scale: its lines begin at the reading edge, its figures stand beyond them.
struct Column<'a> {
    track: &'a Track,
    /// It lies left of its edge.
    left: bool,
    /// First column right of the edge.
    edge: i64,
    /// Where the plate ends: its first column on the left, the first one beyond it on the right.
    end: i64,
    /// Cells of the longest line.
    reach: i64,
    rows: Range<i64>,
    /// The shortest lines that are drawn.
    shortest: usize,
    /// It is read, so a figure must be told even where none is in view.
    is_read: bool,
    lit: Vec<Quanta>,
}

impl Column<'_> {
    /// Draws the lines and figures. `place` gives the dot down of a place in instrument quanta.
    fn draw(&self, painter: &mut Painter<'_>, place: &dyn Fn(Quanta) -> i64) {
        let mut first = None;
        let mut figures = [(NumeralSize::Small, false), (NumeralSize::Large, false)];
        for (n, item) in self.track.items.iter().enumerate() {
            let Item::Graduation { at, tier, figure, .. } = item else { continue };
            let dot = place(self.track.place(*at));
            let cells = line_cells(*tier, self.track.lengths, self.reach);
            let cols = if self.left { self.edge - cells..self.edge } else { self.edge..self.edge + cells };
            let is_lit = self.lit.contains(at);
            let ink = if is_lit { Ink::Lit } else { Ink::Line };
            if *tier > self.shortest || !painter.level(dot, &Area::new(cols.clone(), self.rows.clone()), ink)
            {
                continue;
            }
            first.get_or_insert(n);
            let row = middle_cell(dot, painter.style);
            if let Some(figure) = figure {
                let ink = if is_lit { Ink::Pointer } else { figure_ink(figure.size) };
                self.write(painter, row, figure.size, &figure.number.to_string(), ink);
                for (size, drawn) in &mut figures {
                    *drawn |= *size == figure.size;
                }
            } else if is_lit && cells < self.reach {
                let [.., from_left, from_right] = painter.style.signs().pointers;
                let (col, sign) =
                    if self.left { (cols.start - 1, from_left) } else { (cols.end, from_right) };
                painter.text(col, row, &sign.to_string(), Ink::Pointer);
            }
        }
        let Some(first) = first.filter(|_| self.is_read) else { return };
        for (size, drawn) in figures {
            if !drawn {
                self.mark_below(painter, first, size);
            }
        }
        let below_sign = painter.style.signs().below;
        for item in &self.track.items[..first] {
            let Item::Graduation { at, figure: Some(figure), .. } = item else { continue };
            if self.lit.contains(at) {
                let text = format!("{}{below_sign}", figure.number);
                self.write(painter, self.rows.end - 1, figure.size, &text, Ink::Pointer);
            }
        }
    }

    /// Small figures next to the lines, large ones at the plate's far end.
    fn write(&self, painter: &mut Painter<'_>, row: i64, size: NumeralSize, text: &str, ink: Ink) {
        let len = i64::try_from(text.chars().count()).expect("a short text");
        let col = match (self.left, size) {
            (true, NumeralSize::Large) => self.end,
            (true, NumeralSize::Small) => self.edge - self.reach - 1 - len,
            (false, NumeralSize::Large) => self.end - len,
            (false, NumeralSize::Small) => self.edge + self.reach + 1,
        };
        painter.text(col, row, text, ink);
    }

    /// No figure of this size is in view: the nearest one below stands at the foot. A small one is followed by how many lines
    /// the lowest line in view comes after it.
    fn mark_below(&self, painter: &mut Painter<'_>, first: usize, size: NumeralSize) {
        let figured = |wanted: NumeralSize| {
            self.track.items[..=first].iter().enumerate().rev().find_map(|(n, item)| match item {
                Item::Graduation { figure: Some(Figure { number, size }), .. } if *size == wanted => {
                    Some((n, *number))
                }
                _ => None,
            })
        };
        let begins = || figured(NumeralSize::Large).filter(|(n, _)| *n < first);
        let found = match size {
            NumeralSize::Large => figured(size),
            NumeralSize::Small => figured(size).or_else(begins),
        };
        let Some((n, number)) = found else { return };
        let sign = painter.style.signs().below;
        let text = match size {
            NumeralSize::Large => format!("{number}{sign}"),
            NumeralSize::Small => format!("{number}{sign}{}", first - n),
        };
        self.write(painter, self.rows.end - 1, size, &text, figure_ink(size));
    }
}

/// Cells of a line of a length class, two at the least.
fn line_cells(tier: usize, lengths: usize, reach: i64) -> i64 {
    match lengths {
        2 | 3 => {
            let steps = i64::try_from(lengths).expect("two or three") - 1;
            (reach - i64::try_from(tier).expect("at most seven lengths") * (reach - 2) / steps).max(2)
        }
        _ => line_rows(tier, lengths, reach).max(2),
    }
}
