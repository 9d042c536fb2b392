//! Parts of screens.

mod asking;
mod big;
mod keybar;
mod picture;
mod plot;
mod today;
mod wrap;

pub use asking::{at_right, blank_rows, field, figure_out_of_view, more};
pub use big::{Scale, bar, big, big_width};
pub use keybar::keybar;
pub use picture::{picture, picture_from, write};
pub use plot::plot;
pub use today::today;
pub use wrap::wrap;
