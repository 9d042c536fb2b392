//! Floor 3. The display list: what stands where on an instrument, independent of any size.
//!
//! | type | what it is |
//! |---|---|
//! | [`Scene`] | everything that can be seen, in whole quanta |
//! | [`Track`] | one scale or index, on one of two plates |
//! | [`Item`] | a closed list of what a track can carry |
//! | [`Edge`], [`Cover`] | where a member ends and what it hides |
//! | [`Beside`] | the other pair of scales of a tool that has two on one jaw |
//! | [`View`] | in the hand or laid flat |
//!
//! A scene knows nothing of questions, answers or learners. What cannot occur in one is listed in [`audit()`].

mod audit;
mod beside;
mod build;
mod dial;
mod item;
pub mod json;
mod wear;

pub use audit::{Fault, audit};
pub use beside::pairs;
pub use build::{build, stands};
pub use item::{Axis, Beside, Cover, Edge, Figure, Item, Kind, Plate, Scene, Track, TrackForm, View};
