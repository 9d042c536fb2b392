//! What was missed, or read slowly, comes back: after so many readings, and then once more.

use super::gates::{Target, allowed_ms};
use crate::drill::record::Attempt;
use serde::{Deserialize, Serialize};

/// After how many readings a missed setting comes back, and then once more.
const SOON: u32 = 3;
const LATER: u32 = 8;

/// What became of a reading.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Outcome {
    /// Right and in time.
    Right,
    /// Right, but slow.
    Slow,
    /// Wrong, or passed over.
    Missed,
}

impl Outcome {
    /// What became of an attempt, which may take as long as that.
    pub fn of(attempt: &Attempt, target: Target) -> Self {
        if !attempt.verdict.is_right() {
            Self::Missed
        } else if attempt.took_ms > allowed_ms(target, attempt.glass) {
            Self::Slow
        } else {
            Self::Right
        }
    }
}

/// What waits to come back, the soonest first.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Again<T> {
    waiting: Vec<Due<T>>,
}

#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
struct Due<T> {
    /// When so many have been read.
    at: u32,
    posed: T,
}

impl<T> Default for Again<T> {
    fn default() -> Self {
        Self { waiting: Vec::new() }
    }
}

impl<T: Clone> Again<T> {
    /// Takes in what became of a setting, so many read with it.
    pub fn put_by(&mut self, posed: &T, asked: u32, outcome: Outcome) {
        let after: &[u32] = match outcome {
            Outcome::Right => &[],
            Outcome::Slow => &[LATER],
            Outcome::Missed => &[SOON, SOON + 1 + LATER],
        };
        self.waiting.extend(after.iter().map(|after| Due { at: asked + after, posed: posed.clone() }));
        self.waiting.sort_by_key(|due| due.at);
    }

    /// The first one whose time has come when so many have been read.
    pub fn due(&mut self, asked: u32) -> Option<T> {
        let is_due = self.waiting.first().is_some_and(|due| due.at <= asked);
        is_due.then(|| self.waiting.remove(0).posed)
    }

    /// How many wait.
    pub fn len(&self) -> usize {
        self.waiting.len()
    }

    /// True when none waits.
    pub fn is_empty(&self) -> bool {
        self.waiting.is_empty()
    }
}
