//! Vector pictures.
//!
//! | module | what it draws |
//! |---|---|
//! | `dial` | a dial unrolled under its hand, bar or counter, and the round face |
//! | `level` | main scale and vernier; a rule along the work |
//! | `micrometer` | sleeve and thimble, in the hand and laid flat |
//! | `upright` | main scale and vernier standing upright |
//! | `strip` | one level scale on one plate |
//! | `page` | plates, lines and figures, written as SVG |
//!
//! A vector picture has no cells to be rounded to, so it is never refused: every quantum is drawn. Places are whole hundredths
//! of a unit. The file holds plates, then lines, then figures, each in the order of the scales, and nothing else.

mod dial;
mod level;
mod micrometer;
mod page;
mod strip;
mod upright;

use super::Lit;
use crate::instrument::Held;
use crate::scene::{Axis, Kind, Scene};

/// A stand-alone SVG of the instrument around its setting, with some lines lit up.
pub fn draw(scene: &Scene, marks_lit: &[Lit]) -> String {
    let page = match scene.kind {
        Kind::Rule => level::rule(scene, marks_lit),
        Kind::Pair if scene.tracks[0].axis == Axis::Up => upright::pair(scene, marks_lit),
        Kind::Pair => level::pair(scene, marks_lit),
        Kind::Dial => dial::draw(scene, marks_lit),
        Kind::Sleeve => micrometer::draw(scene, marks_lit),
    };
    match scene.held {
        Held::Usual => page.to_string(),
        Held::Turned => page.turned().to_string(),
    }
}
