//! A main scale standing upright, its vernier to the right of it, seen through a glass beside an overview.

use super::kinds::{Divided, Sliding};
use super::meet::{Met, meet};
use super::micrometer::standing;
use super::page::{Page, Stroke, Word};
use super::scale::{Found, Round, Scale, upward};
use std::ops::Range;

/// The inside of the glass and its reading edge: the first column right of it.
struct Glass {
    rows: Range<i64>,
    cols: Range<i64>,
    edge: i64,
}

/// Whether there is an upright edge on the page.
pub fn is_there(page: &Page) -> bool {
    signs(page).is_some()
}

fn signs(page: &Page) -> Option<(i64, i64)> {
    page.find(0, "\u{2514}\u{2518}").or_else(|| page.find(0, "`'"))
}

/// What the glass shows.
pub fn look(page: &Page, divided: &Divided, sliding: &Sliding) -> Result<Met, String> {
    overview(page)?;
    let glass = Glass::find(page)?;
    let left = page.level(glass.edge - 1, &glass.rows, -1)?;
    let right = page.level(glass.edge, &glass.rows, 1)?;
    let main = glass.main(page, divided, &left)?;
    let vernier = glass.vernier(page, sliding, &right)?;
    main.check_lengths(divided, None)?;
    vernier.check_lengths(&sliding.lines, None)?;
    meet(&main, divided, &vernier, sliding, Round::Straight)
}

/// The two plates of an overview must not touch, or they would show false coincidences: a column between them is empty.
fn overview(page: &Page) -> Result<(), String> {
    let (top, from) = page.find(0, "overview").ok_or("a glass without an overview")?;
    let (_, sign) = signs(page).ok_or("no upright edge")?;
    let rows = || top + 1..page.height();
    let is_line = |col: i64, row: i64| {
        let ch = page.at(col, row).ch;
        ch != ' ' && !ch.is_ascii_digit()
    };
    let lines = |col: i64| rows().filter(|row| is_line(col, *row)).count();
    let bare = |col: i64| rows().all(|row| page.at(col, row).ch == ' ');
    let gap = (from + 1..sign).find(|col| bare(*col) && lines(col - 1) > 1 && lines(col + 1) > 1);
    gap.map(|_| ()).ok_or_else(|| "the plates of an overview touch".to_owned())
}

impl Glass {
    fn find(page: &Page) -> Result<Self, String> {
        let (top, sign) = signs(page).ok_or("no upright edge")?;
        let corner = |col: i64, glyph: char| matches!(page.at(col, top).ch, ch if ch == glyph || ch == '+');
        let left = (0..sign).rev().find(|col| corner(*col, '\u{250c}')).ok_or("no left corner")?;
        let right = (sign + 2..page.width()).find(|col| corner(*col, '\u{2510}')).ok_or("no right corner")?;
        let is_side = |col: i64, row: i64| matches!(page.at(col, row).ch, '\u{2502}' | '!');
        let bottom = (top + 1..page.height())
            .find(|row| !is_side(left, *row) || !is_side(right, *row))
            .ok_or("a frame that is open below")?;
        if !matches!(page.at(left, bottom).ch, '\u{2514}' | '+') {
            return Err("a gap in the frame".to_owned());
        }
        Ok(Self { rows: top + 1..bottom, cols: left + 1..right, edge: sign + 1 })
    }

    fn main(&self, page: &Page, divided: &Divided, strokes: &[Stroke]) -> Result<Scale, String> {
        let longest = strokes.iter().map(|stroke| stroke.length).max().ok_or("no line of the main scale")?;
        page.nothing_but(&(self.edge - longest..self.edge), &self.rows, strokes)?;
        let lines = upward(strokes);
        let mut found = Found::default();
        for (row, words) in self.words(page, self.cols.start..self.edge - longest)? {
            // Large figures begin at the plate's end.
            let is_large = |word: &Word| divided.figures.large.is_some() && word.start == self.cols.start;
            let (large, small) = words.into_iter().partition(is_large);
            found.large(&standing(large, row), &lines)?;
            found.small(&standing(small, row), &lines)?;
        }
        Scale::new(lines, &found, divided, Round::Straight)
    }

    fn vernier(&self, page: &Page, sliding: &Sliding, strokes: &[Stroke]) -> Result<Scale, String> {
        let longest = strokes.iter().map(|stroke| stroke.length).max().ok_or("no line of the vernier")?;
        page.nothing_but(&(self.edge..self.edge + longest), &self.rows, strokes)?;
        let lines = upward(strokes);
        let mut found = Found::default();
        for (row, words) in self.words(page, self.edge + longest..self.cols.end)? {
            found.small(&standing(words, row), &lines)?;
        }
        Scale::new(lines, &found, &sliding.lines, Round::Straight)
    }

    /// The figures of each row in some columns, where there must be nothing else.
    fn words(&self, page: &Page, cols: Range<i64>) -> Result<Vec<(i64, Vec<Word>)>, String> {
        let mut all = Vec::new();
        for row in self.rows.clone() {
            match page.figures(row, &cols) {
                Some(words) => all.push((row, words)),
                None if cols.clone().all(|col| page.at(col, row).ch == ' ') => {}
                None => return Err(format!("something that is no figure in row {row}")),
            }
        }
        Ok(all)
    }
}
