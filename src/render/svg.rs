//! Pictures and sheets of paper written as SVG.

use super::Lit;
use super::paper::{Leaf, Mark, Weight};
use super::vector::{self, Area, Grey, LINE, Line, Picture, Text, UNIT};
use crate::scene::Scene;
use std::fmt::{self, Write as _};

const INK: &str = "#000";
const LIT: &str = "#b00020";

/// A stand-alone SVG of the instrument around its setting, with some lines lit up.
pub fn draw(scene: &Scene, marks_lit: &[Lit]) -> String {
    picture(&vector::draw(scene, marks_lit))
}

/// A stand-alone SVG of two slides of one tool: the one that is set first to the left.
pub fn draw_slides(first: &Scene, second: &Scene) -> String {
    picture(&vector::draw_slides(first, second))
}

/// A stand-alone SVG of a picture, for a screen.
pub fn picture(picture: &Picture) -> String {
    let mut out = String::new();
    let (w, h) = (Units(picture.width), Units(picture.height));
    let head = writeln!(
        out,
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{w}\" height=\"{h}\" viewBox=\"0 0 {w} {h}\" \
         font-family=\"sans-serif\">"
    );
    head.and_then(|()| marks(&mut out, picture, Look::Screen))
        .and_then(|()| out.write_str("</svg>\n"))
        .expect(WRITES);
    out
}

/// A stand-alone SVG of a sheet of paper, a unit being a millimetre.
pub fn leaf(leaf: &Leaf) -> String {
    let mut out = String::new();
    on_paper(&mut out, leaf).expect(WRITES);
    out
}

const WRITES: &str = "a text can always be written to";

/// How the parts of a picture are told apart.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Look {
    /// By greys; lit lines are red.
    Screen,
    /// By outlines and corners; lit lines are heavy.
    Paper,
}

fn on_paper(out: &mut String, leaf: &Leaf) -> fmt::Result {
    let (w, h) = (Thousandths(leaf.width), Thousandths(leaf.height));
    writeln!(
        out,
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{w}mm\" height=\"{h}mm\" viewBox=\"0 0 {w} {h}\" \
         font-family=\"'DejaVu Sans', sans-serif\">"
    )?;
    writeln!(out, "<rect x=\"0\" y=\"0\" width=\"{w}\" height=\"{h}\" fill=\"#fff\"/>")?;
    for mark in &leaf.marks {
        match mark {
            Mark::Line { from, to, width } => {
                let (x1, y1) = (Thousandths(from.0), Thousandths(from.1));
                let (x2, y2) = (Thousandths(to.0), Thousandths(to.1));
                let width = Thousandths(*width);
                writeln!(
                    out,
                    "<line x1=\"{x1}\" y1=\"{y1}\" x2=\"{x2}\" y2=\"{y2}\" stroke=\"{INK}\" stroke-width=\"{width}\"/>"
                )?;
            }
            Mark::Frame { corner, size, width } => {
                let (x, y) = (Thousandths(corner.0), Thousandths(corner.1));
                let (w, h, width) = (Thousandths(size.0), Thousandths(size.1), Thousandths(*width));
                writeln!(
                    out,
                    "<rect x=\"{x}\" y=\"{y}\" width=\"{w}\" height=\"{h}\" fill=\"none\" stroke=\"{INK}\" \
                     stroke-width=\"{width}\"/>"
                )?;
            }
            Mark::Text { left, baseline, size, weight, words } => {
                let (x, y, size) = (Thousandths(*left), Thousandths(*baseline), Thousandths(*size));
                let bold = if *weight == Weight::Bold { " font-weight=\"bold\"" } else { "" };
                writeln!(
                    out,
                    "<text x=\"{x}\" y=\"{y}\" font-size=\"{size}\"{bold}>{}</text>",
                    escape(words)
                )?;
            }
            Mark::Picture { left, top, scale, picture } => {
                let (x, y, scale) = (Thousandths(*left), Thousandths(*top), Thousandths(*scale));
                writeln!(out, "<g transform=\"translate({x} {y}) scale({scale})\">")?;
                marks(out, picture, Look::Paper)?;
                writeln!(out, "</g>")?;
            }
        }
    }
    writeln!(out, "</svg>")
}

fn marks(out: &mut String, picture: &Picture, look: Look) -> fmt::Result {
    for (area, grey) in &picture.plates {
        match look {
            Look::Screen => writeln!(out, "<rect {} fill=\"{}\"/>", Within(area), colour(*grey))?,
            Look::Paper => {
                let outline = grey.outline();
                let Some(area) = area.inset(outline.width / 2) else { continue };
                let corner = Units(outline.corner);
                let round = if outline.corner == 0 { String::new() } else { format!(" rx=\"{corner}\"") };
                let width = Units(outline.width);
                writeln!(
                    out,
                    "<rect {}{round} fill=\"#fff\" stroke=\"{INK}\" stroke-width=\"{width}\"/>",
                    Within(&area)
                )?;
            }
        }
    }
    writeln!(out, "<g stroke-width=\"{}\">", Units(LINE))?;
    for line in &picture.lines {
        writeln!(out, "{}", Drawn(line, look))?;
    }
    writeln!(out, "</g>\n<g text-anchor=\"middle\" fill=\"{INK}\">")?;
    for text in &picture.texts {
        writeln!(out, "{}", Written(text))?;
    }
    writeln!(out, "</g>")
}

