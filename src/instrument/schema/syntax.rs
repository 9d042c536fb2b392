//! What is not TOML.

use super::sort::Sort;
use super::text::shown;
use crate::diag::{Diagnostic, SourceText, Span};
use std::collections::BTreeSet;
use std::ops::Range;

/// The faults of syntax in a file.
pub(super) struct Syntax {
    /// One for each line that has any.
    pub(super) faults: Vec<Diagnostic>,
    /// Where those lines begin.
    pub(super) lines: BTreeSet<usize>,
    /// True when every key of the file was still read.
    pub(super) whole: bool,
}

/// Says of each line that is not TOML what is wrong with it. One fault a line: the rest follow from the first.
pub(super) fn faults(source: &SourceText, sort: &Sort, errors: &[toml::de::Error]) -> Syntax {
    let mut syntax = Syntax { faults: Vec::new(), lines: BTreeSet::new(), whole: true };
    for error in errors {
        let mut span = error.span().unwrap_or(0..0);
        span.end = span.end.min(source.text.len());
        span.start = span.start.min(span.end);
        let line = line_around(&source.text, span.start);
        if !syntax.lines.insert(line.start) {
            continue;
        }
        let (fault, whole) = fault(source, sort, error.message(), &span, &line);
        syntax.whole &= whole;
        syntax.faults.push(fault);
    }
    syntax
}

/// The fault of one error, and whether the key it stands in was still read.
fn fault(
    source: &SourceText,
    sort: &Sort,
    message: &str,
    span: &Range<usize>,
    line: &Range<usize>,
) -> (Diagnostic, bool) {
    let at = Span::from(span.clone());
    let text = source.text[line.clone()].trim();
    if message.starts_with("string values must be quoted") {
        let value = source.text[span.clone()].trim();
        if value.is_empty() {
            let key = text.split('=').next().unwrap_or_default().trim();
            let fault = Diagnostic::new("syntax", at, format!("`{}` has no value", shown(key)));
            return (fault.fix(format!("write a value after the `=`: {} = \"...\"", shown(key))), true);
        }
        let fixed = match text.split_once('=') {
            Some((key, rest)) if rest.trim() == value => {
                format!("{} = \"{}\"", shown(key.trim()), shown(value))
            }
            _ => format!("\"{}\"", shown(value)),
        };
        let message = format!("`{}` needs quotes", shown(value));
        return (Diagnostic::new("syntax", at, message).fix(fixed), true);
    }
    if message.starts_with("duplicate key") {
        let key = shown(&source.text[span.clone()]);
        let mut fault = Diagnostic::new("duplicate-key", at, format!("`{key}` is written twice"));
        if let Some(first) = earlier(source, &source.text[span.clone()], line.start) {
            fault = fault.related(first, "written here first");
        }
        return (fault.fix(format!("keep one of the two lines of `{key}`")), true);
    }
    let told = shown_message(message);
    let fix = match text {
        _ if text.starts_with('[') => sort.tables,
        _ if text.matches('"').count() % 2 == 1 => "close the quotes",
        _ => "write the line as key = value, texts and quantities in quotes, lists in [ ]",
    };
    let fault = Diagnostic::new("syntax", widened(&source.text, span), format!("this is not TOML: {told}"));
    (fault.fix(fix), false)
}

/// The parser's sentence without what is hidden, at most 200 characters of it.
fn shown_message(message: &str) -> String {
    let words: Vec<String> = message.split(' ').map(shown).collect();
    words.join(" ").chars().take(200).collect()
}

/// The line around a byte, without its end.
fn line_around(text: &str, at: usize) -> Range<usize> {
    let start = text[..at].rfind('\n').map_or(0, |n| n + 1);
    let end = text[at..].find('\n').map_or(text.len(), |n| at + n);
    start..end
}

/// A place wide enough to be marked.
fn widened(text: &str, span: &Range<usize>) -> Span {
    if span.start < span.end {
        return Span::from(span.clone());
    }
    let next = text[span.start..].chars().next().filter(|c| *c != '\n' && *c != '\r');
    match next {
        Some(c) => Span { start: span.start, end: span.start + c.len_utf8() },
        None => Span::from(span.clone()),
    }
}

/// Where a key stood before in the same table.
fn earlier(source: &SourceText, key: &str, before: usize) -> Option<Span> {
    let mut at = before;
    while at > 0 {
        let line = line_around(&source.text, at - 1);
        let text = &source.text[line.clone()];
        let written = text.trim_start();
        if written.starts_with("[[") {
            return None;
        }
        if written.split('=').next().map(str::trim) == Some(key) {
            let start = line.start + text.len() - written.len();
            return Some(Span { start, end: start + key.len() });
        }
        at = line.start;
    }
    None
}
