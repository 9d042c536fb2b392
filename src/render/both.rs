//! Two pairs of scales on one beam: the upper vernier above its main scale, the lower one below its own.
//!
//! Each pair is exact in itself, whole dots per quantum of its own. Inches and millimetres share no such number, so the two are
//! drawn at sizes as near to one another as whole dots allow, both verniers' zeros in one line, and the picture says that each
//! has its own. Which of the two is asked changes nothing but where a glass is held that somebody has opened.

use super::duo::{Base, Duo, GlassPlan, Plan};
use super::glyphs::DOTS;
use super::grid::{Ink, Paper};
use super::paint::{Area, Painter};
use super::{Drawing, Extent, Glass, Refusal, Request};
use crate::exact::Quanta;
use crate::instrument::Side;
use crate::scene::{Beside, Scene, View};

/// Rows for what is engraved on the slide, above and below.
const ENGRAVING: i64 = 1;
/// The largest scale used for the finer pair, in dots per quantum.
const LARGEST: i64 = DOTS;
const OWN_SIZE: &str = "each pair at its own size";

/// Draws both.
pub(super) fn draw(scene: &Scene, beside: &Beside, request: &Request) -> Result<Drawing, Refusal> {
    let dark = Request { lit: Vec::new(), ..request.clone() };
    let (read, other) = ((scene, request), (&beside.scene, &dark));
    let (upper, lower, asked) = match beside.lies {
        Side::Above => (other, read, 1),
        Side::Below => (read, other, 0),
    };
    let both = Both {
        pairs: [Duo::caliper_upside_down(upper.0, upper.1), Duo::caliper(lower.0, lower.1)],
        requests: [upper.1, lower.1],
        engraved: [upper.0, lower.0].map(|scene| scene.engraved.join("   ")),
        asked,
        ratio: beside.ratio,
    };
    both.draw(request)
}

