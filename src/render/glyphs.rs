//! The four line styles and their glyphs. A position is a number of dots, an eighth of a cell each.

/// Dots in a cell, across or down.
pub const DOTS: i64 = 8;

/// How lines are drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum LineStyle {
    /// One-eighth lines; only where the terminal draws them itself.
    Thin,
    /// Bars one cell wide, placed to an eighth; made of block elements every font has.
    Bars,
    /// Box-drawing lines, one position a cell.
    Cell,
    /// `|` and `-`, one position a cell.
    Ascii,
}

/// A glyph, and whether ink and paper change places in it.
pub type Mark = (char, bool);

const THIN_UPRIGHT: [char; 8] =
    ['\u{258f}', '\u{1fb70}', '\u{1fb71}', '\u{1fb72}', '\u{1fb73}', '\u{1fb74}', '\u{1fb75}', '\u{2595}'];
const THIN_LEVEL: [char; 8] =
    ['\u{2594}', '\u{1fb76}', '\u{1fb77}', '\u{1fb78}', '\u{1fb79}', '\u{1fb7a}', '\u{1fb7b}', '\u{2581}'];
/// Ink on the left k eighths.
const LEFT: [char; 9] =
    [' ', '\u{258f}', '\u{258e}', '\u{258d}', '\u{258c}', '\u{258b}', '\u{258a}', '\u{2589}', '\u{2588}'];
/// Ink on the lower k eighths.
const LOWER: [char; 9] =
    [' ', '\u{2581}', '\u{2582}', '\u{2583}', '\u{2584}', '\u{2585}', '\u{2586}', '\u{2587}', '\u{2588}'];

impl LineStyle {
    /// All, from the finest to the plainest.
    pub const ALL: [Self; 4] = [Self::Thin, Self::Bars, Self::Cell, Self::Ascii];

    /// The word used in options, settings and records.
    pub fn word(self) -> &'static str {
        match self {
            Self::Thin => "thin",
            Self::Bars => "bars",
            Self::Cell => "cell",
            Self::Ascii => "ascii",
        }
    }

    /// Reads the word.
    pub fn from_word(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|style| style.word() == word)
    }

    /// How many dots a line is wide.
    pub fn line_width(self) -> i64 {
        match self {
            Self::Thin => 1,
            Self::Bars | Self::Cell | Self::Ascii => DOTS,
        }
    }

    /// How many dots two lines of one scale must at least stand apart, so that they never share a cell.
    pub fn least_pitch(self) -> i64 {
        match self {
            Self::Thin | Self::Cell | Self::Ascii => DOTS,
            Self::Bars => 2 * DOTS,
        }
    }

    /// The dots between positions a line can take.
    pub fn grain(self) -> i64 {
        match self {
            Self::Thin | Self::Bars => 1,
            Self::Cell | Self::Ascii => DOTS,
        }
    }

    /// The style that overviews are drawn in: they are not read to the dot, and bars would run together.
    #[must_use]
    pub fn for_overview(self) -> Self {
        match self {
            Self::Bars => Self::Cell,
            other => other,
        }
    }

    /// The glyphs of an upright line that starts `phase` dots into a cell: in that cell, and in the one right of it.
    pub fn upright(self, phase: usize) -> (Mark, Option<Mark>) {
        match (self, phase) {
            (Self::Thin, _) => ((THIN_UPRIGHT[phase], false), None),
            (Self::Bars, 0) => ((LEFT[8], false), None),
            (Self::Bars, _) => ((LEFT[phase], true), Some((LEFT[phase], false))),
            (Self::Cell, _) => (('\u{2502}', false), None),
            (Self::Ascii, _) => (('|', false), None),
        }
    }

    /// The glyphs of a level line that starts `phase` dots down a cell: in that cell, and in the one below it.
    pub fn level(self, phase: usize) -> (Mark, Option<Mark>) {
        match (self, phase) {
            (Self::Thin, _) => ((THIN_LEVEL[phase], false), None),
            (Self::Bars, 0) => ((LOWER[8], false), None),
            (Self::Bars, _) => ((LOWER[8 - phase], false), Some((LOWER[8 - phase], true))),
            (Self::Cell, _) => (('\u{2500}', false), None),
            (Self::Ascii, _) => (('-', false), None),
        }
    }

    /// Frames and signs that are not on the tool.
    pub fn signs(self) -> &'static Signs {
        match self {
            Self::Thin | Self::Bars | Self::Cell => &BOX_SIGNS,
            Self::Ascii => &ASCII_SIGNS,
        }
    }
}

/// Frames and signs that are not on the tool.
pub struct Signs {
    /// Stands after a figure that is left of the window.
    pub left_of: char,
    /// Stands before a figure that is right of the window.
    pub right_of: char,
    /// Stands after a figure that is below the window.
    pub below: char,
    /// First column of the row above a level reading edge.
    pub above_edge: char,
    /// First column of the row below it.
    pub below_edge: char,
    /// First row of the column left of an upright reading edge.
    pub left_of_edge: char,
    /// First row of the column right of it.
    pub right_of_edge: char,
    /// Points at a lit line from above, from below, from the left, from the right.
    pub pointers: [char; 4],
    /// The corners of a frame: top left, top right, bottom left, bottom right.
    pub corners: [char; 4],
    /// A frame's level side.
    pub level: char,
    /// A frame's upright side.
    pub upright: char,
}

static BOX_SIGNS: Signs = Signs {
    left_of: '\u{2039}',
    right_of: '\u{203a}',
    below: '\u{25be}',
    above_edge: '\u{2510}',
    below_edge: '\u{2518}',
    left_of_edge: '\u{2514}',
    right_of_edge: '\u{2518}',
    pointers: ['\u{2193}', '\u{2191}', '\u{2192}', '\u{2190}'],
    corners: ['\u{250c}', '\u{2510}', '\u{2514}', '\u{2518}'],
    level: '\u{2500}',
    upright: '\u{2502}',
};

static ASCII_SIGNS: Signs = Signs {
    left_of: '<',
    right_of: '>',
    below: 'v',
    above_edge: '.',
    below_edge: '\'',
    left_of_edge: '`',
    right_of_edge: '\'',
    pointers: ['v', '^', '>', '<'],
    corners: ['+', '+', '+', '+'],
    level: '-',
    upright: '!',
};
