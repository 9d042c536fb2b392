//! The class record: learners down, instruments across; one learner; what the class gets wrong; which questions bite.

use super::below;
use crate::class::questions::{Flag, Line, Questions};
use crate::class::record::{Member, Tool};
use crate::class::room::Room;
use crate::tui::classing::{ClassScreen, HEADS, broken, page};
use crate::tui::model::Model;
use crate::tui::theme::Theme;
use crate::tui::widget::{more, write};
use crate::wording::class as say;
use crate::wording::{cut, fit};
use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};
use ratatui::style::{Modifier, Style};

/// Cells of code, name, the last day.
const CODE: usize = 6;
const NAME: usize = 11;
const LAST: usize = 6;
/// Cells of an instrument: the sign, the reading on a screen, the measuring of steel.
const SIGN: usize = 2;
const READ: usize = 18;
const STEEL: usize = 6;
/// Rows under the list of questions.
const BESIDE: u16 = 7;
/// Cells of the columns after the question.
const FIGURES: usize = 35;

/// Draws where the class record is looked at.
pub fn class(model: &Model, screen: &ClassScreen, area: Rect, buffer: &mut Buffer) -> Option<Position> {
    let inner = Rect { x: area.x + 2, width: area.width - 4, ..area };
    let room = model.class.as_deref()?;
    match screen {
        ClassScreen::List { chosen, column } => list(model, room, (*chosen, *column), inner, buffer),
        ClassScreen::Page { page: of, from } => {
            let lines = page(room, *of, &model.catalogue, usize::from(inner.width));
            text(room, &lines, *from, inner, buffer);
        }
        ClassScreen::Questions { set, found, chosen } => {
            let title = room.sets.get(*set).map_or("", |(_, title)| title);
            questions(model, room, (title, found, *chosen), inner, buffer);
        }
    }
    None
}

fn bold() -> Style {
    Style::new().add_modifier(Modifier::BOLD)
}

/// The first row: what it is; that nobody is real stands in the same row.
fn head(room: &Room, text: &str, inner: Rect, buffer: &mut Buffer) {
    write(buffer, inner, 0, text, bold());
    if room.invented {
        let word = say::INVENTED_SHORT;
        let width = u16::try_from(word.chars().count()).unwrap_or(0);
        let end = Rect { x: inner.x + inner.width.saturating_sub(width), width, ..inner };
        write(buffer, end, 0, word, Theme::quiet());
    }
}

fn list(model: &Model, room: &Room, (chosen, column): (usize, usize), inner: Rect, buffer: &mut Buffer) {
    head(room, &say::head(&room.class, room.group.as_deref()), inner, buffer);
    for (row, (n, line)) in (1..).zip(say::heads(&room.class, room.sets.len()).iter().enumerate()) {
        let style = if n == chosen { Theme::chosen() } else { Style::new() };
        write(buffer, inner, row, &fit(line, usize::from(inner.width)), style);
    }
    let width = usize::from(inner.width);
    let abreast = (width.saturating_sub(CODE + NAME + LAST) / (SIGN + READ + STEEL)).max(1);
    let count = room.class.instruments.len();
    let column = column.min(count.saturating_sub(abreast));
    let shown = &room.class.instruments[column..(column + abreast).min(count)];
    let mut titles = " ".repeat(CODE + NAME);
    let mut columns = format!("{}{}", fit("code", CODE), fit("name", NAME));
    for id in shown {
        let title = model.catalogue.title(id).unwrap_or(id);
        titles.push_str(&fit(title, SIGN + READ + STEEL));
        columns.push_str(&fit(say::READING, SIGN + READ));
        columns.push_str(&fit(say::STEEL, STEEL));
    }
    columns.push_str("last");
    let heads = u16::try_from(HEADS).unwrap_or(u16::MAX);
    write(buffer, inner, heads + 2, &titles, Theme::quiet());
    write(buffer, inner, heads + 3, &columns, Theme::quiet());
    let beside = column > 0 || column + abreast < count;
    if beside {
        let word = say::columns(column + 1, column + shown.len(), count);
        let end = Rect { height: 1, ..below(inner, heads + 1) };
        crate::tui::widget::at_right(&word, end, 0, buffer);
    }
    let top = heads + 4;
    let rows = inner.height.saturating_sub(top + 3);
    let area = Rect { height: rows, ..below(inner, top) };
    let at = chosen.saturating_sub(HEADS);
    let first = (at + 1).saturating_sub(usize::from(rows));
    for (row, (n, member)) in (0..rows).zip(room.class.members.iter().enumerate().skip(first)) {
        learner(
            model,
            room,
            (member, n + HEADS == chosen),
            shown,
            Rect { y: area.y + row, height: 1, ..area },
            buffer,
        );
    }
    let foot = below(inner, inner.height.saturating_sub(2));
    let left = room.class.members.len().saturating_sub(first + usize::from(rows));
    more(left, "below", Rect { height: 1, ..below(inner, inner.height.saturating_sub(3)) }, buffer);
    write(buffer, foot, 0, say::SIGNS, Theme::quiet());
    write(buffer, foot, 1, say::STEEL_SHORT, Theme::quiet());
}

