//! What is asked.

use serde::{Deserialize, Serialize};

/// What a question asks for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Asks {
    /// What the scales show.
    Reading,
    /// The reading less the zero error: the size.
    Corrected,
    /// The reading when closed.
    ZeroError,
    /// How much larger or smaller than the master, plus or minus.
    Change,
    /// What came off the diameter.
    Diameter,
    /// How far the slide moved.
    Travel,
    /// How far the contact of a lever moved, the angle allowed for.
    Movement,
}

impl Asks {
    /// All that is asked for.
    pub const ALL: [Self; 7] = [
        Self::Reading,
        Self::Corrected,
        Self::ZeroError,
        Self::Change,
        Self::Diameter,
        Self::Travel,
        Self::Movement,
    ];

    /// The word used in streams and records.
    pub fn word(self) -> &'static str {
        match self {
            Self::Reading => "reading",
            Self::Corrected => "corrected",
            Self::ZeroError => "zero-error",
            Self::Change => "change",
            Self::Diameter => "diameter",
            Self::Travel => "travel",
            Self::Movement => "movement",
        }
    }

    /// Reads the word.
    pub fn from_word(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|asks| asks.word() == word)
    }
}
