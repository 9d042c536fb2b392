//! Rows and columns with lines between them.

use super::blocks::{ROOM, Slip, leading, text};
use crate::render::paper::{MM, Mark, Weight, clean, width, wrap};

/// Where words stand in a column.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stand {
    /// On its left.
    Left,
    /// On its right: figures.
    Right,
    /// In the middle.
    Middle,
}

/// A column.
#[derive(Clone, Debug)]
pub struct Column {
    /// What stands above it.
    pub heading: String,
    /// Its share of the width.
    pub share: i64,
    /// Where words stand in it.
    pub stand: Stand,
}

const THIN: i64 = 120;
const HEAVY: i64 = 350;
/// After so many rows a heavier line.
const RUN: usize = 8;
const PAD: i64 = 1500;
/// The size of its type.
const SMALL: i64 = 3_200;

/// The heading and the rows, each a slip of its own, so that a page may end between two.
pub(super) fn grid(columns: &[Column], rows: &[Vec<String>], tall: i64) -> Vec<Slip> {
    let all: i64 = columns.iter().map(|column| column.share).sum::<i64>().max(1);
    let mut ends = vec![0];
    for column in columns {
        let last = ends.last().copied().unwrap_or_default();
        ends.push(last + ROOM * column.share / all);
    }
    let right = ends.last().copied().unwrap_or(ROOM);
    let headings: Vec<Vec<String>> = columns
        .iter()
        .zip(ends.windows(2))
        .map(|(column, end)| wrap(&clean(&column.heading), SMALL, Weight::Bold, end[1] - end[0] - 2 * PAD, 3))
        .collect();
    let most = headings.iter().map(Vec::len).max().unwrap_or(1);
    let mut head = Slip { height: i64::try_from(most).unwrap_or(1) * leading(SMALL) + MM, marks: Vec::new() };
    head.marks.push(Mark::Line { from: (0, 0), to: (right, 0), width: THIN });
    for (lines, (column, end)) in headings.iter().zip(columns.iter().zip(ends.windows(2))) {
        for (down, line) in (1_i64..).zip(lines) {
            let baseline = down * leading(SMALL);
            head.marks.push(placed(column.stand, end, baseline, Weight::Bold, line.clone()));
        }
    }
    rule(&mut head, &ends, right, HEAVY);
    let mut slips = vec![head];
    for (n, row) in rows.iter().enumerate() {
        let mut slip = Slip { height: tall, marks: Vec::new() };
        for (cell, (column, end)) in row.iter().zip(columns.iter().zip(ends.windows(2))) {
            let lines = wrap(&clean(cell), SMALL, Weight::Regular, end[1] - end[0] - 2 * PAD, 2);
            let above = i64::try_from(lines.len().saturating_sub(1)).unwrap_or(0) * leading(SMALL) / 2;
            let first = tall / 2 + SMALL * 3 / 8 - above;
            for (down, line) in (0_i64..).zip(lines) {
                let baseline = first + down * leading(SMALL);
                slip.marks.push(placed(column.stand, end, baseline, Weight::Regular, line));
            }
        }
        rule(&mut slip, &ends, right, if n % RUN == RUN - 1 { HEAVY } else { THIN });
        slips.push(slip);
    }
    slips
}

fn placed(stand: Stand, end: &[i64], baseline: i64, weight: Weight, words: String) -> Mark {
    let wide = width(&words, SMALL, weight);
    let left = match stand {
        Stand::Left => end[0] + PAD,
        Stand::Right => end[1] - PAD - wide,
        Stand::Middle => (end[0] + end[1] - wide) / 2,
    };
    text(left, baseline, SMALL, weight, words)
}

/// The lines between columns, and the one below.
fn rule(slip: &mut Slip, ends: &[i64], right: i64, width: i64) {
    for end in ends {
        slip.marks.push(Mark::Line { from: (*end, 0), to: (*end, slip.height), width: THIN });
    }
    slip.marks.push(Mark::Line { from: (0, slip.height), to: (right, slip.height), width });
}
