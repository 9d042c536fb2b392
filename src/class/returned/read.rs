//! Reading returned work.

use super::line::{First, Form, Line, WHAT};
use super::{FILE_LIMIT, FIRST_LIMIT, FORM, Header, LINE_LIMIT};
use crate::class::seal::{Signed, link};
use crate::class::sitting::{End, Entry, Sitting};
use crate::class::text::{is_code, is_hex, is_number, is_obeyed, is_set, is_time};
use crate::learner::calendar::Day;
use thiserror::Error;

/// A file read back. What is marked in it is what the file claims.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Returned {
    /// The first line.
    pub header: Header,
    /// The answers, in order.
    pub entries: Vec<Entry>,
    /// What else happened, each with how many answers came before.
    pub happened: Vec<(usize, Happened)>,
    /// How it came to its end.
    pub end: End,
    /// When it came to its end.
    pub ended: Option<String>,
    /// Whether the file is whole.
    pub closing: Closing,
    /// The hash of the last whole line.
    pub head: String,
    /// How many bytes the whole lines have: where to go on.
    pub whole: usize,
}

/// What happened beside answers.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Happened {
    /// It was left, at this time.
    Left(String),
    /// It was taken up again.
    Back(String),
}

/// Whether a file is whole.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Closing {
    /// It has its end and its signature.
    Signed,
    /// It has neither: the sitting is going on, or was broken off.
    Open,
    /// Something is missing at its end: half a line, or the signature.
    CutShort,
}

/// Why a file cannot be used.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum Fault {
    /// Larger than any of them.
    #[error("it is larger than {FILE_LIMIT} bytes")]
    TooBig,
    /// Nothing in it.
    #[error("it is empty")]
    Empty,
    /// The first line says something else.
    #[error("it is no returned work of Linefall")]
    NotOurs,
    /// Of a newer program.
    #[error("it was written by a newer Linefall (form {0}); this one knows up to {FORM}")]
    Newer(u32),
    /// Something in the first line cannot be so.
    #[error("line 1: {0} is not written as it should be")]
    Header(&'static str),
    /// A line too long.
    #[error("line {0} is longer than {LINE_LIMIT} bytes")]
    LongLine(usize),
    /// A line that is none of ours.
    #[error("line {0} cannot be read")]
    Line(usize),
    /// A line that says what it should in another way of writing it: no hash follows the last line, so any other spelling of it would
    /// make another file of the same sitting.
    #[error("line {0} is written otherwise than Linefall writes it")]
    Spelling(usize),
    /// A line that does not carry the hash of the one before.
    #[error("line {0} was changed, or lines after it were taken out or put in")]
    Chain(usize),
    /// Something after the end.
    #[error("line {0} comes after the end")]
    AfterEnd(usize),
    /// A signature that is not the key's.
    #[error("the signature is not that of the machine it names")]
    Signature,
}

/// So many faults of a file are named.
const NAMED: usize = 20;

impl Returned {
    /// What it claims, as a sitting.
    pub fn claimed(&self) -> Sitting {
        Sitting { entries: self.entries.clone(), ..self.claimed_but_answers() }
    }

    /// The whole seconds from its beginning to its end; none where it has no end.
    pub fn span(&self) -> Option<i64> {
        let ended = Day::second(self.ended.as_deref()?)?;
        Some((ended - Day::second(&self.header.begun)?).max(0))
    }

    /// The same without the answers.
    pub fn claimed_but_answers(&self) -> Sitting {
        let header = &self.header;
        let back = |happened: &&(usize, Happened)| matches!(happened.1, Happened::Back(_));
        Sitting {
            id: header.sitting.clone(),
            learner: header.learner.clone(),
            set: header.set.clone(),
            revision: header.revision.clone(),
            purpose: header.purpose,
            card: header.card.clone(),
            nth: header.nth,
            begun: header.begun.clone(),
            ended: self.ended.clone(),
            interruptions: u32::try_from(self.happened.iter().filter(back).count()).unwrap_or(u32::MAX),
            end: self.end,
            entries: Vec::new(),
            lacks: Vec::new(),
        }
    }
}

/// The first line alone.
pub fn header(bytes: &[u8]) -> Result<Header, Fault> {
    let line = bytes.split(|byte| *byte == b'\n').next().unwrap_or_default();
    if line.is_empty() {
        return Err(if bytes.is_empty() { Fault::Empty } else { Fault::NotOurs });
    }
    if line.len() > FIRST_LIMIT {
        return Err(Fault::NotOurs);
    }
    let form: Form = serde_json::from_slice(line).map_err(|_| Fault::NotOurs)?;
    match form {
        Form { linefall, .. } if linefall != WHAT => return Err(Fault::NotOurs),
        Form { form, .. } if form > FORM => return Err(Fault::Newer(form)),
        Form { .. } => {}
    }
    let first: First = serde_json::from_slice(line).map_err(|_| Fault::Header("something"))?;
    if let Some(what) = wrong_in(&first.header) {
        return Err(Fault::Header(what));
    }
    if is_spelled(&first, line) { Ok(first.header) } else { Err(Fault::Spelling(1)) }
}

