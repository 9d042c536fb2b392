//! What a picture is made of. Every length is in hundredths of a unit.

use crate::instrument::NumeralSize;
use crate::scene::Plate;

/// One unit.
pub(in crate::render) const UNIT: i64 = 100;
/// The width of every line.
pub(in crate::render) const LINE: i64 = 2 * UNIT;
/// The width of a line that is lit up on paper.
pub(in crate::render) const HEAVY: i64 = 6 * UNIT;

/// As much of the grip is seen on paper.
const GRIP: i64 = 60 * UNIT;
/// What a part of a picture is called that is not drawn to be read.
pub(in crate::render) const OVERVIEW: &str = "overview";

/// The greys.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::render) enum Grey {
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

/// A rectangle, from one corner to the other.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::render) struct Area {
    pub(in crate::render) left: i64,
    pub(in crate::render) right: i64,
    pub(in crate::render) top: i64,
    pub(in crate::render) bottom: i64,
}

/// How a plate is outlined on paper, where there are no greys.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::render) struct Outline {
    /// How wide its line is.
    pub(in crate::render) width: i64,
    /// How round its corners are.
    pub(in crate::render) corner: i64,
}

impl Grey {
    /// Two plates that meet at a reading edge are outlined so thinly that no line runs into the next one less straight; the one
    /// that moves has round corners, the frame a heavy line.
    pub(in crate::render) fn outline(self) -> Outline {
        match self {
            Self::Fixed => Outline { width: LINE / 2, corner: 0 },
            Self::Moving => Outline { width: LINE / 2, corner: 10 * UNIT },
            Self::Frame => Outline { width: 2 * LINE, corner: 0 },
        }
    }
}

impl Area {
    /// So much smaller on every side; none where nothing of it is left, as of work of next to no size.
    pub(in crate::render) fn inset(self, by: i64) -> Option<Self> {
        let (left, right) = (self.left + by, self.right - by);
        let (top, bottom) = (self.top + by, self.bottom - by);
        (left < right && top < bottom).then_some(Self { left, right, top, bottom })
    }
}

/// A graduation, an index line, a hand.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::render) struct Line {
    pub(in crate::render) from: (i64, i64),
    pub(in crate::render) to: (i64, i64),
    pub(in crate::render) lit: bool,
}

/// A figure or what is engraved, about a centre.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(in crate::render) struct Text {
    pub(in crate::render) centre: i64,
    pub(in crate::render) baseline: i64,
    pub(in crate::render) size: i64,
    pub(in crate::render) words: String,
    /// What lies outside of it cannot be seen.
    pub(in crate::render) within: Option<Area>,
}

/// Plates, lines and figures.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Picture {
    pub(in crate::render) width: i64,
    pub(in crate::render) height: i64,
    pub(in crate::render) plates: Vec<(Area, Grey)>,
    pub(in crate::render) lines: Vec<Line>,
    pub(in crate::render) texts: Vec<Text>,
    /// How much of it a quantum takes.
    pub(in crate::render) scale: Scale,
}

/// How much a quantum of the instrument takes on a picture, in hundredths of a unit; nought where that means nothing.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(in crate::render) struct Scale {
    /// Along the first scale.
    pub(in crate::render) along: i64,
    /// Along two scales that are read where two lines meet: by so much the neighbours miss at the least.
    pub(in crate::render) miss: i64,
}

impl Picture {
    pub(in crate::render) fn new(width: i64, height: i64) -> Self {
        Self {
            width,
            height,
            plates: Vec::new(),
            lines: Vec::new(),
            texts: Vec::new(),
            scale: Scale::default(),
        }
    }

    pub(in crate::render) fn plate(&mut self, area: Area, grey: Grey) {
        if area.left < area.right && area.top < area.bottom {
            self.plates.push((area, grey));
        }
    }

    pub(in crate::render) fn line(&mut self, from: (i64, i64), to: (i64, i64), lit: bool) {
        self.lines.push(Line { from, to, lit });
    }

