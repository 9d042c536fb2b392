//! A dial or a collar: the rim unrolled under the hand, which is read to the line; above it the bar with the jaw's edge or the
//! counter with its small hand; in the hand, where it fits, the round face as an overview.
//!
//! Bar and counter are drawn at whole cells per division, the jaw's edge and the small hand rounded down: none stands at a
//! line that it has not reached, and the dial supplies the rest.

use super::band::{Band, Facing};
use super::face::Face;
use super::flat::{self, Unrolled};
use super::glyphs::DOTS;
use super::grid::{Ink, Paper};
use super::paint::{Area, Painter};
use super::{Drawing, Extent, Marks, Refusal, Request};
use crate::exact::Quanta;
use crate::instrument::NumeralSize;
use crate::scene::{Item, Scene, Track, TrackForm, View};
use std::ops::Range;

/// Cells of the jaw right of its edge.
const JAW: i64 = 8;
/// Where the bar begins: the reserved column and two cells of the fixed jaw are left of it.
const BAR: i64 = 3;
/// Rows in which the small hand stands over its counter.
const SMALL_HAND: i64 = 1;
/// The most cells per division of a bar or a counter.
const WIDEST: i64 = 12;
/// The row with what is engraved, and the one between two scales.
const BAND: i64 = 1;
const GAP: i64 = 1;
/// What stands between two texts on a tag.
const BETWEEN: &str = "   ";

const NO_FACE: &str = "laid flat: the face does not fit";

/// What counts the turns.
enum Coarse {
    /// A bar up to the jaw's edge, so many cells per division.
    Bar(i64),
    /// A counter and its small hand.
    Counter(i64),
}

pub(super) fn draw(scene: &Scene, request: &Request) -> Result<Drawing, Refusal> {
    let coarse = Coarse::of(scene, request)?;
    let tags = scene.tags.join(BETWEEN);
    let tag = i64::from(!tags.is_empty());
    let tag_cols = BAR + 2 + len(&tags);
    if tag_cols > request.cols {
        return Err(request.refuse(tag_cols, request.rows));
    }
    let above = BAND + tag + coarse.as_ref().map_or(0, |coarse| coarse.rows(&scene.tracks[0]) + GAP);
    // A row less for the hand than for a datum line, so that the face fits beside a question.
    let over = flat::reach(request) - 1;
    let needs = above + Unrolled::rows(request, over);
    if needs > request.rows {
        return Err(request.refuse(request.cols, needs));
    }
    let rim = usize::from(coarse.is_some());
    let has_face = scene.view == View::Held && scene.tracks[rim].form == TrackForm::Dial;
    let rest = request.rows - needs;
    let face =
        Some(rest - GAP).filter(|_| has_face).and_then(|rows| Face::new(scene, rim, rows, request.cols));
    let face_rows = face.as_ref().map_or(0, |face| face.rows + GAP);
    let top = (rest - face_rows) / 2;

    let mut grid = request.grid();
    let mut painter = Painter { grid: &mut grid, style: request.lines };
    let edge = match coarse {
        Some(Coarse::Bar(_)) => request.cols - JAW,
        Some(Coarse::Counter(_)) | None => request.cols,
    };
    band(&mut painter, scene, top, edge, has_face && face.is_none());
    if tag > 0 {
        painter.plate(&Area::new(BAR - 1..tag_cols, top + BAND..top + BAND + tag), Paper::Work);
        painter.text(BAR, top + BAND, &tags, Ink::Engraving);
    }
    let below_band = top + tag;
    match coarse {
        Some(Coarse::Bar(cells)) => bar(&mut painter, scene, request, below_band, edge, cells),
        Some(Coarse::Counter(cells)) => counter(&mut painter, scene, request, below_band + BAND, cells),
        None => {}
    }
    let track = &scene.tracks[rim];
    let spacing = track.figure_spacing(NumeralSize::Small).unwrap_or_default();
    // Two figures are always in view: on a balanced face they tell which half it is.
    let view = spacing * 2 + track.pitch.unwrap_or_default() * 3;
    let unrolled = Unrolled {
        rim: track,
        rim_number: rim,
        index: &scene.tracks[rim + 1],
        index_number: rim + 1,
        view,
        over,
    };
    unrolled.draw(&mut painter, request, top + above)?;
    if let Some(face) = &face {
        face.draw(&mut painter, top + needs + GAP, request.cols);
    }
    let view = if face.is_some() { View::Held } else { View::Flat };
    Ok(Drawing { grid, extent: Extent::Whole, view, glass: None })
}

