//! A named text and places in it.

use std::ops::Range;

/// A byte range of a [`SourceText`].
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Span {
    /// First byte.
    pub start: usize,
    /// One past the last byte.
    pub end: usize,
}

impl From<Range<usize>> for Span {
    fn from(range: Range<usize>) -> Self {
        Self { start: range.start, end: range.end }
    }
}

/// A text a person wrote, with its name.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SourceText {
    /// The file's name as the person gave it.
    pub name: String,
    /// The text.
    pub text: String,
}

impl SourceText {
    /// A named text.
    pub fn new(name: impl Into<String>, text: impl Into<String>) -> Self {
        Self { name: name.into(), text: text.into() }
    }

    /// Line and column of a byte, both from 1; the column counts characters.
    pub fn line_and_column(&self, byte: usize) -> (usize, usize) {
        let mut byte = byte.min(self.text.len());
        while !self.text.is_char_boundary(byte) {
            byte -= 1;
        }
        let before = &self.text[..byte];
        let line_start = before.rfind('\n').map_or(0, |at| at + 1);
        (before.matches('\n').count() + 1, before[line_start..].chars().count() + 1)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_count_characters() {
        let source = SourceText::new("x.toml", "a = 1\nb\u{b0} = 2\n");
        assert_eq!(source.line_and_column(0), (1, 1));
        assert_eq!(source.line_and_column(6), (2, 1));
        assert_eq!(source.line_and_column(9), (2, 3));
        assert_eq!(source.line_and_column(1000), (3, 1));
    }
}
