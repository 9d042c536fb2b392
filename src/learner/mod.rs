//! Floor 4. What the attempts say about a learner.
pub mod progress;
