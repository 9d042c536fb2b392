//! A disc read at an index line: unrolled around the line, which stands in the middle whatever is read.

use super::band::{Band, Facing};
use super::flat;
use super::glyphs::DOTS;
use super::grid::Ink;
use super::paint::{Area, Painter};
use super::{Drawing, Extent, Refusal, Request};
use crate::exact::Quanta;
use crate::instrument::NumeralSize;
use crate::scene::{Scene, View};

/// Rows for what is engraved below the index line.
const ENGRAVING: i64 = 1;

pub(super) fn draw(scene: &Scene, request: &Request) -> Result<Drawing, Refusal> {
    let (disc, index) = (&scene.tracks[0], &scene.tracks[1]);
    let pitch = disc.pitch.expect("a disc is divided").0;
    let cols = 1..request.cols;
    let width = (cols.end - cols.start) * DOTS;
    let grain = request.lines.grain();
    let per_pitch = |length: i64| (length + pitch * grain - 1) / (pitch * grain) * grain;
    let (least, cell) = (per_pitch(request.lines.least_pitch()), per_pitch(DOTS));
    // Two figures are always in view: on a disc figured both ways they tell which way it is read.
    let spacing = disc.figure_spacing(NumeralSize::Small).unwrap_or_default();
    let view = spacing * 2 + Quanta(pitch * 3);
    let figures = Band::figure_rows(disc);
    let reach = flat::reach(request);
    let over = reach - 1;
    let needs_rows = figures + reach + over + ENGRAVING;
    let dots = request.dots.unwrap_or_else(|| {
        let more = ((width / view.0 - least) / cell).max(0);
        least + more * cell
    });
    if dots < least || dots % grain != 0 || width < view.0 * dots || request.rows < needs_rows {
        let needs = (view.0 * least + DOTS - 1) / DOTS + cols.start;
        return Err(request.refuse(needs, needs_rows));
    }
    let mut grid = request.grid();
    let mut painter = Painter { grid: &mut grid, style: request.lines };
    let top = (request.rows - needs_rows) / 2;
    let edge = top + figures + reach;
    let middle = (cols.start + (cols.end - cols.start) / 2) * DOTS;
    let place = |at: Quanta| middle + (at - index.origin).0 * dots;
    painter.plate(&Area::new(cols.clone(), top..edge), disc.plate.into());
    painter.plate(&Area::new(cols.clone(), edge..edge + over + ENGRAVING), index.plate.into());
    for (number, track, facing, reach) in [(0, disc, Facing::Above, reach), (1, index, Facing::Below, over)] {
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
        band.draw(&mut painter, &place);
    }
    painter.text(cols.start + 2, edge + over, &scene.engraved.join("   "), Ink::Engraving);
    painter.edge_marks(request.marks, edge);
    Ok(Drawing { grid, extent: Extent::Whole, view: View::Flat, glass: None })
}
