//! Floor 4. What the attempts say about a learner.
pub mod diagnosis;
pub mod progress;
