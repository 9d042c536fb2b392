//! Linefall trains people to read graduated instruments.
pub mod cli;
pub mod diag;
pub mod drill;
pub mod exact;
pub mod instrument;
pub mod learner;
pub mod reading;
pub mod render;
pub mod scene;
pub mod session;
pub mod store;
pub mod terms;
pub mod tui;
pub mod wording;
