//! Floor 3. Questions, marks, and the record of an answered question.
//!
//! | type | what it is |
//! |---|---|
//! | [`Question`] | an instrument standing somewhere, and what is asked |
//! | [`Conditions`] | what the tool is read under: an edge that leads, a setting between lines, worn figures, a start, slack |
//! | [`Sight`], [`Role`] | a picture of a question: seen first, or measured from |
//! | [`Seed`], [`question()`] | the versioned generator: same seed, same questions |
//! | [`Candidate`] | a question that may be put, of the generator for telling questions |
//! | [`Guess`], [`Guessed`] | what was said of one stage, and how it was |
//! | [`Draw`] | numbers by chance, from a seed |
//! | [`task::Task`], [`Kind`] | a question of any other kind, in parts: set it, one step alone, ... |
//! | [`Level`] | how far somebody has come: which kinds are asked, and whether traps are mixed in |
//! | [`set::DrillSet`], [`set::deal()`] | an exercise or skills check as it was written, and the paper of one sitting |
//! | [`trap`] | settings where a gross slip is near |
//! | [`Mark`] | right, right in value, a named misread, or another wrong reading |
//! | [`Said`] | an answer as it was given |
//! | [`record::Attempt`] | the resolved record that is kept |

mod candidate;
mod change;
mod condition_draw;
mod conditions;
mod draw;
mod generate;
mod guess;
mod level;
mod mark;
mod part;
mod put;
mod question;
mod ready;
pub mod record;
mod said;
pub mod set;
mod sight;
pub mod task;
pub mod trap;
mod two_sets;
mod worn;

pub use candidate::{Candidate, TELLING_GENERATOR};
pub use change::fullest;
pub use condition_draw::edge_limits;
pub use conditions::{Conditions, Lock, Settings};
pub use draw::Draw;
pub use generate::{GENERATOR, Seed, question, question_1};
pub use guess::{Guess, Guessed};
pub use level::Level;
pub use mark::{Found, Mark, NotationNote, mark};
pub use put::Put;
pub use question::Question;
pub use record::Verdict;
pub use said::Said;
pub use sight::{Role, Sight};
pub use task::{Kind, Task};
pub use worn::{Wear, can_wear, worn};
