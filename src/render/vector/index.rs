//! A disc read at an index line, unrolled around it.

use super::level::{WIDTH, interval, per_quantum, type_size};
use super::picture::{Area, Picture, Scale, whole_units};
use super::strip::{Facing, Strip, depth};
use crate::exact::Quanta;
use crate::render::Lit;
use crate::scene::Scene;

/// Numbered intervals in view on either side of the line.
const BESIDE: i64 = 2;

/// The disc above its index line.
pub(super) fn draw(scene: &Scene, lit: &[Lit]) -> Picture {
    let (disc, index) = (&scene.tracks[0], &scene.tracks[1]);
    let beside = interval(disc) * BESIDE;
    let window = beside + beside;
    let per = per_quantum(disc.pitch.unwrap_or(Quanta(1)).0, window.0, WIDTH);
    let size = type_size(window.0 * per);
    let margin = size;
    let width = window.0 * per + 2 * margin;
    let place = move |at: Quanta| margin + (at - index.origin + beside).0 * per;
    let reach = 3 * size;
    let edge = depth(disc, reach, size);
    let engraving = size * 3 / 4;
    let bottom = whole_units(edge + reach + 3 * engraving);
    let mut page = Picture::new(width, bottom);
    page.scale = Scale { along: per, miss: 0 };
    page.plate(Area { left: 0, right: width, top: 0, bottom: edge }, disc.plate.into());
    page.plate(Area { left: 0, right: width, top: edge, bottom }, index.plate.into());
    let window = margin..width - margin;
    let facing = Facing::Above;
    Strip { track: disc, number: 0, facing, edge, reach, size, window, stop: false }
        .draw(&mut page, lit, &place);
    let middle = place(index.origin);
    let is_lit = lit.iter().any(|lit| lit.track == 1);
    page.line((middle, edge), (middle, edge + whole_units(reach)), is_lit);
    page.texts_from(margin + 2 * size, bottom - engraving, engraving, &scene.engraved);
    page
}