impl Coarse {
    /// What counts the turns, at the largest scale at which it can be read.
    fn of(scene: &Scene, request: &Request) -> Result<Option<Self>, Refusal> {
        let track = &scene.tracks[0];
        let digits = |number: i64| i64::try_from(number.to_string().len()).expect("a figure is short");
        let widest = track.items.iter().filter_map(|item| match item {
            Item::Graduation { figure: Some(figure), .. } => Some(digits(figure.number)),
            _ => None,
        });
        let label = widest.max().unwrap_or(1) + 1;
        let pitch = track.pitch.unwrap_or(Quanta(1));
        let apart = |size| track.figure_spacing(size).map(|spacing| spacing.passed(pitch));
        let least = apart(NumeralSize::Small).map_or(2, |lines| (label + lines - 1) / lines).max(2);
        let (lines, beside) = match scene.tracks.len() {
            2 => return Ok(None),
            3 => (apart(NumeralSize::Large).or(apart(NumeralSize::Small)).unwrap_or(1), BAR + JAW + label),
            _ => (i64::try_from(track.items.len()).expect("few lines") - 1, 3),
        };
        let cells = ((request.cols - beside) / lines).min(WIDEST);
        if cells < least {
            return Err(request.refuse(lines * least + beside, request.rows));
        }
        Ok(Some(if scene.tracks.len() == 3 { Self::Bar(cells) } else { Self::Counter(cells) }))
    }

    /// Rows that it takes.
    fn rows(&self, track: &Track) -> i64 {
        let scale = reach(track) + Band::figure_rows(track);
        match self {
            Self::Bar(_) => scale,
            Self::Counter(_) => SMALL_HAND + scale,
        }
    }
}

/// Rows of the longest line of a bar or a counter.
fn reach(track: &Track) -> i64 {
    i64::try_from(track.lengths).expect("at most seven lengths").min(3)
}

/// How many dots a place is from the scale's zero: the lines come out whole, what stands between two is rounded down.
fn along(at: Quanta, pitch: Quanta, cells: i64, grain: i64) -> i64 {
    Quanta(at.0 * cells * DOTS).passed(pitch).div_euclid(grain) * grain
}

fn len(text: &str) -> i64 {
    i64::try_from(text.chars().count()).expect("a short text")
}

/// What is engraved.
fn band(painter: &mut Painter<'_>, scene: &Scene, row: i64, end: i64, no_face: bool) {
    painter.plate(&Area::new(1..end, row..row + BAND), Paper::Frame);
    let text = scene.engraved.join(BETWEEN);
    painter.text(BAR, row, &text, Ink::Engraving);
    let start = end - 2 - len(NO_FACE);
    if no_face && start > BAR + len(&text) + 1 {
        painter.text(start, row, NO_FACE, Ink::Note);
    }
}

fn scale<'a>(track: &'a Track, request: &Request, edge: i64, cols: Range<i64>) -> Band<'a> {
    let lit = request.lit.iter().filter(|lit| lit.track == 0).map(|lit| lit.at).collect();
    Band {
        track,
        facing: Facing::Below,
        edge,
        reach: reach(track),
        figure_cols: cols.clone(),
        cols,
        datum: false,
        lit,
    }
}

/// A bar up to the jaw's edge. A line just reached ends at the edge; one not reached is not drawn.
fn bar(painter: &mut Painter<'_>, scene: &Scene, request: &Request, band: i64, edge: i64, cells: i64) {
    let track = &scene.tracks[0];
    let top = band + BAND;
    let rows = top..top + reach(track) + Band::figure_rows(track);
    painter.plate(&Area::new(1..BAR, rows.clone()), Paper::Frame);
    painter.plate(&Area::new(BAR..edge, rows.clone()), Paper::Fixed);
    painter.plate(&Area::new(edge..request.cols, rows), Paper::Moving);
    if request.marks == Marks::Shown {
        let signs = painter.style.signs();
        painter.text(edge - 1, band, &signs.left_of_edge.to_string(), Ink::Note);
        painter.text(edge, band, &signs.right_of_edge.to_string(), Ink::Note);
    }
    let (pitch, grain) = (track.pitch.unwrap_or(Quanta(1)), request.lines.grain());
    let dots = move |at: Quanta| along(at, pitch, cells, grain);
    let jaw = edge * DOTS - request.lines.line_width() - dots(scene.edges[0].at);
    scale(track, request, top, BAR..edge).draw(painter, &move |at| jaw + dots(at));
}

/// A counter and its small hand.
fn counter(painter: &mut Painter<'_>, scene: &Scene, request: &Request, top: i64, cells: i64) {
    let track = &scene.tracks[0];
    let edge = top + SMALL_HAND;
    let lines = i64::try_from(track.items.len()).expect("few lines") - 1;
    let cols = 1..lines * cells + 4;
    painter.plate(&Area::new(cols.clone(), top..edge), Paper::Moving);
    painter
        .plate(&Area::new(cols.clone(), edge..edge + reach(track) + Band::figure_rows(track)), Paper::Fixed);
    let (pitch, grain) = (track.pitch.unwrap_or(Quanta(1)), request.lines.grain());
    let whole = (cols.end - cols.start - 3) * DOTS;
    // Where its figures run against the clock, its 0 stands at the right.
    let start = (cols.start + 1) * DOTS + if track.sense < 0 { whole } else { 0 };
    let sense = track.sense;
    let dots = move |at: Quanta| start + sense * along(at * sense, pitch, cells, grain);
    scale(track, request, edge, cols.clone()).draw(painter, &dots);
    painter.upright(dots(track.place(scene.edges[0].at)), &Area::new(cols, top..edge), Ink::Line);
    painter.edge_marks(request.marks, edge);
}
