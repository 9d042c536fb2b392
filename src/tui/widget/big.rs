//! Figures as large as a room needs them, of block characters.

use super::picture::write;
use crate::render::LineStyle;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::Style;

/// Rows of a figure's squares.
const DEEP: usize = 5;

/// How large a square of a figure is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Scale {
    /// One cell across, half a row down: three rows.
    Small,
    /// Two cells across, a row down: five rows.
    Large,
}

impl Scale {
    /// The rows that a figure takes.
    pub fn rows(self) -> u16 {
        match self {
            Self::Small => 3,
            Self::Large => 5,
        }
    }

    fn cells(self) -> usize {
        match self {
            Self::Small => 1,
            Self::Large => 2,
        }
    }
}

/// The squares of a character, row by row.
fn squares(c: char) -> Option<[&'static str; DEEP]> {
    Some(match c {
        '0' => ["###", "# #", "# #", "# #", "###"],
        '1' => [" # ", "## ", " # ", " # ", "###"],
        '2' => ["###", "  #", "###", "#  ", "###"],
        '3' => ["###", "  #", " ##", "  #", "###"],
        '4' => ["# #", "# #", "###", "  #", "  #"],
        '5' => ["###", "#  ", "###", "  #", "###"],
        '6' => ["###", "#  ", "###", "# #", "###"],
        '7' => ["###", "  #", "  #", " # ", " # "],
        '8' => ["###", "# #", "###", "# #", "###"],
        '9' => ["###", "# #", "###", "  #", "###"],
        '.' => [" ", " ", " ", " ", "#"],
        ' ' => ["  "; DEEP],
        '-' => ["  ", "  ", "##", "  ", "  "],
        '+' => ["   ", " # ", "###", " # ", "   "],
        '/' => ["  #", "  #", " # ", "#  ", "#  "],
        '\u{b0}' => ["##", "##", "  ", "  ", "  "],
        '\'' => ["#", "#", " ", " ", " "],
        'A' => ["###", "# #", "###", "# #", "# #"],
        'B' => ["## ", "# #", "## ", "# #", "## "],
        'C' => ["###", "#  ", "#  ", "#  ", "###"],
        'D' => ["## ", "# #", "# #", "# #", "## "],
        'E' => ["###", "#  ", "## ", "#  ", "###"],
        'F' => ["###", "#  ", "## ", "#  ", "#  "],
        'G' => ["###", "#  ", "# #", "# #", "###"],
        'H' => ["# #", "# #", "###", "# #", "# #"],
        'I' => ["###", " # ", " # ", " # ", "###"],
        _ => return None,
    })
}

/// The rows of squares of a text; none where a character of it cannot be drawn large.
fn laid_out(text: &str) -> Option<[String; DEEP]> {
    let mut rows: [String; DEEP] = Default::default();
    for c in text.chars() {
        for (row, part) in rows.iter_mut().zip(squares(c)?) {
            if !row.is_empty() {
                row.push(' ');
            }
            row.push_str(part);
        }
    }
    Some(rows)
}

/// Cells across that a text takes; as it is where it cannot be drawn large.
pub fn big_width(text: &str, scale: Scale) -> u16 {
    let plain = text.chars().count();
    let wide = laid_out(text).map_or(plain, |rows| rows[0].chars().count() * scale.cells());
    u16::try_from(wide).unwrap_or(u16::MAX)
}

/// Writes a text large, at the right end of an area's first rows. Where lines are plain characters a small one is written as it is.
pub fn big(text: &str, scale: Scale, lines: LineStyle, style: Style, area: Rect, buffer: &mut Buffer) {
    let plain = lines == LineStyle::Ascii;
    let small = scale == Scale::Small;
    let rows = match laid_out(text).filter(|_| !(plain && small)) {
        Some(rows) if small => halved(&rows),
        Some(rows) => {
            let full = if plain { '#' } else { '\u{2588}' };
            let square = |c: char| if c == '#' { [full, full] } else { [' ', ' '] };
            rows.iter().map(|row| row.chars().flat_map(square).collect()).collect()
        }
        None => vec![String::new(), text.to_owned()],
    };
    for (row, line) in (0..).zip(&rows) {
        let width = u16::try_from(line.chars().count()).unwrap_or(0).min(area.width);
        let place = Rect { x: area.x + area.width - width, width, ..area };
        write(buffer, place, row, line, style);
    }
}

/// Two rows of squares a row of cells.
fn halved(rows: &[String; DEEP]) -> Vec<String> {
    let empty = String::new();
    let pair = |row: usize| {
        let lower = rows.get(row + 1).unwrap_or(&empty);
        let lower = lower.chars().chain(std::iter::repeat(' '));
        let cell = |(up, down): (char, char)| match (up == '#', down == '#') {
            (true, true) => '\u{2588}',
            (true, false) => '\u{2580}',
            (false, true) => '\u{2584}',
            (false, false) => ' ',
        };
        rows[row].chars().zip(lower).map(cell).collect()
    };
    (0..DEEP).step_by(2).map(pair).collect()
}

/// How much is left of a whole, as a bar over the full width of a row.
pub fn bar((left, whole): (u64, u64), lines: LineStyle, style: Style, area: Rect, buffer: &mut Buffer) {
    let width = u64::from(area.width);
    let full = usize::try_from((left * width).div_ceil(whole.max(1)).min(width)).unwrap_or(0);
    let (there, gone) = if lines == LineStyle::Ascii { ("#", "-") } else { ("\u{2584}", "\u{2581}") };
    let line = there.repeat(full) + &gone.repeat(usize::from(area.width) - full);
    write(buffer, area, 0, &line, style);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn whatever_a_reading_is_written_with_can_be_drawn_large() {
        for text in ["0.2862", "1 47/64", "-0.002", "82\u{b0}25'", "+0.5", "ABCDEFGHI", "345", "678", "9"] {
            let rows = laid_out(text).expect("all of it");
            assert!(rows.iter().all(|row| row.chars().count() == rows[0].chars().count()), "{text}");
        }
        assert!(laid_out("mm").is_none());
        assert_eq!((big_width("20", Scale::Small), big_width("20", Scale::Large)), (7, 14));
    }

    #[test]
    fn figures_differ_from_one_another_in_both_scales() {
        let figures: Vec<Vec<String>> =
            ('0'..='9').map(|c| halved(&laid_out(&c.to_string()).expect("a figure"))).collect();
        for (n, one) in figures.iter().enumerate() {
            assert_eq!(one.len(), usize::from(Scale::Small.rows()));
            assert!(figures[..n].iter().all(|other| other != one), "{n}");
        }
    }

    #[test]
    fn the_bar_is_full_at_first_and_empty_at_the_end() {
        let drawn = |left| {
            let area = Rect::new(0, 0, 10, 1);
            let mut buffer = Buffer::empty(area);
            bar((left, 20), LineStyle::Ascii, Style::new(), area, &mut buffer);
            (0..10).map(|x| buffer[(x, 0)].symbol().to_owned()).collect::<String>()
        };
        assert_eq!((drawn(20), drawn(9)), ("##########".to_owned(), "#####-----".to_owned()));
        assert_eq!((drawn(1), drawn(0)), ("#---------".to_owned(), "----------".to_owned()));
    }
}
