//! Printed lines as cells, and the strokes and figures in them.

use super::told::turned_back;
use std::ops::Range;

/// Signs beside a figure that is out of view.
const SIGNS: [char; 6] = ['\u{2039}', '<', '\u{203a}', '>', '\u{25be}', 'v'];

/// Dots in a cell.
pub const CELL: i64 = 8;

/// One printed cell.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Glyph {
    pub ch: char,
    pub swapped: bool,
}

const BLANK: Glyph = Glyph { ch: ' ', swapped: false };

/// Everything printed.
pub struct Page {
    width: i64,
    height: i64,
    cells: Vec<Glyph>,
}

/// A drawn line: the dot at which it begins, across or down, the cell in which its middle lies, and how far it reaches along.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Stroke {
    pub dot: i64,
    pub middle: i64,
    pub length: i64,
    /// The last cell that it touches.
    pub last: i64,
}

/// A run of figures.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Word {
    pub start: i64,
    pub text: String,
}

impl Stroke {
    fn new(dot: i64, width: i64, length: i64) -> Self {
        let cell = |dot: i64| dot.div_euclid(CELL);
        Self { dot, middle: cell(dot + width / 2), length, last: cell(dot + width - 1) }
    }
}

impl Word {
    /// A figure that is out of view, and what stands on the other side of the sign that says where it is.
    pub fn off_view(&self) -> Option<(&str, &str)> {
        let left = self.text.split_once(['\u{2039}', '<', '\u{25be}', 'v']);
        left.or_else(|| self.text.split_once(['\u{203a}', '>']).map(|(after, figure)| (figure, after)))
    }

    /// The cell on which it is centred; the odd half cell is on the left.
    pub fn centre(&self) -> i64 {
        self.start + i64::try_from(self.text.chars().count()).expect("short") / 2
    }
}

/// What a glyph is when a line across the reading direction is looked for.
enum Part {
    Nothing,
    Whole { phase: i64, width: i64 },
    HeadOfBar { phase: i64 },
    Other,
}

fn place(of: char, first: u32, count: u32) -> Option<i64> {
    let n = u32::from(of).checked_sub(first)?;
    (n < count).then(|| i64::from(n))
}

fn upright_part(glyph: Glyph) -> Part {
    match (glyph.swapped, glyph.ch) {
        (false, ' ') => Part::Nothing,
        (false, '\u{258f}') => Part::Whole { phase: 0, width: 1 },
        (false, '\u{2595}') => Part::Whole { phase: 7, width: 1 },
        (false, '\u{2588}' | '\u{2502}' | '|') => Part::Whole { phase: 0, width: CELL },
        (false, ch) => match place(ch, 0x1fb70, 6) {
            Some(n) => Part::Whole { phase: n + 1, width: 1 },
            None => Part::Other,
        },
        // U+258F is one eighth from the left, U+2589 seven.
        (true, ch) => match place(ch, 0x2589, 7) {
            Some(n) => Part::HeadOfBar { phase: 7 - n },
            None => Part::Other,
        },
    }
}

fn level_part(glyph: Glyph, under: Glyph) -> Part {
    match (glyph.swapped, glyph.ch) {
        (false, ' ') => Part::Nothing,
        (false, '\u{2594}') => Part::Whole { phase: 0, width: 1 },
        (false, '\u{2588}' | '\u{2500}' | '-') => Part::Whole { phase: 0, width: CELL },
        (false, ch) => match (place(ch, 0x1fb76, 6), place(ch, 0x2581, 7)) {
            (Some(n), _) => Part::Whole { phase: n + 1, width: 1 },
            (_, Some(_)) if under.swapped && under.ch == ch => {
                Part::HeadOfBar { phase: 7 - place(ch, 0x2581, 7).expect("just seen") }
            }
            (_, Some(0)) => Part::Whole { phase: 7, width: 1 },
            _ => Part::Other,
        },
        (true, _) => Part::Other,
    }
}

