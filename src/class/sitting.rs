//! One sitting over the paper of a drill set, as it is counted: read back, marked again, nothing taken on trust.

use crate::drill::record::Attempt;
use serde::{Deserialize, Serialize};

/// A sitting.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Sitting {
    /// Made by chance when it was begun: 16 hexadecimal digits.
    pub id: String,
    /// The learner's short code.
    pub learner: String,
    /// The id of the drill set.
    pub set: String,
    /// The hash of the set's text.
    pub revision: String,
    /// What it was for.
    pub purpose: Purpose,
    /// The number of the issued card that it answers; none for somebody's own exercise or self-test.
    pub card: Option<String>,
    /// Which try of its card it is, from 1.
    pub nth: u32,
    /// When it was begun, UTC as RFC 3339.
    pub begun: String,
    /// When the last answer was given, or it was ended; none while it is open or was broken off.
    pub ended: Option<String>,
    /// How often it was left and taken up again.
    pub interruptions: u32,
    /// How it came to its end.
    pub end: End,
    /// What was answered, in order.
    pub entries: Vec<Entry>,
    /// Questions that are not right whatever stands in the answers, by their places; found when it is marked again.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub lacks: Vec<Lack>,
}

/// A question of which something is missing.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Lack {
    /// The question's place on the paper, from 1.
    pub place: u32,
    /// Its instrument's id.
    pub instrument: String,
    /// What is missing.
    pub what: Lacks,
}

/// What is missing of a question.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Lacks {
    /// Any answer, though later questions of a check were answered.
    Answer,
    /// An answer that is one to this question.
    Sense,
    /// The answer to one of its parts.
    Part,
    /// A mark: its instrument is not here, or not in the form it was answered on. It is neither right nor wrong.
    Mark,
}

/// One answer on the paper.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Entry {
    /// The question's place on the paper, from 1.
    pub place: u32,
    /// The part of it, from 1.
    pub part: u32,
    /// What was answered, and what became of it.
    pub attempt: Attempt,
}

/// What a sitting was for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Purpose {
    /// An exercise.
    Exercise,
    /// A skills check.
    Check,
    /// The same form, for oneself.
    SelfTest,
}

/// How a sitting came to its end.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum End {
    /// It has not.
    Open,
    /// The paper was done, or its rule was decided.
    Done,
    /// The time was up.
    TimeUp,
    /// It was left for good.
    Left,
}
