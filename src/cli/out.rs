//! The only door to the standard output and the standard error, and what may pass through it.

use super::exit::Halt;
use serde::Serialize;
use std::fmt::Write as _;
use std::io::{self, BufWriter, StdoutLock, Write};

/// The standard output.
pub struct Out {
    inner: BufWriter<StdoutLock<'static>>,
}

impl Out {
    /// Takes hold of the standard output.
    pub fn new() -> Self {
        Self { inner: BufWriter::new(io::stdout().lock()) }
    }

    /// Writes bytes as they are.
    pub fn bytes(&mut self, bytes: &[u8]) -> Result<(), Halt> {
        self.inner.write_all(bytes).map_err(|cause| Halt::output(&cause))
    }

    /// Writes a line.
    pub fn line(&mut self, line: &str) -> Result<(), Halt> {
        self.bytes(line.as_bytes())?;
        self.bytes(b"\n")
    }

    /// Writes lines.
    pub fn lines<T: AsRef<str>>(&mut self, lines: impl IntoIterator<Item = T>) -> Result<(), Halt> {
        lines.into_iter().try_for_each(|line| self.line(line.as_ref()))
    }

    /// Hands on what was written so far.
    pub fn flush(&mut self) -> Result<(), Halt> {
        self.inner.flush().map_err(|cause| Halt::output(&cause))
    }
}

impl Default for Out {
    fn default() -> Self {
        Self::new()
    }
}

/// Says a sentence on the standard error. Where even that fails there is nobody left to tell.
pub fn complain(sentence: &str) {
    let _ = writeln!(io::stderr().lock(), "linefall: {}", clean(sentence));
}

/// Writes text on the standard error as it is, less what a terminal would obey.
pub fn aside(text: &str) {
    let _ = write!(io::stderr().lock(), "{}", clean(text));
}

/// True for a character that a terminal obeys, or that hides or turns round other characters.
fn is_obeyed(c: char) -> bool {
    c.is_control()
        || matches!(c, '\u{ad}' | '\u{61c}' | '\u{180e}' | '\u{200b}'..='\u{200f}' | '\u{2028}'..='\u{202e}')
        || matches!(c, '\u{2060}'..='\u{206f}' | '\u{feff}' | '\u{fff9}'..='\u{fffb}' | '\u{e0000}'..='\u{e007f}')
}

/// Text of several lines, harmless to a terminal.
pub fn clean(text: &str) -> String {
    text.chars().map(|c| if is_obeyed(c) && !matches!(c, '\n' | '\t') { '\u{fffd}' } else { c }).collect()
}

/// Text within a line, harmless to a terminal.
pub fn clean_name(text: &str) -> String {
    text.chars().map(|c| if is_obeyed(c) { '\u{fffd}' } else { c }).collect()
}

/// One line of JSON. What a terminal would obey is written as an escape.
pub fn json(value: &impl Serialize) -> String {
    let text = serde_json::to_string(value).expect("plain structures of texts and numbers are always JSON");
    if !text.chars().any(is_obeyed) {
        return text;
    }
    let mut safe = String::with_capacity(text.len() + 16);
    for c in text.chars() {
        if is_obeyed(c) {
            for unit in c.encode_utf16(&mut [0; 2]) {
                let _ = write!(safe, "\\u{unit:04x}");
            }
        } else {
            safe.push(c);
        }
    }
    safe
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_reaches_the_terminal_that_it_would_obey() {
        assert_eq!(clean("a\u{1b}[2J\nb\u{202e}c\u{9b}"), "a\u{fffd}[2J\nb\u{fffd}c\u{fffd}");
        assert_eq!(clean_name("a\nb\u{7f}"), "a\u{fffd}b\u{fffd}");
        let line = json(&"\u{1b}\u{9b}\u{202e}\u{e0041}\u{7f}\u{e9}");
        assert_eq!(line, "\"\\u001b\\u009b\\u202e\\udb40\\udc41\\u007f\u{e9}\"");
        assert_eq!(
            serde_json::from_str::<String>(&line).ok().as_deref(),
            Some("\u{1b}\u{9b}\u{202e}\u{e0041}\u{7f}\u{e9}")
        );
    }
}
