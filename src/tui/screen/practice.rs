//! One question: the picture, a line of question, the answer field; then the mark and why.

use super::{Other, below, refused};
use crate::drill::{Role, Verdict};
use crate::reading::Share;
use crate::render::{Cell, Drawing, Ink, Refusal};
use crate::session::{Answered, Phase};
use crate::tui::model::{Model, PracticeScreen};
use crate::tui::theme::Theme;
use crate::tui::widget::{picture, wrap, write};
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
    let drawn = Rect { y: frame.y + sketch, height: frame.height - sketch, ..frame };
    picture(buffer, drawn, &drawing.grid, model.theme);
    // Right above what is drawn, which stands in the middle of its rows.
    let grid = &drawing.grid;
    let blank = |row: &usize| grid.row(*row).iter().all(|cell| *cell == Cell::default());
    let above = u16::try_from((0..grid.rows()).take_while(blank).count()).unwrap_or(0).saturating_sub(1);
    for (row, line) in
        (above..above + sketch).zip(wording::sketch(practice.run.question().asks).into_iter().flatten())
    {
        write(buffer, frame, row, line, Style::new());
    }
    let text = below(area, rows);
    let text = Rect { x: text.x + 1, width: text.width - 2, ..text };
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
        Phase::Answered(answered) => {
            score(practice, text, 0, buffer);
            answered_text(model, practice, answered, text, buffer);
            None
        }
    }
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

fn answered_text(
    model: &Model,
    practice: &PracticeScreen,
    answered: &Answered,
    area: Rect,
    buffer: &mut Buffer,
) {
    let instrument = model.instrument(practice);
    let mark = &answered.mark;
    let question = practice.run.question();
    let (sign, style) = match mark.verdict {
        Verdict::Right | Verdict::RightValue => ("\u{2713} ", model.theme.right()),
        Verdict::Misread | Verdict::Other => ("x ", model.theme.wrong()),
        Verdict::Skipped => ("- ", Style::new()),
    };
    let typed = if answered.answer.is_empty() { String::new() } else { format!("{}: ", answered.answer) };
    let verdict = wording::verdict(instrument, question.asks, mark);
    let mut verdict = format!("{sign}{typed}{verdict}");
    // What does not fit beside the score goes on a row of its own.
    let beside = usize::from(area.width).saturating_sub(score_of(practice).chars().count() + 2);
    let mut rest = None;
    if verdict.chars().count() > beside
        && let Some((first, more)) = verdict.split_once("; ").or_else(|| verdict.split_once(". "))
    {
        rest = Some(more.to_owned());
        verdict = format!("{first}.");
    }
    write(buffer, area, 0, &format!("{verdict}  "), style);
    let room = usize::from(area.height).saturating_sub(1);
    // What could not be kept comes before what was read wrong.
    let just_answered = matches!(practice.told, 0 | usize::MAX);
    let (lines, hidden) = match &model.store_problem {
        Some(problem) if just_answered => (wrap(&wording::saved(Some(problem)), area.width), 0),
        _ => {
            let mut lines = told(model, practice, answered, area.width);
            if practice.told == 0 {
                lines.splice(0..0, rest);
            }
            let hidden = lines.len().saturating_sub(room);
            (lines, hidden)
        }
    };
    for (row, line) in (1..area.height).zip(&lines[hidden..]) {
        write(buffer, area, row, line, Style::new());
    }
}

/// What has been told so far: what was done, or the steps up to now and at last their sum.
fn told(model: &Model, practice: &PracticeScreen, answered: &Answered, width: u16) -> Vec<String> {
    let instrument = model.instrument(practice);
    let question = practice.run.question();
    let mark = &answered.mark;
    let mut lines: Vec<String> = Vec::new();
    let shares = &answered.shares;
    let told = practice.told.min(shares.len());
    if told == 0 {
        let did = mark.misreads.first().map(|found| found.wrong.did.as_str());
        lines.extend(did.map(|did| wrap(did, width)).unwrap_or_default());
    }
    lines.extend(shares[..told].iter().map(|share| step_line(model, practice, share)));
    if told == shares.len() {
        let sum = wording::sum(instrument, &question.reading, shares, question.zero_error, question.asks);
        lines.extend(wrap(&sum, width));
        let worked = wording::worked(&question.case(instrument));
        lines.extend(worked.iter().flat_map(|line| wrap(line, width)));
    }
    lines.extend(mark.note.map(|note| wording::note(note).to_owned()));
    let advice = wording::advice(&question.conditions).map(|advice| wrap(advice, width));
    lines.extend(advice.unwrap_or_default());
    lines
}

fn step_line(model: &Model, practice: &PracticeScreen, share: &Share) -> String {
    let instrument = model.instrument(practice);
    let value = instrument.spell(share.value);
    format!("{:<44} {value:>10}", wording::share(instrument, share))
}
