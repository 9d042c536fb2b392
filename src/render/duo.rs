//! Two level scales that meet at an edge: whole, as an overview, or through the glass.

use super::band::{Band, Facing, Lit};
use super::glyphs::DOTS;
use super::grid::{Ink, Paper};
use super::paint::{Area, Painter};
use super::scale::{Pair, Scale};
use super::{Extent, Glass, Refusal, Request};
use crate::exact::Quanta;
use crate::scene::{Scene, Track};
use std::ops::Range;

/// Two tracks that meet at a level edge.
pub(super) struct Duo<'a> {
    pub(super) upper: &'a Track,
    pub(super) lower: &'a Track,
    /// Track numbers in the scene, for what is lit up.
    numbers: [usize; 2],
    /// Which of the two is the vernier.
    pub(super) vernier: &'a Track,
    pub(super) geometry: Pair,
    /// Where the vernier's zero stands in the whole, in dots from the left, where that is not its own affair.
    pub(super) zero_at: Option<i64>,
    /// 1 where what comes after the vernier's zero is right of it, else -1.
    onward: i64,
    /// The vernier's 0 is the datum line of a sleeve.
    datum: bool,
    /// Both scales grow from right to left.
    mirrored: bool,
    lit: &'a [Lit],
}

/// What was decided.
#[derive(Clone, Copy, Debug)]
pub(super) struct Plan {
    pub(super) base: Base,
    /// Rows of the longest line in the whole or the overview.
    pub(super) reach: i64,
    pub(super) glass: Option<GlassPlan>,
    /// Rows used, without what the caller adds.
    pub(super) rows: i64,
}

#[derive(Clone, Copy, Debug)]
pub(super) enum Base {
    Whole { dots: i64 },
    Overview { scale: Scale },
}

#[derive(Clone, Copy, Debug)]
pub(super) struct GlassPlan {
    pub(super) dots: i64,
    pub(super) reach: i64,
    pub(super) line: i64,
    /// What stands in the middle, counted from the vernier's zero the way the scale grows.
    pub(super) middle: Quanta,
}

impl<'a> Duo<'a> {
    /// A main scale above its vernier.
    pub(super) fn caliper(scene: &'a Scene, request: &'a Request) -> Self {
        let (upper, lower) = (&scene.tracks[0], &scene.tracks[1]);
        Self {
            upper,
            lower,
            numbers: [0, 1],
            vernier: lower,
            geometry: Pair::new(upper, lower, request.small_cells).reaching_back(upper, lower),
            onward: upper.sense,
            zero_at: None,
            datum: false,
            mirrored: upper.sense < 0,
            lit: &request.lit,
        }
    }

    /// A vernier above its main scale: the upper one of two pairs on one beam.
    pub(super) fn caliper_upside_down(scene: &'a Scene, request: &'a Request) -> Self {
        let below = Self::caliper(scene, request);
        Self { upper: below.lower, lower: below.upper, numbers: [1, 0], ..below }
    }

    /// A sleeve's vernier above the thimble, both unwrapped.
    pub(super) fn thimble(scene: &'a Scene, request: &'a Request) -> Self {
        let (lower, upper) = (&scene.tracks[1], &scene.tracks[2]);
        Self {
            upper,
            lower,
            numbers: [2, 1],
            vernier: upper,
            geometry: Pair::new(lower, upper, request.small_cells),
            onward: upper.sense,
            zero_at: None,
            datum: true,
            mirrored: false,
            lit: &request.lit,
        }
    }

    fn figure_rows(&self) -> i64 {
        Band::figure_rows(self.upper) + Band::figure_rows(self.lower)
    }

