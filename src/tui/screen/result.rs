//! The page after a set: what it comes to, and what went wrong.

use super::below;
use crate::class::sitting::Purpose;
use crate::class::verdict::Outcome;
use crate::tui::model::{Model, ResultScreen};
use crate::tui::theme::Theme;
use crate::tui::widget::{more, wrap, write};
use crate::wording::exercise as say;
use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};
use ratatui::style::{Modifier, Style};

/// Draws it.
pub fn result(model: &Model, result: &ResultScreen, area: Rect, buffer: &mut Buffer) -> Option<Position> {
    let inner = Rect { x: area.x + 2, width: area.width - 4, ..area };
    let bold = Style::new().add_modifier(Modifier::BOLD);
    let (exercise, judged) = (&result.exercise, &result.judged);
    let (set, sitting) = (exercise.set(), exercise.sitting());
    write(buffer, inner, 0, &set.title, bold);
    let (sign, style) = match judged.outcome {
        Outcome::Passed => ("\u{2713} ", model.theme.right()),
        Outcome::NotYet(_) => ("x ", model.theme.wrong()),
        Outcome::Open | Outcome::Done | Outcome::CannotBeMarked => ("", bold),
    };
    let head = format!("{sign}{}", say::head(sitting.purpose, judged.outcome));
    write(buffer, inner, 1, &head, style);
    let mut row = 3;
    let plan = exercise.plan();
    for sentence in say::result(judged, sitting, plan.as_ref()) {
        for line in wrap(&sentence, inner.width) {
            write(buffer, inner, row, &line, Style::new());
            row += 1;
        }
    }
    for sentence in say::next(judged) {
        for line in wrap(&sentence, inner.width) {
            write(buffer, inner, row, &line, Style::new());
            row += 1;
        }
    }
    let foot = below(inner, inner.height.saturating_sub(3));
    let wrong: Vec<_> = say::page::wrong(judged, &sitting.entries, &model.catalogue).collect();
    if !wrong.is_empty() {
        row += 1;
        write(buffer, inner, row, say::WENT_WRONG, bold);
        let list = below(inner, row + 1);
        let list = Rect { height: list.height.saturating_sub(4), ..list };
        let first = (result.chosen + 1).saturating_sub(usize::from(list.height));
        for (row, (n, (place, line))) in (0..list.height).zip(wrong.iter().enumerate().skip(first)) {
            let line = format!(" {place:>3}  {line} ");
            write(buffer, list, row, &line, if n == result.chosen { Theme::chosen() } else { Style::new() });
        }
        let end = first + usize::from(list.height);
        let beneath = Rect { y: list.y + list.height, height: 1, ..list };
        more(wrong.len().saturating_sub(end), "below", beneath, buffer);
    }
    let problem = model.store_problem.as_ref().map(|why| format!("Nothing can be kept: {why}."));
    if let Some(word) = model.notice.clone().or(problem) {
        for (row, line) in (0..3).zip(wrap(&word, inner.width)) {
            write(buffer, foot, row, &line, bold);
        }
        return None;
    }
    let about: &[&str] = match sitting.purpose {
        Purpose::SelfTest => &[say::SELF_TEST, say::LIMITS],
        Purpose::Check | Purpose::Exercise => &[say::LIMITS],
    };
    let lines = about.iter().flat_map(|sentence| wrap(sentence, inner.width));
    for (row, line) in (0..3).zip(lines) {
        write(buffer, foot, row, &line, Theme::quiet());
    }
    None
}
