//! A tool that is moved by hand, its reading building up under the picture.

use super::framed;
use crate::drill::Guess;
use crate::session::Mode;
use crate::tui::model::{Model, WalkScreen};
use crate::tui::theme::Theme;
use crate::tui::widget::write;
use crate::wording::walk as say;
use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};
use ratatui::style::{Modifier, Style};

/// Draws it; while something is guessed the cursor stands in the field.
pub fn walk(model: &Model, walk: &WalkScreen, area: Rect, buffer: &mut Buffer) -> Option<Position> {
    let text = framed(model, &model.walk_picture(walk), area, buffer)?;
    let guesses: &[Guess] = match walk.run.mode() {
        Mode::Showing => &[],
        Mode::Guessing { guesses, .. } => guesses,
    };
    let built = say::rows(walk.run.stand(), walk.run.open(), guesses);
    let body = Rect { y: text.y + 1, height: text.height - 1, ..text };
    parts(model, walk, &built, body, buffer);
    head(model, walk, text, buffer)
}

/// The first row: what moves, or what is asked.
fn head(model: &Model, walk: &WalkScreen, text: Rect, buffer: &mut Buffer) -> Option<Position> {
    let stand = walk.run.stand();
    let (Some(stage), Mode::Guessing { again, .. }) = (walk.run.asked(), walk.run.mode()) else {
        let guessed = *walk.run.mode() != Mode::Showing;
        let moves = if guessed { say::GUESSED_ALL.to_owned() } else { say::moves(&stand.tool) };
        let word = model.notice.clone().unwrap_or(moves);
        write(buffer, text, 0, &word, Theme::quiet());
        let beside =
            if guessed { say::NOT_RECORDED.to_owned() } else { say::form(walk.run.instrument(), stand) };
        right(&beside, &word, text, buffer);
        return None;
    };
    let question = say::guess(stand, stage, walk.run.open() == 0);
    write(buffer, text, 0, &question, Style::new().add_modifier(Modifier::BOLD));
    let start = u16::try_from(question.chars().count()).unwrap_or(0).min(text.width - 1);
    let field = Rect { x: text.x + start, width: text.width - start, ..text };
    write(buffer, field, 0, &walk.field, Style::new());
    let typed = u16::try_from(walk.field.chars().count()).unwrap_or(0);
    let beside = again.map_or_else(|| say::NOT_RECORDED.to_owned(), |again| again.to_string());
    let beside = model.notice.clone().unwrap_or(beside);
    right(&beside, &format!("{question}{}", walk.field), text, buffer);
    Some(Position { x: (field.x + typed).min(field.x + field.width - 1), y: text.y })
}

/// A word at the right end of the first row, where it does not run into what stands there.
fn right(word: &str, beside: &str, text: Rect, buffer: &mut Buffer) {
    let width = word.chars().count();
    if beside.chars().count() + width + 2 <= usize::from(text.width) {
        let width = u16::try_from(width).unwrap_or(0);
        let end = Rect { x: text.x + text.width - width, width, ..text };
        write(buffer, end, 0, word, Theme::quiet());
    }
}

/// The parts one below the other with the sum so far; two in a row where there is little room.
fn parts(model: &Model, walk: &WalkScreen, built: &[say::Row], area: Rect, buffer: &mut Buffer) {
    let all = walk.run.asked().is_none();
    let needed = u16::try_from(built.len()).unwrap_or(u16::MAX).saturating_add(1);
    let total = say::total(walk.run.stand());
    let bold = Style::new().add_modifier(Modifier::BOLD);
    let style = |row: &say::Row| match row.sign {
        "x" => model.theme.wrong(),
        "\u{2713}" => model.theme.right(),
        _ => Style::new(),
    };
    if needed <= area.height {
        for (n, row) in (0..).zip(built) {
            let line = format!("{} {:<50} {:>9} {:>11}", row.sign, row.words, row.value, row.sum);
            write(buffer, area, n, &line, style(row));
        }
        if all {
            write(buffer, area, needed - 1, &format!("{total:>73}"), bold);
        }
        return;
    }
    let half = area.width / 2;
    for (n, row) in (0_u16..).zip(built) {
        let side = Rect { x: area.x + half * (n % 2), width: half - 1, ..area };
        let room = usize::from(half).saturating_sub(row.value.chars().count() + 4);
        let words: String = row.words.chars().take(room).collect();
        write(buffer, side, n / 2, &format!("{} {words:<room$} {}", row.sign, row.value), style(row));
    }
    if all {
        let used = u16::try_from(built.len().div_ceil(2)).unwrap_or(0);
        let last = area.height.saturating_sub(1);
        let free = if built.len() % 2 == 1 && used > last { area.x + half } else { area.x };
        let end = Rect { x: free, width: area.x + area.width - free, ..area };
        write(buffer, end, used.min(last), &format!("  {total}"), bold);
    }
}
