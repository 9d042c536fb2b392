//! Vector pictures.
//!
//! | module | what it draws |
//! |---|---|
//! | `both` | two pairs of scales on one beam |
//! | `dial` | a dial unrolled under its hand, bar or counter, and the round face |
//! | `index` | a disc read at an index line |
//! | `level` | main scale and vernier; a rule along the work |
//! | `micrometer` | sleeve and thimble, in the hand and laid flat |
//! | `upright` | main scale and vernier standing upright |
//! | `strip` | one level scale on one plate |
//! | `page` | plates, lines and figures, written as SVG |
//!
//! A vector picture has no cells to be rounded to, so it is never refused: every quantum is drawn. Places are whole hundredths
//! of a unit. The file holds plates, then lines, then figures, each in the order of the scales, and nothing else.

mod both;
mod dial;
mod index;
mod level;
mod micrometer;
mod page;
mod strip;
mod upright;

use super::Lit;
use crate::scene::{Axis, Kind, Scene};

/// A stand-alone SVG of the instrument around its setting, with some lines lit up.
pub fn draw(scene: &Scene, marks_lit: &[Lit]) -> String {
    page(scene, marks_lit).to_string()
}

/// A stand-alone SVG of two slides of one tool: the one that is set first to the left.
pub fn draw_slides(first: &Scene, second: &Scene) -> String {
    page(first, &[]).with_right(page(second, &[]), GAP).to_string()
}

/// The room between the pictures of two slides.
const GAP: i64 = 60 * page::UNIT;

fn page(scene: &Scene, marks_lit: &[Lit]) -> page::Page {
    if let Some(beside) = &scene.beside {
        return both::draw(scene, beside, marks_lit);
    }
    match scene.kind {
        Kind::Rule if scene.tracks[0].axis == Axis::Round => index::draw(scene, marks_lit),
        Kind::Rule => level::rule(scene, marks_lit),
        Kind::Pair if scene.tracks[0].axis == Axis::Up => upright::pair(scene, marks_lit),
        Kind::Pair => level::pair(scene, marks_lit),
        Kind::Dial => dial::draw(scene, marks_lit),
        Kind::Sleeve => micrometer::draw(scene, marks_lit),
    }
}
