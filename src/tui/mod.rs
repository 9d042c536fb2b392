//! Floor 7. The full-screen trainer.

mod benching;
pub mod classing;
pub mod command;
mod exercising;
mod lit;
pub mod model;
mod probe;
pub mod projecting;
mod ready;
mod runtime;
mod screen;
mod signals;
pub mod theme;
pub mod update;
mod view;
mod walking;
mod widget;

pub use model::{Issued, Record, Sets, Stands};
pub use ready::full_screen;
pub use view::view;

use crate::class::room::Room;
use crate::instrument::Catalogue;
use crate::render::{LineStyle, Terminal};
use crate::session::Begin;
use crate::store::Store;
use std::io;

/// What the trainer starts with; the arguments have been read and the store opened.
pub struct Start {
    /// The instruments.
    pub catalogue: Catalogue,
    /// The store, if it could be opened.
    pub store: Option<Store>,
    /// Why nothing can be kept, if so.
    pub store_problem: Option<String>,
    /// Who practises.
    pub learner: String,
    /// Whether anything is kept.
    pub record: Record,
    /// Exercises and checks.
    pub sets: Sets,
    /// Where to begin.
    pub place: Begin,
    /// The class record, where that is what was asked for.
    pub class: Option<Box<Room>>,
    /// `--lines`.
    pub lines: Option<LineStyle>,
    /// `--theme`.
    pub theme: ThemeChoice,
    /// What the environment tells of the terminal.
    pub terminal: Terminal,
    /// `NO_COLOR` is set.
    pub no_color: bool,
}

/// The theme asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ThemeChoice {
    /// Steel, or mono where colours are off.
    Auto,
    /// Light steel plates; readable on dark and light terminals.
    Steel,
    /// Dark plates.
    Dark,
    /// The terminal's own colours only.
    Mono,
    /// White plates and black lines.
    HighContrast,
}

/// Runs the trainer until the learner leaves it. Must be called with a terminal on standard input and output.
pub fn run(start: Start) -> io::Result<()> {
    runtime::run(start)
}
