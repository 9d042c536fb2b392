//! A grid of cells, without a terminal.

use crate::scene::Plate;

/// What a cell lies on.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Paper {
    /// Nothing: the terminal's own background.
    #[default]
    Bench,
    /// The plate that stands still.
    Fixed,
    /// The plate that moves.
    Moving,
    /// The frame of the tool.
    Frame,
    /// The work that is measured.
    Work,
}

impl From<Plate> for Paper {
    fn from(plate: Plate) -> Self {
        match plate {
            Plate::Fixed => Self::Fixed,
            Plate::Moving => Self::Moving,
        }
    }
}

/// What is drawn in a cell.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Ink {
    /// A graduation, an index, a datum line.
    #[default]
    Line,
    /// A figure of a scale.
    Figure,
    /// A large figure: whole units on a scale that figures parts as well.
    LargeFigure,
    /// Text engraved on the tool.
    Engraving,
    /// Words and frames that are not on the tool.
    Note,
    /// A line that the explanation points at.
    Lit,
    /// The sign that points at it, or its figure.
    Pointer,
}

/// One cell.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Cell {
    /// The glyph.
    pub glyph: char,
    /// What it lies on.
    pub paper: Paper,
    /// What it is.
    pub ink: Ink,
    /// Ink and paper change places (half of a bar).
    pub swapped: bool,
}

impl Default for Cell {
    fn default() -> Self {
        Self { glyph: ' ', paper: Paper::Bench, ink: Ink::Line, swapped: false }
    }
}

/// A rectangle of cells.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Grid {
    cols: usize,
    rows: usize,
    cells: Vec<Cell>,
}

impl Grid {
    /// An empty grid.
    pub fn new(cols: usize, rows: usize) -> Self {
        Self { cols, rows, cells: vec![Cell::default(); cols * rows] }
    }

    /// Its width in cells.
    pub fn cols(&self) -> usize {
        self.cols
    }

    /// Its height in cells.
    pub fn rows(&self) -> usize {
        self.rows
    }

    /// The cells of a row, left to right.
    pub fn row(&self, row: usize) -> &[Cell] {
        &self.cells[row * self.cols..(row + 1) * self.cols]
    }

    /// The cell at a place, if it is in the grid.
    pub(super) fn at(&mut self, col: i64, row: i64) -> Option<&mut Cell> {
        let (col, row) = (usize::try_from(col).ok()?, usize::try_from(row).ok()?);
        (col < self.cols && row < self.rows).then(|| &mut self.cells[row * self.cols + col])
    }
}