fn colour(grey: Grey) -> &'static str {
    match grey {
        Grey::Fixed => "#e4e4e4",
        Grey::Moving => "#c6c6c6",
        Grey::Frame => "#b2b2b2",
    }
}

struct Within<'a>(&'a Area);

impl fmt::Display for Within<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (x, y) = (Units(self.0.left), Units(self.0.top));
        let (width, height) = (Units(self.0.right - self.0.left), Units(self.0.bottom - self.0.top));
        write!(f, "x=\"{x}\" y=\"{y}\" width=\"{width}\" height=\"{height}\"")
    }
}

struct Drawn<'a>(&'a Line, Look);

impl fmt::Display for Drawn<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self(line, look) = self;
        let (x1, y1) = (Units(line.from.0), Units(line.from.1));
        let (x2, y2) = (Units(line.to.0), Units(line.to.1));
        let (ink, heavy) = match (line.lit, look) {
            (false, _) => (INK, String::new()),
            (true, Look::Screen) => (LIT, String::new()),
            (true, Look::Paper) => (INK, format!(" stroke-width=\"{}\"", Units(vector::HEAVY))),
        };
        write!(f, "<line x1=\"{x1}\" y1=\"{y1}\" x2=\"{x2}\" y2=\"{y2}\" stroke=\"{ink}\"{heavy}/>")
    }
}

struct Written<'a>(&'a Text);

impl fmt::Display for Written<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self(text) = self;
        let (x, y, size) = (Units(text.centre), Units(text.baseline), Units(text.size));
        let words = escape(&text.words);
        let words = format!("<text x=\"{x}\" y=\"{y}\" font-size=\"{size}\">{words}</text>");
        match &text.within {
            None => f.write_str(&words),
            // What lies outside a picture in the picture is not shown.
            Some(area) => {
                let (x, y) = (Units(area.left), Units(area.top));
                let (width, height) = (Units(area.right - area.left), Units(area.bottom - area.top));
                write!(f, "<svg {} viewBox=\"{x} {y} {width} {height}\">{words}</svg>", Within(area))
            }
        }
    }
}

/// Hundredths of a unit, written with no more digits than needed.
struct Units(i64);

impl fmt::Display for Units {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        decimal(f, self.0, UNIT, 2)
    }
}

/// Thousandths of a unit, written with no more digits than needed.
struct Thousandths(i64);

impl fmt::Display for Thousandths {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        decimal(f, self.0, 1000, 3)
    }
}

fn decimal(f: &mut fmt::Formatter<'_>, number: i64, unit: i64, digits: usize) -> fmt::Result {
    let sign = if number < 0 { "-" } else { "" };
    let (whole, part) = (number.abs() / unit, number.abs() % unit);
    if part == 0 {
        return write!(f, "{sign}{whole}");
    }
    let part = format!("{part:0digits$}");
    write!(f, "{sign}{whole}.{}", part.trim_end_matches('0'))
}

fn escape(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => out += "&amp;",
            '<' => out += "&lt;",
            '>' => out += "&gt;",
            '"' => out += "&quot;",
            // XML has no place for control characters.
            c if c.is_control() || matches!(c, '\u{fffe}' | '\u{ffff}') => out.push(' '),
            c => out.push(c),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::{Picture, Thousandths, UNIT, Units, escape, picture};

    #[test]
    fn lengths_have_no_more_digits_than_needed() {
        let written = [0, 100, -100, 250, 205, -5, 123_456].map(|n| Units(n).to_string());
        assert_eq!(written, ["0", "1", "-1", "2.5", "2.05", "-0.05", "1234.56"]);
        assert_eq!(
            [210_000, 105, -50, 20].map(|n| Thousandths(n).to_string()),
            ["210", "0.105", "-0.05", "0.02"]
        );
    }

    #[test]
    fn engraved_texts_cannot_break_the_file() {
        let mut page = Picture::new(10 * UNIT, 10 * UNIT);
        page.text(0, 0, UNIT, "a<b>&\"\u{7}");
        assert_eq!(escape("a<b>&\"\u{7}"), "a&lt;b&gt;&amp;&quot; ");
        assert!(picture(&page).contains(">a&lt;b&gt;&amp;&quot; </text>"));
    }
}
