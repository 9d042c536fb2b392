//! The list of exercises and checks, each with what was done of it.

use super::below;
use crate::class::verdict::judge;
use crate::drill::set::DrillSet;
use crate::learner::plan::Plan;
use crate::tui::model::{Model, Stands};
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
    let lines = lines(model);
    let how = if lines.is_empty() { say::NO_SETS } else { say::LIST_HOW };
    write(buffer, inner, 1, how, Style::new());
    let list = Rect { height: inner.height.saturating_sub(5 + ABOUT), ..below(inner, 3) };
    let first = (chosen + 1).saturating_sub(usize::from(list.height));
    for (row, (n, line)) in (0..list.height).zip(lines.iter().enumerate().skip(first)) {
        let room = usize::from(list.width).saturating_sub(DONE + 3);
        let title: String = line.title.chars().take(room).collect();
        let text = format!(" {title:<room$} {:>DONE$} ", line.done);
        write(buffer, list, row, &text, if n == chosen { Theme::chosen() } else { Style::new() });
    }
    more(first, "above", Rect { y: list.y - 1, height: 1, ..list }, buffer);
    let end = first + usize::from(list.height);
    let beneath = Rect { y: list.y + list.height, height: 1, ..list };
    more(lines.len().saturating_sub(end), "below", beneath, buffer);
    let foot = below(inner, inner.height.saturating_sub(ABOUT));
    if let Some(notice) = &model.notice {
        write(buffer, foot, 0, notice, bold);
        return None;
    }
    let about = lines.get(chosen).map_or_else(String::new, |line| say::about(line.set));
    for (row, line) in (0..).zip(wrap(&about, inner.width)) {
        write(buffer, foot, row, &line, Style::new());
    }
    None
}

/// A line of the list.
struct Line<'a> {
    title: String,
    done: String,
    set: &'a DrillSet,
}

/// The job cards, then the sets.
fn lines(model: &Model) -> Vec<Line<'_>> {
    let cards = model.sets.cards.iter().map(|issued| {
        let begun = match issued.stands {
            Stands::New => None,
            Stands::Left => Some(false),
            Stands::Done => Some(true),
        };
        let due = issued.card.due.as_ref().map(|due| due.day.as_str());
        let title = say::card_title(&issued.card.title, issued.card.learners.len());
        Line { title, done: say::card_stands(due, begun), set: &issued.set }
    });
    let sets = model.sets.all.all().map(|set| {
        let sitting = model.sets.last.get(&set.id).filter(|sitting| sitting.revision == set.revision);
        let judged = sitting.map(|sitting| {
            let plan = set.pass.as_ref().map(|pass| Plan::of(pass, set.count));
            judge(plan.as_ref(), sitting.end, &sitting.entries, &model.catalogue)
        });
        Line { title: set.title.clone(), done: say::last(sitting.zip(judged.as_ref())), set }
    });
    cards.chain(sets).collect()
}
