//! Pictures and sheets of paper written as PDF. The same input gives the same bytes: no date, no chance.
//!
//! Lengths are whole numbers up to here. A picture keeps its own units inside a transformation of its own, so what is a whole
//! number of units in the list is one in the file as well.

use super::paper::{BOLD_DATA, Leaf, Mark, REGULAR_DATA, Weight, clean, face};
use super::vector::{Area, Grey, HEAVY, LINE, Line, Picture, UNIT};
use krilla::Document;
use krilla::color::rgb;
use krilla::geom::{PathBuilder, Point, Rect, Transform};
use krilla::metadata::Metadata;
use krilla::num::NormalizedF32;
use krilla::page::PageSettings;
use krilla::paint::{Fill, FillRule, Stroke};
use krilla::surface::Surface;
use krilla::text::{Font, GlyphId, KrillaGlyph};
use std::sync::LazyLock;

/// Points of a page in a micrometre.
const POINTS: f32 = 72.0 / 25_400.0;
/// Points in a unit of a picture that stands alone, as an SVG has them: 96 in an inch.
const ALONE: f32 = 0.75;
/// How far a quarter of a circle's control points lie from its ends, in radii.
const QUARTER: f32 = 0.552_284_8;

static REGULAR: LazyLock<Font> = LazyLock::new(|| Font::new(REGULAR_DATA.into(), 0).expect(SHIPPED));
static BOLD: LazyLock<Font> = LazyLock::new(|| Font::new(BOLD_DATA.into(), 0).expect(SHIPPED));
const SHIPPED: &str = "a shipped font can be read";

/// Pages, with a title for the window that shows them.
pub fn leaves(leaves: &[Leaf], title: &str) -> Vec<u8> {
    let mut document = begin(title);
    for leaf in leaves {
        let size = PageSettings::from_wh(number(leaf.width) * POINTS, number(leaf.height) * POINTS);
        let mut page = document.start_page_with(size.expect("paper has a size"));
        let mut surface = page.surface();
        surface.push_transform(&Transform::from_scale(POINTS, POINTS));
        for mark in &leaf.marks {
            draw_mark(&mut surface, mark);
        }
        surface.pop();
        surface.finish();
        page.finish();
    }
    end(document)
}

/// A picture alone on a page of its size, as on a screen.
pub fn picture(picture: &Picture, title: &str) -> Vec<u8> {
    let mut document = begin(title);
    let unit = ALONE / number(UNIT);
    let size = PageSettings::from_wh(number(picture.width) * unit, number(picture.height) * unit);
    let mut page = document.start_page_with(size.expect("a picture has a size"));
    let mut surface = page.surface();
    surface.push_transform(&Transform::from_scale(unit, unit));
    draw_picture(&mut surface, &picture.clone().printable(), Look::Screen);
    surface.pop();
    surface.finish();
    page.finish();
    end(document)
}

/// Characters of a title.
const TITLE: usize = 200;

fn begin(title: &str) -> Document {
    let mut document = Document::new();
    let title: String = clean(title).chars().take(TITLE).collect();
    document.set_metadata(Metadata::new().title(title).language("en-GB".to_owned()));
    document
}

fn end(document: Document) -> Vec<u8> {
    document.finish().expect("nothing is asked of the file that it could fail to be")
}

/// A page is some thirty million hundredths of a micrometre: what is lost is less than one of them.
#[expect(clippy::cast_precision_loss)]
fn number(whole: i64) -> f32 {
    whole as f32
}

/// How the parts of a picture are told apart.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Look {
    /// By greys; lit lines are red.
    Screen,
    /// By outlines and corners; lit lines are heavy.
    Paper,
}

fn draw_mark(surface: &mut Surface<'_>, mark: &Mark) {
    match mark {
        Mark::Line { from, to, width } => stroke(surface, &[(*from, *to)], rgb::Color::black(), *width),
        Mark::Frame { corner: (left, top), size: (across, down), width } => {
            let area = Area { left: *left, right: left + across, top: *top, bottom: top + down };
            plate(surface, &area, 0, None, *width);
        }
        Mark::Text { left, baseline, size, weight, words } => {
            write(surface, (*left, *baseline), *size, *weight, words);
        }
        Mark::Picture { left, top, scale, picture } => {
            surface.push_transform(&Transform::from_translate(number(*left), number(*top)));
            let unit = number(*scale) / number(UNIT);
            surface.push_transform(&Transform::from_scale(unit, unit));
            draw_picture(surface, picture, Look::Paper);
            surface.pop();
            surface.pop();
        }
    }
}