impl Page {
    /// Takes printed lines; reverse video on and off is the only code there may be.
    pub fn new(lines: &[String]) -> Result<Self, String> {
        let mut rows = Vec::with_capacity(lines.len());
        for line in lines {
            let mut row = Vec::with_capacity(256);
            let mut swapped = false;
            let mut rest = line.as_str();
            while let Some(ch) = rest.chars().next() {
                if let Some(after) = rest.strip_prefix("\u{1b}[7m") {
                    (swapped, rest) = (true, after);
                } else if let Some(after) = rest.strip_prefix("\u{1b}[27m") {
                    (swapped, rest) = (false, after);
                } else if ch.is_control() {
                    return Err(format!("a control character in {line:?}"));
                } else {
                    row.push(Glyph { ch, swapped });
                    rest = &rest[ch.len_utf8()..];
                }
            }
            if swapped {
                return Err(format!("reverse video is left on at the end of {line:?}"));
            }
            rows.push(row);
        }
        Ok(Self::of(rows))
    }

    /// The same of a tool held half a turn round, on so many columns: it is turned back.
    pub fn turned(lines: &[String], cols: usize) -> Result<Self, String> {
        let page = Self::new(lines)?;
        let row = |row: i64| (0..page.width).map(|col| page.at(col, row)).collect();
        Ok(Self::of(turned_back((0..page.height).map(row).collect(), cols)))
    }

    fn of(rows: Vec<Vec<Glyph>>) -> Self {
        let width = rows.iter().map(Vec::len).max().unwrap_or(0);
        let height = i64::try_from(rows.len()).expect("few rows");
        let mut cells = Vec::with_capacity(width * rows.len());
        for mut row in rows {
            row.resize(width, BLANK);
            cells.append(&mut row);
        }
        Self { width: i64::try_from(width).expect("few columns"), height, cells }
    }

    pub fn width(&self) -> i64 {
        self.width
    }

    pub fn height(&self) -> i64 {
        self.height
    }

    pub fn at(&self, col: i64, row: i64) -> Glyph {
        if (0..self.width).contains(&col) && (0..self.height).contains(&row) {
            self.cells[usize::try_from(row * self.width + col).expect("inside")]
        } else {
            BLANK
        }
    }

    /// The upright lines that cross a row, left to right. Their length is counted in rows, in the direction of `onward`.
    pub fn upright(&self, row: i64, cols: &Range<i64>, onward: i64) -> Result<Vec<Stroke>, String> {
        let mut strokes = Vec::with_capacity(32);
        let mut col = cols.start;
        while col < cols.end {
            let glyph = self.at(col, row);
            let (phase, width) = match upright_part(glyph) {
                Part::Nothing => {
                    col += 1;
                    continue;
                }
                Part::Whole { phase, width } => (phase, width),
                Part::HeadOfBar { phase } => {
                    let tail = self.at(col + 1, row);
                    if tail != (Glyph { ch: glyph.ch, swapped: false }) || col + 1 >= cols.end {
                        return Err(format!("half a bar at column {col} of row {row}"));
                    }
                    (phase, CELL)
                }
                Part::Other => return Err(format!("{glyph:?} at column {col} of row {row} is no line")),
            };
            let mut length = 1;
            while length < 12 && self.at(col, row + onward * length) == glyph {
                length += 1;
            }
            let stroke = Stroke::new(col * CELL + phase, width, length);
            strokes.push(stroke);
            col = stroke.last + 1;
        }
        Ok(strokes)
    }

    /// Outward from a row that upright lines cross there must be nothing but those lines, as far as they reach, and then an
    /// empty row or figures; the `end` row is already something else.
    pub fn nothing_else(
        &self,
        row: i64,
        cols: &Range<i64>,
        onward: i64,
        strokes: &[Stroke],
        end: i64,
    ) -> Result<(), String> {
        let longest = strokes.iter().map(|stroke| stroke.length).max().unwrap_or(0);
        for away in 1..=longest {
            let at = row + onward * away;
            if at == end || (away == longest && self.figures(at, cols).is_some()) {
                break;
            }
            let mut wanted = strokes.iter().filter(|stroke| stroke.length > away).peekable();
            for col in cols.clone() {
                while wanted.next_if(|stroke| stroke.last < col).is_some() {}
                let inside = wanted.peek().is_some_and(|stroke| stroke.dot.div_euclid(CELL) <= col);
                let glyph = if inside { self.at(col, row) } else { BLANK };
                if self.at(col, at) != glyph {
                    return Err(format!(
                        "{:?} at column {col} of row {at} belongs to no line",
                        self.at(col, at)
                    ));
                }
            }
        }
        Ok(())
    }

