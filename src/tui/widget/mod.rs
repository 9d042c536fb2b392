//! Parts of screens.

mod keybar;
mod picture;
mod plot;
mod today;
mod wrap;

pub use keybar::keybar;
pub use picture::{picture, picture_from, write};
pub use plot::plot;
pub use today::today;
pub use wrap::wrap;
