//! Floor 6. Every sentence a person reads on a screen or in the line mode, in one place and in shop words.
//!
//! Sentences about a named misread and about a fault in a file stand beside their rule instead.

mod answer;
pub mod bench;
pub mod beside;
mod care;
mod change;
pub mod class;
pub mod command;
pub mod crib;
mod describe;
pub mod doctor;
pub mod exercise;
mod explain;
mod fit;
pub mod format;
mod found;
pub mod pages;
pub mod practical;
pub mod progress;
pub mod project;
mod question;
mod repair;
pub mod round;
pub mod set;
pub mod set_format;
pub mod sheet;
pub mod simulate;
mod sketch;
mod speech;
pub mod task;
pub mod today;
pub mod walk;

pub use answer::{advice, note, saved, verdict};
pub use care::{care, care_source, no_care_card};
pub use change::worked;
pub use describe::describe;
pub use explain::{share, sum};
pub use fit::{cut, fit, wrapped};
pub use found::found;
pub use question::{FIELD, beside, once_more, prompt, then, to_see_again};
pub use repair::repair;
pub use sketch::{ROWS as SKETCH_ROWS, sketch, sketched};

/// A number of things.
fn counted<N: std::fmt::Display + Copy + PartialEq + From<u8>>(n: N, one: &str, many: &str) -> String {
    let what = if n == N::from(1) { one } else { many };
    format!("{n} {what}")
}

/// What must be kept in mind wherever people measure.
pub const CAUTIONS: [&str; 4] = [
    "Never measure moving work or a turning tool: stop the spindle and wait.",
    "Deburr and clean first; mind chips and sharp edges; eye protection on.",
    "Never use an instrument as a clamp or a lever.",
    "Linefall trains reading. It does not calibrate an instrument or release a part: the shop's procedures, local codes and \
     licensed or authorised inspectors decide.",
];
