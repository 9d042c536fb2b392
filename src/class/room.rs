//! The class record as it is looked at: who, what was given out, what was shown with steel, and the questions of a set on demand.

use super::practical::{Sheet, latest};
use super::questions::Questions;
use super::record::Class;
use crate::instrument::Catalogue;

/// Looks up the questions of a set, by its id. None where nothing of it came back; a sentence where it could not be read.
pub type LookUp = Box<dyn Fn(&str, &Catalogue) -> Result<Option<Questions>, String>>;

/// A class to be looked at.
pub struct Room {
    /// The class, or a group of it.
    pub class: Class,
    /// The group, where it is one.
    pub group: Option<String>,
    /// Nobody in it is real.
    pub invented: bool,
    /// What was shown with steel.
    pub sheets: Vec<Sheet>,
    /// The sets of which anything came back: their ids, and what a person calls them.
    pub sets: Vec<(String, String)>,
    /// The questions of a set.
    pub look_up: LookUp,
}

impl Room {
    /// What a person calls a set.
    pub fn title<'a>(&'a self, set: &'a str) -> &'a str {
        self.sets.iter().find(|(id, _)| id == set).map_or(set, |(_, title)| title)
    }

    /// What a learner last showed with an instrument.
    pub fn steel(&self, learner: &str, instrument: &str) -> Option<&Sheet> {
        latest(&self.sheets, learner, instrument)
    }
}
