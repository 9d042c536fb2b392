//! The screens. They never see each other.

mod bench;
mod care;
mod class;
mod home;
mod kinds;
mod lesson;
mod lines;
mod practice;
mod progress;
mod project;
mod result;
mod sets;
mod start;
mod walk;

pub use bench::bench;
pub use care::care;
pub use class::class;
pub use home::home;
pub use kinds::kinds;
pub use lesson::lesson;
pub use lines::lines;
pub use practice::practice;
pub use progress::progress;
pub use project::project;
pub use result::result;
pub use sets::sets;
pub use start::start;
pub use walk::walk;

use crate::render::{Drawing, Refusal};
use crate::tui::model::Model;
use crate::tui::widget::{picture, write};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::Style;

/// The rows of `area` from `from` on.
fn below(area: Rect, from: u16) -> Rect {
    let from = from.min(area.height);
    Rect { y: area.y + from, height: area.height - from, ..area }
}

/// A picture with so many rows of text under it; returns where the text stands, none where the picture was refused.
fn framed(
    model: &Model,
    (drawing, rows): &(Result<Drawing, Refusal>, u16),
    area: Rect,
    buffer: &mut Buffer,
) -> Option<Rect> {
    let frame = Rect { height: area.height.saturating_sub(*rows), ..area };
    match drawing {
        Ok(drawing) => picture(buffer, frame, &drawing.grid, model.theme),
        Err(refusal) => {
            let other = Other::of(model.has_two_views());
            refused(refusal, model.size, rows + 1, other, frame, buffer);
            return None;
        }
    }
    let text = below(area, frame.height);
    Some(Rect { x: text.x + 1, width: text.width - 2, ..text })
}

/// Says why a picture is not there. `extra` rows are needed beside it; there may be another view of the tool.
fn refused(refusal: &Refusal, size: (u16, u16), extra: u16, other: Other, area: Rect, buffer: &mut Buffer) {
    let needs = format!(
        "This cannot be drawn truly in {}x{}; the window needs {}x{}.",
        size.0,
        size.1,
        refusal.needs_cols,
        refusal.needs_rows + i64::from(extra)
    );
    let way = match other {
        Other::View => "Make the window larger, or press Tab for the other view, or l for other lines.",
        Other::Nothing => "Make the window larger, or press l for other lines.",
    };
    let lines =
        [needs.as_str(), "A drawing that cannot be read truly is not drawn, and not asked about.", way];
    for (row, line) in (0..).zip(lines) {
        write(buffer, Rect { x: area.x + 2, width: area.width - 4, ..area }, 2 + row, line, Style::new());
    }
}

/// What else a tool could be looked at in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Other {
    /// The other view.
    View,
    /// Nothing.
    Nothing,
}

impl Other {
    fn of(has_two_views: bool) -> Self {
        if has_two_views { Self::View } else { Self::Nothing }
    }
}
