//! Worksheets, keys and charts laid out on paper.
//!
//! | module | what it lays out |
//! |---|---|
//! | this one | what stands on a sheet: [`Sheet`], [`Entry`], [`Block`] |
//! | `blocks` | a block: words, a picture, a line to write on |
//! | `pages` | blocks on pages, with their heads and feet |
//! | `chart` | one instrument large, its steps beside it |
//! | `card` | half a page beside the bench |
//! | `grid` | figures in columns, and boxes to be filled |
//! | [`Magnified`] | how large a picture has become |
//!
//! What is laid out is neutral: scenes and sentences. Where a question is asked or a step is explained, an adapter has spelled it.
//! Everything is black on white: what is told apart by greys on a screen has outlines and corners here.

mod blocks;
mod card;
mod chart;
mod grid;
mod magnified;
mod pages;

pub use card::{Card, cards};
pub use chart::{Chart, Pointed, chart};
pub use grid::{Column, Stand};
pub use magnified::Magnified;
pub use pages::lay;

use super::paper::Paper;
use crate::exact::Exact;
use crate::scene::Scene;

/// A sheet of questions, a key, or cards.
#[derive(Clone, Debug)]
pub struct Sheet {
    /// The paper.
    pub paper: Paper,
    /// What stands at the top and at the foot.
    pub head: Head,
    /// What stands between.
    pub entries: Vec<Entry>,
}

/// What stands at the top and at the foot of a sheet.
#[derive(Clone, Debug)]
pub struct Head {
    /// In large letters.
    pub title: String,
    /// Below it.
    pub under: Vec<String>,
    /// Lines to be written on: name, date.
    pub fields: Vec<String>,
    /// What tells this sheet from others: its letter.
    pub mark: String,
    /// What is said beside the check bar; none, and there is no bar.
    pub bar: Option<String>,
    /// How pages are counted.
    pub page: fn(usize, usize) -> String,
    /// How it is said how large a picture is.
    pub note: fn(&Magnified) -> String,
    /// What is said beside a vernier that is shown length by length.
    pub glass: &'static str,
}

/// Something on a sheet that stays together where it can: a question.
#[derive(Clone, Debug)]
pub struct Entry {
    /// Its number.
    pub number: Option<String>,
    /// What it is made of.
    pub blocks: Vec<Block>,
}

/// A part of an entry.
#[derive(Clone, Debug)]
pub enum Block {
    /// Sentences.
    Words(Vec<String>),
    /// A heading.
    Heading(String),
    /// Sentences with a sign before each.
    Listed(Vec<String>),
    /// Answers to choose from, each with a box.
    Offered(Vec<String>),
    /// An instrument.
    Picture {
        /// What is said above it.
        caption: Option<String>,
        /// What can be seen of it.
        scene: Box<Scene>,
        /// How long a quantum of it is in millimetres; none where it measures no length.
        quantum: Option<Exact>,
    },
    /// Rows of a drawing in characters of one width.
    Sketch(Vec<String>),
    /// A question and a line to write the answer on, with its unit.
    Answer {
        /// The question.
        question: Vec<String>,
        /// What stands behind the line.
        unit: String,
    },
    /// Nothing, so tall.
    Space(i64),
    /// Lines to be written on, side by side.
    Fields(Vec<String>),
    /// Columns with a heading each, and rows of cells, so tall.
    Grid {
        /// The columns.
        columns: Vec<Column>,
        /// The rows; an empty cell is to be filled.
        rows: Vec<Vec<String>>,
        /// How tall a row is, in micrometres.
        tall: i64,
    },
    /// Steps and their values, set apart by two blanks or more.
    Steps(Vec<String>),
}
