//! Floor 6. Use cases as state machines that return effects; no input, no output, no clock.
//!
//! | type | what it is |
//! |---|---|
//! | [`Practice`] | reading after reading on one instrument |
//! | [`Step`] | what the learner does |
//! | [`Effect`] | what an adapter must carry out |

mod practice;

pub use practice::{Answered, Effect, Phase, Practice, Shown, Step};