    /// With another page to the right of it, a gap between them; both begin at the top.
    pub(in crate::render) fn with_right(mut self, other: Self, gap: i64) -> Self {
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

    /// The same for paper: a grip is cut off behind the thimble, and nothing is called an overview, since all is drawn finely.
    pub(in crate::render) fn on_paper(mut self) -> Self {
        let moving = self.plates.iter().filter(|(_, grey)| *grey == Grey::Moving);
        let thimbles: Vec<[i64; 2]> = moving.map(|(area, _)| [area.left, area.right]).collect();
        let all = self.width;
        for (area, grey) in &mut self.plates {
            if *grey != Grey::Frame {
                continue;
            }
            if area.right == all && thimbles.iter().any(|[_, right]| *right == area.left) {
                area.right = all.min(area.left + GRIP);
            } else if area.left == 0 && thimbles.iter().any(|[left, _]| *left == area.right) {
                area.left = (area.right - GRIP).max(0);
            }
        }
        self.texts.retain(|text| text.words != OVERVIEW);
        self.printable()
    }

    /// The same with nothing in its texts that cannot be printed.
    pub(in crate::render) fn printable(mut self) -> Self {
        for text in &mut self.texts {
            text.words = crate::render::paper::clean(&text.words);
        }
        self
    }

    /// A text about a centre.
    pub(in crate::render) fn text(&mut self, centre: i64, baseline: i64, size: i64, text: &str) {
        self.texts.push(Text { centre, baseline, size, words: text.to_owned(), within: None });
    }

    /// A text of which only what lies within an area can be seen.
    pub(in crate::render) fn text_within(
        &mut self,
        centre: i64,
        baseline: i64,
        size: i64,
        text: &str,
        area: Area,
    ) {
        self.texts.push(Text { centre, baseline, size, words: text.to_owned(), within: Some(area) });
    }

    /// The page turned by half a turn, its texts left as they are read; a sign for a figure out of view changes sides.
    pub(in crate::render) fn turned(mut self) -> Self {
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
    pub(in crate::render) fn texts_from(&mut self, left: i64, baseline: i64, size: i64, texts: &[String]) {
        let mut at = left;
        for text in texts {
            let width = text_width(text, size);
            self.text(at + width / 2, baseline, size, text);
            at += width + 2 * size;
        }
    }
}

/// About how wide a text is.
pub(in crate::render) fn text_width(text: &str, size: i64) -> i64 {
    i64::try_from(text.chars().count()).expect("an engraved text is short") * size * 3 / 5
}

/// How tall a figure is.
pub(in crate::render) fn cap(size: i64) -> i64 {
    size * 3 / 4
}

/// The size of a figure where small ones have this size.
pub(in crate::render) fn figure_size(of: NumeralSize, small: i64) -> i64 {
    match of {
        NumeralSize::Small => small,
        NumeralSize::Large => small * 3 / 2,
    }
}

/// The length of a line of a length class, out of `reach` for the longest: the shortest is half of it, two fifths where there
/// are many lengths.
pub(in crate::render) fn line_length(tier: usize, lengths: usize, reach: i64) -> i64 {
    let count = |n: usize| i64::try_from(n).expect("at most seven lengths");
    let shorter = match lengths {
        0 | 1 => return whole_units(reach),
        2 | 3 => reach / 2,
        _ => reach * 3 / 5,
    };
    whole_units(reach - shorter * count(tier) / (count(lengths) - 1))
}

/// Down to whole units.
pub(in crate::render) fn whole_units(length: i64) -> i64 {
    length.div_euclid(UNIT) * UNIT
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_has_no_inside_is_left_out() {
        let area = |left, right| Area { left, right, top: 0, bottom: 100 };
        assert_eq!(area(10, 30).inset(2), Some(Area { left: 12, right: 28, top: 2, bottom: 98 }));
        assert_eq!(area(10, 15).inset(2), Some(Area { left: 12, right: 13, top: 2, bottom: 98 }));
        for width in 0..5 {
            assert_eq!(area(10, 10 + width).inset(2), None);
        }
    }
}
