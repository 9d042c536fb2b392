//! Writing returned work, line by line.

use super::line::{Answer, Ended, First, Line, WHAT};
use super::read::{Closing, Returned};
use super::{FORM, Header};
use crate::class::seal::{Secret, Signed, link};
use crate::class::sitting::End;
use crate::class::text::is_obeyed;
use crate::drill::record::Attempt;
use serde::Serialize;
use std::fmt::Write as _;

/// Makes the lines of one file. Each comes with its end and is to be appended and on the disk before the next one is made.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Writer {
    /// The hash of the line before.
    head: String,
}

impl Writer {
    /// The writer, and the first line.
    pub fn begin(header: &Header) -> (Self, String) {
        let first = First { linefall: WHAT.to_owned(), form: FORM, header: header.clone() };
        let text = json(&first);
        (Self { head: link(text.as_bytes()) }, text + "\n")
    }

    /// Goes on with a sitting that is still open, after its last whole line; none where it has come to its end.
    pub fn resume(returned: &Returned) -> Option<Self> {
        (returned.closing != Closing::Signed && returned.end == End::Open)
            .then(|| Self { head: returned.head.clone() })
    }

    /// An answer.
    pub fn answer(&mut self, place: u32, part: u32, attempt: &Attempt) -> String {
        self.line(Line { answer: Some(Answer::of(place, part, attempt)), ..Line::default() })
    }

    /// An answer without its mark, where nothing is told before the end.
    pub fn silent_answer(&mut self, place: u32, part: u32, attempt: &Attempt) -> String {
        self.line(Line { answer: Some(Answer::bare(place, part, attempt)), ..Line::default() })
    }

    /// It is left, to be taken up again.
    pub fn left(&mut self, at: &str) -> String {
        self.line(Line { left: Some(at.to_owned()), ..Line::default() })
    }

    /// It is taken up again, whether it was left or broke off.
    pub fn back(&mut self, at: &str) -> String {
        self.line(Line { back: Some(at.to_owned()), ..Line::default() })
    }

    /// It has come to its end: two lines, the second of them the signature.
    pub fn end(mut self, at: &str, how: End, secret: &Secret) -> String {
        let ended = Some(Ended { at: at.to_owned(), how });
        let end = self.line(Line { ended, ..Line::default() });
        let signed = Some(secret.sign(Signed::Returned, self.head.as_bytes()));
        end + &self.line(Line { signed, ..Line::default() })
    }

    fn line(&mut self, line: Line) -> String {
        let text = json(&Line { after: std::mem::take(&mut self.head), ..line });
        self.head = link(text.as_bytes());
        text + "\n"
    }
}

/// One line of JSON; what a terminal would obey is written as an escape, so that the file can be looked at.
fn json(value: &impl Serialize) -> String {
    let text = serde_json::to_string(value).expect("plain structures of texts and numbers are always JSON");
    if !text.chars().any(is_obeyed) {
        return text;
    }
    text.chars().fold(String::with_capacity(text.len() + 16), |mut safe, c| {
        if is_obeyed(c) {
            for unit in c.encode_utf16(&mut [0; 2]) {
                let _ = write!(safe, "\\u{unit:04x}");
            }
        } else {
            safe.push(c);
        }
        safe
    })
}
