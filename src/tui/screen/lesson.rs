//! A step of a lesson: the picture, what is said of it, perhaps a question.

use super::framed;
use crate::session::Asked;
use crate::tui::model::{LessonScreen, Model};
use crate::tui::theme::Theme;
use crate::tui::widget::{wrap, write};
use crate::wording::walk as say;
use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};
use ratatui::style::{Modifier, Style};

/// Draws it; while something is asked the cursor stands in the field.
pub fn lesson(model: &Model, lesson: &LessonScreen, area: Rect, buffer: &mut Buffer) -> Option<Position> {
    let text = framed(model, &model.lesson_picture(lesson), area, buffer)?;
    let run = &lesson.run;
    let which = say::which(run.which(), run.which_point());
    let mut lines: Vec<(String, Style)> =
        wrap(&run.said(), text.width).into_iter().map(|line| (line, Style::new())).collect();
    let mut cursor = None;
    if let Some([question, right, told]) = run.question() {
        match run.asked() {
            Asked::Nothing => {}
            Asked::Open { again, wrong } => {
                let row = u16::try_from(lines.len()).unwrap_or(0);
                cursor = Some((row, question.chars().count() + 1));
                let bold = Style::new().add_modifier(Modifier::BOLD);
                lines.push((format!("{question} {}", lesson.field), bold));
                let hint = again.map(|again| (again.to_string(), Theme::quiet()));
                let wrong = wrong.as_ref().map(|typed| (say::not_yet(typed), model.theme.wrong()));
                lines.extend(hint.or(wrong));
            }
            Asked::Right(typed) => {
                lines = vec![(say::answered(typed), model.theme.right())];
                lines.extend(wrap(&told, text.width).into_iter().map(|line| (line, Style::new())));
            }
            Asked::Shown => {
                lines = vec![(say::answer_shown(&right), Style::new())];
                lines.extend(wrap(&told, text.width).into_iter().map(|line| (line, Style::new())));
            }
        }
    }
    let first = run.which().0 == 1 && run.which_point().0 == 1;
    let mind = wrap(&say::mind(&run.lesson().caution), text.width);
    if first && lines.len() + mind.len() < usize::from(text.height) {
        lines.extend(mind.into_iter().map(|line| (line, Theme::quiet())));
    }
    // Where there is a row to spare, the head has one of its own.
    let headed = usize::from(text.height) > lines.len();
    if headed {
        let head = model.notice.clone().unwrap_or_else(|| run.lesson().title.clone());
        write(buffer, text, 0, &head, Theme::quiet());
        let width = u16::try_from(which.chars().count()).unwrap_or(0).min(text.width);
        let end = Rect { x: text.x + text.width - width, width, ..text };
        write(buffer, end, 0, &which, Theme::quiet());
    }
    let from = u16::from(headed);
    // What is asked stays in view.
    let over = lines.len().saturating_sub(usize::from(text.height.saturating_sub(from)));
    for (row, (line, style)) in (from..text.height).zip(&lines[over..]) {
        write(buffer, text, row, line, *style);
    }
    cursor.map(|(row, column)| {
        let over = u16::try_from(over).unwrap_or(0);
        let column = u16::try_from(column + lesson.field.chars().count()).unwrap_or(0);
        Position { x: text.x + column.min(text.width - 1), y: text.y + from + row.saturating_sub(over) }
    })
}
