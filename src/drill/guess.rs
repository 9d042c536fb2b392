//! One stage of a reading guessed. It is marked at once and kept nowhere.

use crate::exact::{Exact, Typed};

/// What was said of one stage.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Guess {
    /// As typed; empty where it was passed over.
    pub typed: String,
    /// How it was.
    pub verdict: Guessed,
}

/// How a guess was.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Guessed {
    /// What the stage is worth.
    Right,
    /// The number of its line, not what that is worth.
    LineNumber,
    /// The whole reading at once.
    Whole,
    /// Something else.
    Wrong,
    /// It was shown unasked.
    Shown,
}

impl Guessed {
    /// What a typed value is to a stage of this worth, read at the line of that number; the whole reading counts where it is given.
    pub fn of(typed: &Typed, worth: Exact, line: Option<i64>, total: Option<Exact>) -> Self {
        if typed.value == worth {
            Self::Right
        } else if total == Some(typed.value) {
            Self::Whole
        } else if line.is_some() && typed.text.trim().parse::<i64>().ok() == line {
            Self::LineNumber
        } else {
            Self::Wrong
        }
    }
}
