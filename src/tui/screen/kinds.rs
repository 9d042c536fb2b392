//! The kinds of question there are on an instrument, each with what is known of earlier answers.

use super::below;
use crate::session::Programme;
use crate::tui::model::Model;
use crate::tui::theme::Theme;
use crate::tui::widget::{more, wrap, write};
use crate::wording::{bench as say, task};
use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};
use ratatui::style::{Modifier, Style};

/// Cells of the record at the right end.
const RECORD: usize = 18;

/// Draws the list; the chosen kind's sentence stands under it.
pub fn kinds(
    model: &Model,
    (instrument, offers, chosen): (&str, &[Programme], usize),
    area: Rect,
    buffer: &mut Buffer,
) -> Option<Position> {
    let inner = Rect { x: area.x + 2, width: area.width - 4, ..area };
    let bold = Style::new().add_modifier(Modifier::BOLD);
    let title = model.catalogue.title(instrument).unwrap_or(instrument);
    let head = wrap(&say::kinds_head(title), inner.width);
    let used = u16::try_from(head.len()).unwrap_or(1);
    for (row, line) in (0..).zip(&head) {
        write(buffer, inner, row, line, bold);
    }
    write(buffer, inner, used, say::KINDS, Style::new());
    let list = Rect { height: inner.height.saturating_sub(used + 6), ..below(inner, used + 2) };
    let first = (chosen + 1).saturating_sub(usize::from(list.height));
    let id = model.catalogue.instrument_id(instrument);
    let known = model.progress.as_ref().and_then(|all| all.instruments.iter().find(|i| i.instrument == id));
    for (row, (n, offer)) in (0..list.height).zip(offers.iter().enumerate().skip(first)) {
        let (name, record) = match offer {
            Programme::Level(level) => (say::level(*level), String::new()),
            Programme::Kinds(kinds) => {
                let all = kinds.iter().filter_map(|kind| Some(known?.score_of(*kind)));
                let (right, answered) =
                    all.fold((0, 0), |sum, one| (sum.0 + one.right, sum.1 + one.answered));
                let names: Vec<&str> = kinds.iter().map(|kind| task::name(*kind)).collect();
                (names.join(", "), say::tally(right, answered))
            }
        };
        let room = usize::from(list.width).saturating_sub(RECORD + 3);
        let line = format!(" {name:<room$} {record:>RECORD$} ");
        write(buffer, list, row, &line, if n == chosen { Theme::chosen() } else { Style::new() });
    }
    more(first, "above", Rect { y: list.y - 1, height: 1, ..list }, buffer);
    let end = first + usize::from(list.height);
    let beneath = Rect { y: list.y + list.height, height: 1, ..list };
    more(offers.len().saturating_sub(end), "below", beneath, buffer);
    let foot = below(inner, inner.height.saturating_sub(3));
    let about = match offers.get(chosen) {
        Some(Programme::Kinds(kinds)) => kinds.first().map_or("", |kind| task::about(*kind)).to_owned(),
        Some(Programme::Level(level)) => {
            let tool = model.catalogue.get(instrument);
            say::of_level(&tool.map(|tool| level.kinds(tool)).unwrap_or_default())
        }
        None => String::new(),
    };
    for (row, line) in (0..).zip(wrap(&about, inner.width)) {
        write(buffer, foot, row, &line, Style::new());
    }
    if let Some(notice) = &model.notice {
        write(buffer, foot, 2, notice, bold);
    }
    None
}
