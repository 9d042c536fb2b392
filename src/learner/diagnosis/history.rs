//! An inquiry out of the record: what was asked and answered is all that it rests on.

use super::inquiry::{Heard, Inquiry};
use super::prior::Prior;
use crate::drill::record::Attempt;
use crate::drill::{Kind, Put, Question, Verdict};
use crate::exact::parse_answer;
use crate::instrument::Instrument;

impl Inquiry {
    /// The inquiry that these attempts come to, those on other instruments aside. One that cannot be read on the instrument as it
    /// is now (its definition was changed) is left out.
    pub fn over(instrument: &Instrument, prior: &Prior, attempts: &[Attempt]) -> Self {
        let mut inquiry = Self::new(instrument, prior);
        for attempt in attempts.iter().filter(|one| one.instrument == instrument.id && one.kind == Kind::Read)
        {
            if let Some((question, tool, heard)) = made_out(attempt, instrument) {
                inquiry.hear(&question, &tool, heard);
            }
        }
        inquiry
    }
}

/// The question of an attempt, the tool it was read on, and what was answered.
fn made_out(attempt: &Attempt, instrument: &Instrument) -> Option<(Question, Instrument, Heard)> {
    let (question, tool) = Put::of(attempt).question(attempt.number, instrument)?;
    let heard = match attempt.verdict {
        Verdict::Skipped => Heard::Skipped,
        verdict if verdict.is_right() => Heard::Right,
        _ => Heard::Wrong(parse_answer(&attempt.answer, tool.unit).ok()?.value),
    };
    Some((question, tool, heard))
}