    /// The place of a line that the glass is put on, counted from the vernier's zero the way the scale grows, and its number.
    /// On a double vernier the lines right of the zero are positive.
    fn glass_line(&self, line: i64) -> (Quanta, i64) {
        let items = &self.vernier.items;
        let number = |n: usize| i64::try_from(n).expect("a vernier has few lines");
        let zero = number(items.iter().position(|item| item.at() == Quanta::ZERO).unwrap_or(0));
        let rightward = if zero > 0 { self.vernier.sense } else { 1 };
        let line = line.clamp(-zero, number(items.len()) - 1 - zero);
        let at = items[usize::try_from(zero + line * rightward).unwrap_or(0)].at();
        (at * self.vernier.sense * self.onward, line)
    }

    pub(super) fn last_line(&self) -> i64 {
        i64::try_from(self.vernier.items.len()).expect("a vernier has few lines") - 1
    }

    /// The cells between the reserved first column and the right margin.
    pub(super) fn cols(request: &Request) -> Range<i64> {
        1..request.cols
    }

    pub(super) fn glass_cols(request: &Request) -> Range<i64> {
        1..request.cols - 1
    }

    /// Decides what is drawn in `rows` rows.
    pub(super) fn plan(&self, request: &Request, rows: i64) -> Result<Plan, Refusal> {
        let beyond = request.rows - rows;
        let width = |cols: &Range<i64>| cols.end - cols.start;
        let (cols, glass_cols) = (Self::cols(request), Self::glass_cols(request));
        let style = request.lines;
        let whole = self.geometry.whole(width(&cols), style, request.dots);
        let line = match (request.glass, whole) {
            (Glass::IfNeeded | Glass::Forbidden, Some(_)) => None,
            (Glass::Forbidden, None) => {
                let needs = self.geometry.whole_cells(style) + cols.start;
                return Err(request.refuse(needs, self.whole_rows(2) + beyond));
            }
            (Glass::IfNeeded, None) => Some(0),
            (Glass::At(line), _) => Some(line),
        };
        let base = match whole {
            Some(dots) => Base::Whole { dots },
            None => match self.geometry.overview(width(&cols), style) {
                Some(scale) => Base::Overview { scale },
                None => return Err(request.refuse(self.geometry.glass_cells(style) + 2, request.rows)),
            },
        };
        let Some(line) = line else {
            let most = if request.rows >= 28 { 4 } else { 3 };
            return (2..=most)
                .rev()
                .map(|reach| Plan { base, reach, glass: None, rows: self.base_rows(base, reach) })
                .find(|plan| plan.rows <= rows)
                .ok_or_else(|| request.refuse(request.cols, self.whole_rows(2) + beyond));
        };
        let wanted = if whole.is_some() { None } else { request.dots };
        let base_dots = whole.unwrap_or(0);
        let at = |wanted| self.geometry.glass(width(&glass_cols), style, wanted, base_dots);
        let strength = request.glass_dots.and_then(|dots| at(Some(dots)));
        let Some(dots) = strength.or_else(|| at(wanted)) else {
            let needs = self.geometry.glass_cells(style).min(self.geometry.whole_cells(style)) + 2;
            return Err(request.refuse(needs, self.least_rows_with_glass(base) + beyond));
        };
        let (at, line) = self.glass_line(line);
        let middle = self.geometry.glass_middle(at, width(&glass_cols), style, dots);
        let options = [(4, 4), (3, 4), (3, 3), (2, 3), (2, 2), (1, 2)];
        options
            .into_iter()
            .map(|(reach, glass)| Plan {
                base,
                reach,
                glass: Some(GlassPlan { dots, reach: glass, line, middle }),
                rows: self.base_rows(base, reach) + 1 + self.glass_rows(glass),
            })
            .find(|plan| plan.rows <= rows)
            .ok_or_else(|| request.refuse(request.cols, self.least_rows_with_glass(base) + beyond))
    }

    pub(super) fn least_rows_with_glass(&self, base: Base) -> i64 {
        self.base_rows(base, 1) + 1 + self.glass_rows(2)
    }

    pub(super) fn whole_rows(&self, reach: i64) -> i64 {
        self.figure_rows() + 2 * reach
    }

