//! What is asked.

use crate::instrument::SetUp;
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
    /// The angle of the part, which lies as the tool reads.
    PartAsRead,
    /// The angle of the part, which with the reading makes a right angle.
    PartComplement,
    /// The angle of the part, which with the reading makes a straight line.
    PartSupplement,
}

impl Asks {
    /// All that is asked for.
    pub const ALL: [Self; 10] = [
        Self::Reading,
        Self::Corrected,
        Self::ZeroError,
        Self::Change,
        Self::Diameter,
        Self::Travel,
        Self::Movement,
        Self::PartAsRead,
        Self::PartComplement,
        Self::PartSupplement,
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
            Self::PartAsRead => "part-as-read",
            Self::PartComplement => "part-complement",
            Self::PartSupplement => "part-supplement",
        }
    }

    /// The word for someone who has not answered yet: which angle of the part it is must be seen in the sketch.
    pub fn shown_word(self) -> &'static str {
        if self.set_up().is_some() { "part-angle" } else { self.word() }
    }

    /// The question for a part's angle in a set-up.
    pub fn part(set_up: SetUp) -> Self {
        match set_up {
            SetUp::AsRead => Self::PartAsRead,
            SetUp::Complement => Self::PartComplement,
            SetUp::Supplement => Self::PartSupplement,
        }
    }

    /// The set-up in which the part's angle is asked for; none where another thing is.
    pub fn set_up(self) -> Option<SetUp> {
        match self {
            Self::PartAsRead => Some(SetUp::AsRead),
            Self::PartComplement => Some(SetUp::Complement),
            Self::PartSupplement => Some(SetUp::Supplement),
            _ => None,
        }
    }

    /// Reads the word.
    pub fn from_word(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|asks| asks.word() == word)
    }
}
