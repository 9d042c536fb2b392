//! A micrometer laid flat: the sleeve as it is, thimble and vernier unwrapped into a level strip below it.

use super::band::{Band, Facing};
use super::duo::Duo;
use super::glyphs::DOTS;
use super::grid::{Ink, Paper};
use super::paint::{Area, Painter};
use super::scale::figures_apart;
use super::sleeve::Sleeve;
use super::{Drawing, Extent, Refusal, Request};
use crate::exact::Quanta;
use crate::scene::{Scene, Track, View};

/// Draws the view laid flat.
pub(super) fn draw(scene: &Scene, request: &Request) -> Result<Drawing, Refusal> {
    draw_with(scene, request, &[])
}

/// Draws it in place of the view in the hand, and says so in a line.
pub(super) fn draw_instead(scene: &Scene, request: &Request) -> Result<Drawing, Refusal> {
    draw_with(scene, request, &["laid flat: in the hand does not fit", "laid flat"])
}

fn draw_with(scene: &Scene, request: &Request, notes: &[&str]) -> Result<Drawing, Refusal> {
    let Some(sleeve) = Sleeve::new(scene, request) else {
        return Err(request.refuse(Sleeve::needs_cols(scene, request.lines), request.rows));
    };
    let (above, below) = sleeve.rows_beside_datum();
    // The frame's band, the lines on both sides of the datum line, and its own row.
    let sleeve_rows = 1 + above + 1 + below.max(1);
    let mut grid = request.grid();
    let mut painter = Painter { grid: &mut grid, style: request.lines };
    let rest = request.rows - sleeve_rows;
    let has_vernier = scene.tracks.get(2).is_some_and(|track| track.pitch.is_some());
    let (strip_rows, duo) = if has_vernier {
        let duo = Duo::thimble(scene, request);
        let plan = duo.plan(request, rest)?;
        (plan.rows, Some((duo, plan)))
    } else {
        let rows = Unrolled::rows(request, reach(request));
        if rows > rest {
            return Err(request.refuse(request.cols, request.rows - rest + rows));
        }
        (rows, None)
    };
    let spare = rest - strip_rows;
    let gap = i64::from(spare > 0);
    let margin = i64::from(above == 0 && spare > gap);
    let top = (spare - gap - margin) / 2;
    let datum = top + 1 + margin + above;
    let strip = datum + 1 + below.max(1) + gap;
    sleeve.draw(&mut painter, request, &(top..strip - gap), datum);
    // The longest note that leaves what is stamped on the tool in view.
    let starts =
        notes.iter().map(|note| (sleeve.edge - 2 - i64::try_from(note.len()).expect("a short note"), *note));
    if let Some((start, note)) = starts.into_iter().find(|(start, _)| *start > sleeve.stamped_to()) {
        painter.text(start, top, note, Ink::Note);
    }
    let (extent, glass) = if let Some((duo, plan)) = duo {
        duo.draw(&mut painter, request, &plan, strip, 0)
    } else {
        let thimble = &scene.tracks[1];
        let view = thimble.pitch.unwrap_or_default() * 7;
        let unrolled = Unrolled {
            rim: thimble,
            rim_number: 1,
            index: &scene.tracks[2],
            index_number: 2,
            view,
            over: reach(request),
        };
        unrolled.draw(&mut painter, request, strip)?;
        (Extent::Whole, None)
    };
    Ok(Drawing { grid, extent, view: View::Flat, glass })
}

pub(super) fn reach(request: &Request) -> i64 {
    if request.rows >= 28 { 4 } else { 3 }
}

/// A thimble, a dial or a collar unrolled under its datum line, hand or index line: less than a turn of it, so that each line
/// stands there once.
pub(super) struct Unrolled<'a> {
    pub(super) rim: &'a Track,
    pub(super) rim_number: usize,
    pub(super) index: &'a Track,
    pub(super) index_number: usize,
    /// What must be in view at the least, so that it can be read.
    pub(super) view: Quanta,
    /// Rows of the index.
    pub(super) over: i64,
}

impl Unrolled<'_> {
    /// Rows that it takes.
    pub(super) fn rows(request: &Request, over: i64) -> i64 {
        over + reach(request) + 1
    }

    /// Draws it from a row on.
    pub(super) fn draw(&self, painter: &mut Painter<'_>, request: &Request, top: i64) -> Result<(), Refusal> {
        let pitch = self.rim.pitch.expect("a thimble or dial is divided").0;
        let turn = self.rim.period.expect("a thimble or dial repeats").0;
        let cols = 1..request.cols;
        let width = (cols.end - cols.start) * DOTS;
        let grain = request.lines.grain();
        let per_pitch = |length: i64| (length + pitch * grain - 1) / (pitch * grain) * grain;
        let apart = (figures_apart(self.rim) + grain - 1) / grain * grain;
        let (least, cell) = (per_pitch(request.lines.least_pitch()).max(apart), per_pitch(DOTS));
        let dots = request.dots.unwrap_or_else(|| {
            let mut dots = least.max(cell);
            while width > (turn - pitch) * dots && self.view.0 * (dots + cell) <= width {
                dots += cell;
            }
            dots
        });
        if dots < least || dots % grain != 0 || width < self.view.0 * dots {
            let needs = (self.view.0 * least.max(cell) + DOTS - 1) / DOTS + cols.start;
            return Err(request.refuse(needs, request.rows));
        }
        let reach = reach(request);
        let edge = top + self.over;
        let centre = cols.start + (cols.end - cols.start) / 2;
        let middle = centre * DOTS;
        let most = (turn - pitch) * dots / DOTS;
        let cols =
            if most < cols.end - cols.start { centre - most / 2..centre + (most + 1) / 2 } else { cols };
        let place = move |at: Quanta| middle + at.0 * dots;
        painter.plate(&Area::new(cols.clone(), top..edge), Paper::Fixed);
        painter.plate(&Area::new(cols.clone(), edge..edge + reach + 1), Paper::Moving);
        for (track, number, facing, reach) in [
            (self.index, self.index_number, Facing::Above, self.over),
            (self.rim, self.rim_number, Facing::Below, reach),
        ] {
            let lit = request.lit.iter().filter(|lit| lit.track == number).map(|lit| lit.at).collect();
            let band = Band {
                track,
                facing,
                edge,
                reach,
                cols: cols.clone(),
                figure_cols: cols.clone(),
                datum: false,
                lit,
            };
            band.draw(painter, &place);
        }
        painter.edge_marks(request.marks, edge);
        Ok(())
    }
}
