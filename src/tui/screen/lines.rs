//! The calibration strip: the same small vernier in each line style.

use super::below;
use crate::exact::Quanta;
use crate::instrument::Variant;
use crate::reading::pose;
use crate::render::{self, Cell, Grid, Ink, LineStyle, Marks, Paper, Request};
use crate::scene::{self, View};
use crate::tui::model::Model;
use crate::tui::theme::Theme;
use crate::tui::widget::{picture, write};
use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};
use ratatui::style::{Modifier, Style};

/// The bare scale drawn on the strip.
const SCALE: &str = "lesson-5-part";
/// Where it stands: line 2 of its vernier runs straight through.
const STANDS: i64 = 37;

/// How many lines stand on the reading edge, above and below it: what must be there to be counted.
fn lines_at_edge(grid: &Grid) -> [usize; 2] {
    let starts = |row: usize| {
        let cells = grid.row(row);
        let is_line = |cell: &Cell| cell.ink == Ink::Line && cell.glyph != ' ';
        // A bar off the cells' grid has two halves, the first of them swapped.
        cells
            .iter()
            .enumerate()
            .filter(|(n, cell)| is_line(cell) && !(*n > 0 && cells[n - 1].swapped))
            .count()
    };
    let plate = |row: &usize| grid.row(*row).iter().any(|cell| cell.paper == Paper::Moving);
    let edge = (0..grid.rows()).find(plate).unwrap_or(1);
    [starts(edge - 1), starts(edge)]
}

/// Draws the strip.
pub fn lines(model: &Model, area: Rect, buffer: &mut Buffer) -> Option<Position> {
    let inner = Rect { x: area.x + 2, width: area.width - 4, ..area };
    let bold = Style::new().add_modifier(Modifier::BOLD);
    write(buffer, inner, 0, "Which one looks right? Every line there, one straight through, no boxes.", bold);
    write(
        buffer,
        inner,
        1,
        "Type its number. The choice is kept for this terminal; l brings it back.",
        Style::new(),
    );
    let instrument = model.catalogue.get(SCALE)?;
    let pose = pose(instrument, Quanta(STANDS), Quanta::ZERO);
    let scene = scene::build(instrument, &pose, &Variant::default(), View::Flat);
    let half = inner.width / 2;
    let height = inner.height.saturating_sub(3) / 2;
    let names = ["thin lines", "bars", "one position a cell", "plain characters"];
    for (n, (style, name)) in (0_u16..).zip(LineStyle::ALL.into_iter().zip(names)) {
        let place =
            Rect { x: inner.x + n % 2 * half, width: half - 1, height, ..below(inner, 3 + n / 2 * height) };
        let now = if style == model.lines { "  (in use)" } else { "" };
        write(buffer, place, 0, &format!("{}  {name}{now}", n + 1), bold);
        let mut request = Request::new(i64::from(place.width), i64::from(height.saturating_sub(2)), style);
        let dots = if matches!(style, LineStyle::Thin | LineStyle::Bars) { 4 } else { 8 };
        request.dots = Some(dots);
        request.marks = if model.theme == Theme::Mono { Marks::Shown } else { Marks::Hidden };
        match render::draw(&scene, &request) {
            Ok(drawing) => {
                picture(buffer, below(place, 1), &drawing.grid, model.theme);
                let lines = lines_at_edge(&drawing.grid);
                let count = format!("count {} lines above, {} below", lines[0], lines[1]);
                write(buffer, place, height.saturating_sub(1), &count, Theme::quiet());
            }
            Err(refusal) => write(buffer, place, 2, &refusal.to_string(), Theme::quiet()),
        }
    }
    None
}
