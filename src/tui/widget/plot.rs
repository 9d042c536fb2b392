//! Accuracy over time, from 0 to 100 per cent: a bar a block of ten readings, or several blocks a bar, so that all have room.

use super::picture::write;
use crate::tui::theme::Theme;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::{Modifier, Style};
use ratatui::widgets::{Bar, BarChart, BarGroup, Widget};

/// Cells for the scale at the left.
const AXIS: u16 = 7;
/// Cells of a bar, and between two.
const BAR: u16 = 3;
const GAP: u16 = 1;

/// Draws shares right, each of (right, answered).
pub fn plot(buffer: &mut Buffer, area: Rect, blocks: &[(u32, u32)]) {
    if area.height < 4 || area.width < AXIS + BAR {
        return;
    }
    let height = area.height - 1;
    for (row, label) in [(0, "100 %"), (height / 2, " 50 %"), (height - 1, "  0 %")] {
        write(buffer, area, row, label, Theme::quiet());
    }
    let room = usize::from((area.width - AXIS) / (BAR + GAP));
    let per = blocks.len().div_ceil(room.max(1)).max(1);
    let sum = |some: &[(u32, u32)]| some.iter().fold((0, 0), |all, one| (all.0 + one.0, all.1 + one.1));
    let together: Vec<(u32, u32)> = blocks.chunks(per).map(sum).collect();
    let bars: Vec<Bar<'_>> = together
        .iter()
        .map(|(right, answered)| {
            let whole = u64::from((*answered).max(1));
            let percent = (u64::from(*right) * 100 + whole / 2) / whole;
            Bar::default()
                .value(percent)
                .text_value(percent.to_string())
                .value_style(Style::new().add_modifier(Modifier::REVERSED))
        })
        .collect();
    let chart = Rect { x: area.x + AXIS, width: area.width - AXIS, height, ..area };
    BarChart::default()
        .data(BarGroup::default().bars(&bars))
        .bar_width(BAR)
        .bar_gap(GAP)
        .max(100)
        .render(chart, buffer);
    let legend = Rect { x: area.x + AXIS, width: area.width - AXIS, ..area };
    let word = format!("each bar {} readings, the latest on the right", per * 10);
    write(buffer, legend, height, &word, Theme::quiet());
}
