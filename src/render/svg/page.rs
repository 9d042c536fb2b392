//! What a picture is made of, and how it is written. Every length is in hundredths of a unit.

use crate::instrument::NumeralSize;
use crate::scene::Plate;
use std::fmt;

/// One unit.
pub(super) const UNIT: i64 = 100;
/// The width of every line.
pub(super) const LINE: i64 = 2 * UNIT;

const INK: &str = "#000";
const LIT: &str = "#b00020";

/// The greys.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Grey {
    /// The member that stands still.
    Fixed,
    /// The member that moves.
    Moving,
    /// The frame of a micrometer, the work under a rule.
    Frame,
}

impl From<Plate> for Grey {
    fn from(plate: Plate) -> Self {
        match plate {
            Plate::Fixed => Self::Fixed,
            Plate::Moving => Self::Moving,
        }
    }
}

impl Grey {
    fn colour(self) -> &'static str {
        match self {
            Self::Fixed => "#e4e4e4",
            Self::Moving => "#c6c6c6",
            Self::Frame => "#b2b2b2",
        }
    }
}

/// A rectangle, from one corner to the other.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Area {
    pub(super) left: i64,
    pub(super) right: i64,
    pub(super) top: i64,
    pub(super) bottom: i64,
}

#[derive(Debug)]
struct Line {
    from: (i64, i64),
    to: (i64, i64),
    ink: &'static str,
}

#[derive(Debug)]
struct Text {
    centre: i64,
    baseline: i64,
    size: i64,
    words: String,
    within: Option<Area>,
}

/// Plates, lines and figures.
#[derive(Debug)]
pub(super) struct Page {
    width: i64,
    height: i64,
    plates: Vec<(Area, Grey)>,
    lines: Vec<Line>,
    texts: Vec<Text>,
}

impl Page {
    pub(super) fn new(width: i64, height: i64) -> Self {
        Self { width, height, plates: Vec::new(), lines: Vec::new(), texts: Vec::new() }
    }

    pub(super) fn plate(&mut self, area: Area, grey: Grey) {
        if area.left < area.right && area.top < area.bottom {
            self.plates.push((area, grey));
        }
    }

    pub(super) fn line(&mut self, from: (i64, i64), to: (i64, i64), lit: bool) {
        self.lines.push(Line { from, to, ink: if lit { LIT } else { INK } });
    }

    /// With another page to the right of it, a gap between them; both begin at the top.
    pub(super) fn with_right(mut self, other: Self, gap: i64) -> Self {
        let by = self.width + gap;
        let moved = |area: Area| Area { left: area.left + by, right: area.right + by, ..area };
        self.plates.extend(other.plates.into_iter().map(|(area, grey)| (moved(area), grey)));
        self.lines.extend(other.lines.into_iter().map(|line| Line {
            from: (line.from.0 + by, line.from.1),
            to: (line.to.0 + by, line.to.1),
            ..line
        }));
        self.texts.extend(other.texts.into_iter().map(|text| Text {
            centre: text.centre + by,
            within: text.within.map(moved),
            ..text
        }));
        (self.width, self.height) = (by + other.width, self.height.max(other.height));
        self
    }

    /// A text about a centre.
    pub(super) fn text(&mut self, centre: i64, baseline: i64, size: i64, text: &str) {
        self.texts.push(Text { centre, baseline, size, words: text.to_owned(), within: None });
    }

    /// A text of which only what lies within an area can be seen.
    pub(super) fn text_within(&mut self, centre: i64, baseline: i64, size: i64, text: &str, area: Area) {
        self.texts.push(Text { centre, baseline, size, words: text.to_owned(), within: Some(area) });
    }

    /// The page turned by half a turn, its texts left as they are read; a sign for a figure out of view changes sides.
    pub(super) fn turned(mut self) -> Self {
        let (width, height) = (self.width, self.height);
        let over = |(x, y): (i64, i64)| (width - x, height - y);
        let area = |area: Area| Area {
            left: width - area.right,
            right: width - area.left,
            top: height - area.bottom,
            bottom: height - area.top,
        };
        for (plate, _) in &mut self.plates {
            *plate = area(*plate);
        }
        for line in &mut self.lines {
            (line.from, line.to) = (over(line.from), over(line.to));
        }
        for text in &mut self.texts {
            text.centre = width - text.centre;
            text.baseline = height - text.baseline + cap(text.size);
            text.within = text.within.map(area);
            if let Some(number) = text.words.strip_suffix('\u{2039}') {
                text.words = format!("\u{203a}{number}");
            } else if let Some(number) = text.words.strip_prefix('\u{203a}') {
                text.words = format!("{number}\u{2039}");
            }
        }
        self
    }

