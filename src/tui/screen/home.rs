//! The list of instruments.

use super::below;
use crate::tui::model::Model;
use crate::tui::model::Record;
use crate::tui::theme::Theme;
use crate::tui::widget::{more, today, write};
use crate::wording::{self, CAUTIONS};
use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};
use ratatui::style::{Modifier, Style};

/// Draws the list, each instrument with what is known of earlier readings.
pub fn home(model: &Model, chosen: usize, area: Rect, buffer: &mut Buffer) -> Option<Position> {
    let inner = Rect { x: area.x + 2, width: area.width - 4, ..area };
    write(buffer, inner, 0, "Linefall", Style::new().add_modifier(Modifier::BOLD));
    let ids = model.ids();
    // A title that is cut in the list is said in full when it is chosen.
    let cut_off = ids.get(chosen).and_then(|id| model.catalogue.title(id));
    let cut_off = cut_off.filter(|title| title.chars().count() > usize::from(inner.width).saturating_sub(21));
    let head = cut_off.unwrap_or("Choose an instrument and read it until your readings repeat.");
    write(buffer, inner, 1, head, Style::new());
    let used = today(model, below(inner, 3), buffer);
    let in_list = !model.today.as_ref().is_some_and(|today| today.chosen);
    let list = Rect { height: inner.height.saturating_sub(8 + used), ..below(inner, 3 + used) };
    let first = (chosen + 1).saturating_sub(usize::from(list.height));
    for (row, (n, id)) in (0..list.height).zip(ids.iter().enumerate().skip(first)) {
        let title = model.catalogue.title(id).unwrap_or(id);
        // What is known of a tool of the crib is what is known of its instrument.
        let id = model.catalogue.instrument_id(id);
        let known = model.progress.as_ref().and_then(|progress| {
            progress.instruments.iter().find(|i| i.instrument == id && i.score.answered > 0)
        });
        let record = known.map_or_else(
            || "not tried yet".to_owned(),
            |known| format!("{} of {} right", known.score.right, known.score.answered),
        );
        let width = usize::from(list.width);
        let room = width.saturating_sub(21);
        let title = cut(title, room);
        let line = format!(" {title:<room$} {record:>18} ");
        let style = if n == chosen && in_list { Theme::chosen() } else { Style::new() };
        write(buffer, list, row, &line, style);
    }
    let end = first + usize::from(list.height);
    more(first, "above", Rect { y: list.y.saturating_sub(1), height: 1, ..list }, buffer);
    let beneath = Rect { y: list.y + list.height, height: 1, ..list };
    more(ids.len().saturating_sub(end), "below", beneath, buffer);
    let foot = below(inner, inner.height.saturating_sub(4));
    let word = model.store_problem.as_ref().map(|why| format!("Nothing can be kept: {why}."));
    let word = word.or_else(|| model.notice.clone());
    let private = || (model.record == Record::Private).then(|| wording::today::NOTHING_KEPT.to_owned());
    let word = word.or_else(private).unwrap_or_default();
    write(buffer, foot, 0, &word, Style::new().add_modifier(Modifier::BOLD));
    write(buffer, foot, 1, CAUTIONS[0], Theme::quiet());
    write(
        buffer,
        foot,
        2,
        "Linefall trains reading; the shop's procedures and inspectors decide.",
        Theme::quiet(),
    );
    None
}

/// A title in so many cells.
fn cut(title: &str, room: usize) -> String {
    if title.chars().count() <= room {
        return title.to_owned();
    }
    title.chars().take(room.saturating_sub(1)).chain(['\u{2026}']).collect()
}
