//! What has been learnt, per instrument, with accuracy over time.

use super::below;
use crate::learner::progress::InstrumentProgress;
use crate::reading::misread;
use crate::tui::model::Model;
use crate::tui::theme::Theme;
use crate::tui::widget::{plot, write};
use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};
use ratatui::style::{Modifier, Style};

/// Cells of the columns after the title.
const COLUMNS: usize = 32;

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
    let head = format!("{:<title_room$} {:>5} {:>6} {:>9} {:>8}", "", "read", "right", "95 %", "median");
    write(buffer, inner, 2, &head, Theme::quiet());
    let list = Rect { height: (inner.height / 2).saturating_sub(3).max(3), ..below(inner, 3) };
    let first = (chosen + 1).saturating_sub(usize::from(list.height));
    for (row, (n, one)) in (0..list.height).zip(progress.instruments.iter().enumerate().skip(first)) {
        let line = row_text(model, one, title_room);
        let style = if n == chosen { Theme::chosen() } else { Style::new() };
        write(buffer, list, row, &line, style);
    }
    let one = progress.instruments.get(chosen)?;
    let foot = below(inner, 3 + list.height + 1);
    write(buffer, foot, 0, &happened(one), Style::new());
    let blocks: Vec<(u32, u32)> = one.blocks.iter().map(|block| (block.right, block.answered)).collect();
    plot(buffer, below(foot, 2), &blocks);
    None
}

fn row_text(model: &Model, one: &InstrumentProgress, title_room: usize) -> String {
    let title = model.catalogue.title(&one.instrument).unwrap_or(&one.instrument);
    let title = if title.chars().count() > title_room {
        title.chars().take(title_room.saturating_sub(1)).chain(['\u{2026}']).collect()
    } else {
        title.to_owned()
    };
    let percent = |share: f64| format!("{:.0} %", share * 100.0);
    let right = one.score.share().map_or_else(String::new, percent);
    let range = one
        .interval
        .map_or_else(String::new, |range| format!("{:.0}-{:.0} %", range.low * 100.0, range.high * 100.0));
    let time = one.median_ms.map_or_else(String::new, |ms| format!("{}.{} s", ms / 1000, ms % 1000 / 100));
    format!("{title:<title_room$} {:>5} {right:>6} {range:>9} {time:>8}", one.score.answered)
}

/// What went wrong lately, in shop words.
fn happened(one: &InstrumentProgress) -> String {
    if one.misreads.is_empty() {
        let all_right = one.score.right == one.score.answered;
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