fn learner(
    model: &Model,
    room: &Room,
    (member, is_chosen): (&Member, bool),
    shown: &[String],
    area: Rect,
    buffer: &mut Buffer,
) {
    let base = if is_chosen { Theme::chosen() } else { Style::new() };
    let person = format!("{}{}", fit(&member.person.code, CODE), fit(say::name(member), NAME));
    write(buffer, area, 0, &fit(&person, usize::from(area.width)), base);
    let mut x = u16::try_from(CODE + NAME).unwrap_or(0);
    let mut put = |text: &str, cells: usize, style: Style, buffer: &mut Buffer| {
        let rest = Rect { x: area.x + x, width: area.width.saturating_sub(x), ..area };
        write(buffer, rest, 0, &fit(text, cells), style);
        x += u16::try_from(cells).unwrap_or(0);
    };
    for id in shown {
        let tool = member.row.as_ref().and_then(|row| row.on(id));
        let steel = room.steel(&member.person.code, id).map(say::steel_cell).unwrap_or_default();
        let style = if is_chosen { base } else { of_tool(model, tool) };
        put(&say::sign(tool).to_string(), SIGN, style, buffer);
        put(&say::short_cell(tool), READ, if is_chosen { base } else { Style::new() }, buffer);
        put(&steel, STEEL, base, buffer);
    }
    put(&say::month_day(member.row.as_ref().and_then(|row| row.last)), LAST, base, buffer);
}

/// The colour of a sign; the sign says it as well.
fn of_tool(model: &Model, tool: Option<&Tool>) -> Style {
    match say::sign(tool) {
        '=' => model.theme.right(),
        '!' | 'x' => model.theme.wrong(),
        _ => Theme::quiet(),
    }
}

fn text(room: &Room, lines: &[String], from: usize, inner: Rect, buffer: &mut Buffer) {
    let Some((first, rest)) = lines.split_first() else { return };
    head(room, first, inner, buffer);
    let rows = inner.height.saturating_sub(2);
    let last = rest.len().saturating_sub(usize::from(rows));
    let from = from.min(last);
    for (row, line) in (1..=rows).zip(&rest[from..]) {
        let style = if line.starts_with(' ') { Style::new() } else { bold() };
        write(buffer, inner, row, line, style);
    }
    let left = rest.len().saturating_sub(from + usize::from(rows));
    more(left, "below", Rect { height: 1, ..below(inner, inner.height.saturating_sub(1)) }, buffer);
}

fn questions(
    model: &Model,
    room: &Room,
    (title, found, chosen): (&str, &Result<Option<Box<Questions>>, String>, usize),
    inner: Rect,
    buffer: &mut Buffer,
) {
    let found = match found {
        Ok(Some(found)) => found,
        Ok(None) => {
            head(room, say::NOTHING_GIVEN_BACK, inner, buffer);
            return;
        }
        Err(why) => {
            head(room, why, inner, buffer);
            return;
        }
    };
    let width = usize::from(inner.width);
    let heads: Vec<String> =
        say::questions_head(found, title).iter().flat_map(|line| broken(line, width)).collect();
    for (row, line) in (0..).zip(&heads) {
        write(buffer, inner, row, line, if row == 0 { bold() } else { Style::new() });
    }
    let top = u16::try_from(heads.len()).unwrap_or(u16::MAX).saturating_add(1);
    let about = width.saturating_sub(FIGURES);
    let columns = say::QUESTION_COLUMNS;
    let line = format!(
        "{}{}{}{}{}",
        fit(columns[0], about),
        fit(columns[1], 8),
        fit(columns[2], 13),
        fit(columns[3], 8),
        columns[4]
    );
    write(buffer, inner, top, &line, Theme::quiet());
    let rows = inner.height.saturating_sub(top + 2 + BESIDE);
    let area = Rect { height: rows, ..below(inner, top + 1) };
    let first = (chosen + 1).saturating_sub(usize::from(rows));
    let one_tool = found.has_one_tool();
    let title = |id: &str| model.catalogue.title(id).unwrap_or(id).to_owned();
    for (row, (n, of)) in (0..rows).zip(found.lines.iter().enumerate().skip(first)) {
        let style = if n == chosen { Theme::chosen() } else { of_question(of, found.too_few) };
        let line = fit(&question(of, (found.too_few, one_tool), about, &title), width);
        write(buffer, area, row, &line, style);
    }
    let left = found.lines.len().saturating_sub(first + usize::from(rows));
    more(left, "below", Rect { height: 1, ..below(area, rows) }, buffer);
    let Some(of) = found.lines.get(chosen) else { return };
    let foot = below(inner, top + 2 + rows);
    let mut beside: Vec<(String, Style)> =
        broken(&say::about(of, title), width).into_iter().map(|line| (line, bold())).collect();
    for line in say::question_beside(of, found.too_few) {
        beside.extend(broken(&line, width).into_iter().map(|line| (line, Style::new())));
    }
    for (row, (line, style)) in (0..).zip(&beside) {
        write(buffer, foot, row, line, *style);
    }
}

fn question(
    of: &Line,
    (too_few, one_tool): (bool, bool),
    about: usize,
    title: &dyn Fn(&str) -> String,
) -> String {
    let share = of.score.share().map_or_else(String::new, |share| format!("{:.0} %", share * 100.0));
    let range = say::range(of);
    let tells =
        if too_few { "-".to_owned() } else { of.with_rest.map_or_else(String::new, |r| format!("{r:+.2}")) };
    let sign = if of.flags.is_empty() { "" } else { "!" };
    let name = cut(&say::about_among(of, one_tool, title), about.saturating_sub(1));
    format!("{}{}{}{}{sign}", fit(&name, about), fit(&share, 8), fit(&range, 13), fit(&tells, 8))
}

/// What is too uncertain to act on is grey.
fn of_question(of: &Line, too_few: bool) -> Style {
    if of.flags.contains(&Flag::Backwards) || of.flags.contains(&Flag::Unexplained) {
        bold()
    } else if too_few {
        Theme::quiet()
    } else {
        Style::new()
    }
}
