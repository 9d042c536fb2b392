//! What is believed before the first answer.

use super::suspects::Suspect;
use std::collections::BTreeMap;

/// What is believed before the first answer.
#[derive(Clone, Debug, PartialEq)]
pub struct Prior {
    /// That someone reads correctly.
    pub correct: f64,
    /// That something is held that is not listed.
    pub unlisted: f64,
    /// How often each misread was found, by its id. Every misread counts once more, so that none is ruled out.
    pub found: BTreeMap<String, u32>,
}

impl Prior {
    /// As shipped: all misreads alike.
    pub fn shipped() -> Self {
        Self { correct: 0.4, unlisted: 0.02, found: BTreeMap::new() }
    }

    /// The same with how often a class was found to hold each misread.
    #[must_use]
    pub fn with_found(mut self, found: BTreeMap<String, u32>) -> Self {
        self.found = found;
        self
    }

    pub(super) fn weight(&self, suspect: &Suspect) -> f64 {
        let found: u32 = self.found.iter().filter(|(id, _)| suspect.is(id)).map(|(_, count)| *count).sum();
        f64::from(found) + 1.0
    }
}
