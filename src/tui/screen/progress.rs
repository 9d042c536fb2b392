//! What has been learnt, per instrument, with accuracy over time.

use super::below;
use crate::learner::gates::Standing;
use crate::learner::progress::{InstrumentProgress, Score};
use crate::reading::misread;
use crate::tui::model::Model;
use crate::tui::theme::Theme;
use crate::tui::widget::{plot, write};
use crate::wording::progress as say;
use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};
use ratatui::style::{Modifier, Style};

/// What parts the parts of a line.
const DOT: &str = " \u{b7} ";
/// Cells of the columns after the title.
const COLUMNS: usize = 49;

/// Draws the list and the plot of the chosen instrument.
pub fn progress(model: &Model, chosen: usize, area: Rect, buffer: &mut Buffer) -> Option<Position> {
    let inner = Rect { x: area.x + 2, width: area.width - 4, ..area };
    let bold = Style::new().add_modifier(Modifier::BOLD);
    write(buffer, inner, 0, &format!("Progress: {}", model.learner), bold);
    let Some(progress) = &model.progress else {
        write(buffer, inner, 2, "Reading the record\u{2026}", Theme::quiet());
        return None;
    };
    if progress.instruments.is_empty() {
        write(buffer, inner, 2, "Nothing yet: read an instrument first.", Style::new());
        return None;
    }
    let width = usize::from(inner.width);
    let title_room = width.saturating_sub(COLUMNS);
    let head =
        format!("{:<title_room$} {:>8} {:>9} {:>8} {:>7} {:<10}", "", "right", "95 %", "repeats", "time", "");
    write(buffer, inner, 2, &head, Theme::quiet());
    let half = (inner.height / 2).saturating_sub(3).max(3);
    let known = u16::try_from(progress.instruments.len()).unwrap_or(u16::MAX);
    let list = Rect { height: half.min(known), ..below(inner, 3) };
    let first = (chosen + 1).saturating_sub(usize::from(list.height));
    for (row, (n, one)) in (0..list.height).zip(progress.instruments.iter().enumerate().skip(first)) {
        let line = row_text(model, one, title_room);
        let style = if n == chosen { Theme::chosen() } else { Style::new() };
        write(buffer, list, row, &line, style);
    }
    let one = progress.instruments.get(chosen)?;
    let foot = below(inner, 3 + list.height + 1);
    let gates = model.gates.get(&one.instrument);
    let stand = gates.map(|gates| at_dots(&say::gates(gates), width));
    let mut lines = stand.unwrap_or_default();
    if (one.misreads.is_empty() || lines.is_empty()) && one.score.answered > 0 {
        // Of the latest answers, where they are judged.
        lines.push(happened(one, gates.map_or(one.score, |gates| gates.right.score)));
    }
    lines.extend(say::kinds(one).map(|kinds| at_dots(&kinds, width)).into_iter().flatten());
    for (row, line) in (0..).zip(&lines) {
        write(buffer, foot, row, line, Style::new());
    }
    let foot = below(foot, u16::try_from(lines.len()).unwrap_or(0) + 1);
    let blocks: Vec<(u32, u32)> = one.blocks.iter().map(|block| (block.right, block.answered)).collect();
    plot(buffer, foot, &blocks);
    None
}

fn row_text(model: &Model, one: &InstrumentProgress, title_room: usize) -> String {
    let title = model.catalogue.title(&one.instrument).unwrap_or(&one.instrument);
    let title = if title.chars().count() > title_room {
        title.chars().take(title_room.saturating_sub(1)).chain(['\u{2026}']).collect()
    } else {
        title.to_owned()
    };
    let Some(gates) = model.gates.get(&one.instrument) else {
        let score = one.score;
        let right = if score.answered == 0 {
            "not read yet".to_owned()
        } else {
            format!("{} of {} right", score.right, score.answered)
        };
        return format!("{title:<title_room$} {right}");
    };
    let right = format!("{} of {}", gates.right.score.right, gates.right.score.answered);
    let range = gates
        .right
        .interval
        .map_or_else(String::new, |range| format!("{:.0}-{:.0} %", range.low * 100.0, range.high * 100.0));
    let repeats = match gates.repeats.pairs {
        0 => "none yet".to_owned(),
        pairs => format!("{} of {pairs}", gates.repeats.agree),
    };
    let times = gates.quick.bare.or(gates.quick.glass);
    let time = times.map_or_else(String::new, |times| format!("{:.1} s", times.median));
    let word = match (gates.standing, gates.gross.gross) {
        (Standing::Met, _) => "consistent",
        (_, 0) => "",
        _ => "gross slip",
    };
    format!("{title:<title_room$} {right:>8} {range:>9} {repeats:>8} {time:>7} {word:<10}")
}

/// Broken between its parts where they do not fit in one row.
fn at_dots(line: &str, width: usize) -> Vec<String> {
    let mut rows: Vec<String> = Vec::new();
    for part in line.split(DOT) {
        match rows.last_mut() {
            Some(row) if (row.chars().count() + DOT.chars().count() + part.chars().count()) <= width => {
                row.push_str(DOT);
                row.push_str(part);
            }
            _ => rows.push(part.to_owned()),
        }
    }
    rows
}

/// What went wrong lately, in shop words.
fn happened(one: &InstrumentProgress, lately: Score) -> String {
    if one.misreads.is_empty() {
        let all_right = lately.right == lately.answered;
        let word = if all_right { "all right" } else { "wrong answers, none of a kind that has a name here" };
        return format!("Lately: {word}.");
    }
    let named: Vec<String> = one
        .misreads
        .iter()
        .take(2)
        .map(|count| {
            let name = misread::named(&count.id).map_or(count.id.as_str(), |misread| misread.name);
            format!("{name} ({})", count.count)
        })
        .collect();
    format!("Lately: {}.", named.join(", "))
}