fn draw_picture(surface: &mut Surface<'_>, picture: &Picture, look: Look) {
    for (area, grey) in &picture.plates {
        match look {
            Look::Screen => plate(surface, area, 0, Some(colour(*grey)), 0),
            Look::Paper => {
                let outline = grey.outline();
                let white = Some(rgb::Color::white());
                if let Some(area) = area.inset(outline.width / 2) {
                    plate(surface, &area, outline.corner, white, outline.width);
                }
            }
        }
    }
    let ends = |lit: bool| {
        let of = picture.lines.iter().filter(move |line| line.lit == lit);
        of.map(|Line { from, to, .. }| (*from, *to)).collect::<Vec<_>>()
    };
    stroke(surface, &ends(false), rgb::Color::black(), LINE);
    match look {
        Look::Screen => stroke(surface, &ends(true), rgb::Color::new(0xb0, 0x00, 0x20), LINE),
        Look::Paper => stroke(surface, &ends(true), rgb::Color::black(), HEAVY),
    }
    for text in &picture.texts {
        let left = text.centre - super::paper::width(&text.words, text.size, Weight::Regular) / 2;
        if let Some(area) = &text.within {
            surface.push_clip_path(&outline(area, 0), &FillRule::NonZero);
        }
        write(surface, (left, text.baseline), text.size, Weight::Regular, &text.words);
        if text.within.is_some() {
            surface.pop();
        }
    }
}

fn colour(grey: Grey) -> rgb::Color {
    let light = match grey {
        Grey::Fixed => 0xe4,
        Grey::Moving => 0xc6,
        Grey::Frame => 0xb2,
    };
    rgb::Color::new(light, light, light)
}

/// Where something is.
type Place = (i64, i64);

fn stroke(surface: &mut Surface<'_>, lines: &[(Place, Place)], ink: rgb::Color, width: i64) {
    let mut path = PathBuilder::new();
    for (from, to) in lines {
        path.move_to(number(from.0), number(from.1));
        path.line_to(number(to.0), number(to.1));
    }
    surface.set_fill(None);
    surface.set_stroke(Some(Stroke { paint: ink.into(), width: number(width), ..Stroke::default() }));
    if let Some(path) = path.finish() {
        surface.draw_path(&path);
    }
}

fn plate(surface: &mut Surface<'_>, area: &Area, corner: i64, paper: Option<rgb::Color>, width: i64) {
    surface.set_fill(paper.map(fill));
    let outlined = Stroke { paint: rgb::Color::black().into(), width: number(width), ..Stroke::default() };
    surface.set_stroke((width > 0).then_some(outlined));
    surface.draw_path(&outline(area, corner));
}

fn fill(paint: rgb::Color) -> Fill {
    Fill { paint: paint.into(), opacity: NormalizedF32::ONE, rule: FillRule::NonZero }
}

/// The outline of an area, its corners round.
fn outline(area: &Area, corner: i64) -> krilla::geom::Path {
    let [left, right, top, bottom] = [area.left, area.right, area.top, area.bottom].map(number);
    let mut path = PathBuilder::new();
    if corner == 0 {
        path.push_rect(Rect::from_ltrb(left, top, right, bottom).expect("a plate has an inside"));
    } else {
        let (r, near) = (number(corner), number(corner) * (1.0 - QUARTER));
        path.move_to(left + r, top);
        path.line_to(right - r, top);
        path.cubic_to(right - near, top, right, top + near, right, top + r);
        path.line_to(right, bottom - r);
        path.cubic_to(right, bottom - near, right - near, bottom, right - r, bottom);
        path.line_to(left + r, bottom);
        path.cubic_to(left + near, bottom, left, bottom - near, left, bottom - r);
        path.line_to(left, top + r);
        path.cubic_to(left, top + near, left + near, top, left + r, top);
        path.close();
    }
    path.finish().expect("a plate has an outline")
}

/// Glyph after glyph as the pages were laid out: nothing is joined, moved together or turned round.
fn write(surface: &mut Surface<'_>, (left, baseline): (i64, i64), size: i64, weight: Weight, words: &str) {
    let face = face(weight);
    let parts = number(face.parts);
    let glyphs: Vec<KrillaGlyph> = words
        .char_indices()
        .filter_map(|(at, c)| {
            let glyph = face.glyph(c)?;
            let advance = number(face.advance(glyph)) / parts;
            let range = at..at + c.len_utf8();
            Some(KrillaGlyph::new(GlyphId::new(u32::from(glyph)), advance, 0.0, 0.0, 0.0, range, None))
        })
        .collect();
    surface.set_fill(Some(fill(rgb::Color::black())));
    surface.set_stroke(None);
    let font = match weight {
        Weight::Regular => &REGULAR,
        Weight::Bold => &BOLD,
    };
    let start = Point::from_xy(number(left), number(baseline));
    surface.draw_glyphs(start, &glyphs, Font::clone(font), words, number(size), false);
}
