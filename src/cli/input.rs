//! Lines from the standard input, none longer than anybody types.

use std::io::{self, BufRead, Read, StdinLock};

/// The longest line that is looked at, in bytes.
const LONGEST: u64 = 64 * 1024;

/// The lines of the standard input.
pub struct Lines<R = StdinLock<'static>> {
    inner: R,
    number: u64,
}

/// What a line is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Line {
    /// Text, without its end.
    Text(String),
    /// Too long to be looked at.
    TooLong,
    /// No UTF-8.
    NoText,
}

impl Lines {
    /// Takes hold of the standard input.
    pub fn new() -> Self {
        Self { inner: io::stdin().lock(), number: 0 }
    }
}

impl Default for Lines {
    fn default() -> Self {
        Self::new()
    }
}

impl<R: BufRead> Lines<R> {
    /// The number of the line read last, from 1.
    pub fn number(&self) -> u64 {
        self.number
    }

    /// The next line; `None` at the end.
    pub fn next(&mut self) -> io::Result<Option<Line>> {
        let mut bytes = Vec::new();
        self.inner.by_ref().take(LONGEST).read_until(b'\n', &mut bytes)?;
        if bytes.is_empty() {
            return Ok(None);
        }
        self.number += 1;
        if bytes.last() != Some(&b'\n') && bytes.len() as u64 == LONGEST {
            self.skip_rest()?;
            return Ok(Some(Line::TooLong));
        }
        while matches!(bytes.last(), Some(b'\n' | b'\r')) {
            bytes.pop();
        }
        Ok(Some(String::from_utf8(bytes).map_or(Line::NoText, Line::Text)))
    }

    fn skip_rest(&mut self) -> io::Result<()> {
        loop {
            let buffer = self.inner.fill_buf()?;
            let end = buffer.iter().position(|byte| *byte == b'\n');
            let used = end.map_or(buffer.len(), |at| at + 1);
            if end.is_some() || used == 0 {
                self.inner.consume(used);
                return Ok(());
            }
            self.inner.consume(used);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn long_lines_and_bytes_are_lines_all_the_same() {
        let mut bytes = b"one\r\n\n".to_vec();
        bytes.extend(vec![b'x'; 200_000]);
        bytes.extend(b"\n\xff\xfe\nlast");
        let mut lines = Lines { inner: bytes.as_slice(), number: 0 };
        let mut all = Vec::new();
        while let Ok(Some(line)) = lines.next() {
            all.push((lines.number(), line));
        }
        let text = |text: &str| Line::Text(text.to_owned());
        assert_eq!(
            all,
            [(1, text("one")), (2, text("")), (3, Line::TooLong), (4, Line::NoText), (5, text("last"))]
        );
    }
}