    pub(super) fn base_rows(&self, base: Base, reach: i64) -> i64 {
        let gap = match base {
            Base::Whole { .. } => 0,
            Base::Overview { .. } => 1,
        };
        self.whole_rows(reach) + gap
    }

    pub(super) fn glass_rows(&self, reach: i64) -> i64 {
        self.whole_rows(reach) + 2
    }

    /// The row, from the top, just below the lower plate's figures.
    pub(super) fn engraving_row(&self, plan: &Plan) -> i64 {
        self.base_rows(plan.base, plan.reach)
    }

    /// Draws a plan from `top` on; `plates` rows are added below the lower plate for the caller (an engraving).
    pub(super) fn draw(
        &self,
        painter: &mut Painter<'_>,
        request: &Request,
        plan: &Plan,
        top: i64,
        below: i64,
    ) -> (Extent, Option<i64>) {
        let cols = Self::cols(request);
        let upper_rows = Band::figure_rows(self.upper) + plan.reach;
        let lower_rows = Band::figure_rows(self.lower) + plan.reach;
        let edge = top + upper_rows;
        let zero = self.vernier.origin;
        let (place, gap): (Box<dyn Fn(Quanta) -> i64>, i64) = match plan.base {
            Base::Whole { dots } => {
                let start = cols.start * DOTS + self.whole_start(&cols, dots, painter.style);
                (Box::new(move |at: Quanta| start + (at - zero).0 * dots), 0)
            }
            Base::Overview { scale } => {
                let start = cols.start * DOTS + self.overview_start(&cols, scale, painter.style);
                (Box::new(move |at: Quanta| start + scale.dots(at - zero)), 1)
            }
        };
        let lower_edge = edge + gap;
        let [upper, lower] = self.papers();
        // The vernier's last figure hangs over into the first column where its last line is the leftmost.
        let plates = cols.start - i64::from(self.mirrored)..cols.end;
        painter.plate(&Area::new(plates.clone(), top..edge), upper);
        painter.plate(&Area::new(plates.clone(), lower_edge..lower_edge + lower_rows + below), lower);
        let style = painter.style;
        if gap > 0 {
            painter.style = style.for_overview();
        }
        self.bands(painter, [&cols, &plates], [edge, lower_edge], plan.reach, &place);
        painter.style = style;
        if gap > 0 {
            painter.text(cols.end - 10, edge, "overview", Ink::Note);
        } else {
            painter.edge_marks(request.marks, edge);
        }
        let extent = if gap > 0 { Extent::Slide } else { Extent::Whole };
        let Some(glass) = plan.glass else { return (extent, None) };
        self.hold_glass(painter, request, glass, lower_edge + lower_rows + below, &place, extent);
        (extent, Some(glass.line))
    }

    /// The glass, and from a row above it on the bracket that shows what it is held over.
    pub(super) fn hold_glass(
        &self,
        painter: &mut Painter<'_>,
        request: &Request,
        glass: GlassPlan,
        under: i64,
        place: &dyn Fn(Quanta) -> i64,
        extent: Extent,
    ) {
        let inner = Self::glass_cols(request);
        let centre = self.vernier.origin + glass.middle * self.onward;
        let half = (inner.end - inner.start) * DOTS / (2 * glass.dots);
        let ends = [place(centre - Quanta(half)), place(centre + Quanta(half))];
        Self::bracket(painter, &Self::cols(request), under, ends);
        self.draw_glass(painter, request, under + 1, glass, centre, extent);
    }

    /// Where the vernier's zero stands in the whole view, in dots from the left: it never depends on the reading.
    fn whole_start(&self, cols: &Range<i64>, dots: i64, style: super::LineStyle) -> i64 {
        if let Some(zero) = self.zero_at {
            return zero;
        }
        let run_up = self.geometry.run_up(dots);
        let used = self.geometry.span(dots) + style.line_width();
        let spare = (cols.end - cols.start) * DOTS - used;
        if self.mirrored {
            let last = used - run_up - style.line_width();
            let start = (last + spare / 2) / DOTS * DOTS;
            return if start < last { last } else { start };
        }
        let start = (run_up + spare / 2) / DOTS * DOTS;
        if start < run_up { run_up } else { start }
    }

