//! A block of a sheet as marks from its own upper left corner.

use super::magnified::{Scaled, whole_and_glass};
use super::{Block, Head};
use crate::exact::Exact;
use crate::render::paper::{MM, Mark, Weight, clean, cut, width, wrap};
use crate::scene::Scene;

/// How wide the printed part of every paper is.
pub(super) const ROOM: i64 = 180 * MM;
/// The size of questions.
pub(super) const SIZE: i64 = 3_700;
/// The size of what is said beside pictures.
pub(super) const SMALL: i64 = 2_700;
/// Rows of one text at the most.
const MOST: usize = 12;
/// Where answers are written: how wide and how tall.
const FIELD: (i64, i64) = (52 * MM, 9 * MM);
const HAIR: i64 = 250;

/// Marks and how tall they are together.
#[derive(Default)]
pub(super) struct Slip {
    pub(super) height: i64,
    pub(super) marks: Vec<Mark>,
}

pub(super) fn leading(size: i64) -> i64 {
    size * 27 / 20
}

pub(super) fn text(left: i64, baseline: i64, size: i64, weight: Weight, words: String) -> Mark {
    Mark::Text { left, baseline, size, weight, words }
}

impl Slip {
    /// Lines of type below what is there already.
    pub(super) fn rows(&mut self, left: i64, size: i64, weight: Weight, rows: Vec<String>) {
        for row in rows {
            self.height += leading(size);
            self.marks.push(text(left, self.height - size * 2 / 5, size, weight, row));
        }
    }

    /// A text in lines.
    pub(super) fn words(&mut self, left: i64, size: i64, weight: Weight, words: &str, room: i64) {
        self.rows(left, size, weight, wrap(&clean(words), size, weight, room, MOST));
    }

    pub(super) fn gap(&mut self, height: i64) {
        self.height += height;
    }

    pub(super) fn picture(&mut self, left: i64, scaled: Scaled) {
        let height = scaled.height();
        let Scaled { picture, scale } = scaled;
        self.marks.push(Mark::Picture { left, top: self.height, scale, picture });
        self.height += height;
    }

    fn line(&mut self, from: (i64, i64), to: (i64, i64)) {
        self.marks.push(Mark::Line { from, to, width: HAIR });
    }
}

/// The slips of a block; more than one where a page may end within it. `noted` is what was said last of how large a picture is:
/// it is not said twice.
pub(super) fn slips(block: &Block, head: &Head, noted: &mut String) -> Vec<Slip> {
    let mut slip = Slip::default();
    match block {
        Block::Words(lines) => {
            for line in lines {
                slip.words(0, SIZE, Weight::Regular, line, ROOM);
            }
            slip.gap(MM);
        }
        Block::Space(tall) => slip.gap(*tall),
        Block::Heading(words) => {
            slip.gap(2 * MM);
            slip.words(0, SIZE, Weight::Bold, words, ROOM);
        }
        Block::Listed(lines) => {
            for line in lines {
                let from = slip.height;
                slip.words(4 * MM, SIZE, Weight::Regular, line, ROOM - 4 * MM);
                let baseline = from + leading(SIZE) - SIZE * 2 / 5;
                slip.marks.push(text(0, baseline, SIZE, Weight::Regular, "\u{2013}".to_owned()));
            }
        }
        Block::Offered(lines) => offered(&mut slip, lines),
        Block::Picture { caption, scene, quantum } => {
            return picture((caption.as_deref(), scene, *quantum), head, noted);
        }
        Block::Sketch(rows) => {
            // Characters of one width: each has a place of its own.
            let pitch = SMALL * 13 / 20;
            for row in rows {
                slip.height += leading(SMALL);
                for (n, c) in (0_i64..).zip(clean(row).chars()).filter(|(_, c)| *c != ' ') {
                    let word = c.to_string();
                    let left = n * pitch + (pitch - width(&word, SMALL, Weight::Regular)) / 2;
                    slip.marks.push(text(left, slip.height - SMALL * 2 / 5, SMALL, Weight::Regular, word));
                }
            }
            slip.gap(MM);
        }
        Block::Answer { question, unit } => {
            let room = ROOM - FIELD.0 - 18 * MM;
            for line in question {
                slip.words(0, SIZE, Weight::Regular, line, room);
            }
            if slip.height < FIELD.1 {
                // One row of words stands on the line that is written on.
                let down = FIELD.1 - MM - slip.height + SIZE * 2 / 5;
                slip.marks = slip.marks.into_iter().map(|mark| mark.moved(0, down)).collect();
                slip.height = FIELD.1;
            }
            let (left, right) = (ROOM - FIELD.0 - 12 * MM, ROOM - 12 * MM);
            let foot = slip.height - MM;
            slip.line((left, foot), (right, foot));
            let unit = cut(&clean(unit), SIZE, Weight::Regular, 10 * MM);
            slip.marks.push(text(right + 2 * MM, foot, SIZE, Weight::Regular, unit));
            slip.gap(MM);
        }
        Block::Fields(fields) => {
            slip.gap(10 * MM);
            super::pages::fields(&mut slip, fields);
            slip.gap(4 * MM);
        }
        Block::Grid { columns, rows, tall } => return super::grid::grid(columns, rows, *tall),
        Block::Steps(lines) => {
            for line in lines {
                steps(&mut slip, line);
            }
            slip.gap(MM);
        }
    }
    vec![slip]
}

