//! The screens. They never see each other.

mod care;
mod home;
mod lines;
mod practice;
mod progress;

pub use care::care;
pub use home::home;
pub use lines::lines;
pub use practice::practice;
pub use progress::progress;

use ratatui::layout::Rect;

/// The rows of `area` from `from` on.
fn below(area: Rect, from: u16) -> Rect {
    let from = from.min(area.height);
    Rect { y: area.y + from, height: area.height - from, ..area }
}
