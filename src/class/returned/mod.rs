//! Returned work: one text file a sitting, a line of JSON for each thing that happened, never written to but at its end.
//!
//! | type | what it is |
//! |---|---|
//! | [`Header`] | the first line: who, what, which card, which machine |
//! | [`Writer`] | makes the lines one after the other; pure, the lines are for `store` to append |
//! | [`read()`], [`Returned`] | a file read back: whole, still open, or cut short |
//! | [`Fault`] | why one cannot be used, with the line |
//!
//! Every line carries the BLAKE3 hash of the line before, the last one the signature of the machine's key over the hash of the
//! line before it. Verdicts stand in it for whoever reads it, but not where nothing is told before the end; nothing is counted
//! that was not marked again.

mod line;
mod read;
#[cfg(test)]
pub(crate) mod testing;
#[cfg(test)]
mod tests;
mod write;

pub use read::{Closing, Fault, Happened, Returned, header, read};
pub use write::Writer;

use super::seal::{Public, paper_seed};
use super::sitting::Purpose;
use crate::drill::Seed;
use serde::{Deserialize, Serialize};

/// The largest file, in bytes.
pub const FILE_LIMIT: u64 = 4 << 20;
/// The longest first line, in bytes: by it alone it is known whose a file is.
pub const FIRST_LIMIT: usize = 2 << 10;
/// The longest line, in bytes.
pub const LINE_LIMIT: usize = 16 << 10;
/// The version of the form.
pub const FORM: u32 = 1;
/// The ending of such a file's name.
pub const ENDING: &str = "work";
/// The end of the name of a file that holds the first line alone: put into the shared folder when a card is begun, so that who
/// throws a sitting away and begins again has begun twice.
pub const BEGUN: &str = "-begun.work";

/// What stands in the first line.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Header {
    /// Drawn by chance when it was begun: 16 hexadecimal digits.
    pub sitting: String,
    /// The learner's short code.
    pub learner: String,
    /// The id of the set.
    pub set: String,
    /// The hash of the set's text.
    pub revision: String,
    /// What it is for.
    pub purpose: Purpose,
    /// The number of the card that it answers; none for somebody's own exercise.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub card: Option<String>,
    /// Which try of this card it is on this machine, from 1.
    #[serde(rename = "try")]
    pub nth: u32,
    /// The key of the machine.
    pub key: Public,
    /// The program's version.
    pub program: String,
    /// When it was begun, UTC as RFC 3339.
    pub begun: String,
}

impl Header {
    /// The seed of the paper. It does not stand in the file: whoever has the card's paper beforehand has the answers.
    pub fn seed(&self) -> Seed {
        paper_seed(self.card.as_deref(), &self.learner, self.nth, &self.sitting)
    }

    /// The name of its file: day, set and number.
    pub fn file_name(&self) -> String {
        format!("{}.{ENDING}", self.stem())
    }

    /// The name of the file that says it was begun, and no more.
    pub fn begun_name(&self) -> String {
        format!("{}{BEGUN}", self.stem())
    }

    fn stem(&self) -> String {
        let day = self.begun.get(..10).unwrap_or_default();
        format!("{day}-{}-{}", self.set, self.sitting)
    }
}
