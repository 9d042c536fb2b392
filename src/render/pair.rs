//! A main scale and its vernier.

use super::duo::Duo;
use super::grid::Ink;
use super::paint::Painter;
use super::{Drawing, Refusal, Request};
use crate::scene::{Scene, View};

/// Rows for what is engraved on the vernier plate.
const ENGRAVING: i64 = 1;

pub(super) fn draw(scene: &Scene, request: &Request) -> Result<Drawing, Refusal> {
    let duo = Duo::caliper(scene, request);
    let plan = duo.plan(request, request.rows - ENGRAVING)?;
    let mut grid = request.grid();
    let mut painter = Painter { grid: &mut grid, style: request.lines };
    let top = (request.rows - plan.rows - ENGRAVING) / 2;
    let (extent, glass) = duo.draw(&mut painter, request, &plan, top, ENGRAVING);
    let text = scene.engraved.join("   ");
    painter.text(3, top + duo.engraving_row(&plan), &text, Ink::Engraving);
    Ok(Drawing { grid, extent, view: View::Flat, glass })
}
