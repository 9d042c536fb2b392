//! How large a file may be, and characters that no file may hide.

use super::reader::Reader;
use super::sort::Sort;
use super::text;
use crate::diag::{Diagnostic, SourceText, Span};

/// Bytes a file may have.
const BYTES: usize = 1 << 20;
/// Keys and values a file may have.
const KEYS: usize = 5_000;

/// The one sentence for a file that is not worth reading.
pub(super) fn refusal(source: &SourceText, sort: &Sort) -> Option<Diagnostic> {
    let Sort { called, about, .. } = sort;
    let fix = format!("take out what is not part of {about}");
    let start = Span { start: 0, end: 0 };
    if source.text.len() > BYTES {
        let message = format!("the file has {} bytes; {called} has at most {BYTES}", source.text.len());
        return Some(Diagnostic::new("too-large", start, message).fix(fix));
    }
    let marks = source.text.bytes().filter(|b| matches!(b, b'=' | b'[' | b',')).count();
    if marks > KEYS {
        let message =
            format!("the file has more than {KEYS} keys and values; {called} does not need as many");
        return Some(Diagnostic::new("too-many-keys", start, message).fix(fix));
    }
    None
}

/// Refuses characters that change what a reader sees, wherever they stand: in a key, a comment or a string.
pub(super) fn hidden_characters(source: &SourceText, reader: &mut Reader<'_>) {
    let mut last_line = None;
    for (start, c) in source.text.char_indices() {
        let allowed = matches!(c, '\n' | '\r' | '\t') || (start == 0 && c == '\u{feff}');
        if allowed || c.is_ascii_graphic() || c == ' ' || !text::is_hidden(c) {
            continue;
        }
        let line = reader.line_of(start);
        if last_line == Some(line) {
            continue;
        }
        last_line = Some(line);
        let span = Span { start, end: start + c.len_utf8() };
        let message = format!("the hidden character U+{:04X} stands here", u32::from(c));
        reader.push(Diagnostic::new("hidden-character", span, message).fix("delete the character"));
    }
}
