//! A grid of cells put into the terminal's buffer. The only place that sets symbols unchecked.

use crate::render::Grid;
use crate::tui::theme::Theme;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::Style;

/// Puts a picture into an area.
pub fn picture(buffer: &mut Buffer, area: Rect, grid: &Grid, theme: Theme) {
    picture_from(buffer, area, grid, 0, theme);
}

/// Puts a picture without its first rows into an area.
pub fn picture_from(buffer: &mut Buffer, area: Rect, grid: &Grid, from: usize, theme: Theme) {
    for (y, row) in (area.y..area.y.saturating_add(area.height)).zip(from..grid.rows()) {
        for (x, cell) in (area.x..area.x.saturating_add(area.width)).zip(grid.row(row)) {
            if let Some(target) = buffer.cell_mut((x, y)) {
                target.set_char(cell.glyph).set_style(theme.cell(cell));
            }
        }
    }
}

/// Writes a text on one row, cut at the area's right side. Control and bidirectional characters are not written.
pub fn write(buffer: &mut Buffer, area: Rect, row: u16, text: &str, style: Style) {
    if row >= area.height || area.width == 0 {
        return;
    }
    let clean: String = text.chars().map(|c| if is_hostile(c) { '\u{fffd}' } else { c }).collect();
    buffer.set_stringn(area.x, area.y + row, clean, usize::from(area.width), style);
}

fn is_hostile(c: char) -> bool {
    c.is_control()
        || matches!(c, '\u{200b}'..='\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2060}'..='\u{206f}' | '\u{61c}' | '\u{feff}')
        || ('\u{e0000}'..='\u{e007f}').contains(&c)
}
