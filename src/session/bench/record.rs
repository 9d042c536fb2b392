//! The record of an answer at the bench.

use super::{Bench, Noted};
use crate::drill::record::Attempt;
use crate::drill::task::{Given, Marked};
use crate::instrument::Instrument;

impl Bench {
    /// What is kept of an answer.
    pub(super) fn record(
        &self,
        instrument: &Instrument,
        given: &Given,
        marked: &Marked,
        noted: Noted,
    ) -> Attempt {
        let part = self.part();
        let (tool, question) = (&part.tool, &part.question);
        let Noted { took, at, shown } = noted;
        Attempt {
            learner: self.learner.clone(),
            at,
            instrument: instrument.id.clone(),
            revision: instrument.revision.0.clone(),
            generator: self.generator,
            seed: self.seed.0,
            number: self.task.number,
            variant: tool.record_word(&question.variant),
            conditions: question.conditions.word(tool),
            kind: part.kind,
            given: part.asked.given(part),
            asks: question.asks,
            setting: tool.spell_with_unit(question.setting),
            zero_error: tool.spell_with_unit(question.zero_error),
            view: shown.view,
            glass: self.glass_used || shown.glass,
            lines: shown.lines.to_owned(),
            cols: shown.cols,
            rows: shown.rows,
            answer: part.given_word(given),
            expected: part.expected_word(),
            verdict: marked.verdict,
            misreads: marked.slips.iter().map(|found| found.misread.id.to_owned()).collect(),
            took_ms: u64::try_from(took.as_millis()).unwrap_or(u64::MAX),
        }
    }
}
