//! The lines as JSON.

use super::Header;
use crate::class::sitting::{End, Entry};
use crate::drill::Kind;
use crate::drill::record::{Asks, Attempt, Verdict, View};
use serde::{Deserialize, Serialize};

/// What the first line says it is.
pub(super) const WHAT: &str = "returned work";

/// The first line.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct First {
    pub linefall: String,
    pub form: u32,
    pub header: Header,
}

/// As much of the first line as every version has.
#[derive(Deserialize)]
pub(super) struct Form {
    pub linefall: String,
    pub form: u32,
}

/// Any other line: one of these, after the hash of the line before.
#[derive(Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Line {
    pub after: String,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub answer: Option<Answer>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub left: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub back: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub ended: Option<Ended>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub signed: Option<String>,
}

/// The end of a sitting.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Ended {
    pub at: String,
    pub how: End,
}

/// An answer: the attempt without the learner, who stands in the first line.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Answer {
    place: u32,
    part: u32,
    at: String,
    instrument: String,
    revision: String,
    generator: u32,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    seed: Option<u64>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    number: Option<u32>,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    variant: String,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    conditions: String,
    kind: Kind,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    given: String,
    asks: Asks,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    setting: String,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    zero_error: String,
    view: View,
    glass: bool,
    lines: String,
    cols: u32,
    rows: u32,
    #[serde(rename = "answer")]
    typed: String,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    expected: String,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    verdict: Option<Verdict>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    misreads: Vec<String>,
    took_ms: u64,
}

impl Answer {
    pub fn of(place: u32, part: u32, attempt: &Attempt) -> Self {
        let of = attempt.clone();
        Self {
            place,
            part,
            at: of.at,
            instrument: of.instrument,
            revision: of.revision,
            generator: of.generator,
            seed: Some(of.seed),
            number: Some(of.number),
            variant: of.variant,
            conditions: of.conditions,
            kind: of.kind,
            given: of.given,
            asks: of.asks,
            setting: of.setting,
            zero_error: of.zero_error,
            view: of.view,
            glass: of.glass,
            lines: of.lines,
            cols: of.cols,
            rows: of.rows,
            typed: of.answer,
            expected: of.expected,
            verdict: Some(of.verdict),
            misreads: of.misreads,
            took_ms: of.took_ms,
        }
    }

    /// What was answered, and nothing of what is right.
    pub fn bare(place: u32, part: u32, attempt: &Attempt) -> Self {
        let (empty, none) = (String::new, None);
        Self {
            seed: None,
            number: none,
            variant: empty(),
            conditions: empty(),
            setting: empty(),
            zero_error: empty(),
            expected: empty(),
            verdict: None,
            misreads: Vec::new(),
            ..Self::of(place, part, attempt)
        }
    }

    /// True where nothing of what is right stands in it, or all of it.
    pub fn is_in_one_form(&self) -> bool {
        let there = [
            self.seed.is_some(),
            self.number.is_some(),
            !self.setting.is_empty(),
            !self.zero_error.is_empty(),
            !self.expected.is_empty(),
            self.verdict.is_some(),
        ];
        let more = !self.variant.is_empty() || !self.conditions.is_empty() || !self.misreads.is_empty();
        there.iter().all(|is| *is) || !(more || there.contains(&true))
    }

    pub fn at(&self) -> &str {
        &self.at
    }

    pub fn entry(self, learner: &str) -> Entry {
        let attempt = Attempt {
            learner: learner.to_owned(),
            at: self.at,
            instrument: self.instrument,
            revision: self.revision,
            generator: self.generator,
            seed: self.seed.unwrap_or(0),
            number: self.number.unwrap_or(0),
            variant: self.variant,
            conditions: self.conditions,
            kind: self.kind,
            given: self.given,
            asks: self.asks,
            setting: self.setting,
            zero_error: self.zero_error,
            view: self.view,
            glass: self.glass,
            lines: self.lines,
            cols: self.cols,
            rows: self.rows,
            answer: self.typed,
            expected: self.expected,
            verdict: self.verdict.unwrap_or(Verdict::Other),
            misreads: self.misreads,
            took_ms: self.took_ms,
        };
        Entry { place: self.place, part: self.part, attempt }
    }
}
