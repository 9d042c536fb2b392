//! The last row: at most five keys.

use super::picture::write;
use crate::render::{Drawing, Refusal};
use crate::session::Asked;
use crate::tui::command::{Command, bar, key_name};
use crate::tui::model::{Model, Record, Screen};
use crate::tui::theme::Theme;
use crate::wording::today::PRIVATE;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::{Modifier, Style};

/// Writes the keys that matter now; those that would do nothing on this instrument are left out.
pub fn keybar(model: &Model, drawing: Option<&Result<Drawing, Refusal>>, area: Rect, buffer: &mut Buffer) {
    let shown = drawing.and_then(|drawing| drawing.as_ref().ok());
    let private = model.record == Record::Private;
    // Closer together where the word beside them needs the room.
    let gap = if private { " " } else { "   " };
    let mut x = 1;
    for (command, word) in bar(model.place()) {
        let of_use = match command {
            Command::GlassUp => shown.is_some_and(|drawing| model.has_glass(drawing)),
            Command::TurnView => model.has_two_views(),
            // Where there is no picture at all, none is missing.
            Command::Seen | Command::Answer | Command::Lock | Command::LeaveSet => {
                drawing.is_none() || shown.is_some()
            }
            _ => true,
        };
        if !of_use {
            continue;
        }
        // Enter answers while something is asked.
        let word = match (command, model.screen()) {
            (Command::LessonNext, Screen::Lesson(lesson))
                if matches!(lesson.run.asked(), Asked::Open { .. }) =>
            {
                "answer"
            }
            _ => *word,
        };
        for (text, style) in [
            (
                format!(" {} ", key_name(model.place(), *command)),
                Style::new().add_modifier(Modifier::REVERSED),
            ),
            (format!(" {word}{gap}"), Theme::quiet()),
        ] {
            let rest = Rect { x: area.x + x, width: area.width.saturating_sub(x), ..area };
            write(buffer, rest, 0, &text, style);
            x += u16::try_from(text.chars().count()).unwrap_or(0);
        }
    }
    if private {
        let word = format!(" {PRIVATE} ");
        let width = u16::try_from(word.len()).unwrap_or(0).min(area.width);
        let end = Rect { x: area.x + area.width - width, width, ..area };
        write(buffer, end, 0, &word, Style::new().add_modifier(Modifier::BOLD));
    }
}