/// Whether a line is written as it is written here.
fn is_spelled(line: &impl serde::Serialize, bytes: &[u8]) -> bool {
    serde_json::to_vec(line).is_ok_and(|ours| ours == bytes)
}

fn wrong_in(header: &Header) -> Option<&'static str> {
    let program = |text: &str| (1..=40).contains(&text.len()) && !text.chars().any(is_obeyed);
    let checks = [
        ("sitting", is_number(&header.sitting)),
        ("learner", is_code(&header.learner)),
        ("set", is_set(&header.set)),
        ("revision", (1..=128).contains(&header.revision.len()) && is_hex(&header.revision)),
        ("card", header.card.as_deref().is_none_or(is_number)),
        ("try", header.nth > 0),
        ("key", crate::class::seal::Public::of(header.key.hex()).is_some()),
        ("program", program(&header.program)),
        ("begun", is_time(&header.begun)),
    ];
    checks.into_iter().find(|(_, good)| !good).map(|(what, _)| what)
}

/// Reads a file. Faults are named, up to twenty of them; a file that only breaks off has none, and says so itself.
pub fn read(bytes: &[u8]) -> Result<Returned, Vec<Fault>> {
    if bytes.len() as u64 > FILE_LIMIT {
        return Err(vec![Fault::TooBig]);
    }
    let header = header(bytes).map_err(|fault| vec![fault])?;
    let mut reading = Reading::new(header);
    let mut rest = bytes;
    let mut number = 0;
    while let Some(end) = rest.iter().position(|byte| *byte == b'\n') {
        number += 1;
        reading.line(number, &rest[..end]);
        rest = &rest[end + 1..];
        if reading.faults.len() >= NAMED {
            break;
        }
        reading.of.whole = bytes.len() - rest.len();
    }
    if number == 0 {
        // Not even the first line is whole, though it could be read.
        reading.of.closing = Closing::CutShort;
    } else if !rest.is_empty() && reading.faults.is_empty() {
        if reading.of.closing == Closing::Signed {
            reading.faults.push(Fault::AfterEnd(number + 1));
        }
        reading.of.closing = Closing::CutShort;
    }
    if reading.faults.is_empty() { Ok(reading.of) } else { Err(reading.faults) }
}

struct Reading {
    of: Returned,
    faults: Vec<Fault>,
}

impl Reading {
    fn new(header: Header) -> Self {
        let of = Returned {
            header,
            entries: Vec::new(),
            happened: Vec::new(),
            end: End::Open,
            ended: None,
            closing: Closing::Open,
            head: String::new(),
            whole: 0,
        };
        Self { of, faults: Vec::new() }
    }

    fn line(&mut self, number: usize, bytes: &[u8]) {
        let before = std::mem::replace(&mut self.of.head, link(bytes));
        if number == 1 {
            return;
        }
        if bytes.len() > LINE_LIMIT {
            self.faults.push(Fault::LongLine(number));
            return;
        }
        let Ok(line) = serde_json::from_slice::<Line>(bytes) else {
            self.faults.push(Fault::Line(number));
            return;
        };
        if line.signed.is_some() && !is_spelled(&line, bytes) {
            self.faults.push(Fault::Spelling(number));
        }
        if line.after != before {
            // What was changed is the line that its follower does not know any more.
            self.faults.push(Fault::Chain(number - 1));
        }
        if self.of.closing == Closing::Signed {
            self.faults.push(Fault::AfterEnd(number));
            return;
        }
        self.take(number, &before, line);
    }

    fn take(&mut self, number: usize, before: &str, line: Line) {
        let ended = self.of.end != End::Open;
        let known = match line {
            Line { answer: Some(answer), left: None, back: None, ended: None, signed: None, .. }
                if !ended =>
            {
                let good = is_time(answer.at()) && answer.is_in_one_form();
                self.of.entries.push(answer.entry(&self.of.header.learner));
                good
            }
            Line { answer: None, left: Some(at), back: None, ended: None, signed: None, .. } if !ended => {
                self.happened(Happened::Left, at)
            }
            Line { answer: None, left: None, back: Some(at), ended: None, signed: None, .. } if !ended => {
                self.happened(Happened::Back, at)
            }
            Line { answer: None, left: None, back: None, ended: Some(end), signed: None, .. } if !ended => {
                let good = end.how != End::Open && is_time(&end.at);
                (self.of.end, self.of.ended) = (end.how, Some(end.at));
                // Until the signature has come.
                self.of.closing = Closing::CutShort;
                good
            }
            Line { answer: None, left: None, back: None, ended: None, signed: Some(signed), .. } if ended => {
                self.of.closing = Closing::Signed;
                if !self.of.header.key.signed(Signed::Returned, before.as_bytes(), &signed) {
                    self.faults.push(Fault::Signature);
                }
                true
            }
            _ => false,
        };
        if !known {
            self.faults.push(Fault::Line(number));
        }
    }

    fn happened(&mut self, what: impl Fn(String) -> Happened, at: String) -> bool {
        let good = is_time(&at);
        self.of.happened.push((self.of.entries.len(), what(at)));
        good
    }
}
