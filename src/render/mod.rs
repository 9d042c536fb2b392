//! Floor 4. From a display list to something that can be seen.
//!
//! | module | what it makes |
//! |---|---|
//! | `plan` (this module), [`scale`](self) | the largest faithful scale, or a glass, or a refusal with the size needed |
//! | `cells` ([`draw`]) | a [`Grid`] of cells |
//! | [`text`] | lines of text from a grid |
//! | [`vector`] | a list of plates, lines and figures: a vector picture |
//! | [`paper`], [`sheet`] | sheets of paper as lists of marks; worksheets, keys and charts laid out on them |
//! | [`svg`], [`pdf`] | pictures and sheets written; neither knows the other |
//! | [`describe`] | what can be seen, line by line |
//!
//! A picture that cannot be read truly is not made.

mod band;
mod both;
mod choice;
mod circle;
pub mod describe;
mod dial;
mod duo;
mod face;
mod flat;
mod glyphs;
mod grid;
mod held;
mod index;
mod lit;
mod paint;
mod pair;
pub mod paper;
pub mod pdf;
mod rule;
mod scale;
pub mod sheet;
mod sleeve;
pub mod svg;
pub mod text;
mod turn;
mod upright;
pub mod vector;

pub use band::Lit;
pub use choice::{Replies, Terminal, Why, choose};
pub use glyphs::{DOTS, LineStyle};
pub use grid::{Cell, Grid, Ink, Paper};
pub use lit::lines_of;

use crate::instrument::Held;
use crate::scene::{Axis, Kind, Scene, View};
use thiserror::Error;

/// What is asked of a picture.
#[derive(Clone, Debug)]
pub struct Request {
    /// Cells across.
    pub cols: i64,
    /// Cells down.
    pub rows: i64,
    /// The line style.
    pub lines: LineStyle,
    /// Dots per quantum, where someone chose them.
    pub dots: Option<i64>,
    /// The magnifying glass.
    pub glass: Glass,
    /// Dots per quantum in the glass, where someone chose them.
    pub glass_dots: Option<i64>,
    /// Signs for a reader without colours that tell where a reading edge is.
    pub marks: Marks,
    /// The terminal's cells are less than eight pixels wide.
    pub small_cells: bool,
    /// Lines lit up by the explanation.
    pub lit: Vec<Lit>,
}

impl Request {
    /// A plain request.
    pub fn new(cols: i64, rows: i64, lines: LineStyle) -> Self {
        Self {
            cols,
            rows,
            lines,
            dots: None,
            glass: Glass::IfNeeded,
            glass_dots: None,
            marks: Marks::Hidden,
            small_cells: false,
            lit: Vec::new(),
        }
    }
}

/// The magnifying glass.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Glass {
    /// Opened at the vernier's zero only where the whole cannot be drawn.
    IfNeeded,
    /// Not allowed: where the whole cannot be drawn, nothing is.
    Forbidden,
    /// Opened with this vernier line in the middle.
    At(i64),
}

/// Whether signs tell where a reading edge is, for a reader without colours.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Marks {
    /// `┐ ┘` in the first column, `└ ┘` in the first row.
    Shown,
    /// The greys of the plates tell it.
    Hidden,
}

/// A picture.
#[derive(Clone, Debug)]
pub struct Drawing {
    /// The cells.
    pub grid: Grid,
    /// Whether the whole is read, or a glass slid over an overview.
    pub extent: Extent,
    /// The view drawn; laid flat where the view in the hand does not fit.
    pub view: View,
    /// The vernier line in the middle of the glass, if one is open.
    pub glass: Option<i64>,
}

/// What can be read from a picture.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Extent {
    /// Everything is read from the whole picture.
    Whole,
    /// The vernier is read through the glass.
    Slide,
}

