//! A misread that keeps happening: named, gone, or not gone yet.

use crate::learner::repair::{Found, Word};
use crate::reading::misread;

/// What is said after the answer.
pub fn repair(word: &Word) -> String {
    match word {
        Word::Named(found) => {
            let times = match found.times {
                ..=2 => "twice".to_owned(),
                times => format!("{times} times"),
            };
            format!("This has happened {times} now: {}. The next readings are about that step.", name(found))
        }
        Word::Clear(found) => {
            format!(
                "Clear: {} no longer happens. It is asked about again tomorrow and in a week.",
                name(found)
            )
        }
        Word::NotYet(found) => {
            format!("Not clear yet: {}. It is left for tomorrow; now ordinary readings again.", name(found))
        }
    }
}

fn name(found: &Found) -> &'static str {
    misread::named(found.id).map_or(found.id, |misread| misread.name)
}
