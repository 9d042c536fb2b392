//! Parts of screens.

mod keybar;
mod picture;
mod plot;
mod today;
mod wrap;

pub use keybar::keybar;
pub use picture::{picture, write};
pub use plot::plot;
pub use today::today;
pub use wrap::wrap;