    /// The level lines that cross a column, from the top down, as long as they are at least two cells long. Their length is
    /// counted in columns, in the direction of `onward`.
    pub fn level(&self, col: i64, rows: &Range<i64>, onward: i64) -> Result<Vec<Stroke>, String> {
        let mut strokes = Vec::with_capacity(32);
        let mut row = rows.start;
        while row < rows.end {
            let glyph = self.at(col, row);
            // Two figures alike are no line either.
            let part = if self.at(col + onward, row) == glyph && !glyph.ch.is_ascii_digit() {
                level_part(glyph, self.at(col, row + 1))
            } else {
                Part::Nothing
            };
            let (phase, width) = match part {
                Part::Nothing => {
                    row += 1;
                    continue;
                }
                Part::Whole { phase, width } => (phase, width),
                Part::HeadOfBar { phase } => {
                    if row + 1 >= rows.end {
                        return Err(format!("half a level bar at column {col} of row {row}"));
                    }
                    (phase, CELL)
                }
                Part::Other => return Err(format!("{glyph:?} at column {col} of row {row} is no line")),
            };
            let mut length = 1;
            while self.at(col + onward * length, row) == glyph {
                length += 1;
            }
            let stroke = Stroke::new(row * CELL + phase, width, length);
            strokes.push(stroke);
            row = stroke.last + 1;
        }
        Ok(strokes)
    }

    /// In a strip of columns there must be nothing but level lines that begin at its left.
    pub fn nothing_but(
        &self,
        cols: &Range<i64>,
        rows: &Range<i64>,
        strokes: &[Stroke],
    ) -> Result<(), String> {
        let drawn = rows.clone().flat_map(|row| cols.clone().map(move |col| (col, row)));
        let drawn = drawn.filter(|(col, row)| self.at(*col, *row) != BLANK).count();
        let cells = |stroke: &Stroke| (stroke.last - stroke.dot.div_euclid(CELL) + 1) * stroke.length;
        let wanted: i64 = strokes.iter().map(cells).sum();
        if i64::try_from(drawn) == Ok(wanted) {
            Ok(())
        } else {
            Err(format!("{drawn} cells are drawn where the lines have {wanted}"))
        }
    }

    /// The figures of a row, if there is nothing else in these columns.
    pub fn figures(&self, row: i64, cols: &Range<i64>) -> Option<Vec<Word>> {
        let mut words: Vec<Word> = Vec::new();
        let mut open = false;
        for col in cols.clone() {
            match self.at(col, row) {
                Glyph { ch: ' ', swapped: false } => open = false,
                Glyph { ch, swapped: false } if ch.is_ascii_digit() || SIGNS.contains(&ch) => {
                    if !open {
                        words.push(Word { start: col, text: String::new() });
                    }
                    open = true;
                    words.last_mut().expect("just pushed").text.push(ch);
                }
                _ => return None,
            }
        }
        (!words.is_empty()).then_some(words)
    }

    /// The first row from `from` on that holds a text, and the column where it begins.
    pub fn find(&self, from: i64, text: &str) -> Option<(i64, i64)> {
        let wanted: Vec<char> = text.chars().collect();
        let holds = |col: i64, row: i64| {
            wanted.iter().zip(col..).all(|(ch, col)| self.at(col, row) == Glyph { ch: *ch, swapped: false })
        };
        (from..self.height)
            .flat_map(|row| (0..self.width).map(move |col| (col, row)))
            .find(|(col, row)| holds(*col, *row))
            .map(|(col, row)| (row, col))
    }
}
