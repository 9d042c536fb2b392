//! A question of any kind: its pictures, what is asked, and how it is answered; then the mark and why.

use super::{Other, refused};
use crate::session::Stand;
use crate::tui::benching::{BenchScreen, Page, Plate, Row, Tone};
use crate::tui::model::Model;
use crate::tui::theme::Theme;
use crate::tui::widget::{at_right, field, picture, write};
use crate::wording;
use crate::wording::bench as say;
use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};
use ratatui::style::{Modifier, Style};

/// Draws it; the cursor stands in the answer field, where there is one.
pub fn bench(model: &Model, bench: &BenchScreen, area: Rect, buffer: &mut Buffer) -> Option<Position> {
    let page = model.bench_page(bench);
    let two = bench.sights().len() == 2;
    for plate in &page.plates {
        match &plate.drawing {
            Ok(drawing) => picture(buffer, plate.area, &drawing.grid, model.theme),
            Err(refusal) => {
                let extra = area.height + 1 - plate.area.height;
                let other = Other::of(model.has_two_views());
                refused(refusal, model.size, extra, other, plate.area, buffer);
                return None;
            }
        }
        if two {
            name(bench, &page, plate, buffer);
        }
    }
    words(model, bench, &page, buffer)
}

/// What one of two pictures is called, above it.
fn name(bench: &BenchScreen, page: &Page, plate: &Plate, buffer: &mut Buffer) {
    let row = Rect { x: plate.area.x + 1, y: plate.area.y - 1, width: plate.area.width - 1, height: 1 };
    let name = say::picture_name(plate.place);
    write(buffer, row, 0, name, Style::new().add_modifier(Modifier::BOLD));
    let here = plate.place == bench.front();
    let beside = match (
        page.plates.len(),
        here && plate.drawing.as_ref().is_ok_and(|drawing| drawing.glass.is_some()),
    ) {
        (1, _) if !page.turns => say::OTHER,
        (_, true) => say::IN_HAND,
        (_, false) => "",
    };
    let used = u16::try_from(name.chars().count() + 2).unwrap_or(0).min(row.width);
    let rest = Rect { x: row.x + used, width: row.width - used, ..row };
    write(buffer, rest, 0, beside, Theme::quiet());
}

/// The words under the pictures; without pictures they stand in the upper third.
fn words(model: &Model, bench: &BenchScreen, page: &Page, buffer: &mut Buffer) -> Option<Position> {
    let drop = if page.plates.is_empty() { page.text.height / 4 } else { 0 };
    let text = Rect { y: page.text.y + drop, height: page.text.height - drop, ..page.text };
    at_right(&model.bench_score(bench), text, 0, buffer);
    let mut cursor = None;
    // The verdict stays; what does not fit under it is brought up by a key.
    let told = matches!(bench.run.stand(), Stand::Told(_));
    let room = usize::from(text.height).saturating_sub(1);
    let most = page.rows.len().saturating_sub(1 + room);
    let from = if told { bench.from.min(most) } else { 0 };
    let shown = page.rows.iter().take(1).chain(page.rows.iter().skip(1 + from));
    for (row, line) in (0..text.height).zip(shown) {
        match line {
            Row::Field => {
                let from = row.saturating_sub(1);
                let around = Rect { y: text.y + from, height: text.height - from, ..text };
                cursor = Some(field(wording::FIELD, &bench.field, around, buffer));
            }
            Row::Answers { first, cells, answers: said } => {
                answers(bench, (*first, *cells, said), (text, row), buffer);
            }
            Row::Text(line, tone) => write(buffer, text, row, line, style(model, *tone)),
        }
    }
    let hidden = most.saturating_sub(from);
    if told && hidden > 0 {
        let last = text.height.saturating_sub(1);
        at_right(&say::more(hidden), text, last, buffer);
    }
    cursor
}

fn style(model: &Model, tone: Tone) -> Style {
    match tone {
        Tone::Right => model.theme.right(),
        Tone::Wrong => model.theme.wrong(),
        Tone::Quiet => Theme::quiet(),
        Tone::Plain => Style::new(),
    }
}

/// One row of the answers offered, each with its number.
fn answers(
    bench: &BenchScreen,
    (first, cells, said): (usize, u16, &[String]),
    (text, row): (Rect, u16),
    buffer: &mut Buffer,
) {
    let mut x = 0;
    for (number, answer) in (first..).zip(said) {
        let place = Rect { x: text.x + x, width: text.width.saturating_sub(x), ..text };
        let style = if number == bench.chosen { Theme::chosen() } else { Style::new() };
        write(buffer, place, row, &format!(" {}  {answer} ", number + 1), style);
        x += cells;
    }
}
