//! Level scales: a main scale with its vernier, a rule along the work.

use super::picture::{Area, Grey, LINE, Picture, Scale, UNIT, whole_units};
use super::strip::{Facing, Strip, depth};
use crate::exact::Quanta;
use crate::instrument::NumeralSize;
use crate::render::Lit;
use crate::scene::{Item, Scene, Track};

/// Two lines of one scale stand at least this far apart.
const LEAST_PITCH: i64 = 12 * UNIT;
/// A picture is at least this wide.
pub(super) const WIDTH: i64 = 1600 * UNIT;

/// Hundredths of a unit per quantum: whole units, lines at least [`LEAST_PITCH`] apart, the window at least `width` wide.
pub(super) fn per_quantum(pitch: i64, window: i64, width: i64) -> i64 {
    let up = |a: i64, b: i64| (a + b - 1) / b;
    up(LEAST_PITCH, pitch * UNIT).max(up(width, window * UNIT)) * UNIT
}

/// The greatest distance between figures.
pub(super) fn interval(track: &Track) -> Quanta {
    track.widest_gap().unwrap_or(track.pitch.unwrap_or(Quanta(1)) * 10)
}

/// The two ends of a vernier, left and right.
pub(super) fn ends(vernier: &Track) -> (Quanta, Quanta) {
    let at = |item: Option<&Item>| vernier.place(item.map_or(Quanta::ZERO, Item::at));
    let (a, b) = (at(vernier.items.first()), at(vernier.items.last()));
    (a.min(b), a.max(b))
}

/// The size of small figures on a picture of this width.
pub(super) fn type_size(width: i64) -> i64 {
    whole_units(width / 52)
}

/// A main scale above its vernier. The window begins one numbered interval before the vernier and ends one after it.
pub(super) fn pair(scene: &Scene, lit: &[Lit]) -> Picture {
    let (first, last) = ends(&scene.tracks[1]);
    let beside = interval(&scene.tracks[0]);
    over(scene, lit, [first - beside, last + beside])
}

/// One of so many lengths into which a vernier is cut, a line of each scale more on either side.
pub(super) fn length(scene: &Scene, number: i64, of: i64, lit: &[Lit]) -> Picture {
    let (first, last) = ends(&scene.tracks[1]);
    let more = scene.tracks[0].pitch.unwrap_or(Quanta(1)) + Quanta(1);
    let at = |n: i64| first + Quanta((last - first).0 * n / of);
    over(scene, lit, [at(number) - more, at(number + 1) + more])
}

/// Both scales over a window.
fn over(scene: &Scene, lit: &[Lit], [from, to]: [Quanta; 2]) -> Picture {
    let (main, vernier) = (&scene.tracks[0], &scene.tracks[1]);
    let (first, last) = ends(vernier);
    let window = to - from;
    let pitch = |track: &Track| track.pitch.unwrap_or(Quanta(1)).0;
    let per = per_quantum(pitch(main).min(pitch(vernier)), window.0, WIDTH);
    let size = type_size(window.0 * per);
    let margin = size;
    let width = window.0 * per + 2 * margin;
    let place = move |at: Quanta| margin + (at - from).0 * per;

    let reach = 3 * size;
    let edge = depth(main, reach, size);
    let engraving = size * 3 / 4;
    let whole = from <= first && to >= last;
    let engraved = if whole { 2 * engraving } else { 0 };
    let bottom = whole_units(edge + depth(vernier, reach, size) + engraved);
    let mut page = Picture::new(width, bottom);
    page.scale = Scale { along: per, miss: per };
    let overhang = 2 * size;
    let vernier_plate = (place(first) - overhang).max(0)..(place(last) + overhang).min(width);
    page.plate(Area { left: 0, right: width, top: 0, bottom: edge }, main.plate.into());
    let slide = Area { left: vernier_plate.start, right: vernier_plate.end, top: edge, bottom };
    page.plate(slide, vernier.plate.into());
    let strip = |track, number, facing, window| Strip {
        track,
        number,
        facing,
        edge,
        reach,
        size,
        window,
        stop: false,
    };
    let seen = margin..width - margin;
    let slid = if whole { vernier_plate } else { seen.clone() };
    strip(main, 0, Facing::Above, seen).draw(&mut page, lit, &place);
    strip(vernier, 1, Facing::Below, slid).draw(&mut page, lit, &place);
    if whole {
        page.texts_from(place(first), bottom - engraving, engraving, &scene.engraved);
    }
    page
}

/// A rule laid along the work. The work's end stands two thirds across, or further left where the rule's own end is in view.
pub(super) fn rule(scene: &Scene, lit: &[Lit]) -> Picture {
    let (rule, work) = (&scene.tracks[0], &scene.tracks[1]);
    let beside = interval(rule);
    let large = rule.figure_spacing(NumeralSize::Large).unwrap_or_default();
    let window = (beside * 6).max(large + beside + beside);
    let per = per_quantum(rule.pitch.unwrap_or(Quanta(1)).0, window.0, WIDTH);
    let size = type_size(window.0 * per);
    let margin = size;
    let width = window.0 * per + 2 * margin;
    let from = Quanta(work.origin.0 - window.0 * 2 / 3).max(Quanta::ZERO);
    let place = move |at: Quanta| margin + (at - from).0 * per;

    let reach = whole_units(size * 7 / 2);
    let edge = 4 * size;
    let engraving = size * 3 / 4;
    let bottom = whole_units(edge + depth(rule, reach, size) + 3 * engraving / 2);
    let mut page = Picture::new(width, bottom);
    page.scale = Scale { along: per, miss: 0 };
    let last = rule.items.last().map_or(Quanta::ZERO, Item::at);
    // A steel rule begins at its first line.
    let left = (place(Quanta::ZERO) - LINE / 2).max(0);
    let right = (place(last) + 2 * size).min(width);
    let end = place(work.origin);
    page.plate(Area { left, right, top: edge, bottom }, rule.plate.into());
    page.plate(Area { left, right: end, top: 0, bottom: edge }, Grey::Frame);
    let strip = Strip {
        track: rule,
        number: 0,
        facing: Facing::Below,
        edge,
        reach,
        size,
        window: margin..width - margin,
        stop: false,
    };
    strip.draw(&mut page, lit, &place);
    let is_lit = lit.iter().any(|lit| lit.track == 1);
    page.line((end, 0), (end, edge), is_lit);
    page.texts_from(margin + 2 * size, bottom - engraving, engraving, &scene.engraved);
    page
}
