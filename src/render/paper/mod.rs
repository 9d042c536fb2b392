//! Sheets of paper as lists of marks, in whole micrometres from the upper left corner.
//!
//! | type | what it is |
//! |---|---|
//! | [`Paper`] | A4 or Letter |
//! | [`Leaf`] | a page: lines, frames, words, pictures |
//! | [`Mark`] | one of them |
//!
//! Words are measured with the font that is embedded, in whole numbers; whatever has no glyph in it, or would be obeyed and not
//! printed, is replaced before it becomes a mark.

mod font;
mod words;

pub(super) use font::{BOLD_DATA, REGULAR_DATA, face};
pub use words::{clean, cut, width, wrap};

use super::vector::Picture;

/// A millimetre.
pub const MM: i64 = 1000;

/// The paper.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Paper {
    /// ISO 216: 210 by 297 mm.
    A4,
    /// 8 1/2 by 11 in.
    Letter,
}

impl Paper {
    /// Width and height.
    pub fn size(self) -> (i64, i64) {
        match self {
            Self::A4 => (210 * MM, 297 * MM),
            Self::Letter => (215_900, 279_400),
        }
    }
}

/// A page.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Leaf {
    /// Its width.
    pub width: i64,
    /// Its height.
    pub height: i64,
    /// What is on it.
    pub marks: Vec<Mark>,
}

/// How heavy letters are.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Weight {
    /// Book.
    Regular,
    /// Bold.
    Bold,
}

/// Something on a page.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Mark {
    /// A straight line.
    Line {
        /// Its one end.
        from: (i64, i64),
        /// Its other end.
        to: (i64, i64),
        /// How wide it is.
        width: i64,
    },
    /// The outline of a rectangle.
    Frame {
        /// The upper left corner.
        corner: (i64, i64),
        /// Width and height.
        size: (i64, i64),
        /// How wide its line is.
        width: i64,
    },
    /// A line of words.
    Text {
        /// Where it begins.
        left: i64,
        /// What it stands on.
        baseline: i64,
        /// The size of the type.
        size: i64,
        /// How heavy.
        weight: Weight,
        /// Clean already.
        words: String,
    },
    /// A vector picture.
    Picture {
        /// Its left side.
        left: i64,
        /// Its upper side.
        top: i64,
        /// Micrometres for each of its units.
        scale: i64,
        /// The picture.
        picture: Picture,
    },
}

impl Mark {
    /// The same further right and further down.
    #[must_use]
    pub fn moved(self, right: i64, down: i64) -> Self {
        let by = |(x, y): (i64, i64)| (x + right, y + down);
        match self {
            Self::Line { from, to, width } => Self::Line { from: by(from), to: by(to), width },
            Self::Frame { corner, size, width } => Self::Frame { corner: by(corner), size, width },
            Self::Text { left, baseline, size, weight, words } => {
                Self::Text { left: left + right, baseline: baseline + down, size, weight, words }
            }
            Self::Picture { left, top, scale, picture } => {
                Self::Picture { left: left + right, top: top + down, scale, picture }
            }
        }
    }
}
