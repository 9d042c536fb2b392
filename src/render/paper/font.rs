//! The advance widths and the glyph numbers of the embedded font, read from its own tables: widths are needed in whole numbers
//! where pages are laid out, before any writer sees them.

use super::Weight;
use std::sync::LazyLock;

/// The book face; its licence lies beside it.
pub(in crate::render) static REGULAR_DATA: &[u8] = include_bytes!("../../../assets/fonts/DejaVuSans.ttf");
/// Its bold.
pub(in crate::render) static BOLD_DATA: &[u8] = include_bytes!("../../../assets/fonts/DejaVuSans-Bold.ttf");

static REGULAR: LazyLock<Face> = LazyLock::new(|| Face::read(REGULAR_DATA).expect(SHIPPED));
static BOLD: LazyLock<Face> = LazyLock::new(|| Face::read(BOLD_DATA).expect(SHIPPED));

const SHIPPED: &str = "a shipped font has its tables; a test reads them";

/// The face of a weight.
pub(in crate::render) fn face(weight: Weight) -> &'static Face {
    match weight {
        Weight::Regular => &REGULAR,
        Weight::Bold => &BOLD,
    }
}

/// A run of characters whose glyphs are numbered on.
struct Run {
    first: u16,
    last: u16,
    delta: u16,
    /// Where the list of its glyphs is, where they are not numbered on.
    list: Option<usize>,
}

/// A face of the font.
pub(in crate::render) struct Face {
    data: &'static [u8],
    /// Parts of the type's size in which widths are given.
    pub(in crate::render) parts: i64,
    advances: Vec<u16>,
    runs: Vec<Run>,
}

fn u16_at(data: &[u8], at: usize) -> Option<u16> {
    Some(u16::from_be_bytes(data.get(at..at + 2)?.try_into().ok()?))
}

fn u32_at(data: &[u8], at: usize) -> Option<usize> {
    usize::try_from(u32::from_be_bytes(data.get(at..at + 4)?.try_into().ok()?)).ok()
}

impl Face {
    fn read(data: &'static [u8]) -> Option<Self> {
        let table = |name: &[u8; 4]| {
            let count = usize::from(u16_at(data, 4)?);
            let entry = (0..count).map(|n| 12 + 16 * n).find(|at| data.get(*at..*at + 4) == Some(name))?;
            u32_at(data, entry + 8)
        };
        let parts = i64::from(u16_at(data, table(b"head")? + 18)?);
        let widths = usize::from(u16_at(data, table(b"hhea")? + 34)?);
        let hmtx = table(b"hmtx")?;
        let advances = (0..widths).map(|n| u16_at(data, hmtx + 4 * n)).collect::<Option<Vec<_>>>()?;
        let cmap = table(b"cmap")?;
        let subtables = usize::from(u16_at(data, cmap + 2)?);
        // Windows, Unicode, characters of the first plane.
        let wanted = |at: &usize| u16_at(data, *at) == Some(3) && u16_at(data, at + 2) == Some(1);
        let record = (0..subtables).map(|n| cmap + 4 + 8 * n).find(wanted)?;
        let map = cmap + u32_at(data, record + 4)?;
        let count = usize::from(u16_at(data, map + 6)? / 2);
        let column =
            |number: usize, n: usize| map + 14 + 2 * (number * count + n) + if number > 0 { 2 } else { 0 };
        let runs = (0..count).map(|n| {
            let offset = usize::from(u16_at(data, column(3, n))?);
            Some(Run {
                last: u16_at(data, column(0, n))?,
                first: u16_at(data, column(1, n))?,
                delta: u16_at(data, column(2, n))?,
                list: (offset > 0).then_some(column(3, n) + offset),
            })
        });
        Some(Self { data, parts, advances, runs: runs.collect::<Option<Vec<_>>>()? })
    }

    /// The number of a character's glyph; none where the font has none.
    pub(in crate::render) fn glyph(&self, c: char) -> Option<u16> {
        let code = u16::try_from(u32::from(c)).ok()?;
        let run = &self.runs[self.runs.partition_point(|run| run.last < code)..].first()?;
        if code < run.first {
            return None;
        }
        let glyph = match run.list {
            None => code.wrapping_add(run.delta),
            Some(list) => match u16_at(self.data, list + 2 * usize::from(code - run.first))? {
                0 => 0,
                glyph => glyph.wrapping_add(run.delta),
            },
        };
        (glyph != 0).then_some(glyph)
    }

    /// How wide a glyph is, in parts of the type's size.
    pub(in crate::render) fn advance(&self, glyph: u16) -> i64 {
        let last = self.advances.last().copied().unwrap_or_default();
        i64::from(self.advances.get(usize::from(glyph)).copied().unwrap_or(last))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const WIDTHS: [(Weight, char, i64); 10] = [
        (Weight::Regular, '0', 1303),
        (Weight::Regular, 'A', 1401),
        (Weight::Regular, 'i', 569),
        (Weight::Regular, 'W', 2025),
        (Weight::Regular, '\u{b0}', 1024),
        (Weight::Regular, '\u{2039}', 819),
        (Weight::Bold, '0', 1425),
        (Weight::Bold, 'A', 1585),
        (Weight::Bold, 'm', 2134),
        (Weight::Bold, '\u{fffd}', 2280),
    ];

    /// Widths as the font's own metrics give them in parts of 2048, as another reader of its tables printed them.
    #[test]
    fn widths_and_glyphs_are_those_of_the_font() {
        for (weight, c, advance) in WIDTHS {
            let face = face(weight);
            let glyph = face.glyph(c).expect("a common character");
            assert_eq!((face.parts, face.advance(glyph)), (2048, advance), "{c}");
        }
        for c in ['\u{1b}', '\u{e000}', '\u{1f600}', '\u{4e00}'] {
            assert_eq!(face(Weight::Regular).glyph(c), None, "{c:?}");
        }
        for c in "\u{b0}\u{b1}\u{2032}\u{2039}\u{203a}\u{25be}\u{2026}\u{fffd}\u{2610}".chars() {
            assert!(face(Weight::Regular).glyph(c).is_some() && face(Weight::Bold).glyph(c).is_some(), "{c}");
        }
    }
}
