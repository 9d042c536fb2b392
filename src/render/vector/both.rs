//! Two pairs of scales on one beam: the upper vernier above its main scale, the lower one below its own.

use super::level::{WIDTH, ends, interval, per_quantum, type_size};
use super::picture::{Area, Picture, Scale, whole_units};
use super::strip::{Facing, Strip, depth};
use crate::exact::Quanta;
use crate::instrument::Side;
use crate::render::Lit;
use crate::scene::{Beside, Scene, Track};

struct Pair<'a> {
    scene: &'a Scene,
    /// Hundredths of a unit per quantum.
    per: i64,
}

impl Pair<'_> {
    fn main(&self) -> &Track {
        &self.scene.tracks[0]
    }

    fn vernier(&self) -> &Track {
        &self.scene.tracks[1]
    }

    /// How far the window reaches to the left and to the right of the vernier's zero: a numbered interval beyond the vernier.
    fn window(&self) -> [i64; 2] {
        let (first, last) = ends(self.vernier());
        let beside = interval(self.main());
        [beside.0 * self.per, (last - first + beside).0 * self.per]
    }

    fn least_per(&self) -> i64 {
        let (first, last) = ends(self.vernier());
        let pitch = |track: &Track| track.pitch.unwrap_or(Quanta(1)).0;
        let beside = interval(self.main());
        let window = last - first + beside + beside;
        per_quantum(pitch(self.main()).min(pitch(self.vernier())), window.0, WIDTH)
    }
}

/// Draws them. Each pair has whole units per quantum of its own, as near to the size of the other one as that allows; the zeros
/// of both verniers stand in one line.
pub(super) fn draw(scene: &Scene, beside: &Beside, lit: &[Lit]) -> Picture {
    let mut read = Pair { scene, per: 0 };
    let mut other = Pair { scene: &beside.scene, per: 0 };
    let (of_other, of_read) = beside.ratio;
    let unit = super::picture::UNIT;
    let scaled = |per: i64, to: i64, from: i64| (2 * per * to + from * unit) / (2 * from * unit) * unit;
    if of_other >= of_read {
        read.per = read.least_per();
        other.per = scaled(read.per, of_other, of_read).max(other.least_per());
    } else {
        other.per = other.least_per();
        read.per = scaled(other.per, of_read, of_other).max(read.least_per());
    }
    let scale = Scale { along: read.per, miss: read.per.min(other.per) };
    let windows = [read.window(), other.window()];
    let (left, right) = (windows[0][0].max(windows[1][0]), windows[0][1].max(windows[1][1]));
    let narrowest = windows.iter().map(|[left, right]| left + right).min().unwrap_or(WIDTH);
    let size = type_size(narrowest);
    let (margin, reach, engraving) = (size, 3 * size, size * 3 / 4);
    let width = left + right + 2 * margin;
    let read_lit: (Pair<'_>, &[Lit]) = (read, lit);
    let other_lit: (Pair<'_>, &[Lit]) = (other, &[]);
    let [upper, lower] = match beside.lies {
        Side::Above => [other_lit, read_lit],
        Side::Below => [read_lit, other_lit],
    };
    let room = |pair: &Pair<'_>| whole_units(depth(pair.vernier(), reach, size) + 2 * engraving);
    let first_edge = room(&upper.0);
    let second_edge = first_edge + depth(upper.0.main(), reach, size) + depth(lower.0.main(), reach, size);
    let bottom = second_edge + room(&lower.0);
    let mut page = Picture::new(width, bottom);
    page.scale = scale;
    page.plate(
        Area { left: 0, right: width, top: first_edge, bottom: second_edge },
        upper.0.main().plate.into(),
    );
    let overhang = 2 * size;
    let span = |pair: &Pair<'_>| {
        let (first, last) = ends(pair.vernier());
        margin + left - overhang..margin + left + (last - first).0 * pair.per + overhang
    };
    for ((pair, _), top, bottom) in [(&upper, 0, first_edge), (&lower, second_edge, bottom)] {
        let span = span(pair);
        page.plate(Area { left: span.start, right: span.end, top, bottom }, pair.vernier().plate.into());
    }
    for ((pair, lit), edge, facings) in [
        (&upper, first_edge, [Facing::Below, Facing::Above]),
        (&lower, second_edge, [Facing::Above, Facing::Below]),
    ] {
        let zero = pair.vernier().origin;
        let per = pair.per;
        let place = move |at: Quanta| margin + left + (at - zero).0 * per;
        let windows = [margin..width - margin, span(pair)];
        for ((number, facing), window) in facings.into_iter().enumerate().zip(windows) {
            let track = &pair.scene.tracks[number];
            let strip = Strip { track, number, facing, edge, reach, size, window, stop: false };
            strip.draw(&mut page, lit, &place);
        }
    }
    let from = margin + left;
    page.texts_from(from, engraving * 3 / 2, engraving, &upper.0.scene.engraved);
    page.texts_from(from, bottom - engraving, engraving, &lower.0.scene.engraved);
    page
}
