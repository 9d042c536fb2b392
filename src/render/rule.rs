//! A rule laid along the work: one scale, read at the work's end.

use super::band::{Band, Facing};
use super::glyphs::DOTS;
use super::grid::{Ink, Paper};
use super::paint::{Area, Painter};
use super::scale::figures_apart;
use super::{Drawing, Extent, Refusal, Request};
use crate::exact::Quanta;
use crate::scene::{Scene, View};

/// Rows of the work above the rule.
const WORK: i64 = 3;
/// Rows for what is engraved.
const ENGRAVING: i64 = 1;

pub(super) fn draw(scene: &Scene, request: &Request) -> Result<Drawing, Refusal> {
    let (rule, work) = (&scene.tracks[0], &scene.tracks[1]);
    let figures = Band::figure_rows(rule);
    let lengths = i64::try_from(rule.lengths).expect("at most seven lengths");
    let spare = request.rows - WORK - figures - ENGRAVING;
    let reach = lengths.max(3).min(spare);
    let pitch = rule.pitch.expect("a rule is divided").0;
    let least = ((request.lines.least_pitch() + pitch - 1) / pitch).max(figures_apart(rule));
    let grain = request.lines.grain();
    let least = (least + grain - 1) / grain * grain;
    let dots = request.dots.unwrap_or(least);
    let cols = 1..request.cols;
    let width = (cols.end - cols.start) * DOTS;
    let spacing = rule.widest_gap().map_or(0, |gap| gap.0);
    let needs = (spacing * least + 4 * DOTS) / DOTS + cols.start;
    if dots < least || dots % grain != 0 || spacing * dots + 4 * DOTS > width || reach < lengths.min(4) {
        return Err(request.refuse(needs, WORK + figures + ENGRAVING + lengths.min(4)));
    }
    let mut grid = request.grid();
    let mut painter = Painter { grid: &mut grid, style: request.lines };
    let top = (request.rows - WORK - reach - figures - ENGRAVING) / 2;
    let edge = top + WORK;
    let start = cols.start * DOTS;
    // The work's end stands two thirds across, or further left where the rule's own end is in view.
    let end = (work.origin.0 * dots + DOTS).min(width * 2 / 3 / DOTS * DOTS);
    let place = move |at: Quanta| start + end + (at - work.origin).0 * dots;
    let rule_start = place(Quanta::ZERO).div_euclid(DOTS).max(cols.start);
    let length = rule.items.last().map_or(Quanta::ZERO, crate::scene::Item::at);
    let rule_end = (place(length).div_euclid(DOTS) + 2).min(cols.end);
    let below = edge + reach + figures + ENGRAVING;
    painter.plate(&Area::new(rule_start..rule_end, edge..below), Paper::Fixed);
    let work_end = place(work.origin);
    painter.plate(&Area::new(rule_start..work_end.div_euclid(DOTS), top..edge), Paper::Work);
    let ink = |track: usize, at: Quanta| {
        let lit = request.lit.iter().any(|lit| lit.track == track && lit.at == at);
        if lit { Ink::Lit } else { Ink::Line }
    };
    painter.upright(work_end, &Area::new(cols.clone(), top..edge), ink(1, Quanta::ZERO));
    let band = Band {
        track: rule,
        facing: Facing::Below,
        edge,
        reach,
        cols: rule_start..cols.end,
        figure_cols: rule_start..cols.end,
        datum: false,
        lit: request.lit.iter().filter(|lit| lit.track == 0).map(|lit| lit.at).collect(),
    };
    band.draw(&mut painter, &place);
    painter.text(rule_start + 2, below - 1, &scene.engraved.join("   "), Ink::Engraving);
    painter.edge_marks(request.marks, edge);
    Ok(Drawing { grid, extent: Extent::Whole, view: View::Flat, glass: None })
}
