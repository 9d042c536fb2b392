//! A fault in a file, shown with the place it stands at.

use super::args::Size;
use super::out;
use crate::diag::{Diagnostic, Note, SourceText, Span};
use annotate_snippets::renderer::DecorStyle;
use annotate_snippets::{AnnotationKind, Group, Level, Renderer, Snippet};
use std::ops::Range;

/// The width of a report where no terminal tells one.
const WIDTH: usize = 110;
/// The most columns of a report: a terminal may claim to be wider than anybody reads.
const WIDEST: usize = 160;
/// Lines between two marked places that are still shown in one piece; those that nothing is marked in are folded away. A whole
/// definition is within it, so that culprit and cause stand in one snippet.
const NEAR: usize = 80;

/// Shows faults.
pub struct Report {
    renderer: Renderer,
}

impl Report {
    /// With or without colours, as wide as the terminal.
    pub fn new(colours: bool, size: Option<Size>) -> Self {
        let width = size.map_or(WIDTH, |size| usize::from(size.cols).clamp(40, WIDEST));
        let renderer = if colours { Renderer::styled() } else { Renderer::plain() };
        Self { renderer: renderer.decor_style(DecorStyle::Ascii).term_width(width) }
    }

    /// One fault: code, sentence, the places with file, line and column, the fix. Nothing in it moves the cursor.
    pub fn render(&self, source: &SourceText, fault: &Diagnostic) -> String {
        let title = Level::ERROR.primary_title(out::clean(&fault.message)).id(fault.code);
        let mut group = Group::with_title(title);
        for piece in pieces(source, fault) {
            group = group.element(piece.snippet(&source.name));
        }
        if let Some(fix) = &fault.fix {
            group = group.element(Level::HELP.message(out::clean(fix)));
        }
        self.renderer.render(&[group])
    }
}

/// A few lines of the file and what is marked in them.
struct Piece {
    text: String,
    first_line: usize,
    marks: Vec<(AnnotationKind, Range<usize>, String)>,
}

impl Piece {
    fn snippet(self, name: &str) -> Snippet<'static, annotate_snippets::Annotation<'static>> {
        let marks = self.marks.into_iter().map(|(kind, span, text)| {
            let mark = kind.span(span);
            if text.is_empty() { mark } else { mark.label(text) }
        });
        Snippet::source(self.text).path(name.to_owned()).line_start(self.first_line).annotations(marks)
    }
}

/// The pieces of a file that a fault marks. What is far from the fault itself stands in a piece of its own, so that the size
/// of a report does not depend on the size of the file.
fn pieces(source: &SourceText, fault: &Diagnostic) -> Vec<Piece> {
    let line_of = |note: &Note| source.line_and_column(note.span.start).0;
    let at = line_of(&fault.at);
    let near = |note: &&Note| line_of(note).abs_diff(at) <= NEAR;
    let (beside, apart): (Vec<&Note>, Vec<&Note>) = fault.related.iter().partition(near);
    let mut first = vec![(AnnotationKind::Primary, &fault.at)];
    first.extend(beside.into_iter().map(|note| (AnnotationKind::Context, note)));
    let mut all = vec![piece(source, &first)];
    all.extend(apart.into_iter().map(|note| piece(source, &[(AnnotationKind::Context, note)])));
    all
}

fn piece(source: &SourceText, notes: &[(AnnotationKind, &Note)]) -> Piece {
    let text = source.text.as_str();
    let spans: Vec<Range<usize>> = notes.iter().map(|(_, note)| within(text, &note.span)).collect();
    let start = spans.iter().map(|span| span.start).min().unwrap_or(0);
    let end = spans.iter().map(|span| span.end).max().unwrap_or(0);
    let start = text[..start].rfind('\n').map_or(0, |at| at + 1);
    let end = text[end..].find('\n').map_or(text.len(), |at| end + at);
    let marks = notes
        .iter()
        .zip(spans)
        .map(|((kind, note), span)| {
            let from = shown(&text[start..span.start]).len();
            let to = from + shown(&text[span]).len();
            (*kind, from..to, out::clean(&note.text))
        })
        .collect();
    let (first_line, _) = source.line_and_column(start);
    Piece { text: shown(text[start..end].trim_end_matches('\r')), first_line, marks }
}

/// The file's text as it is shown: line ends stay, whatever a terminal would obey is replaced.
fn shown(text: &str) -> String {
    out::clean(&text.replace("\r\n", "\n"))
}

/// A span that lies in the text and does not cut a character.
fn within(text: &str, span: &Span) -> Range<usize> {
    let floor = |mut at: usize| {
        at = at.min(text.len());
        while !text.is_char_boundary(at) {
            at -= 1;
        }
        at
    };
    let start = floor(span.start);
    start..floor(span.end).max(start)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn plain(text: &str, fault: &Diagnostic) -> String {
        Report::new(false, None).render(&SourceText::new("x.toml", text), fault)
    }

    #[test]
    fn the_mark_stands_under_its_text_behind_characters_that_were_replaced() {
        let text = "first = 1\r\n# \u{1b}[31m \u{202e}\r\nid = \"\u{1b}\" # \u{fc}\r\nbad = 3\r\n";
        let start = text.find("bad").unwrap_or(0);
        let shown = plain(text, &Diagnostic::new("unknown-key", (start..start + 3).into(), "what is `bad`?"));
        assert!(shown.contains("error[unknown-key]: what is `bad`?"), "{shown}");
        assert!(shown.contains("x.toml:4:1"), "{shown}");
        assert!(shown.contains("4 | bad = 3"), "{shown}");
        let start = text.find("# \u{fc}").unwrap_or(0);
        let shown = plain(text, &Diagnostic::new("c", (start..start + 4).into(), "m"));
        assert!(shown.contains("3 | id = \"\u{fffd}\" # \u{fc}"), "{shown}");
        let lines: Vec<&str> = shown.lines().collect();
        let column = |line: &str, what| line.find(what).map(|at| line[..at].chars().count());
        let at = lines.iter().position(|line| line.contains("3 |")).unwrap_or(0);
        assert_eq!(column(lines[at], "# \u{fc}"), column(lines[at + 1], "^^^"), "{shown}");
        assert!(!shown.contains(['\u{1b}', '\u{202e}', '\r']), "{shown}");
    }

    #[test]
    fn places_far_apart_and_past_the_end() {
        let text = format!("a = 1\n{}b = 2", "\n".repeat(500));
        let end = text.len();
        let fault = Diagnostic::new("c", (end - 5..end + 9).into(), "m").related((0..1).into(), "first here");
        let shown = plain(&text, &fault.fix("b = 3"));
        assert!(shown.lines().count() < 20, "{shown}");
        assert!(shown.contains("x.toml:502:1") && shown.contains("first here"), "{shown}");
        assert!(shown.contains("help: b = 3"), "{shown}");
        plain("", &Diagnostic::new("c", (0..0).into(), "m"));
        plain("\u{fc}", &Diagnostic::new("c", (1..2).into(), "m"));
    }
}
