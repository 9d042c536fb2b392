//! The kinds of question there are on an instrument, each with what is known of earlier answers.

use super::below;
use crate::drill::Kind;
use crate::tui::model::Model;
use crate::tui::theme::Theme;
use crate::tui::widget::{wrap, write};
use crate::wording::{bench as say, task};
use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};
use ratatui::style::{Modifier, Style};

/// Cells of the record at the right end.
const RECORD: usize = 18;

/// Draws the list; the chosen kind's sentence stands under it.
pub fn kinds(
    model: &Model,
    (instrument, kinds, chosen): (&str, &[Kind], usize),
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
    for (row, (n, kind)) in (0..list.height).zip(kinds.iter().enumerate().skip(first)) {
        let score = known.map(|known| known.score_of(*kind)).unwrap_or_default();
        let record = say::tally(score.right, score.answered);
        let room = usize::from(list.width).saturating_sub(RECORD + 3);
        let name = format!("{:<22}", task::name(*kind));
        let line = format!(" {name:<room$} {record:>RECORD$} ");
        write(buffer, list, row, &line, if n == chosen { Theme::chosen() } else { Style::new() });
    }
    let foot = below(inner, inner.height.saturating_sub(3));
    let about = kinds.get(chosen).map_or("", |kind| task::about(*kind));
    for (row, line) in (0..).zip(wrap(about, inner.width)) {
        write(buffer, foot, row, &line, Style::new());
    }
    if let Some(notice) = &model.notice {
        write(buffer, foot, 2, notice, bold);
    }
    None
}
