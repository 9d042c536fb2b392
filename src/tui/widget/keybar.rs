//! The last row: at most five keys.

use super::picture::write;
use crate::tui::command::{Command, bar, key_name};
use crate::tui::model::Model;
use crate::tui::theme::Theme;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::{Modifier, Style};

/// Writes the keys that matter now; those that would do nothing on this instrument are left out.
pub fn keybar(model: &Model, area: Rect, buffer: &mut Buffer) {
    let mut x = 1;
    for (command, word) in bar(model.place()) {
        let of_use = match command {
            Command::GlassUp => model.has_glass(),
            Command::TurnView => model.has_thimble(),
            _ => true,
        };
        if !of_use {
            continue;
        }
        for (text, style) in [
            (format!(" {} ", key_name(*command)), Style::new().add_modifier(Modifier::REVERSED)),
            (format!(" {word}   "), Theme::quiet()),
        ] {
            let rest = Rect { x: area.x + x, width: area.width.saturating_sub(x), ..area };
            write(buffer, rest, 0, &text, style);
            x += u16::try_from(text.chars().count()).unwrap_or(0);
        }
    }
}
