//! Tables for spreadsheets, quoted as RFC 4180 has it, with nothing in them that a spreadsheet or a terminal would obey.

use super::out;

/// The longest cell, in characters: no spreadsheet shows more of one, and nobody reads it.
const LONGEST: usize = 1_000;
/// What makes a spreadsheet take a text for a formula, in narrow and in wide form.
const FORMULA: [char; 8] = ['=', '+', '-', '@', '\u{ff1d}', '\u{ff0b}', '\u{ff0d}', '\u{ff20}'];

/// A table as text: a head and rows, each line ended by CR LF.
pub struct Table(csv::Writer<Vec<u8>>);

impl Table {
    /// With these columns.
    pub fn new<T: AsRef<str>>(columns: impl IntoIterator<Item = T>) -> Self {
        let mut table =
            Self(csv::WriterBuilder::new().terminator(csv::Terminator::CRLF).from_writer(Vec::new()));
        table.row(columns);
        table
    }

    /// One more row, of as many cells as there are columns.
    pub fn row<T: AsRef<str>>(&mut self, cells: impl IntoIterator<Item = T>) {
        let cells = cells.into_iter().map(|text| cell(text.as_ref()));
        self.0.write_record(cells).expect("every row has the cells of the head, and memory takes them");
    }

    /// All of it.
    pub fn bytes(self) -> Vec<u8> {
        self.0.into_inner().expect("memory takes what is written")
    }
}

/// A cell that no spreadsheet takes for a formula and no terminal obeys. A number stays one, below nought as well.
fn cell(text: &str) -> String {
    let cut: String = text.chars().take(LONGEST).collect();
    let text = out::clean_name(&cut);
    let is_number = text.bytes().all(|byte| byte.is_ascii_digit() || byte == b'.' || byte == b'-')
        && text.parse::<f64>().is_ok();
    // Some trim a cell before they look at it.
    let begins = text.trim_start().starts_with(FORMULA);
    if begins && !is_number { format!("'{text}") } else { text }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn written(text: &str) -> String {
        let mut table = Table::new(["a", "b"]);
        table.row([text, "end"]);
        String::from_utf8(table.bytes()).expect("text")
    }

    /// Source: RFC 4180, section 2: lines end with CR LF; a cell with a comma, a quote or a line end is quoted, a quote in it doubled.
    #[test]
    fn quoted_as_the_standard_has_it() {
        assert_eq!(written("plain"), "a,b\r\nplain,end\r\n");
        assert_eq!(written("Bench 3, \"left\""), "a,b\r\n\"Bench 3, \"\"left\"\"\",end\r\n");
        assert_eq!(written(""), "a,b\r\n,end\r\n");
    }

    #[test]
    fn no_cell_is_a_formula_or_obeyed() {
        for (text, safe) in [
            ("=1+1", "'=1+1"),
            (" @SUM(A1)", "' @SUM(A1)"),
            ("\u{ff1d}1", "'\u{ff1d}1"),
            ("-2 mm", "'-2 mm"),
            ("-0.12", "-0.12"),
            ("-", "'-"),
            ("\t=1", "\u{fffd}=1"),
            ("a\u{1b}[2Jb\r\nc", "a\u{fffd}[2Jb\u{fffd}\u{fffd}c"),
            ("\u{202e}txt", "\u{fffd}txt"),
        ] {
            assert_eq!(cell(text), safe, "{text:?}");
        }
        assert_eq!(written("-2,5"), "a,b\r\n\"'-2,5\",end\r\n");
        assert_eq!(cell(&"x".repeat(10_000)).len(), LONGEST);
    }
}
