//! What is held true of Linefall: every setting, every picture, published readings.
#![allow(clippy::print_stdout)]

mod both_ways;
mod changes;
mod chordal;
mod conditions;
mod conformance;
mod definitions;
mod dials;
mod exhaustive;
mod extent;
mod fitted;
mod fooled;
mod format;
mod made;
mod no_leak;
mod properties;
mod readback;
mod robot;
mod shots;