    fn overview_start(&self, cols: &Range<i64>, scale: Scale, style: super::LineStyle) -> i64 {
        let run_up = scale.dots(Quanta(self.geometry.run_up(1)));
        let style = style.for_overview();
        let start = (run_up + style.grain()) / style.grain() * style.grain();
        if self.mirrored { (cols.end - cols.start) * DOTS - style.line_width() - start } else { start }
    }

    /// What the upper and the lower plate are laid with.
    fn papers(&self) -> [Paper; 2] {
        [self.upper, self.lower].map(|track| track.plate.into())
    }

    fn bands(
        &self,
        painter: &mut Painter<'_>,
        [cols, figure_cols]: [&Range<i64>; 2],
        edges: [i64; 2],
        reach: i64,
        place: &dyn Fn(Quanta) -> i64,
    ) {
        let facings = [Facing::Above, Facing::Below];
        for (n, track) in [self.upper, self.lower].into_iter().enumerate() {
            let lit = self.lit.iter().filter(|lit| lit.track == self.numbers[n]).map(|lit| lit.at).collect();
            let band = Band {
                track,
                facing: facings[n],
                edge: edges[n],
                reach,
                cols: cols.clone(),
                figure_cols: figure_cols.clone(),
                datum: self.datum && n == 0,
                lit,
            };
            band.draw(painter, place);
        }
    }

    /// Shows which part the glass covers, outside the plates.
    fn bracket(painter: &mut Painter<'_>, cols: &Range<i64>, row: i64, ends: [i64; 2]) {
        let [from, to] = ends.map(|dot| dot.div_euclid(DOTS).clamp(cols.start, cols.end - 1));
        let signs = painter.style.signs();
        for col in from..=to {
            let glyph = if col == from {
                signs.corners[2]
            } else if col == to {
                signs.corners[3]
            } else {
                signs.level
            };
            painter.text(col, row, &glyph.to_string(), Ink::Note);
        }
    }

    fn draw_glass(
        &self,
        painter: &mut Painter<'_>,
        request: &Request,
        top: i64,
        glass: GlassPlan,
        centre: Quanta,
        extent: Extent,
    ) {
        let inner = Self::glass_cols(request);
        let edge = top + 1 + Band::figure_rows(self.upper) + glass.reach;
        let bottom = edge + glass.reach + Band::figure_rows(self.lower);
        let signs = painter.style.signs();
        let side = signs.level.to_string().repeat(usize::try_from(inner.end - inner.start).unwrap_or(0));
        for (row, left, right) in
            [(top, signs.corners[0], signs.corners[1]), (bottom, signs.corners[2], signs.corners[3])]
        {
            painter.text(0, row, &format!("{left}{side}{right}"), Ink::Note);
        }
        let title = match extent {
            Extent::Slide if inner.end >= 16 => " glass: slide ",
            Extent::Whole | Extent::Slide => " glass ",
        };
        painter.text(2, top, title, Ink::Note);
        for row in top + 1..bottom {
            painter.text(0, row, &signs.upright.to_string(), Ink::Note);
            painter.text(inner.end, row, &signs.upright.to_string(), Ink::Note);
        }
        let [upper, lower] = self.papers();
        painter.plate(&Area::new(inner.clone(), top + 1..edge), upper);
        painter.plate(&Area::new(inner.clone(), edge..bottom), lower);
        let middle = (inner.start + (inner.end - inner.start) / 2) * DOTS;
        let place = move |at: Quanta| middle + (at - centre).0 * glass.dots;
        self.bands(painter, [&inner, &inner], [edge, edge], glass.reach, &place);
        painter.edge_marks(request.marks, edge);
    }
}
