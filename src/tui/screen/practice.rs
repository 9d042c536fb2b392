//! One question: the picture, a line of question, the answer field; then the mark and why.

mod answered;

use super::{Other, below, refused};
use crate::drill::Role;
use crate::render::{Cell, Drawing, Grid, Ink, Refusal};
use crate::session::Phase;
use crate::tui::model::{Model, PracticeScreen};
use crate::tui::theme::Theme;
use crate::tui::widget::{picture_from, wrap, write};
use crate::wording;
use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};
use ratatui::style::{Modifier, Style};

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
            score(practice, text, row, buffer);
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
            score(practice, text, 0, buffer);
            Some(field(wording::FIELD, &practice.field, text, buffer))
        }
        Phase::Answered(_) => {
            score(practice, text, 0, buffer);
            if let Some(told) = told {
                told.write(text, buffer);
            }
            None
        }
    }
}

/// The blank rows above and below what is drawn.
fn blank_rows(grid: &Grid) -> (u16, u16) {
    let blank = |row: &usize| grid.row(*row).iter().all(|cell| *cell == Cell::default());
    let above = (0..grid.rows()).take_while(blank).count();
    let below = (above..grid.rows()).rev().take_while(blank).count();
    (u16::try_from(above).unwrap_or(0), u16::try_from(below).unwrap_or(0))
}

/// What may be worth knowing about the picture.
fn hint(practice: &PracticeScreen, drawing: &Drawing) -> String {
    let grid = &drawing.grid;
    let shows = |sign: char| {
        let is_sign = |cell: &Cell| cell.glyph == sign && cell.ink == Ink::Figure;
        (0..grid.rows()).any(|row| grid.row(row).iter().any(is_sign))
    };
    let out_of_view = [
        (
            '\u{2039}',
            "20\u{2039}3 at the left end: figure 20 is further left, the first line in view comes third after it",
        ),
        (
            '\u{203a}',
            "3\u{203a}2 at the right end: figure 2 is further right, the first line in view comes third after it",
        ),
        (
            '\u{25be}',
            "20\u{25be}3 at the foot: figure 20 is further down, the lowest line in view comes third after it",
        ),
    ];
    if let Some((_, word)) = out_of_view.into_iter().find(|(sign, _)| shows(*sign)) {
        return word.to_owned();
    }
    if practice.again.is_some() {
        return String::new();
    }
    let first = practice.run.question().earlier(practice.run.tool()).into_iter().next();
    first.map(|sight| wording::to_see_again(sight.role).to_owned()).unwrap_or_default()
}

/// Which question it is and how many were right, at the right end of a row.
fn score(practice: &PracticeScreen, area: Rect, row: u16, buffer: &mut Buffer) {
    let score = score_of(practice);
    let width = u16::try_from(score.chars().count()).unwrap_or(0).min(area.width);
    let right = Rect { x: area.x + area.width - width, width, ..area };
    write(buffer, right, row, &score, Theme::quiet());
}

fn score_of(practice: &PracticeScreen) -> String {
    let run = &practice.run;
    match (&practice.sitting, run.asked()) {
        (Some(sitting), _) => {
            let open = u32::from(!matches!(run.phase(), Phase::Answered(_)));
            let asked = sitting.score().0;
            wording::today::which((asked + open, sitting.length()), sitting.score())
        }
        (None, 0) => format!("question {}", run.turn()),
        (None, asked) => format!("question {}   {} of {asked} right", run.turn(), run.right()),
    }
}

fn field(label: &str, typed: &str, area: Rect, buffer: &mut Buffer) -> Position {
    write(buffer, area, 1, label, Style::new().add_modifier(Modifier::BOLD));
    let start = u16::try_from(label.len()).unwrap_or(0);
    let rest = Rect { x: area.x + start, width: area.width - start, ..area };
    write(buffer, rest, 1, typed, Style::new());
    let len = u16::try_from(typed.chars().count()).unwrap_or(0);
    Position { x: (rest.x + len).min(rest.x + rest.width - 1), y: area.y + 1 }
}
