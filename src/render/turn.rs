//! A picture of a tool that is held the other way round: the cells turned by half a turn, figures and words left as they are read.
//!
//! Every line keeps its place to the dot, because each glyph has a partner that is the same half a turn round. A text takes the
//! place of its turned cells, its characters in their order; a figure out of view changes sides: `20‹3` becomes `3›20`.

use super::glyphs::{LineStyle, Mark};
use super::grid::{Cell, Grid, Ink};

/// Signs and frames with their partners half a turn round.
const PARTNERS: [(char, char); 12] = [
    ('\u{250c}', '\u{2518}'),
    ('\u{2510}', '\u{2514}'),
    ('\u{2191}', '\u{2193}'),
    ('\u{2190}', '\u{2192}'),
    ('\u{2039}', '\u{203a}'),
    ('<', '>'),
    ('v', '^'),
    ('.', '\''),
    ('`', ','),
    ('\u{2500}', '\u{2500}'),
    ('\u{2502}', '\u{2502}'),
    ('+', '+'),
];

/// The grid turned by half a turn.
pub(super) fn turned(grid: &Grid, style: LineStyle) -> Grid {
    let mut out = Grid::new(grid.cols(), grid.rows());
    for row in 0..grid.rows() {
        let cells = turned_row(grid.row(row), style);
        let to = grid.rows() - 1 - row;
        for (col, cell) in cells.into_iter().enumerate() {
            let place = i64::try_from(col).ok().zip(i64::try_from(to).ok());
            if let Some(slot) = place.and_then(|(col, row)| out.at(col, row)) {
                *slot = cell;
            }
        }
    }
    out
}

fn turned_row(row: &[Cell], style: LineStyle) -> Vec<Cell> {
    let mut cells: Vec<Cell> = row.iter().rev().map(|cell| turned_cell(*cell, style)).collect();
    // Texts, back in their own order.
    let mut at = 0;
    while at < cells.len() {
        let ink = cells[at].ink;
        let end =
            (at..cells.len()).find(|n| !is_text(cells[*n]) || cells[*n].ink != ink).unwrap_or(cells.len());
        if end > at {
            if matches!(ink, Ink::Figure | Ink::LargeFigure | Ink::Pointer) {
                figure_in_order(&mut cells[at..end]);
            } else {
                cells[at..end].reverse();
            }
            at = end;
        } else {
            at += 1;
        }
    }
    cells
}

/// Puts a figure back in its order; what stands on the two sides of a sign changes places, each in its own order.
fn figure_in_order(text: &mut [Cell]) {
    for part in text.split_mut(|cell| matches!(cell.glyph, '\u{2039}' | '\u{203a}' | '<' | '>')) {
        part.reverse();
    }
}

/// True for a character of a figure or a word, false for lines, frames and signs.
fn is_text(cell: Cell) -> bool {
    match cell.ink {
        Ink::Line | Ink::Lit => false,
        Ink::Figure | Ink::LargeFigure | Ink::Engraving => true,
        Ink::Pointer => {
            cell.glyph.is_ascii_digit() || matches!(cell.glyph, '\u{2039}' | '\u{203a}' | '<' | '>')
        }
        Ink::Note => {
            cell.glyph == ' ' || cell.glyph.is_ascii_alphanumeric() || matches!(cell.glyph, ':' | '/')
        }
    }
}

fn turned_cell(cell: Cell, style: LineStyle) -> Cell {
    let (glyph, swapped) = match cell.ink {
        Ink::Line | Ink::Lit => line((cell.glyph, cell.swapped), style),
        Ink::Engraving => (cell.glyph, cell.swapped),
        Ink::Note if cell.glyph.is_ascii_alphanumeric() => (cell.glyph, cell.swapped),
        Ink::Figure | Ink::LargeFigure | Ink::Note | Ink::Pointer => (partner(cell.glyph), cell.swapped),
    };
    Cell { glyph, swapped, ..cell }
}

fn partner(glyph: char) -> char {
    let other = PARTNERS.iter().find_map(|(a, b)| match glyph {
        c if c == *a => Some(*b),
        c if c == *b => Some(*a),
        _ => None,
    });
    other.unwrap_or(glyph)
}

/// A glyph of a line. A dot of eight becomes the dot as far from the other side; of a bar, what was ink on the left is ink on
/// the right.
fn line((glyph, swapped): Mark, style: LineStyle) -> Mark {
    let code = u32::from(glyph);
    let glyph_of = |code: u32| char::from_u32(code).unwrap_or(glyph);
    match (style, code) {
        (LineStyle::Thin, 0x258f) => ('\u{2595}', swapped),
        (LineStyle::Thin, 0x2595) => ('\u{258f}', swapped),
        (LineStyle::Thin, 0x2594) => ('\u{2581}', swapped),
        (LineStyle::Thin, 0x2581) => ('\u{2594}', swapped),
        (LineStyle::Thin, 0x1fb70..=0x1fb75) => (glyph_of(0x1fb70 + 0x1fb75 - code), swapped),
        (LineStyle::Thin, 0x1fb76..=0x1fb7b) => (glyph_of(0x1fb76 + 0x1fb7b - code), swapped),
        // Seven eighths from the left to one, from below seven to one; the paper is where the ink was.
        (LineStyle::Bars, 0x2589..=0x258f) => (glyph_of(0x2589 + 0x258f - code), !swapped),
        (LineStyle::Bars, 0x2581..=0x2587) => (glyph_of(0x2581 + 0x2587 - code), !swapped),
        _ => (glyph, swapped),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::render::glyphs::DOTS;
    use crate::render::paint::{Area, Painter};

    /// A line at a dot, turned, is the line at the dot as far from the other end; all phases, both ways, all styles.
    #[test]
    fn a_line_keeps_its_place_to_the_dot() {
        for style in LineStyle::ALL {
            for dot in (0..3 * DOTS).step_by(usize::try_from(style.grain()).expect("positive")) {
                let draw = |dot: i64, upright: bool| {
                    let mut grid = Grid::new(4, 4);
                    let mut painter = Painter { grid: &mut grid, style };
                    let area = Area::new(0..4, 0..4);
                    let drawn = if upright {
                        painter.upright(dot, &area, Ink::Line)
                    } else {
                        painter.level(dot, &area, Ink::Line)
                    };
                    (drawn, grid)
                };
                for upright in [true, false] {
                    let (drawn, grid) = draw(dot, upright);
                    let (drawn_there, there) = draw(4 * DOTS - style.line_width() - dot, upright);
                    assert!(drawn && drawn_there, "{style:?} {dot}");
                    assert_eq!(turned(&grid, style), there, "{style:?} {dot} {upright}");
                    assert_eq!(turned(&turned(&grid, style), style), grid, "{style:?} {dot} {upright}");
                }
            }
        }
    }

    #[test]
    fn texts_stay_readable() {
        let mut grid = Grid::new(20, 2);
        let mut painter = Painter { grid: &mut grid, style: LineStyle::Thin };
        painter.text(1, 0, "20\u{2039}3", Ink::Figure);
        painter.text(8, 0, "0-150 mm", Ink::Engraving);
        painter.text(2, 1, "\u{250c}\u{2500} glass: slide \u{2500}", Ink::Note);
        let lines = super::super::text::lines(&turned(&grid, LineStyle::Thin));
        assert_eq!(lines, [" \u{2500} glass: slide \u{2500}\u{2518}", "    0-150 mm   3\u{203a}20"]);
    }
}
