//! A round for a room: one large picture, the question, the clock; then the answer, step by step.

use crate::session::Stage;
use crate::tui::model::Model;
use crate::tui::projecting::{Page, ProjectScreen, Tone};
use crate::tui::theme::Theme;
use crate::tui::widget::{Scale, bar, big, big_width, picture, wrap, write};
use crate::wording::{bench, project as say};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::{Modifier, Style};

/// Draws it.
pub fn project(model: &Model, screen: &ProjectScreen, area: Rect, buffer: &mut Buffer) {
    match screen.run.stage() {
        Stage::Ready => ready(screen, area, buffer),
        Stage::Over => over(model, screen, area, buffer),
        Stage::Before(_) | Stage::Asking | Stage::Told(_) => match model.project_page(screen) {
            Ok(page) => question(model, screen, &page, buffer),
            Err(refusal) => {
                let lines = [say::NOTHING.to_owned(), say::needs((refusal.needs_cols, refusal.needs_rows))];
                middle(&lines, area, buffer);
            }
        },
    }
    if let Some(notice) = &model.notice {
        let row = Rect { y: area.y + area.height - 1, height: 1, ..area };
        write(buffer, row, 0, &format!(" {notice} "), Style::new().add_modifier(Modifier::REVERSED));
    }
}

fn question(model: &Model, screen: &ProjectScreen, page: &Page, buffer: &mut Buffer) {
    let two = screen.sights().len() == 2;
    for plate in &page.plates {
        if let Ok(drawing) = &plate.drawing {
            picture(buffer, plate.area, &drawing.grid, model.theme);
        }
        if two {
            let row =
                Rect { x: plate.area.x + 1, y: plate.area.y - 1, width: plate.area.width - 1, height: 1 };
            write(buffer, row, 0, bench::picture_name(plate.place), strong());
        }
    }
    let (said, text) = (&page.said, page.text);
    // Without a picture the words stand in the upper third.
    let drop = if page.plates.is_empty() { text.height / 5 } else { 0 };
    let text = Rect { y: text.y + drop, height: text.height - drop, ..text };
    let bars = u16::from(said.bar.is_some() && !said.bar_beside);
    let rows = text.height.saturating_sub(bars);
    let mut beside = text.width;
    if let Some(figures) = &said.figures {
        let right = Rect { height: rows, ..text };
        big(figures, page.scale, model.lines, Style::new(), right, buffer);
        beside = text.width.saturating_sub(big_width(figures, page.scale) + 2);
    }
    let words = Rect { width: beside, height: rows, ..text };
    for (row, line) in (0..rows).zip(&said.lines) {
        write(buffer, words, row, &line.text, style(model, line.tone));
    }
    if said.hidden > 0 {
        let more = say::more(said.hidden);
        let width = u16::try_from(more.chars().count()).unwrap_or(0).min(text.width);
        let row = rows.saturating_sub(1);
        let end = Rect { x: text.x + text.width - width, width, ..text };
        write(buffer, end, row, &more, Theme::quiet());
    }
    if let Some(left) = said.bar {
        let last = Rect { y: text.y + text.height - 1, height: 1, ..text };
        let last = if said.bar_beside { Rect { width: beside, ..last } } else { last };
        bar(left, model.lines, Style::new(), last, buffer);
    }
}

fn ready(screen: &ProjectScreen, area: Rect, buffer: &mut Buffer) {
    let run = &screen.run;
    let mut lines = wrap(&screen.title, area.width.saturating_sub(6));
    lines.push(say::head(run.which().1, run.pace().question, run.pace().round));
    if run.set_by_hand() > 0 {
        lines.push(say::set_by_hand(run.set_by_hand()));
    }
    lines.push(String::new());
    lines.extend(say::KEYS.iter().map(|line| (*line).to_owned()));
    let top = area.height.saturating_sub(u16::try_from(lines.len()).unwrap_or(0)) / 2;
    for (row, line) in (top..).zip(&lines) {
        let style = if row == top { strong() } else { Style::new() };
        let inner = Rect { x: area.x + 3, width: area.width.saturating_sub(6), ..area };
        write(buffer, inner, row, line, style);
    }
}

/// The end, and what the teams have.
fn over(model: &Model, screen: &ProjectScreen, area: Rect, buffer: &mut Buffer) {
    let run = &screen.run;
    let mut lines = vec![say::OVER.to_owned(), say::asked(run.asked())];
    if run.passed_over() > 0 {
        lines.push(say::passed_over(run.passed_over()));
    }
    let points = run.points();
    let scale = Scale::Small;
    let deep = u16::try_from(lines.len()).unwrap_or(0) + 2;
    let top = area.height.saturating_sub(deep + if points.is_empty() { 0 } else { 2 + scale.rows() }) / 2;
    let inner = Rect { x: area.x + 3, width: area.width.saturating_sub(6), ..area };
    for (row, line) in (top..).zip(&lines) {
        let style = if row == top { strong() } else { Style::new() };
        write(buffer, inner, row, line, style);
    }
    let mut row = top + deep - 1;
    if !points.is_empty() {
        let each = inner.width / u16::try_from(points.len()).unwrap_or(1);
        for (place, points) in (0..).zip(&points) {
            let column = Rect { x: inner.x + each * place, width: each.min(12), ..inner };
            write(buffer, column, row, &say::team(usize::from(place)), strong());
            let figures = points.to_string();
            let wide = big_width(&figures, scale).min(column.width);
            let below = Rect { y: column.y + row + 1, width: wide, height: scale.rows(), ..column };
            big(&figures, scale, model.lines, Style::new(), below, buffer);
        }
        row += 2 + scale.rows();
    }
    write(buffer, inner, row, say::LEAVE, Theme::quiet());
}

fn middle(lines: &[String], area: Rect, buffer: &mut Buffer) {
    let top = area.height / 3;
    let inner = Rect { x: area.x + 3, width: area.width.saturating_sub(6), ..area };
    for (row, line) in (top..).zip(lines) {
        write(buffer, inner, row, line, Style::new());
    }
}

fn strong() -> Style {
    Style::new().add_modifier(Modifier::BOLD)
}

fn style(model: &Model, tone: Tone) -> Style {
    match tone {
        Tone::Strong => strong(),
        Tone::Plain => Style::new(),
        Tone::Quiet => Theme::quiet(),
        Tone::Answer => model.theme.right(),
    }
}
