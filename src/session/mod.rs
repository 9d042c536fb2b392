//! Floor 6. Use cases as state machines that return effects; no input, no output, no clock.
//!
//! | type | what it is |
//! |---|---|
//! | [`Practice`] | reading after reading on one instrument |
//! | [`Round`] | so many questions on one instrument, or on several in turn |
//! | [`Bench`] | task after task of any kinds on one instrument |
//! | [`Programme`] | what is asked at a bench: some kinds, or a level |
//! | [`Tour`] | so many tasks of any kinds, on one instrument or on several in turn |
//! | [`Exercise`] | the paper of a drill set gone through: an exercise, a skills check, a self-test |
//! | [`Choose`] | whether questions come as the seed has them, or are chosen to tell most |
//! | [`Projector`], [`Projected`] | a round for a room: question after question on one large picture, told step by step |
//! | [`Walk`], [`WalkStep`] | a tool moved by hand, its reading shown or guessed stage by stage |
//! | [`Teaching`], [`TeachingStep`] | a lesson gone through |
//! | [`Begin`] | where the full screen begins |
//! | [`Attendance`] | what keeps happening on each instrument: named, repaired |
//! | [`Step`] | what the learner does |
//! | [`Effect`] | what an adapter must carry out |

mod ask;
mod attend;
mod begin;
mod bench;
mod exercise;
mod moves;
mod order;
mod practice;
mod programme;
mod project;
mod teaching;
mod tour;
mod walk;
mod watch;

pub use ask::{Round, Until};
pub use attend::Attendance;
pub use begin::Begin;
pub use bench::{Act, Bench, Noted, Stand, Told};
pub use exercise::{Exercise, Keep, Missing, On, Whose};
pub use order::Traps;
pub use practice::{Answered, Effect, Phase, Practice, Shown, Step};
pub use programme::Programme;
pub use project::{Pace, Projected, Projector, Stage, TEAMS};
pub use teaching::{Asked, More, Teaching, TeachingStep};
pub use tour::Tour;
pub use walk::{Mode, Walk, WalkStep};
pub use watch::Choose;
