//! What has become of a tool since it was made.

use super::Instrument;

/// The families whose tools have a lock, or a clamp, that is tightened before the reading is written down.
const LOCKED: [&str; 8] =
    ["micrometer", "depth", "inside", "caliper", "dial-caliper", "height-gauge", "depth-gauge", "gear-tooth"];

impl Instrument {
    /// Whether it has a lock.
    pub fn has_lock(&self) -> bool {
        LOCKED.contains(&self.family.as_str())
    }
}

/// The state a tool is in. The default is one in good order.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct State {
    /// What is written on a tag tied to it; empty without one.
    pub tag: String,
    /// The figures that cannot be read any more.
    pub worn: Vec<WornFigure>,
}

/// A figure that cannot be read any more.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct WornFigure {
    /// The stage of its scale.
    pub stage: usize,
    /// The number of its line, from the scale's first.
    pub line: usize,
}
