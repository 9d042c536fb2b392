//! Floor 0. Faults in files a person wrote, as values: what, where, why, and the fix.
//!
//! | type | what it is |
//! |---|---|
//! | [`SourceText`] | a named text, with lines and columns |
//! | [`Span`] | a byte range of it |
//! | [`Diagnostic`] | one fault: code, sentence, marked places, the fix |
//!
//! How they are printed is the command line's business (`cli::report`).

mod nearest;
mod source;

pub use nearest::nearest;
pub use source::{SourceText, Span};

/// One fault in a file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Diagnostic {
    /// A stable short code of the rule that found it: `unknown-key`, `bare-number`.
    pub code: &'static str,
    /// One sentence in lower case: what is wrong, naming the key or value.
    pub message: String,
    /// The place that is wrong and what to say beside it.
    pub at: Note,
    /// Other places that explain it.
    pub related: Vec<Note>,
    /// What to write instead, a line of the file where that is possible.
    pub fix: Option<String>,
}

/// A marked place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Note {
    /// Where.
    pub span: Span,
    /// A few words; may be empty.
    pub text: String,
}

impl Diagnostic {
    /// A fault at a place.
    pub fn new(code: &'static str, span: Span, message: impl Into<String>) -> Self {
        Self {
            code,
            message: message.into(),
            at: Note { span, text: String::new() },
            related: Vec::new(),
            fix: None,
        }
    }

    /// With words beside the marked place.
    #[must_use]
    pub fn label(mut self, text: impl Into<String>) -> Self {
        self.at.text = text.into();
        self
    }

    /// With another place that explains it.
    #[must_use]
    pub fn related(mut self, span: Span, text: impl Into<String>) -> Self {
        self.related.push(Note { span, text: text.into() });
        self
    }

    /// With the fix.
    #[must_use]
    pub fn fix(mut self, fix: impl Into<String>) -> Self {
        self.fix = Some(fix.into());
        self
    }
}
