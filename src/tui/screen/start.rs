//! The page before a set: what it asks, and by which rule.

use super::below;
use crate::tui::model::{Model, StartScreen};
use crate::tui::theme::Theme;
use crate::tui::widget::{more, wrap, write};
use crate::wording::CAUTIONS;
use crate::wording::exercise as say;
use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};
use ratatui::style::{Modifier, Style};

/// Cells of a label.
const LABEL: u16 = 14;
/// Rows at the foot.
const FOOT: u16 = 4;

/// Draws it.
pub fn start(model: &Model, start: &StartScreen, area: Rect, buffer: &mut Buffer) -> Option<Position> {
    let inner = Rect { x: area.x + 2, width: area.width - 4, ..area };
    let bold = Style::new().add_modifier(Modifier::BOLD);
    let exercise = &start.exercise;
    let (set, sitting) = (exercise.set(), exercise.sitting());
    write(buffer, inner, 0, &set.title, bold);
    write(buffer, inner, 1, say::form(sitting.purpose, set), Style::new());
    let mut rows: Vec<(String, String)> = Vec::new();
    let about = wrap(&set.about, inner.width).into_iter().map(|line| (line, String::new()));
    rows.extend(about.filter(|(line, _)| !line.is_empty()));
    if !rows.is_empty() {
        rows.push((String::new(), String::new()));
    }
    let card = sitting.card.as_ref().and_then(|number| model.sets.card(number));
    let card = card.map(|issued| ("Job card", say::card(&issued.card, &sitting.begun)));
    let asked = say::start(set, sitting.purpose, say::KEYS, &model.catalogue);
    for (label, text) in card.into_iter().chain(asked) {
        for (nth, line) in wrap(&text, inner.width.saturating_sub(LABEL)).into_iter().enumerate() {
            let label = if nth == 0 { label } else { "" };
            rows.push((label.to_owned(), line));
        }
    }
    let list = Rect { height: inner.height.saturating_sub(4 + FOOT), ..below(inner, 3) };
    let most = rows.len().saturating_sub(usize::from(list.height));
    let from = start.from.min(most);
    for (row, (label, text)) in (0..list.height).zip(&rows[from..]) {
        write(buffer, list, row, label, if text.is_empty() { Style::new() } else { bold });
        let rest = Rect { x: list.x + LABEL, width: list.width.saturating_sub(LABEL), ..list };
        if !text.is_empty() {
            write(buffer, rest, row, text, Style::new());
        }
    }
    let beneath = Rect { y: list.y + list.height, height: 1, ..list };
    more(most - from, "below", beneath, buffer);
    let foot = below(inner, inner.height.saturating_sub(FOOT));
    let mut word = model.notice.clone();
    if let Some(needs) = &start.needs {
        word = Some(if start.is_refused() {
            say::too_small(&needs.questions, needs.size, set.glass)
        } else {
            say::passed_by(needs.questions.len())
        });
    } else if start.goes_on() {
        word = Some(say::goes_on(exercise.which(), sitting.interruptions));
    }
    let said = wrap(&word.unwrap_or_default(), inner.width);
    for (row, line) in (0..2).zip(&said) {
        write(buffer, foot, row, line, bold);
    }
    write(buffer, foot, 2, CAUTIONS[0], Theme::quiet());
    write(buffer, foot, 3, say::TRAINS, Theme::quiet());
    None
}
