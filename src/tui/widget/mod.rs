//! Parts of screens.

mod keybar;
mod picture;
mod plot;

pub use keybar::keybar;
pub use picture::{picture, write};
pub use plot::plot;
