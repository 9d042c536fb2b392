//! Entries on pages. An entry stays on one page where it fits on one; a block is never parted.

use super::blocks::{ROOM, SIZE, SMALL, Slip, slips, text};
use super::{Entry, Head, Sheet};
use crate::render::paper::{Leaf, MM, Mark, Weight, clean, cut, width, wrap};

const TOP: i64 = 11 * MM;
const FOOT: i64 = 15 * MM;
/// Between two entries.
const BETWEEN: i64 = 3 * MM;
/// The size of a title.
const TITLE: i64 = 5_200;
const HAIR: i64 = 250;
/// What the check bar must measure.
pub(super) const BAR: i64 = 100 * MM;
/// The room of a number beside its entry.
const NUMBER: i64 = 9 * MM;

/// The pages of a sheet.
pub fn lay(sheet: &Sheet) -> Vec<Leaf> {
    let (width, height) = sheet.paper.size();
    let body = height - TOP - FOOT;
    let mut pages: Vec<Vec<Slip>> = Vec::new();
    let mut page = vec![first_head(&sheet.head)];
    let mut used = page[0].height;
    for entry in &sheet.entries {
        let all = entry_slips(entry, &sheet.head);
        let whole: i64 = all.iter().map(|slip| slip.height).sum();
        let mut turn = |page: &mut Vec<Slip>, used: &mut i64| {
            let head = later_head(&sheet.head);
            *used = head.height;
            pages.push(std::mem::replace(page, vec![head]));
        };
        if used + whole > body && page.len() > 1 {
            turn(&mut page, &mut used);
        }
        let parted = used + whole > body;
        for slip in all {
            if parted && used + slip.height > body && page.len() > 1 {
                turn(&mut page, &mut used);
            }
            used += slip.height;
            page.push(slip);
        }
        used += BETWEEN;
        page.push(Slip { height: BETWEEN, marks: Vec::new() });
    }
    pages.push(page);
    let count = pages.len();
    let left = (width - ROOM) / 2;
    let leaf = |(n, slips): (usize, Vec<Slip>)| {
        let mut marks = Vec::new();
        let mut top = TOP;
        for slip in slips {
            marks.extend(slip.marks.into_iter().map(|mark| mark.moved(left, top)));
            top += slip.height;
        }
        let foot = foot(&sheet.head, n + 1, count);
        marks.extend(foot.into_iter().map(|mark| mark.moved(left, height - FOOT)));
        Leaf { width, height, marks }
    };
    pages.into_iter().enumerate().map(leaf).collect()
}

/// The number stands before the first words of an entry.
fn entry_slips(entry: &Entry, head: &Head) -> Vec<Slip> {
    let mut noted = String::new();
    let mut all: Vec<Slip> = entry.blocks.iter().flat_map(|block| slips(block, head, &mut noted)).collect();
    if let Some(number) = &entry.number {
        let words = cut(&clean(number), SIZE * 5 / 4, Weight::Bold, ROOM);
        let mut slip = Slip::default();
        slip.marks.push(Mark::Line { from: (0, 0), to: (ROOM, 0), width: 150 });
        slip.height += 6 * MM;
        slip.marks.push(text(0, slip.height - MM, SIZE * 5 / 4, Weight::Bold, words));
        // A number is never left behind at the foot of a page, and a caption stands beside it.
        match all.first_mut() {
            Some(first) => {
                let is_caption =
                    matches!(first.marks.first(), Some(Mark::Text { size, .. }) if *size <= SIZE);
                let down = if is_caption { MM } else { slip.height };
                let caption = |mark: Mark| match mark {
                    Mark::Text { baseline, .. } if is_caption && baseline < 6 * MM => {
                        mark.moved(NUMBER, down)
                    }
                    mark => mark.moved(0, down),
                };
                slip.marks.extend(std::mem::take(&mut first.marks).into_iter().map(caption));
                slip.height = slip.height.max(first.height + down);
                *first = slip;
            }
            None => all.push(slip),
        }
    }
    all
}

fn first_head(head: &Head) -> Slip {
    let mut slip = Slip::default();
    let mark_width = width(&clean(&head.mark), SIZE, Weight::Bold);
    let title = wrap(&clean(&head.title), TITLE, Weight::Bold, ROOM - mark_width - 6 * MM, 2);
    slip.rows(0, TITLE, Weight::Bold, title);
    slip.marks.push(text(ROOM - mark_width, TITLE, SIZE, Weight::Bold, clean(&head.mark)));
    slip.gap(MM);
    for line in &head.under {
        slip.words(0, SMALL, Weight::Regular, line, ROOM);
    }
    if !head.fields.is_empty() {
        slip.gap(7 * MM);
        fields(&mut slip, &head.fields);
    }
    slip.gap(4 * MM);
    slip
}

/// Lines to write on, side by side; the first one is the longest, and each has room for its words.
pub(super) fn fields(slip: &mut Slip, fields: &[String]) {
    let count = i64::try_from(fields.len()).unwrap_or(1);
    let words: Vec<String> =
        fields.iter().map(|field| cut(&clean(field), SMALL, Weight::Regular, ROOM / 4)).collect();
    let taken: i64 = words.iter().map(|words| width(words, SMALL, Weight::Regular)).sum();
    let share = (ROOM - taken) / (count + 1);
    let mut left = 0;
    for (n, words) in words.into_iter().enumerate() {
        let room = width(&words, SMALL, Weight::Regular) + if n == 0 { share * 2 } else { share };
        let begin = left + width(&words, SMALL, Weight::Regular) + 2 * MM;
        slip.marks.push(text(left, slip.height, SMALL, Weight::Regular, words));
        slip.marks.push(Mark::Line {
            from: (begin, slip.height),
            to: (left + room - 4 * MM, slip.height),
            width: HAIR,
        });
        left += room;
    }
}

fn later_head(head: &Head) -> Slip {
    let mut slip = Slip::default();
    let mark = clean(&head.mark);
    let mark_width = width(&mark, SMALL, Weight::Bold);
    slip.height += SMALL;
    slip.marks.push(text(
        0,
        slip.height,
        SMALL,
        Weight::Regular,
        cut(&clean(&head.title), SMALL, Weight::Regular, 120 * MM),
    ));
    slip.marks.push(text(ROOM - mark_width, slip.height, SMALL, Weight::Bold, mark));
    slip.gap(5 * MM);
    slip
}

/// The check bar, and which page it is.
fn foot(head: &Head, number: usize, count: usize) -> Vec<Mark> {
    let mut marks = Vec::new();
    let line = 7 * MM;
    if let Some(bar) = &head.bar {
        marks.push(Mark::Line { from: (0, line), to: (BAR, line), width: 300 });
        for end in [0, BAR] {
            marks.push(Mark::Line { from: (end, line - 1500), to: (end, line + 1500), width: 200 });
        }
        let words = cut(&clean(bar), SMALL, Weight::Regular, BAR);
        marks.push(text(2 * MM, line - MM, SMALL, Weight::Regular, words));
    }
    let words = clean(&(head.page)(number, count));
    let left = ROOM - width(&words, SMALL, Weight::Regular);
    marks.push(text(left, line, SMALL, Weight::Regular, words));
    marks
}
