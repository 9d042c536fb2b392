//! The round face of a dial, as an overview: its rim, its long lines and their figures, the hand and the small hand, and the
//! value of one division that is printed on it. Never the thing to read.

use super::LineStyle;
use super::circle::{STEPS, on_circle, step};
use super::grid::{Ink, Paper};
use super::paint::{Area, Painter};
use crate::scene::{Item, Scene, Track};

/// Rows of the smallest and of the largest face.
const LEAST: i64 = 7;
const MOST: i64 = 24;
/// Braille dots of a cell, across and down.
const ACROSS: i64 = 2;
const DOWN: i64 = 4;
/// The bits of a braille cell's dots, row by row.
const BITS: [u8; 8] = [0x01, 0x08, 0x02, 0x10, 0x04, 0x20, 0x40, 0x80];

/// A face that fits.
pub(super) struct Face<'a> {
    scene: &'a Scene,
    rim: &'a Track,
    pub(super) rows: i64,
}

/// What a point of the face belongs to.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Part {
    Rim,
    Hand,
}

impl<'a> Face<'a> {
    /// The largest face for so many rows and columns.
    pub(super) fn new(scene: &'a Scene, rim: usize, rows: i64, cols: i64) -> Option<Self> {
        let rows = rows.min(MOST).min((cols - 2 - 2 * NOTE_WIDTH) / 2);
        (rows >= LEAST).then_some(Self { scene, rim: &scene.tracks[rim], rows })
    }

    fn cols(&self) -> i64 {
        self.rows * DOWN / ACROSS
    }

    /// The distance of the rim from the middle, in dots.
    fn radius(&self) -> i64 {
        self.rows * DOWN / 2 - 1
    }

    pub(super) fn draw(&self, painter: &mut Painter<'_>, top: i64, all_cols: i64) {
        let left = (all_cols - self.cols()) / 2;
        let cols = left..left + self.cols();
        painter.plate(&Area::new(cols.clone(), top..top + self.rows), Paper::Moving);
        let mut sheet = Sheet::new(self.cols(), self.rows);
        self.points(&mut sheet);
        let glyphs = sheet.glyphs(painter.style);
        for (col, row, glyph, _) in &glyphs {
            painter.text(left + col, top + row, &glyph.to_string(), Ink::Note);
        }
        let mut taken: Vec<(i64, i64, i64)> = Vec::new();
        for (n, (right, up, text)) in self.words().into_iter().enumerate() {
            if n == 1 {
                // The hand goes over what is printed on the face, and stops at the figures.
                for (col, row, glyph, _) in glyphs.iter().filter(|(.., hand)| *hand) {
                    painter.text(left + col, top + row, &glyph.to_string(), Ink::Note);
                }
            }
            let len = i64::try_from(text.chars().count()).expect("a short text");
            let col = left + (self.radius() + right).div_euclid(ACROSS) - (len - 1) / 2;
            let row = top + (self.radius() - up).div_euclid(DOWN);
            // On a small face not every figure has room; the first ones stay.
            if taken.iter().all(|(at, from, to)| *at != row || col > *to || col + len < *from) {
                taken.push((row, col, col + len));
                painter.text(col, row, &text, Ink::Note);
            }
        }
        painter.text(cols.end + 1, top + self.rows - 1, NOTE, Ink::Note);
    }

