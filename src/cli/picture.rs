//! A grid as lines for the standard output: in colours on a terminal, else one character a cell.

use super::args::{Common, Theme};
use super::terminal;
use crate::render::{Cell, Grid, Ink, LineStyle, Marks, Paper, text};
use std::fmt::Write as _;

/// How pictures are written.
#[derive(Clone, Copy, Debug)]
pub struct Look {
    /// The line style.
    pub lines: LineStyle,
    palette: Option<&'static Palette>,
}

/// Indexed colours of the plates and of the ink on them.
#[derive(Debug)]
struct Palette {
    fixed: u8,
    moving: u8,
    frame: u8,
    work: u8,
    ink: u8,
}

static STEEL: Palette = Palette { fixed: 254, moving: 251, frame: 249, work: 110, ink: 16 };
static DARK: Palette = Palette { fixed: 235, moving: 238, frame: 236, work: 24, ink: 231 };
static HIGH_CONTRAST: Palette = Palette { fixed: 231, moving: 253, frame: 255, work: 117, ink: 16 };

impl Look {
    /// The look on the standard output.
    pub fn on_standard_output(common: &Common) -> Self {
        let terminal = terminal::terminal();
        let (lines, _) = terminal::line_style(common, &terminal);
        let coloured =
            terminal.is_terminal && !common.plain && !terminal::no_color() && terminal.term != "dumb";
        let palette = match common.theme {
            _ if !coloured => None,
            Theme::Mono => None,
            Theme::Auto | Theme::Steel => Some(&STEEL),
            Theme::Dark => Some(&DARK),
            Theme::HighContrast => Some(&HIGH_CONTRAST),
        };
        Self { lines, palette }
    }

    /// The look in a file.
    pub fn in_a_file(common: &Common) -> Self {
        Self { lines: common.lines.unwrap_or(LineStyle::Ascii), palette: None }
    }

    /// Whether signs tell where a reading edge is: only where no colour does.
    pub fn marks(&self) -> Marks {
        if self.palette.is_some() { Marks::Hidden } else { Marks::Shown }
    }

    /// The lines of a grid, as many as it has rows.
    pub fn rows(&self, grid: &Grid) -> Vec<String> {
        match self.palette {
            None => text::lines(grid),
            Some(palette) => (0..grid.rows()).map(|row| palette.line(grid.row(row))).collect(),
        }
    }
}

impl Palette {
    fn line(&self, cells: &[Cell]) -> String {
        let blank = |cell: &Cell| cell.glyph == ' ' && cell.paper == Paper::Bench && !cell.swapped;
        let used = cells.iter().rposition(|cell| !blank(cell)).map_or(0, |last| last + 1);
        let mut line = String::with_capacity(used * 2 + 32);
        let mut now = String::new();
        for cell in &cells[..used] {
            let wanted = self.codes(*cell);
            if wanted != now {
                let _ = write!(line, "\u{1b}[0{wanted}m");
                now = wanted;
            }
            line.push(cell.glyph);
        }
        if !now.is_empty() {
            line.push_str("\u{1b}[0m");
        }
        line
    }

    /// What follows a reset; empty for the terminal's own colours.
    fn codes(&self, cell: Cell) -> String {
        let paper = match cell.paper {
            Paper::Bench => None,
            Paper::Fixed => Some(self.fixed),
            Paper::Moving => Some(self.moving),
            Paper::Frame => Some(self.frame),
            Paper::Work => Some(self.work),
        };
        let mut codes = String::new();
        if matches!(cell.ink, Ink::LargeFigure | Ink::Lit) && cell.glyph != ' ' {
            codes.push_str(";1");
        }
        if cell.swapped {
            codes.push_str(";7");
        }
        if let Some(paper) = paper {
            let _ = write!(codes, ";38;5;{};48;5;{paper}", self.ink);
        }
        codes
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn codes_change_only_where_cells_do() {
        let plain = Cell::default();
        let plate = Cell { glyph: '|', paper: Paper::Fixed, ..plain };
        let swapped = Cell { glyph: '\u{258c}', swapped: true, ..plate };
        let line = STEEL.line(&[plain, plate, plate, swapped, plain, plain]);
        assert_eq!(line, " \u{1b}[0;38;5;16;48;5;254m||\u{1b}[0;7;38;5;16;48;5;254m\u{258c}\u{1b}[0m");
        assert_eq!(STEEL.line(&[plain, plain]), "");
    }
}
