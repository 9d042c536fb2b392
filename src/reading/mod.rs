//! Floor 2. From a setting to what stands where, to what is read, and to the ways of reading it wrong.
//!
//! | type | what it is |
//! |---|---|
//! | [`Pose`] | where every member stands for a setting |
//! | [`Reading`] | what each stage shows, read correctly, and the sum |
//! | [`Share`] | one part of the explanation: which line, what it is worth |
//! | [`Beside`] | what was done beside what is right, one step replaced |
//! | [`Stand`] | a tool standing somewhere, and what it reads there |
//! | [`Change`], [`Angle`] | what an answer rests on beside the picture |
//! | [`Case`], [`Misread`], [`Wrong`] | a question as a misread sees it, a named wrong way, the answer it gives |

mod accept;
mod angle;
mod asks;
mod beside;
pub mod change;
mod coincidence;
mod explain;
pub mod misread;
mod pose;
mod read;
mod stand;

pub use angle::Angle;
pub use asks::Asks;
pub use beside::{Beside, Row, What, beside};
pub use change::{Change, Turned};
pub use coincidence::{coincident_lines, coincident_lines_opposite};
pub use explain::{Half, Share, ShareKind, shares};
pub use misread::{Case, Misread, Wrong};
pub use pose::{Pose, StagePose, pose};
pub use read::{Reading, Seen, Step, read};
pub use stand::Stand;