struct Both<'a> {
    /// The upper pair and the lower one.
    pairs: [Duo<'a>; 2],
    requests: [&'a Request; 2],
    engraved: [String; 2],
    /// Which of them is read.
    asked: usize,
    /// How long the quantum of the other pair is in quanta of the one that is read, as a fraction.
    ratio: (i64, i64),
}

/// How large the whole of both is drawn.
struct Sizes {
    /// Dots per quantum of each.
    dots: [i64; 2],
    /// Where the zeros of both verniers stand, in dots from the left.
    zero: i64,
    /// They are as large as one another.
    alike: bool,
}

impl Both<'_> {
    fn draw(self, request: &Request) -> Result<Drawing, Refusal> {
        match (request.glass, self.sizes(request)) {
            (Glass::At(_) | Glass::IfNeeded, None) => self.through_glasses(request),
            (Glass::Forbidden, None) => Err(request.refuse(self.whole_cols(request), self.rows(2))),
            (Glass::IfNeeded | Glass::Forbidden, Some(sizes)) => self.whole(request, &sizes, None),
            (Glass::At(line), Some(sizes)) => self.whole(request, &sizes, Some(line)),
        }
    }

    /// The pair with the finer quantum, and how the lengths of the coarse and the fine quantum are to one another.
    fn finer(&self) -> (usize, (i64, i64)) {
        let (other, read) = self.ratio;
        if other >= read { (self.asked, (other, read)) } else { (1 - self.asked, (read, other)) }
    }

    /// The largest sizes at which both are whole and near to one another, or else the largest at which both are whole.
    fn sizes(&self, request: &Request) -> Option<Sizes> {
        let (finer, (coarse_quantum, fine_quantum)) = self.finer();
        let alike = |fine: i64| (2 * fine * coarse_quantum + fine_quantum) / (2 * fine_quantum);
        let with = |fine: i64, coarse: i64| {
            let mut dots = [coarse; 2];
            dots[finer] = fine;
            let zero = self.zero(request, dots)?;
            Some(Sizes { dots, zero, alike: coarse * fine_quantum == fine * coarse_quantum })
        };
        let fine = || (1..=LARGEST).rev().filter(|dots| request.dots.is_none_or(|wanted| wanted == *dots));
        let near = fine().find_map(|fine| with(fine, alike(fine)));
        near.or_else(|| fine().find_map(|fine| (1..alike(fine)).rev().find_map(|coarse| with(fine, coarse))))
    }

    /// Where the zeros stand where both fit; it never depends on the reading.
    fn zero(&self, request: &Request, dots: [i64; 2]) -> Option<i64> {
        let cols = Duo::cols(request);
        let width = (cols.end - cols.start) * DOTS;
        let style = request.lines;
        let pairs = || self.pairs.iter().zip(dots).map(|(pair, dots)| (pair.geometry, dots));
        if !pairs().all(|(pair, dots)| pair.is_clear(dots, style) && pair.figured_dots(dots) <= width) {
            return None;
        }
        let run_up = pairs().map(|(pair, dots)| pair.run_up(dots)).max()?;
        let reach = pairs().map(|(pair, dots)| pair.reach(dots)).max()?;
        let spare = width - run_up - reach - style.line_width();
        let centred = (run_up + spare / 2) / DOTS * DOTS;
        (spare >= 0).then_some(if centred < run_up { run_up } else { centred })
    }

    /// Columns that the whole of both needs.
    fn whole_cols(&self, request: &Request) -> i64 {
        let fits = |cols: &i64| self.sizes(&Request { cols: *cols, ..request.clone() }).is_some();
        (request.cols + 1..=1000).find(fits).unwrap_or(1000)
    }

    /// Rows that both need, their longest lines so long.
    fn rows(&self, reach: i64) -> i64 {
        self.pairs.iter().map(|pair| pair.whole_rows(reach)).sum::<i64>() + 2 * ENGRAVING
    }

    fn whole(mut self, request: &Request, sizes: &Sizes, line: Option<i64>) -> Result<Drawing, Refusal> {
        for pair in &mut self.pairs {
            pair.zero_at = Some(sizes.zero);
        }
        let rows = |reach: i64, glass: i64| match line {
            None => self.rows(reach),
            Some(_) => self.rows(reach) + 1 + self.pairs[self.asked].glass_rows(glass),
        };
        let options: &[(i64, i64)] = match line {
            None if request.rows >= 28 => &[(4, 0), (3, 0), (2, 0)],
            None => &[(3, 0), (2, 0)],
            Some(_) => &[(4, 4), (3, 4), (3, 3), (2, 3), (2, 2), (1, 2)],
        };
        let fitting = options.iter().find(|(reach, glass)| rows(*reach, *glass) <= request.rows);
        let Some((reach, glass_reach)) = fitting.copied() else {
            let (reach, glass) = options[options.len() - 1];
            return Err(request.refuse(request.cols, rows(reach, glass)));
        };
        let glass = match line {
            None => None,
            Some(line) => Some(self.glass(request, sizes, line, glass_reach)?),
        };
        let used = rows(reach, glass_reach);
        // A row of the beam between the figures of its two edges, where there is one.
        let between = i64::from(used < request.rows);
        let top = (request.rows - used - between) / 2;
        let mut grid = request.grid();
        let mut painter = Painter { grid: &mut grid, style: request.lines };
        let mut row = top;
        for (n, pair) in self.pairs.iter().enumerate() {
            let plan = Plan { base: Base::Whole { dots: sizes.dots[n] }, reach, glass: None, rows: 0 };
            self.block(&mut painter, n, &plan, row);
            row += pair.whole_rows(reach) + ENGRAVING;
            if n == 0 {
                let paper = Paper::from(pair.lower.plate);
                painter.plate(&Area::new(Duo::cols(request), row..row + between), paper);
                row += between;
            }
        }
        if !sizes.alike {
            let engraving = row - 1;
            let middle = top + ENGRAVING + self.pairs[0].whole_rows(reach);
            let (at, len) = (if between > 0 { middle } else { engraving }, OWN_SIZE.len());
            let col = request.cols - 1 - i64::try_from(len).expect("a short text");
            if col > 3 + i64::try_from(self.engraved[1].chars().count()).expect("short texts") {
                painter.text(col, at, OWN_SIZE, Ink::Note);
            }
        }
        let Some(glass) = glass else {
            return Ok(Drawing { grid, extent: Extent::Whole, view: View::Flat, glass: None });
        };
        let (asked, dots) = (&self.pairs[self.asked], sizes.dots[self.asked]);
        let start = Duo::cols(request).start * DOTS + sizes.zero;
        let origin = asked.vernier.origin;
        let place = move |at: Quanta| start + (at - origin).0 * dots;
        asked.hold_glass(&mut painter, request, glass, row, &place, Extent::Whole);
        Ok(Drawing { grid, extent: Extent::Whole, view: View::Flat, glass: Some(glass.line) })
    }

    /// The glass over the pair that is read.
    fn glass(&self, request: &Request, sizes: &Sizes, line: i64, reach: i64) -> Result<GlassPlan, Refusal> {
        let pair = &self.pairs[self.asked];
        let cols = Duo::glass_cols(request);
        let (width, style) = (cols.end - cols.start, request.lines);
        let at = |wanted| pair.geometry.glass(width, style, wanted, sizes.dots[self.asked]);
        let dots = request.glass_dots.and_then(|dots| at(Some(dots))).or_else(|| at(None));
        let dots = dots.ok_or_else(|| request.refuse(pair.geometry.glass_cells(style) + 2, request.rows))?;
        let line = line.clamp(0, pair.last_line());
        let at = pair.vernier.items[usize::try_from(line).unwrap_or(0)].at();
        let middle = pair.geometry.glass_middle(at, width, style, dots);
        Ok(GlassPlan { dots, reach, line, middle })
    }

    /// Both as overviews, a glass over each; they are slid together.
    fn through_glasses(&self, request: &Request) -> Result<Drawing, Refusal> {
        let line = match request.glass {
            Glass::At(line) => line.clamp(0, self.pairs[self.asked].last_line()),
            Glass::IfNeeded | Glass::Forbidden => 0,
        };
        let lines = [0, 1].map(|n| if n == self.asked { line } else { self.line_beside(n, line) });
        let rows = |n: usize| {
            let pair = &self.pairs[n];
            let cols = Duo::cols(request);
            let scale = pair.geometry.overview(cols.end - cols.start, request.lines);
            let Some(scale) = scale else { return Err(pair.geometry.glass_cells(request.lines) + 2) };
            Ok(pair.least_rows_with_glass(Base::Overview { scale }))
        };
        let needs = match (rows(0), rows(1)) {
            (Ok(upper), Ok(lower)) => [upper, lower],
            (upper, lower) => {
                let cols = [upper, lower].into_iter().filter_map(Result::err).max().unwrap_or(request.cols);
                return Err(request.refuse(cols.max(request.cols + 1), request.rows));
            }
        };
        let spare = request.rows - needs[0] - needs[1] - 2 * ENGRAVING;
        if spare < 0 {
            let wider = self.whole_cols(request);
            // More columns may do where there are rows for the whole of both, and not far too few columns.
            let within_reach = wider <= 2 * request.cols;
            if request.rows >= self.rows(2) && within_reach && request.glass == Glass::IfNeeded {
                return Err(request.refuse(wider, request.rows));
            }
            return Err(request.refuse(request.cols, request.rows - spare));
        }
        let mut grid = request.grid();
        let mut painter = Painter { grid: &mut grid, style: request.lines };
        let mut plans = Vec::with_capacity(2);
        for n in [0, 1] {
            let wanted = Request { glass: Glass::At(lines[n]), dots: None, ..self.requests[n].clone() };
            plans.push(self.pairs[n].plan(&wanted, needs[n] + spare / 2)?);
        }
        let used = plans.iter().map(|plan| plan.rows + ENGRAVING).sum::<i64>();
        let mut row = (request.rows - used) / 2;
        for (n, plan) in plans.iter().enumerate() {
            self.block(&mut painter, n, plan, row);
            row += plan.rows + ENGRAVING;
        }
        Ok(Drawing { grid, extent: Extent::Slide, view: View::Flat, glass: Some(line) })
    }

    /// The line of the other vernier that is nearest to a line of the one that is read, both counted from their zeros.
    fn line_beside(&self, other: usize, line: i64) -> i64 {
        let pitch = |n: usize| self.pairs[n].vernier.pitch.map_or(1, |pitch| pitch.0);
        let (of_other, of_read) = self.ratio;
        let length = line * pitch(self.asked) * of_read;
        let per = pitch(other) * of_other;
        ((2 * length + per) / (2 * per)).clamp(0, self.pairs[other].last_line())
    }

    /// One pair from a row on, what is engraved on its slide above it or below.
    fn block(&self, painter: &mut Painter<'_>, n: usize, plan: &Plan, top: i64) {
        let (pair, request) = (&self.pairs[n], self.requests[n]);
        let (first, below) = if n == 0 { (top + ENGRAVING, 0) } else { (top, ENGRAVING) };
        pair.draw(painter, request, plan, first, below);
        let row = if n == 0 {
            painter.plate(&Area::new(Duo::cols(request), top..first), Paper::from(pair.upper.plate));
            top
        } else {
            top + pair.engraving_row(plan)
        };
        painter.text(3, row, &self.engraved[n], Ink::Engraving);
    }
}
