//! Linefall trains people to read graduated instruments.
pub mod diag;
pub mod exact;
pub mod instrument;
pub mod reading;
pub mod render;
pub mod scene;
