//! Where the full screen begins.

use super::programme::Programme;
use super::project::Projected;

/// Where the full screen begins.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Begin {
    /// At the list of instruments.
    Home,
    /// In practice on an instrument.
    Practice(String),
    /// At the bench with one.
    Bench(String, Programme),
    /// At one that is moved by hand.
    Walk(String),
    /// In the lesson of one.
    Lesson(String),
    /// Before the set of this id.
    Set(String),
    /// Before the job card of this number.
    Card(String),
    /// At the list of sets.
    Sets,
    /// With a round for a room.
    Project(Projected),
    /// In the class record.
    Class,
}
