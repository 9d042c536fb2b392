//! The class record on screen: where it is looked at.

use super::command::Place;
use crate::class::questions::Questions;
pub use crate::class::room::Room;
use crate::instrument::Catalogue;
use crate::wording::class as say;
use crate::wording::wrapped;

/// What stands above the learners, to be chosen as they are.
pub const HEADS: usize = 3;

/// Where the class record is looked at.
pub enum ClassScreen {
    /// The learners.
    List {
        /// The chosen line: first what stands above the learners, then they.
        chosen: usize,
        /// The first instrument in view.
        column: usize,
    },
    /// A page to be read.
    Page {
        /// Which.
        page: Page,
        /// The first line in view.
        from: usize,
    },
    /// The questions of a set.
    Questions {
        /// Which set, by its place.
        set: usize,
        /// What was found; none where nothing came back, a sentence where it could not be read.
        found: Result<Option<Box<Questions>>, String>,
        /// The chosen question.
        chosen: usize,
    },
}

/// A page to be read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Page {
    /// One learner, by place.
    Learner(usize),
    /// What the class gets wrong.
    Wrong,
    /// What was given out.
    Given,
}

impl ClassScreen {
    /// Where commands are looked up.
    pub fn place(&self) -> Place {
        match self {
            Self::List { .. } => Place::Class,
            Self::Page { .. } => Place::ClassPage,
            Self::Questions { .. } => Place::Bites,
        }
    }

    /// At the learners, the first of them chosen.
    pub fn new() -> Self {
        Self::List { chosen: HEADS, column: 0 }
    }

    /// The questions of a set, looked up.
    pub fn questions(room: &Room, set: usize, catalogue: &Catalogue) -> Self {
        let found = match room.sets.get(set) {
            Some((id, _)) => (room.look_up)(id, catalogue).map(|found| found.map(Box::new)),
            None => Ok(None),
        };
        Self::Questions { set, found, chosen: 0 }
    }
}

impl Default for ClassScreen {
    fn default() -> Self {
        Self::new()
    }
}

/// The lines of a page in so many cells; lines further in begin with blanks.
pub fn page(room: &Room, page: Page, catalogue: &Catalogue, cells: usize) -> Vec<String> {
    let title = |id: &str| catalogue.title(id).unwrap_or(id).to_owned();
    let lines = match page {
        Page::Learner(place) => room
            .class
            .members
            .get(place)
            .map_or_else(Vec::new, |member| say::whole_learner(&room.class, member, &room.sheets, title)),
        Page::Wrong => say::all_common(&room.class, title),
        Page::Given => say::all_given(&room.class),
    };
    lines.iter().flat_map(|line| broken(line, cells)).collect()
}

/// A line broken where it is too long, what comes after it four cells further in.
pub fn broken(line: &str, cells: usize) -> Vec<String> {
    let text = line.trim_start();
    let by = line.len() - text.len();
    let parts = wrapped(text, cells.saturating_sub(by + 4));
    let lead = |n: usize| " ".repeat(by + if n > 0 { 4 } else { 0 });
    parts.into_iter().enumerate().map(|(n, part)| format!("{}{part}", lead(n))).collect()
}
