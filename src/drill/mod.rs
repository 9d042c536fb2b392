//! Floor 3. Questions, marks, and the record of an answered question.
//!
//! | type | what it is |
//! |---|---|
//! | [`Question`] | an instrument standing somewhere, and what is asked |
//! | [`Conditions`] | what the tool is read under: an edge that leads, a start, slack, an angle |
//! | [`Sight`], [`Role`] | a picture of a question: seen first, or measured from |
//! | [`Seed`], [`question()`] | the versioned generator: same seed, same questions |
//! | [`Mark`] | right, right in value, a named misread, or another wrong reading |
//! | [`record::Attempt`] | the resolved record that is kept |

mod change;
mod conditions;
mod generate;
mod mark;
mod question;
pub mod record;
mod sight;
mod two_sets;

pub use change::fullest;
pub use conditions::Conditions;
pub use generate::{GENERATOR, Seed, question, question_by};
pub use mark::{Found, Mark, NotationNote, mark};
pub use question::Question;
pub use record::Verdict;
pub use sight::{Role, Sight};
