//! A main scale and its vernier.

use super::duo::Duo;
use super::grid::Ink;
use super::paint::Painter;
use super::{Drawing, Refusal, Request};
use crate::scene::{Scene, View};

/// Rows for what is engraved on the vernier plate.
const ENGRAVING: i64 = 1;

/// Draws the two level scales.
pub(super) fn draw(scene: &Scene, request: &Request) -> Result<Drawing, Refusal> {
    draw_with(scene, request, "")
}

/// Draws them in place of the view in the hand, and says so in a line.
pub(super) fn draw_instead(scene: &Scene, request: &Request) -> Result<Drawing, Refusal> {
    draw_with(scene, request, "laid flat: upright does not fit")
}

fn draw_with(scene: &Scene, request: &Request, note: &str) -> Result<Drawing, Refusal> {
    let duo = Duo::caliper(scene, request);
    let plan = duo.plan(request, request.rows - ENGRAVING)?;
    let mut grid = request.grid();
    let mut painter = Painter { grid: &mut grid, style: request.lines };
    let top = (request.rows - plan.rows - ENGRAVING) / 2;
    let (extent, glass) = duo.draw(&mut painter, request, &plan, top, ENGRAVING);
    let text = scene.engraved.join("   ");
    let row = top + duo.engraving_row(&plan);
    painter.text(3, row, &text, Ink::Engraving);
    let cells = |text: &str| i64::try_from(text.chars().count()).expect("short texts");
    let col = (request.cols - 1 - cells(note)).max(3 + cells(&text) + 3);
    painter.text(col, row, note, Ink::Note);
    Ok(Drawing { grid, extent, view: View::Flat, glass })
}
