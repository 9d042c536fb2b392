//! What is held true of Linefall: every setting, every picture, published readings.
#![allow(clippy::print_stdout)]

mod extent;
mod readback;
mod robot;
mod shots;
