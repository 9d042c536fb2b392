//! One question: the picture, a line of question, the answer field; then the mark and why.

use super::below;
use crate::drill::Verdict;
use crate::reading::{Asks, Share};
use crate::render::Refusal;
use crate::session::{Answered, Phase};
use crate::tui::model::{Model, PracticeScreen};
use crate::tui::theme::Theme;
use crate::tui::widget::{picture, write};
use crate::wording;
use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};
use ratatui::style::{Modifier, Style};

/// Draws it; the cursor stands in the answer field.
pub fn practice(
    model: &Model,
    practice: &PracticeScreen,
    area: Rect,
    buffer: &mut Buffer,
) -> Option<Position> {
    header(model, practice, area, buffer);
    let (cols, rows) = model.picture_size();
    let frame = Rect { y: area.y + 1, width: cols, height: rows, ..area };
    match model.picture(practice) {
        Ok(drawing) => picture(buffer, frame, &drawing.grid, model.theme),
        Err(refusal) => refused(&refusal, model, frame, buffer),
    }
    let text = below(area, 1 + rows);
    let text = Rect { x: text.x + 1, width: text.width - 2, ..text };
    match practice.run.phase() {
        Phase::Closed => {
            write(buffer, text, 0, wording::closed(), Style::new());
            write(buffer, text, 1, "Enter to go on.", Theme::quiet());
            None
        }
        Phase::Asking { again } => {
            let instrument = model.instrument(practice);
            let asks = practice.run.question().asks;
            let prompt = if practice.closed_again {
                "The closed tool again; c shows the work.".to_owned()
            } else {
                wording::prompt(instrument, asks)
            };
            write(buffer, text, 0, &prompt, Style::new());
            let again = again.map(|nonsense| nonsense.to_string());
            let hint = (asks == Asks::Corrected).then(|| "c shows the closed tool again".to_owned());
            let word = again.or_else(|| model.notice.clone()).or(hint).unwrap_or_default();
            write(buffer, text, 2, &word, Theme::quiet());
            Some(field(&practice.field, text, buffer))
        }
        Phase::Answered(answered) => {
            answered_text(model, practice, answered, text, buffer);
            None
        }
    }
}

fn header(model: &Model, practice: &PracticeScreen, area: Rect, buffer: &mut Buffer) {
    let inner = Rect { x: area.x + 1, width: area.width - 2, ..area };
    let run = &practice.run;
    let score = format!("question {}   {} of {} right", run.question().number, run.right(), run.asked());
    let family = &model.instrument(practice).family;
    let title = format!("Practice: {family}");
    write(buffer, inner, 0, &title, Style::new().add_modifier(Modifier::BOLD));
    let width = u16::try_from(score.chars().count()).unwrap_or(0);
    let right =
        Rect { x: inner.x + inner.width.saturating_sub(width), width: width.min(inner.width), ..inner };
    write(buffer, right, 0, &score, Theme::quiet());
}

fn refused(refusal: &Refusal, model: &Model, area: Rect, buffer: &mut Buffer) {
    let extra = model.size.1 - model.picture_size().1;
    let needs = format!(
        "This cannot be drawn truly in {}x{}; the window needs {}x{}.",
        model.size.0,
        model.size.1,
        refusal.needs_cols,
        refusal.needs_rows + i64::from(extra)
    );
    let lines = [
        needs.as_str(),
        "A drawing that cannot be read truly is not drawn.",
        "Make the window larger, or press Tab for the other view, or l for other lines.",
    ];
    for (row, line) in (0..).zip(lines) {
        write(buffer, Rect { x: area.x + 2, width: area.width - 4, ..area }, 2 + row, line, Style::new());
    }
}

fn field(typed: &str, area: Rect, buffer: &mut Buffer) -> Position {
    const LABEL: &str = "Reading: ";
    write(buffer, area, 1, LABEL, Style::new().add_modifier(Modifier::BOLD));
    let start = u16::try_from(LABEL.len()).unwrap_or(0);
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
    let (sign, style) = match mark.verdict {
        Verdict::Right | Verdict::RightValue => ("\u{221a} ", model.theme.right()),
        Verdict::Misread | Verdict::Other => ("x ", model.theme.wrong()),
        Verdict::Skipped => ("- ", Style::new()),
    };
    let typed = if answered.answer.is_empty() { String::new() } else { format!("{}: ", answered.answer) };
    let verdict = wording::verdict(instrument, mark);
    write(buffer, area, 0, &format!("{sign}{typed}{verdict}"), style);
    let mut lines: Vec<String> = Vec::new();
    if let Some(problem) = &model.store_problem {
        lines.extend(wrap(&wording::saved(Some(problem)), area.width));
    }
    if let Some(note) = mark.note {
        lines.push(wording::note(note).to_owned());
    }
    let told = practice.told.min(answered.shares.len());
    let did = mark.misreads.first().map(|found| found.wrong.did.as_str());
    let room = usize::from(area.height).saturating_sub(1);
    if told == 0 || room > 4 {
        lines.extend(did.map(|did| wrap(did, area.width)).unwrap_or_default());
    }
    let mut steps = answered.shares[..told].iter().map(|share| step_line(model, practice, share));
    let sum = || {
        let question = practice.run.question();
        wording::sum(instrument, &question.reading, &answered.shares, question.zero_error, question.asks)
    };
    let all_told = told == answered.shares.len();
    if room > 4 {
        lines.extend(steps);
        if all_told {
            lines.push(sum());
        }
    } else if all_told {
        lines.push(sum());
    } else if let Some(last) = steps.next_back() {
        lines.push(last);
    }
    for (row, line) in (1..area.height).zip(&lines) {
        write(buffer, area, row, line, Style::new());
    }
}

fn step_line(model: &Model, practice: &PracticeScreen, share: &Share) -> String {
    let instrument = model.instrument(practice);
    let value = instrument.spell(share.value);
    format!("{:<44} {value:>10}", wording::share(instrument, share))
}

/// Breaks a sentence into lines of at most `width` characters.
fn wrap(text: &str, width: u16) -> Vec<String> {
    let width = usize::from(width);
    let mut lines = vec![String::new()];
    for word in text.split_whitespace() {
        let last = lines.last_mut().expect("there is always a line");
        let joined = last.chars().count() + 1 + word.chars().count();
        if last.is_empty() {
            last.push_str(word);
        } else if joined <= width {
            last.push(' ');
            last.push_str(word);
        } else {
            lines.push(word.to_owned());
        }
    }
    lines
}
