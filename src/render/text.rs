//! A grid as lines of text, one character a cell.

use super::grid::{Cell, Grid};

/// The lines of a grid, trailing space cut. Halves of bars that need ink and paper swapped are put between the codes for
/// reverse video on and off; nothing else is ever written.
pub fn lines(grid: &Grid) -> Vec<String> {
    (0..grid.rows()).map(|row| line(grid.row(row))).collect()
}

fn line(cells: &[Cell]) -> String {
    let used = cells.iter().rposition(|cell| cell.glyph != ' ' || cell.swapped).map_or(0, |last| last + 1);
    let mut line = String::with_capacity(used + 8);
    let mut swapped = false;
    for cell in &cells[..used] {
        if cell.swapped != swapped {
            line.push_str(if cell.swapped { "\u{1b}[7m" } else { "\u{1b}[27m" });
            swapped = cell.swapped;
        }
        line.push(cell.glyph);
    }
    if swapped {
        line.push_str("\u{1b}[27m");
    }
    line
}