/// Two columns where all fit, else one.
fn offered(slip: &mut Slip, lines: &[String]) {
    let lines: Vec<String> = lines.iter().map(|line| clean(line)).collect();
    let half = ROOM / 2;
    let in_two = lines.iter().all(|line| width(line, SIZE, Weight::Regular) <= half - 12 * MM);
    let across = if in_two { 2 } else { 1 };
    let row = leading(SIZE) + 1500;
    for (n, line) in lines.iter().enumerate() {
        if n % across == 0 {
            slip.height += row;
        }
        let left = if n % across == 0 { 0 } else { half };
        let side = SIZE * 9 / 10;
        let foot = slip.height - SIZE * 2 / 5;
        slip.marks.push(Mark::Frame { corner: (left, foot - side + 300), size: (side, side), width: HAIR });
        let line = cut(line, SIZE, Weight::Regular, ROOM / i64::try_from(across).unwrap_or(1) - 8 * MM);
        slip.marks.push(text(left + 6 * MM, foot, SIZE, Weight::Regular, line));
    }
    slip.gap(MM);
}

/// What is looked at on the left, what it is worth in a column of its own.
fn steps(slip: &mut Slip, line: &str) {
    let room = 112 * MM;
    match line.trim_end().rsplit_once("  ") {
        None => slip.words(6 * MM, SMALL, Weight::Regular, line, ROOM - 6 * MM),
        Some((what, worth)) => {
            let from = slip.height;
            slip.words(6 * MM, SMALL, Weight::Regular, what, room - 26 * MM);
            let worth = cut(&clean(worth.trim()), SMALL, Weight::Regular, 24 * MM);
            let left = room - width(&worth, SMALL, Weight::Regular);
            let baseline = from + leading(SMALL) - SMALL * 2 / 5;
            slip.marks.push(text(left, baseline, SMALL, Weight::Regular, worth));
            slip.height = slip.height.max(from + leading(SMALL));
        }
    }
}

fn picture(
    (caption, scene, quantum): (Option<&str>, &Scene, Option<Exact>),
    head: &Head,
    noted: &mut String,
) -> Vec<Slip> {
    let (whole, glass) = whole_and_glass(scene, ROOM);
    let mut slip = Slip::default();
    if let Some(caption) = caption {
        slip.words(0, SMALL, Weight::Regular, caption, ROOM);
        slip.gap(MM);
    }
    let largest = glass.first().unwrap_or(&whole);
    let note = (head.note)(&super::Magnified {
        miss: largest.magnified(scene.kind, quantum).miss,
        ..whole.magnified(scene.kind, quantum)
    });
    slip.picture(0, whole);
    if !glass.is_empty() {
        slip.gap(2 * MM);
        slip.words(0, SMALL, Weight::Regular, head.glass, ROOM);
        slip.gap(500);
        for length in glass {
            slip.gap(MM);
            slip.picture(0, length);
        }
    }
    slip.gap(300);
    if note != *noted {
        slip.words(0, 2_200, Weight::Regular, &note, ROOM);
        *noted = note;
    }
    slip.gap(MM);
    vec![slip]
}
