//! The whole screen from the model. Nothing is changed here.

use super::command::find;
use super::model::{LEAST, Model, Overlay, OverlayKind, Screen};
use super::theme::Theme;
use super::widget::{keybar, write};
use super::{projecting, screen};
use crate::terms;
use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};
use ratatui::style::{Modifier, Style};
use ratatui::widgets::{Block, Clear, Widget};

/// Draws the screen; returns where the cursor stands, if it is shown.
pub fn view(model: &Model, buffer: &mut Buffer) -> Option<Position> {
    let area = buffer.area;
    let project = matches!(model.screen(), Screen::Project(_));
    let (cols, rows) = if project { projecting::LEAST } else { LEAST };
    if area.width < cols || area.height < rows {
        too_small((cols, rows), area, buffer);
        return None;
    }
    if let Screen::Project(screen) = model.screen() {
        // It has no key bar: the picture needs the rows.
        screen::project(model, screen, area, buffer);
        return model.overlay.as_ref().map(|overlay| typed_over(model, overlay, area, buffer));
    }
    let bar = Rect { y: area.height - 1, height: 1, ..area };
    let body = Rect { height: area.height - 1, ..area };
    let drawing = model.drawing();
    let cursor = match model.screen() {
        Screen::Home { chosen } => screen::home(model, *chosen, body, buffer),
        Screen::Practice(practice) => {
            drawing.as_ref().and_then(|drawing| screen::practice(model, practice, drawing, body, buffer))
        }
        Screen::Kinds { instrument, offers, chosen } => {
            screen::kinds(model, (instrument, offers, *chosen), body, buffer)
        }
        Screen::Bench(bench) => screen::bench(model, bench, body, buffer),
        Screen::Walk(walk) => screen::walk(model, walk, body, buffer),
        Screen::Lesson(lesson) => screen::lesson(model, lesson, body, buffer),
        Screen::Progress { chosen } => screen::progress(model, *chosen, body, buffer),
        Screen::Class(class) => screen::class(model, class, body, buffer),
        Screen::Sets { chosen } => screen::sets(model, *chosen, body, buffer),
        Screen::Start(start) => screen::start(model, start, body, buffer),
        Screen::Result(result) => screen::result(model, result, body, buffer),
        Screen::Lines => screen::lines(model, body, buffer),
        Screen::Care { instrument, from } => screen::care(model, instrument, *from, body, buffer),
        // Drawn above.
        Screen::Project(_) => None,
    };
    keybar(model, drawing.as_ref(), bar, buffer);
    match &model.overlay {
        Some(overlay) => Some(typed_over(model, overlay, body, buffer)),
        None => cursor,
    }
}

fn too_small((cols, rows): (u16, u16), area: Rect, buffer: &mut Buffer) {
    let line = format!("Linefall needs {cols}x{rows}; this is {}x{}.", area.width, area.height);
    let words: Vec<char> = line.chars().collect();
    let width = usize::from(area.width.max(1));
    for (row, part) in (0..area.height).zip(words.chunks(width)) {
        write(buffer, area, row, &part.iter().collect::<String>(), Style::new());
    }
}

/// Help or palette: what is valid here, filtered by what has been typed.
fn typed_over(model: &Model, overlay: &Overlay, body: Rect, buffer: &mut Buffer) -> Position {
    let area = Rect { x: body.x + 1, y: body.y + 1, width: body.width - 2, height: body.height - 2 };
    Clear.render(area, buffer);
    let title = match overlay.kind {
        OverlayKind::Help => " Help: type to filter, Enter to do it, Esc to close ",
        OverlayKind::Palette => " Command: type to find it, Enter to do it, Esc to close ",
    };
    Block::bordered().title(title).render(area, buffer);
    let inner = Rect { x: area.x + 2, y: area.y + 1, width: area.width - 4, height: area.height - 2 };
    let sign = match overlay.kind {
        OverlayKind::Help => "? ",
        OverlayKind::Palette => ": ",
    };
    write(buffer, inner, 0, &format!("{sign}{}", overlay.text), Style::new().add_modifier(Modifier::BOLD));
    let found = find(model.place(), &overlay.text);
    let list = Rect { y: inner.y + 2, height: inner.height.saturating_sub(2), ..inner };
    let first = (overlay.chosen + 1).saturating_sub(usize::from(list.height));
    for (row, (n, entry)) in (0..list.height).zip(found.iter().enumerate().skip(first)) {
        let keys: Vec<&str> = entry.keys.iter().map(|key| key.name).collect();
        let here = entry.places.contains(&model.place());
        let place = if here { "" } else { entry.places[0].word() };
        let line = format!("{:<14} {}  {place}", keys.join(" "), entry.sentence);
        let style = match (n == overlay.chosen, here) {
            (true, _) => Theme::chosen(),
            (false, true) => Style::new(),
            (false, false) => Theme::quiet(),
        };
        write(buffer, list, row, &line, style);
    }
    let row = u16::try_from(found.len().saturating_sub(first)).unwrap_or(u16::MAX);
    let words = terms::find(&overlay.text);
    if found.is_empty() && words.is_empty() {
        write(buffer, list, 0, "nothing goes by that name", Theme::quiet());
    }
    for (row, term) in (row.saturating_add(u16::from(!found.is_empty()))..list.height).zip(words) {
        let also =
            if term.also.is_empty() { String::new() } else { format!(" (also {})", term.also.join(", ")) };
        write(buffer, list, row, &format!("{}: {}{also}", term.word, term.meaning), Style::new());
    }
    let typed = u16::try_from(overlay.text.chars().count()).unwrap_or(0);
    Position { x: (inner.x + 2 + typed).min(inner.x + inner.width - 1), y: inner.y }
}
