//! The list of exercises and checks, each with what was done of it.

use super::below;
use crate::class::verdict::judge;
use crate::learner::plan::Plan;
use crate::tui::model::Model;
use crate::tui::theme::Theme;
use crate::tui::widget::{more, wrap, write};
use crate::wording::exercise as say;
use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};
use ratatui::style::{Modifier, Style};

/// Cells of what was done, at the right end.
const DONE: usize = 20;
/// Rows for the sentence on the chosen set.
const ABOUT: u16 = 4;

/// Draws the list; the chosen set's sentence stands under it.
pub fn sets(model: &Model, chosen: usize, area: Rect, buffer: &mut Buffer) -> Option<Position> {
    let inner = Rect { x: area.x + 2, width: area.width - 4, ..area };
    let bold = Style::new().add_modifier(Modifier::BOLD);
    write(buffer, inner, 0, say::LIST, bold);
    let all: Vec<_> = model.sets.all.all().collect();
    let how = if all.is_empty() { say::NO_SETS } else { say::LIST_HOW };
    write(buffer, inner, 1, how, Style::new());
    let list = Rect { height: inner.height.saturating_sub(5 + ABOUT), ..below(inner, 3) };
    let first = (chosen + 1).saturating_sub(usize::from(list.height));
    for (row, (n, set)) in (0..list.height).zip(all.iter().enumerate().skip(first)) {
        let sitting = model.sets.last.get(&set.id).filter(|sitting| sitting.revision == set.revision);
        let judged = sitting.map(|sitting| {
            let plan = set.pass.as_ref().map(|pass| Plan::of(pass, set.count));
            judge(plan.as_ref(), sitting.end, &sitting.entries, &model.catalogue)
        });
        let done = say::last(sitting.zip(judged.as_ref()));
        let room = usize::from(list.width).saturating_sub(DONE + 3);
        let title: String = set.title.chars().take(room).collect();
        let line = format!(" {title:<room$} {done:>DONE$} ");
        write(buffer, list, row, &line, if n == chosen { Theme::chosen() } else { Style::new() });
    }
    more(first, "above", Rect { y: list.y - 1, height: 1, ..list }, buffer);
    let end = first + usize::from(list.height);
    let beneath = Rect { y: list.y + list.height, height: 1, ..list };
    more(all.len().saturating_sub(end), "below", beneath, buffer);
    let foot = below(inner, inner.height.saturating_sub(ABOUT));
    if let Some(notice) = &model.notice {
        write(buffer, foot, 0, notice, bold);
        return None;
    }
    let about = all.get(chosen).map_or_else(String::new, |set| say::about(set));
    for (row, line) in (0..).zip(wrap(&about, inner.width)) {
        write(buffer, foot, row, &line, Style::new());
    }
    None
}
