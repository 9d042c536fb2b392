//! A micrometer in the hand: sleeve across, thimble upright, its figures growing upward, on a reversed one downward.

use super::band::{figure_ink, line_rows};
use super::glyphs::{DOTS, LineStyle};
use super::grid::Ink;
use super::paint::{Area, Painter, middle_cell};
use super::sleeve::{Sleeve, VERNIER_LINES};
use super::{Drawing, Extent, Refusal, Request, flat};
use crate::exact::Quanta;
use crate::scene::{Item, Scene, Track, View};
use std::ops::Range;

/// Cells of the longest thimble line.
const LONGEST: i64 = 4;
/// The largest scale used upright, in rows per quantum or thimble division.
const LARGEST: i64 = 3;

/// Draws the view in the hand, or the one laid flat with a word about it where the size does not allow it.
pub(super) fn draw(scene: &Scene, request: &Request) -> Result<Drawing, Refusal> {
    let Some(sleeve) = Sleeve::new(scene, request) else {
        return Err(request.refuse(Sleeve::needs_cols(scene, request.lines), request.rows));
    };
    let (above, below) = sleeve.rows_beside_datum();
    let phase = sleeve.datum_phase(request.lines);
    let vernier = scene.tracks.get(2).filter(|track| track.pitch.is_some());
    let plan = match vernier {
        Some(vernier) => with_vernier(&scene.tracks[1], vernier, request, below, phase),
        None => plain(&scene.tracks[1], request, above, below),
    };
    let Some(plan) = plan else {
        return flat::draw_instead(scene, request);
    };
    let mut grid = request.grid();
    let mut painter = Painter { grid: &mut grid, style: request.lines };
    let rows = 0..request.rows;
    sleeve.draw(&mut painter, request, &rows, plan.datum);
    let datum_dot = plan.datum * DOTS + phase;
    let lit = |track: usize, at: Quanta| {
        let lit = request.lit.iter().any(|lit| lit.track == track && lit.at == at);
        if lit { Ink::Lit } else { Ink::Line }
    };
    if let Some(vernier) = vernier {
        let area = |row: i64| Area::new(VERNIER_LINES..sleeve.edge, 1..row.max(plan.datum + 1));
        for item in &vernier.items {
            let Item::Graduation { at, figure, .. } = item else { continue };
            let dot = datum_dot - at.0 * plan.dots;
            painter.level(dot, &area(plan.datum + 1), lit(2, *at));
            if let Some(figure) = figure {
                let row = middle_cell(dot, request.lines);
                let ink = if lit(2, *at) == Ink::Lit { Ink::Pointer } else { figure_ink(figure.size) };
                painter.text(sleeve.cols.start, row, &figure.number.to_string(), ink);
            }
        }
    }
    thimble(
        &mut painter,
        &scene.tracks[1],
        sleeve.edge,
        &(1..request.rows),
        |place| datum_dot - place.0 * plan.dots,
        lit,
    );
    Ok(Drawing { grid, extent: Extent::Whole, view: View::Held, glass: None })
}

struct Plan {
    dots: i64,
    datum: i64,
}

/// A thimble read by the nearest line: whole rows per division, eleven lines in view where the height allows it.
fn plain(thimble: &Track, request: &Request, above: i64, below: i64) -> Option<Plan> {
    let pitch = thimble.pitch?.0;
    let rows = request.rows - 1;
    let least = (request.lines.least_pitch() + pitch - 1) / pitch;
    let figure = figures(thimble);
    let fits = |dots: i64, lines: i64| {
        (dots * pitch * lines).max(figure * dots + DOTS) <= rows * DOTS && dots % request.lines.grain() == 0
    };
    let dots = match request.dots {
        Some(dots) => Some(dots).filter(|dots| *dots >= least && fits(*dots, 7)),
        None => (1..=LARGEST)
            .rev()
            .map(|rows| rows * DOTS / pitch.min(rows * DOTS))
            .find(|dots| *dots >= least && fits(*dots, 11))
            .or_else(|| Some(least).filter(|least| fits(*least, 7))),
    }?;
    let datum = 1 + (rows - 1).max(0) / 2;
    (datum > above && datum + below < request.rows).then_some(Plan { dots, datum })
}

/// A thimble read against a vernier: whole dots per quantum, all of the vernier above the datum line.
fn with_vernier(thimble: &Track, vernier: &Track, request: &Request, below: i64, phase: i64) -> Option<Plan> {
    if matches!(request.lines, LineStyle::Cell | LineStyle::Ascii) {
        return None;
    }
    let pitch = thimble.pitch?.0.min(vernier.pitch?.0);
    let length = vernier.items.last()?.at().0;
    let least =
        ((request.lines.least_pitch() + pitch - 1) / pitch).max(if request.small_cells { 4 } else { 1 });
    // The thimble line last passed is in view as well: it stands up to a division less one below the datum line.
    let passed = thimble.pitch?.0 - 1;
    let below = |dots: i64| below.max((phase + passed * dots + request.lines.line_width() - 1) / DOTS);
    let figure = figures(thimble);
    let figured = |dots: i64| (figure * dots + DOTS - 1) / DOTS + 2;
    let needs = |dots: i64| (2 + rows_above(length * dots, phase) + below(dots)).max(figured(dots));
    let dots = match request.dots {
        Some(dots) => Some(dots).filter(|dots| *dots >= least && needs(*dots) <= request.rows),
        None => (least..=least + LARGEST).rev().find(|dots| needs(*dots) <= request.rows),
    }?;
    let spare = request.rows - 2 - rows_above(length * dots, phase) - below(dots);
    Some(Plan { dots, datum: 1 + rows_above(length * dots, phase) + spare / 2 })
}

/// The widest gap from figure to figure on a thimble: so much of it in view shows one.
fn figures(thimble: &Track) -> i64 {
    thimble.widest_gap().map_or(0, |gap| gap.0)
}

/// Rows above the datum's own row that a length of dots above the datum line reaches into.
fn rows_above(length: i64, phase: i64) -> i64 {
    (length - phase + DOTS - 1) / DOTS
}

fn thimble(
    painter: &mut Painter<'_>,
    track: &Track,
    edge: i64,
    rows: &Range<i64>,
    down: impl Fn(Quanta) -> i64,
    lit: impl Fn(usize, Quanta) -> Ink,
) {
    let period = track.period.unwrap_or_default();
    for turn in -1..=2 {
        for item in &track.items {
            let Item::Graduation { at, tier, figure, .. } = item else { continue };
            let dot = down(track.place(*at + period * turn));
            let cells = line_rows(*tier, track.lengths, LONGEST);
            if !painter.level(dot, &Area::new(edge..edge + cells, rows.clone()), lit(1, *at)) {
                continue;
            }
            let is_lit = lit(1, *at) == Ink::Lit;
            let row = middle_cell(dot, painter.style);
            if let Some(figure) = figure {
                let ink = if is_lit { Ink::Pointer } else { figure_ink(figure.size) };
                painter.text(edge + LONGEST + 1, row, &figure.number.to_string(), ink);
            } else if is_lit {
                let [.., from_right] = painter.style.signs().pointers;
                painter.text(edge + cells, row, &from_right.to_string(), Ink::Pointer);
            }
        }
    }
}