/// A picture that would not be true.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
#[error("this picture cannot be drawn truly in {cols}x{rows} cells; it needs {needs_cols}x{needs_rows}")]
pub struct Refusal {
    /// Cells there were across.
    pub cols: i64,
    /// Cells there were down.
    pub rows: i64,
    /// Cells needed across.
    pub needs_cols: i64,
    /// Cells needed down.
    pub needs_rows: i64,
}

impl Request {
    pub(self) fn refuse(&self, needs_cols: i64, needs_rows: i64) -> Refusal {
        Refusal { cols: self.cols, rows: self.rows, needs_cols, needs_rows }
    }

    pub(self) fn grid(&self) -> Grid {
        let cells = |n: i64| usize::try_from(n.clamp(0, 1000)).expect("a clamped number of cells");
        Grid::new(cells(self.cols), cells(self.rows))
    }
}

/// Draws a scene into cells.
pub fn draw(scene: &Scene, request: &Request) -> Result<Drawing, Refusal> {
    at_size(scene, request).map_err(|refusal| enough(scene, request, refusal))
}

fn at_size(scene: &Scene, request: &Request) -> Result<Drawing, Refusal> {
    let drawing = usual(scene, request)?;
    Ok(match scene.held {
        Held::Usual => drawing,
        Held::Turned => Drawing { grid: turn::turned(&drawing.grid, request.lines), ..drawing },
    })
}

/// The tool as it is usually held.
fn usual(scene: &Scene, request: &Request) -> Result<Drawing, Refusal> {
    if let Some(beside) = &scene.beside {
        return both::draw(scene, beside, request);
    }
    match (scene.kind, scene.view) {
        (Kind::Rule, _) if scene.tracks[0].axis == Axis::Round => index::draw(scene, request),
        (Kind::Rule, _) => rule::draw(scene, request),
        (Kind::Pair, _) if scene.tracks[0].axis == Axis::Up => upright::draw(scene, request),
        (Kind::Pair, _) => pair::draw(scene, request),
        (Kind::Dial, _) => dial::draw(scene, request),
        (Kind::Sleeve, View::Held) => held::draw(scene, request),
        (Kind::Sleeve, View::Flat) => flat::draw(scene, request),
    }
}

/// The most times that a size is grown until a picture is drawn in it.
const TRIES: usize = 24;

/// The fewest columns, from `least` on, in which a picture that is drawn at a size is drawn in as many rows.
fn fewest_cols(scene: &Scene, at: &Request, least: i64) -> i64 {
    let fits = |cols: i64| at_size(scene, &Request { cols, ..at.clone() }).is_ok();
    if fits(least) {
        return least;
    }
    let (mut narrow, mut wide) = (least, at.cols);
    while wide - narrow > 1 {
        let cols = i64::midpoint(narrow, wide);
        if fits(cols) { wide = cols } else { narrow = cols }
    }
    wide
}

/// What is too small may hide that something else is too small as well: the size that a refusal names is one that was tried.
fn enough(scene: &Scene, request: &Request, refusal: Refusal) -> Refusal {
    let mut at = request.clone();
    let mut named = refusal.clone();
    let mut step = 0;
    for _ in 0..TRIES {
        let (cols, rows) = (at.cols.max(named.needs_cols), at.rows.max(named.needs_rows));
        // Where nothing larger is asked for, it is looked for in steps that grow.
        step = if (cols, rows) == (at.cols, at.rows) { (2 * step).max(1) } else { 0 };
        (at.cols, at.rows) = (cols + step, rows);
        if let Err(next) = at_size(scene, &at) {
            named = next;
        } else {
            at.cols = fewest_cols(scene, &at, request.cols.min(at.cols));
            let least = if at.rows > request.rows { request.rows } else { refusal.needs_rows };
            let fits = |rows: i64| at_size(scene, &Request { rows, ..at.clone() }).is_ok();
            let rows = (least..at.rows).rev().take_while(|rows| fits(*rows)).last().unwrap_or(at.rows);
            return Refusal { needs_cols: at.cols, needs_rows: rows, ..refusal };
        }
    }
    refusal
}
