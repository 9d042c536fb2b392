//! Accuracy over time: one bar a block of ten readings, from 0 to 100 per cent.

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

/// Draws shares right, each of (right, answered); only the latest where there is no room for all.
pub fn plot(buffer: &mut Buffer, area: Rect, blocks: &[(u32, u32)]) {
    if area.height < 4 || area.width < AXIS + BAR {
        return;
    }
    let height = area.height - 1;
    for (row, label) in [(0, "100 %"), (height / 2, " 50 %"), (height - 1, "  0 %")] {
        write(buffer, area, row, label, Theme::quiet());
    }
    let room = usize::from((area.width - AXIS) / (BAR + GAP));
    let latest = &blocks[blocks.len().saturating_sub(room)..];
    let bars: Vec<Bar<'_>> = latest
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
    write(buffer, legend, height, "each bar ten readings, the latest on the right", Theme::quiet());
}