    /// Texts side by side from a left end.
    pub(super) fn texts_from(&mut self, left: i64, baseline: i64, size: i64, texts: &[String]) {
        let mut at = left;
        for text in texts {
            let width = text_width(text, size);
            self.text(at + width / 2, baseline, size, text);
            at += width + 2 * size;
        }
    }
}

impl fmt::Display for Page {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (w, h) = (Units(self.width), Units(self.height));
        writeln!(
            f,
            "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{w}\" height=\"{h}\" viewBox=\"0 0 {w} {h}\" \
             font-family=\"sans-serif\">"
        )?;
        for (area, grey) in &self.plates {
            writeln!(f, "<rect {area} fill=\"{}\"/>", grey.colour())?;
        }
        writeln!(f, "<g stroke-width=\"{}\">", Units(LINE))?;
        for line in &self.lines {
            let (x1, y1) = (Units(line.from.0), Units(line.from.1));
            let (x2, y2) = (Units(line.to.0), Units(line.to.1));
            let ink = line.ink;
            writeln!(f, "<line x1=\"{x1}\" y1=\"{y1}\" x2=\"{x2}\" y2=\"{y2}\" stroke=\"{ink}\"/>")?;
        }
        writeln!(f, "</g>\n<g text-anchor=\"middle\" fill=\"{INK}\">")?;
        for text in &self.texts {
            writeln!(f, "{text}")?;
        }
        writeln!(f, "</g>\n</svg>")
    }
}

impl fmt::Display for Area {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (x, y) = (Units(self.left), Units(self.top));
        let (width, height) = (Units(self.right - self.left), Units(self.bottom - self.top));
        write!(f, "x=\"{x}\" y=\"{y}\" width=\"{width}\" height=\"{height}\"")
    }
}

impl fmt::Display for Text {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (x, y, size) = (Units(self.centre), Units(self.baseline), Units(self.size));
        let text = escape(&self.words);
        let text = format!("<text x=\"{x}\" y=\"{y}\" font-size=\"{size}\">{text}</text>");
        match &self.within {
            None => f.write_str(&text),
            // What lies outside a picture in the picture is not shown.
            Some(area) => {
                let (x, y) = (Units(area.left), Units(area.top));
                let (width, height) = (Units(area.right - area.left), Units(area.bottom - area.top));
                write!(f, "<svg {area} viewBox=\"{x} {y} {width} {height}\">{text}</svg>")
            }
        }
    }
}

/// About how wide a text is.
pub(super) fn text_width(text: &str, size: i64) -> i64 {
    i64::try_from(text.chars().count()).expect("an engraved text is short") * size * 3 / 5
}

/// How tall a figure is.
pub(super) fn cap(size: i64) -> i64 {
    size * 3 / 4
}

/// The size of a figure where small ones have this size.
pub(super) fn figure_size(of: NumeralSize, small: i64) -> i64 {
    match of {
        NumeralSize::Small => small,
        NumeralSize::Large => small * 3 / 2,
    }
}

/// The length of a line of a length class, out of `reach` for the longest: the shortest is half of it, two fifths where there
/// are many lengths.
pub(super) fn line_length(tier: usize, lengths: usize, reach: i64) -> i64 {
    let count = |n: usize| i64::try_from(n).expect("at most seven lengths");
    let shorter = match lengths {
        0 | 1 => return whole_units(reach),
        2 | 3 => reach / 2,
        _ => reach * 3 / 5,
    };
    whole_units(reach - shorter * count(tier) / (count(lengths) - 1))
}

/// Down to whole units.
pub(super) fn whole_units(length: i64) -> i64 {
    length.div_euclid(UNIT) * UNIT
}

/// Hundredths of a unit, written with no more digits than needed.
struct Units(i64);

impl fmt::Display for Units {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let sign = if self.0 < 0 { "-" } else { "" };
        let (whole, part) = (self.0.abs() / UNIT, self.0.abs() % UNIT);
        match (part, part % 10) {
            (0, _) => write!(f, "{sign}{whole}"),
            (_, 0) => write!(f, "{sign}{whole}.{}", part / 10),
            _ => write!(f, "{sign}{whole}.{part:02}"),
        }
    }
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
    use super::{Page, UNIT, Units, escape};

    #[test]
    fn lengths_have_no_more_digits_than_needed() {
        let written = [0, 100, -100, 250, 205, -5, 123_456].map(|n| Units(n).to_string());
        assert_eq!(written, ["0", "1", "-1", "2.5", "2.05", "-0.05", "1234.56"]);
    }

    #[test]
    fn engraved_texts_cannot_break_the_file() {
        let mut page = Page::new(10 * UNIT, 10 * UNIT);
        page.text(0, 0, UNIT, "a<b>&\"\u{7}");
        assert_eq!(escape("a<b>&\"\u{7}"), "a&lt;b&gt;&amp;&quot; ");
        assert!(page.to_string().contains(">a&lt;b&gt;&amp;&quot; </text>"));
    }
}
