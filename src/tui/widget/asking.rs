//! Parts of a screen on which something is asked.

use super::picture::write;
use crate::render::{Cell, Drawing, Grid, Ink};
use crate::tui::theme::Theme;
use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};
use ratatui::style::{Modifier, Style};

/// The blank rows above and below what is drawn.
pub fn blank_rows(grid: &Grid) -> (u16, u16) {
    let blank = |row: &usize| grid.row(*row).iter().all(|cell| *cell == Cell::default());
    let above = (0..grid.rows()).take_while(blank).count();
    let below = (above..grid.rows()).rev().take_while(blank).count();
    (u16::try_from(above).unwrap_or(0), u16::try_from(below).unwrap_or(0))
}

/// What the sign on the picture says where a figure is out of view.
pub fn figure_out_of_view(drawing: &Drawing) -> Option<&'static str> {
    let grid = &drawing.grid;
    let shows = |sign: char| {
        let is_sign = |cell: &Cell| cell.glyph == sign && cell.ink == Ink::Figure;
        (0..grid.rows()).any(|row| grid.row(row).iter().any(is_sign))
    };
    let out_of_view = [
        (
            '\u{2039}',
            "20\u{2039}3 at the left end: figure 20 is further left, the first line in view comes third after it",
        ),
        (
            '\u{203a}',
            "3\u{203a}2 at the right end: figure 2 is further right, the first line in view comes third after it",
        ),
        (
            '\u{25be}',
            "20\u{25be}3 at the foot: figure 20 is further down, the lowest line in view comes third after it",
        ),
    ];
    out_of_view.into_iter().find(|(sign, _)| shows(*sign)).map(|(_, word)| word)
}

/// A quiet word at the right end of a row.
pub fn at_right(word: &str, area: Rect, row: u16, buffer: &mut Buffer) {
    let width = u16::try_from(word.chars().count()).unwrap_or(0).min(area.width);
    let right = Rect { x: area.x + area.width - width, width, ..area };
    write(buffer, right, row, word, Theme::quiet());
}

/// The answer field on the second row; returns where the cursor stands.
pub fn field(label: &str, typed: &str, area: Rect, buffer: &mut Buffer) -> Position {
    write(buffer, area, 1, label, Style::new().add_modifier(Modifier::BOLD));
    let start = u16::try_from(label.len()).unwrap_or(0);
    let rest = Rect { x: area.x + start, width: area.width - start, ..area };
    write(buffer, rest, 1, typed, Style::new());
    let len = u16::try_from(typed.chars().count()).unwrap_or(0);
    Position { x: (rest.x + len).min(rest.x + rest.width - 1), y: area.y + 1 }
}

/// How many lines of a list are out of view.
pub fn more(lines: usize, where_to: &str, area: Rect, buffer: &mut Buffer) {
    if lines > 0 {
        at_right(&format!("{lines} more {where_to} "), area, 0, buffer);
    }
}
