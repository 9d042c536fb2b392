//! Vector pictures: plates, lines and figures as a list that the writers share.
//!
//! | module | what it draws |
//! |---|---|
//! | `both` | two pairs of scales on one beam |
//! | `dial` | a dial unrolled under its hand, bar or counter, and the round face |
//! | `index` | a disc read at an index line |
//! | `level` | main scale and vernier; a rule along the work; a vernier under the glass, length by length |
//! | `micrometer` | sleeve and thimble, in the hand and laid flat |
//! | `upright` | main scale and vernier standing upright |
//! | `strip` | one level scale on one plate |
//! | `picture` | the list |
//!
//! A vector picture has no cells to be rounded to, so it is never refused: every quantum is drawn. Places are whole hundredths
//! of a unit, a quantum of a reading pair is whole units. The list holds plates, then lines, then figures, each in the order of
//! the scales, and nothing else.

mod both;
mod dial;
mod index;
mod level;
mod micrometer;
mod picture;
mod strip;
mod upright;

pub use picture::Picture;
pub(super) use picture::{Area, Grey, HEAVY, LINE, Line, Text, UNIT};

use super::Lit;
use crate::instrument::Held;
use crate::scene::{Axis, Kind, Scene};

/// The room between the pictures of two slides.
const GAP: i64 = 60 * UNIT;

/// The instrument around its setting, with some lines lit up.
pub fn draw(scene: &Scene, marks_lit: &[Lit]) -> Picture {
    drawn(scene, marks_lit, dial::Face::Below)
}

/// The same for a sheet of paper, which is wider than it has room to spare below.
pub(super) fn draw_wide(scene: &Scene, marks_lit: &[Lit]) -> Picture {
    drawn(scene, marks_lit, dial::Face::Beside)
}

fn drawn(scene: &Scene, marks_lit: &[Lit], face: dial::Face) -> Picture {
    if let Some(beside) = &scene.beside {
        return both::draw(scene, beside, marks_lit);
    }
    let picture = match scene.kind {
        Kind::Rule if scene.tracks[0].axis == Axis::Round => index::draw(scene, marks_lit),
        Kind::Rule => level::rule(scene, marks_lit),
        Kind::Pair if scene.tracks[0].axis == Axis::Up => upright::pair(scene, marks_lit),
        Kind::Pair => level::pair(scene, marks_lit),
        Kind::Dial => dial::draw(scene, marks_lit, face),
        Kind::Sleeve => micrometer::draw(scene, marks_lit),
    };
    match scene.held {
        Held::Usual => picture,
        Held::Turned => picture.turned(),
    }
}

/// Two slides of one tool: the one that is set first to the left.
pub fn draw_slides(first: &Scene, second: &Scene) -> Picture {
    draw(first, &[]).with_right(draw(second, &[]), GAP)
}

/// A level vernier cut into so many lengths, each with the main scale above it, as a glass slid along it would show them. None
/// where there is no single level vernier.
pub fn glass(scene: &Scene, lengths: i64, marks_lit: &[Lit]) -> Option<Vec<Picture>> {
    let level = scene.kind == Kind::Pair && scene.beside.is_none() && scene.tracks[0].axis != Axis::Up;
    level.then(|| {
        let turned = scene.held == Held::Turned;
        let all = (0..lengths).map(|n| level::length(scene, n, lengths, marks_lit));
        all.map(|picture| if turned { picture.turned() } else { picture }).collect()
    })
}
