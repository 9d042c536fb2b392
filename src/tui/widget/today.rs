//! What there is to do today, above the list of instruments.

use super::picture::write;
use super::wrap::wrap;
use crate::learner::schedule::Today;
use crate::tui::model::Model;
use crate::tui::theme::Theme;
use crate::wording;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::Style;

/// Draws it; returns the rows it takes, none before the first reading.
pub fn today(model: &Model, area: Rect, buffer: &mut Buffer) -> u16 {
    let Some(today) = &model.today else { return 0 };
    let title = |id: &str| model.catalogue.get(id).map_or_else(|| id.to_owned(), |known| known.title.clone());
    let [what, how] = match (&today.going, &today.plan) {
        (Some(sitting), _) => wording::today::go_on((sitting.score().0, sitting.length())),
        (None, Today::Round(round)) => [wording::today::today(round, title), wording::today::how_much(round)],
        (None, Today::Rest(next)) => wording::today::rest(today.day.until(*next)),
        (None, Today::Fresh) => return 0,
    };
    let room = area.width.saturating_sub(2);
    let style = if today.chosen { Theme::chosen() } else { Style::new() };
    let lines = wrap(&what, room);
    let used = u16::try_from(lines.len()).unwrap_or(1);
    for (row, line) in (0..).zip(lines) {
        write(buffer, area, row, &format!(" {line:<width$} ", width = usize::from(room)), style);
    }
    let how = wrap(&how, room);
    let said = u16::try_from(how.len()).unwrap_or(1);
    for (row, line) in (used..).zip(how) {
        write(buffer, area, row, &format!(" {line}"), Theme::quiet());
    }
    used + said + 1
}
