//! The care card of an instrument.

use crate::instrument::care_card;
use crate::tui::model::Model;
use crate::tui::theme::Theme;
use crate::tui::widget::{wrap, write};
use crate::wording;
use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};
use ratatui::style::{Modifier, Style};

/// Draws the card from line `from` on; returns no cursor.
pub fn care(
    model: &Model,
    instrument: &str,
    from: usize,
    area: Rect,
    buffer: &mut Buffer,
) -> Option<Position> {
    let inner = Rect { x: area.x + 2, width: area.width - 4, ..area };
    let bold = Style::new().add_modifier(Modifier::BOLD);
    let family = model.catalogue.get(instrument).map_or("", |known| known.family.as_str());
    let Some(card) = care_card(family) else {
        write(buffer, inner, 0, &wording::no_care_card(family), Style::new());
        return None;
    };
    write(buffer, inner, 0, &card.title, bold);
    let mut lines: Vec<(String, Style)> = Vec::new();
    for (heading, sentences) in wording::care(&card) {
        lines.push((heading.to_owned(), bold));
        for sentence in sentences {
            let wrapped = wrap(sentence, inner.width.saturating_sub(4));
            for (n, part) in wrapped.into_iter().enumerate() {
                let lead = if n == 0 { "  - " } else { "    " };
                lines.push((format!("{lead}{part}"), Style::new()));
            }
        }
    }
    lines.push((wording::care_source(&card), Theme::quiet()));
    let last = lines.len().saturating_sub(usize::from(inner.height.saturating_sub(2)));
    for (row, (line, style)) in (2..inner.height).zip(&lines[from.min(last)..]) {
        write(buffer, inner, row, line, *style);
    }
    None
}
