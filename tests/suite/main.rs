//! What is held true of Linefall: every setting, every picture, published readings.
#![allow(clippy::print_stdout)]

mod conformance;
mod dials;
mod exhaustive;
mod extent;
mod fitted;
mod fooled;
mod no_leak;
mod properties;
mod readback;
mod robot;
mod shots;
mod variants;
