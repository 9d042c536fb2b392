//! A paper in words and pictures, for people at a terminal, a screen reader or a pipe.

use super::{Leaves, Sitter};
use crate::class::sitting::End;
use crate::cli::ask::asker::Asker;
use crate::cli::ask::words::{self, Heard};
use crate::cli::exit::Halt;
use crate::cli::input::Lines;
use crate::cli::out::{self, Out};
use crate::drill::set::Feedback;
use crate::wording;
use crate::wording::{bench, exercise as say};

/// Asks to the end, or until it is left or the input ends.
pub(super) fn run(sitter: &mut Sitter<'_>, out: &mut Out) -> Result<(), Halt> {
    head(sitter, out)?;
    let mut lines = Lines::new();
    sitter.exercise.shown(sitter.began.elapsed());
    sitter.put_away(Leaves::No);
    match questions(sitter, &mut lines, out)? {
        Over::Done | Over::TimeUp => Ok(()),
        Over::Left => {
            sitter.exercise.hidden(sitter.began.elapsed());
            sitter.put_away(Leaves::Now);
            out.line(if sitter.store.is_some() { say::LEFT } else { say::LEFT_FOR_GOOD })
        }
    }
}

/// How the questions came to an end.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(in crate::cli::ask) enum Over {
    /// None is left.
    Done,
    /// It was left, or the input has ended.
    Left,
    /// The time was up, and it has ended.
    TimeUp,
}

/// Asks question after question.
pub(in crate::cli::ask) fn questions(
    sitter: &mut Sitter<'_>,
    lines: &mut Lines,
    out: &mut Out,
) -> Result<Over, Halt> {
    loop {
        match words::one(sitter, lines, out)? {
            Heard::Answered => {}
            Heard::Left => return Ok(Over::Left),
            // What was typed since is not taken.
            Heard::TimeUp => {
                out.line(say::TIME_UP)?;
                out.line("")?;
                sitter.end(End::TimeUp);
                return Ok(Over::TimeUp);
            }
        }
        match sitter.exercise.feedback() {
            Feedback::Now => words::explain(sitter.bench(), out)?,
            Feedback::AtTheEnd => out.line(say::TAKEN)?,
        }
        out.line("")?;
        if !sitter.advance() {
            return Ok(Over::Done);
        }
    }
}

/// What there is to know before it begins.
fn head(sitter: &Sitter<'_>, out: &mut Out) -> Result<(), Halt> {
    let (set, sitting) = (sitter.exercise.set(), sitter.exercise.sitting());
    out.line(&out::clean_name(&set.title))?;
    out.line(say::form(sitting.purpose, set))?;
    for (label, text) in say::start(set, sitting.purpose, sitter.catalogue) {
        out.line(&out::clean_name(format!("{label:<14}{text}").trim_end()))?;
    }
    if !sitting.entries.is_empty() {
        out.line(&say::goes_on(sitter.exercise.which(), sitting.interruptions))?;
    }
    out.line(wording::CAUTIONS[0])?;
    out.line(bench::ASK_START)?;
    out.line("")
}
