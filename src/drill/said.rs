//! How a question was answered: with the question and the mark, all that a record holds.

use super::mark::Mark;
use super::question::Question;
use super::record::{Attempt, View};
use super::task::Kind;
use crate::exact::Exact;
use crate::instrument::Instrument;

/// An answer as it was given, and when and how.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Said {
    /// Who answered.
    pub learner: String,
    /// When, in UTC as RFC 3339.
    pub at: String,
    /// Version of the generator that the question comes from.
    pub generator: u32,
    /// Seed of the run the question came from.
    pub seed: u64,
    /// How the instrument was shown.
    pub view: View,
    /// True when the glass was used.
    pub glass: bool,
    /// The style of the drawn lines.
    pub lines: String,
    /// Width of the picture in cells.
    pub cols: u32,
    /// Height of the picture in cells.
    pub rows: u32,
    /// The answer as typed; empty when passed over.
    pub answer: String,
    /// Time from the picture to the answer, in milliseconds.
    pub took_ms: u64,
}

impl Said {
    /// The record. The tool is the one of the question.
    pub fn record(self, question: &Question, tool: &Instrument, mark: &Mark) -> Attempt {
        let spell = |value: Exact| tool.notation.spell_with_unit(value, tool.unit);
        Attempt {
            learner: self.learner,
            at: self.at,
            instrument: tool.id.clone(),
            revision: tool.revision.0.clone(),
            generator: self.generator,
            seed: self.seed,
            number: question.number,
            variant: tool.record_word(&question.variant),
            conditions: question.conditions.word(tool),
            kind: Kind::Read,
            given: String::new(),
            asks: question.asks,
            setting: spell(tool.value(question.setting)),
            zero_error: spell(tool.value(question.zero_error)),
            view: self.view,
            glass: self.glass,
            lines: self.lines,
            cols: self.cols,
            rows: self.rows,
            answer: self.answer,
            expected: spell(mark.expected),
            verdict: mark.verdict,
            misreads: mark.misreads.iter().map(|found| found.misread.id.to_owned()).collect(),
            took_ms: self.took_ms,
        }
    }
}