    fn points(&self, sheet: &mut Sheet) {
        let radius = self.radius();
        for at in 0..STEPS {
            sheet.set(radius, on_circle(radius, at), Part::Rim);
        }
        let turn = self.rim.period.map_or(1, |turn| turn.0);
        for item in &self.rim.items {
            let Item::Graduation { at, tier: 0, .. } = item else { continue };
            let at = self.rim.sense * step(at.0, turn);
            for out in radius * 5 / 6..=radius {
                sheet.set(radius, on_circle(out, at), Part::Rim);
            }
        }
        let hand = step(-self.rim.origin.0, turn);
        // Two dots thick, with a short tail, so that it is no line of the rim.
        let thick = |sheet: &mut Sheet, (right, up): (i64, i64)| {
            for (x, y) in [(0, 0), (1, 0), (0, 1)] {
                sheet.set(radius, (right + x, up + y), Part::Hand);
            }
        };
        for out in 0..=radius * 5 / 6 {
            thick(sheet, on_circle(out, hand));
        }
        let tail = if self.scene.tracks.len() > 3 { 0 } else { radius / 6 };
        for out in 0..=tail {
            thick(sheet, on_circle(out, hand + STEPS / 2));
        }
        let (Some(counter), Some(small)) = (self.scene.tracks.first(), self.scene.tracks.get(3)) else {
            return;
        };
        let whole = counter.items.last().map_or(1, |item| item.at().0);
        let (size, down) = (radius / 4, radius * 3 / 8);
        for at in 0..STEPS {
            let (right, up) = on_circle(size, at);
            sheet.set(radius, (right, up - down), Part::Rim);
        }
        for out in 0..size {
            let (right, up) = on_circle(out, step(small.origin.0, whole));
            sheet.set(radius, (right, up - down), Part::Hand);
        }
    }

    /// The value of one division, and the figures of the long lines: how far right of the middle, how far above it, what.
    fn words(&self) -> Vec<(i64, i64, String)> {
        let turn = self.rim.period.map_or(1, |turn| turn.0);
        let mut words: Vec<(i64, i64, String)> = Vec::new();
        words.extend(self.scene.engraved.last().map(|division| (0, self.radius() / 3, division.clone())));
        for item in &self.rim.items {
            let Item::Graduation { at, figure: Some(figure), .. } = item else { continue };
            let (right, up) = on_circle(self.radius() * 7 / 10, self.rim.sense * step(at.0, turn));
            words.push((right, up, figure.number.to_string()));
        }
        words
    }
}

const NOTE: &str = "overview";
const NOTE_WIDTH: i64 = 9;

/// Dots, before they become glyphs.
struct Sheet {
    cols: i64,
    rows: i64,
    dots: Vec<Option<Part>>,
}

impl Sheet {
    fn new(cols: i64, rows: i64) -> Self {
        let count = usize::try_from(cols * ACROSS * rows * DOWN).expect("a small face");
        Self { cols, rows, dots: vec![None; count] }
    }

    fn set(&mut self, middle: i64, (right, up): (i64, i64), part: Part) {
        let (x, y) = (middle + right, middle - up);
        if (0..self.cols * ACROSS).contains(&x) && (0..self.rows * DOWN).contains(&y) {
            let at = usize::try_from(y * self.cols * ACROSS + x).expect("inside");
            self.dots[at] = Some(part);
        }
    }

    fn at(&self, x: i64, y: i64) -> Option<Part> {
        usize::try_from(y * self.cols * ACROSS + x).ok().and_then(|at| self.dots.get(at).copied().flatten())
    }

    /// The cells that are not empty, and whether the hand is in them: braille, or plain characters where braille may be missing.
    fn glyphs(&self, style: LineStyle) -> Vec<(i64, i64, char, bool)> {
        let mut glyphs = Vec::new();
        for (row, col) in (0..self.rows).flat_map(|row| (0..self.cols).map(move |col| (row, col))) {
            let dots = (0..DOWN).flat_map(|y| (0..ACROSS).map(move |x| (col * ACROSS + x, row * DOWN + y)));
            let parts: Vec<Option<Part>> = dots.map(|(x, y)| self.at(x, y)).collect();
            let Some(first) = parts.iter().flatten().next() else { continue };
            let hand = parts.contains(&Some(Part::Hand));
            let bits = BITS.iter().zip(&parts).filter(|(_, part)| part.is_some());
            let glyph = match style {
                LineStyle::Thin | LineStyle::Bars => {
                    let bits = bits.fold(0, |all, (bit, _)| all | u32::from(*bit));
                    char::from_u32(0x2800 + bits).unwrap_or('o')
                }
                LineStyle::Cell | LineStyle::Ascii if hand || *first == Part::Hand => '*',
                LineStyle::Cell | LineStyle::Ascii => 'o',
            };
            glyphs.push((col, row, glyph, hand));
        }
        glyphs
    }
}
