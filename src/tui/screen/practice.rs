//! One question: the picture, a line of question, the answer field; then the mark and why.

mod answered;

use super::{Other, below, refused};
use crate::drill::Role;
use crate::render::{Drawing, Refusal};
use crate::session::Phase;
use crate::tui::model::{Model, PracticeScreen};
use crate::tui::theme::Theme;
use crate::tui::widget::{at_right, blank_rows, field, figure_out_of_view, picture_from, wrap, write};
use crate::wording;
use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};
use ratatui::style::Style;

/// Draws it; the cursor stands in the answer field.
pub fn practice(
    model: &Model,
    practice: &PracticeScreen,
    drawing: &Result<Drawing, Refusal>,
    area: Rect,
    buffer: &mut Buffer,
) -> Option<Position> {
    let (cols, rows) = model.picture_size();
    let frame = Rect { width: cols, height: rows, ..area };
    let drawing = match drawing {
        Ok(drawing) => drawing,
        Err(refusal) => {
            let extra = model.size.1 - model.picture_size().1 + model.sketch_rows(practice);
            refused(refusal, model.size, extra, Other::of(model.has_two_views()), frame, buffer);
            return None;
        }
    };
    let sketch = model.sketch_rows(practice);
    // After the answer it may be drawn in fewer rows.
    let rows = sketch + u16::try_from(drawing.grid.rows()).unwrap_or(rows).min(rows - sketch);
    let frame = Rect { height: rows, ..frame };
    let drawn = Rect { y: frame.y + sketch, height: rows - sketch, ..frame };
    let blank = blank_rows(&drawing.grid);
    let width = area.width - 2;
    let told = match practice.run.phase() {
        Phase::Answered(answered) => {
            let beneath = if sketch == 0 { blank.0 + blank.1 } else { blank.1 };
            let room = area.height - rows + beneath;
            Some(answered::told(model, practice, answered, width, room))
        }
        Phase::Before(_) | Phase::Asking { .. } => None,
    };
    // What is said after the answer takes the rows that the picture leaves blank, those below it first.
    let wanted = told.as_ref().map_or(0, |told| told.rows().saturating_sub(area.height - rows));
    let below_it = wanted.min(blank.1);
    let above_it = if sketch == 0 { (wanted - below_it).min(blank.0) } else { 0 };
    let shown = Rect { height: drawn.height - below_it - above_it, ..drawn };
    picture_from(buffer, shown, &drawing.grid, usize::from(above_it), model.theme);
    // Right above what is drawn, which stands in the middle of its rows.
    let above = blank.0.saturating_sub(1);
    for (row, line) in
        (above..above + sketch).zip(wording::sketch(practice.run.question().asks).into_iter().flatten())
    {
        write(buffer, frame, row, line, Style::new());
    }
    let text = below(area, rows - below_it - above_it);
    let text = Rect { x: text.x + 1, width, ..text };
    match practice.run.phase() {
        Phase::Before(_) => {
            let role = practice.earlier().map_or(Role::Measuring, |sight| sight.role);
            let mut row = 0;
            for line in wrap(wording::beside(practice.run.tool(), role), text.width) {
                write(buffer, text, row, &line, Style::new());
                row += 1;
            }
            write(buffer, text, row, "Enter to go on.", Theme::quiet());
            at_right(&score_of(model, practice), text, row, buffer);
            None
        }
        Phase::Asking { again } => {
            let instrument = model.instrument(practice);
            let asks = practice.run.question().asks;
            let prompt = match practice.earlier() {
                Some(sight) => wording::once_more(sight.role).to_owned(),
                None => wording::prompt(instrument, asks),
            };
            write(buffer, text, 0, &prompt, Style::new());
            let again = again.filter(|_| practice.hinted).map(|nonsense| nonsense.to_string());
            let word = again.or_else(|| model.notice.clone()).unwrap_or_else(|| hint(practice, drawing));
            write(buffer, text, 2, &word, Theme::quiet());
            at_right(&score_of(model, practice), text, 0, buffer);
            Some(field(wording::FIELD, &practice.field, text, buffer))
        }
        Phase::Answered(_) => {
            at_right(&score_of(model, practice), text, 0, buffer);
            if let Some(told) = told {
                told.write(text, buffer);
            }
            None
        }
    }
}

/// What may be worth knowing about the picture.
fn hint(practice: &PracticeScreen, drawing: &Drawing) -> String {
    if let Some(word) = figure_out_of_view(drawing) {
        return word.to_owned();
    }
    if practice.again.is_some() {
        return String::new();
    }
    let first = practice.run.question().earlier(practice.run.tool()).into_iter().next();
    first.map(|sight| wording::to_see_again(sight.role).to_owned()).unwrap_or_default()
}

/// Which of the shop's tools it is, if it is one, which question, and how many were right.
fn score_of(model: &Model, practice: &PracticeScreen) -> String {
    let run = &practice.run;
    let score = match (&practice.sitting, run.asked()) {
        (Some(sitting), _) => {
            let open = u32::from(!matches!(run.phase(), Phase::Answered(_)));
            let asked = sitting.score().0;
            wording::today::which((asked + open, sitting.length()), sitting.score())
        }
        (None, 0) => format!("question {}", run.turn()),
        (None, asked) => format!("question {}   {} of {asked} right", run.turn(), run.right()),
    };
    model.labelled(&practice.instrument, score)
}
