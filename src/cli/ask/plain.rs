//! Questions in words and pictures, for people at a terminal, a screen reader or a pipe.

use super::{Picture, Sitting, read};
use crate::cli::exit::Halt;
use crate::cli::input::{Line, Lines};
use crate::cli::out::{self, Out};
use crate::reading::beside;
use crate::session::{Answered, Phase};
use crate::wording;
use crate::wording::command as say;

/// What was typed.
enum Typed {
    Answer(String),
    /// So many vernier lines to the right, or below nought to the left.
    Slide(i64),
    Look,
    Skip,
    Help,
    Quit,
}

/// Asks to the end, or until the input ends.
pub(super) fn run(sitting: &mut Sitting<'_>, lines: &mut Lines, out: &mut Out) -> Result<(), Halt> {
    out.line(say::ASK_START)?;
    out.line("")?;
    loop {
        let pictures = sitting.pose()?;
        pose(sitting, &pictures, out)?;
        while sitting.round.answered().is_none() {
            out.bytes(b": ")?;
            out.flush()?;
            let Some(line) = read(lines)? else {
                // The cursor still stands behind the colon.
                out.line("")?;
                return end(sitting, false, out);
            };
            match typed(line) {
                Typed::Quit => return end(sitting, false, out),
                Typed::Help => out.lines(say::ASK_HELP)?,
                Typed::Slide(by) => slide(sitting, by, out)?,
                Typed::Look => look(sitting, &pictures, out)?,
                Typed::Skip => sitting.skip()?,
                Typed::Answer(text) => {
                    sitting.answer(text)?;
                    if let Phase::Asking { again: Some(nonsense) } = sitting.round.phase() {
                        out.line(&say::once_more(*nonsense))?;
                    }
                }
            }
        }
        explain(sitting, out)?;
        if !sitting.round.advance() {
            return end(sitting, true, out);
        }
    }
}

fn typed(line: Line) -> Typed {
    let Line::Text(text) = line else {
        // Neither is a reading; the answer's own sentence says so.
        return Typed::Answer("\u{fffd}".to_owned());
    };
    let word = text.trim();
    let run_of = |sign: char| !word.is_empty() && word.chars().all(|c| c == sign);
    let length = i64::try_from(word.len()).unwrap_or(i64::MAX);
    match word.to_ascii_lowercase().as_str() {
        "?" | "help" => Typed::Help,
        "look" => Typed::Look,
        "skip" => Typed::Skip,
        "quit" => Typed::Quit,
        _ if run_of('<') => Typed::Slide(-length),
        _ if run_of('>') => Typed::Slide(length),
        _ => Typed::Answer(text),
    }
}

fn pose(sitting: &Sitting<'_>, pictures: &[Picture], out: &mut Out) -> Result<(), Halt> {
    let round = &sitting.round;
    let (instrument, question) = (round.instrument(), round.question());
    out.line(&say::question(round.number(), round.count(), &out::clean_name(&instrument.family)))?;
    for (n, picture) in pictures.iter().enumerate() {
        let beside = wording::beside(instrument, picture.role);
        if !beside.is_empty() {
            out.line(beside)?;
        } else if n > 0 {
            out.line(wording::then(instrument, pictures[n - 1].role))?;
        }
        show(sitting, picture, out)?;
    }
    if let Some(rows) = wording::sketch(question.asks) {
        out.lines(rows)?;
    }
    out.line(&wording::prompt(instrument, question.asks))
}

fn show(sitting: &Sitting<'_>, picture: &Picture, out: &mut Out) -> Result<(), Halt> {
    out.lines(sitting.frame.look.rows(&picture.drawing.grid))
}

/// The pictures in words.
fn look(sitting: &Sitting<'_>, pictures: &[Picture], out: &mut Out) -> Result<(), Halt> {
    for (n, picture) in pictures.iter().enumerate() {
        if n > 0 {
            out.line(wording::then(sitting.round.instrument(), pictures[n - 1].role))?;
        }
        out.lines(picture.sentences.iter().map(|line| out::clean_name(line)))?;
    }
    out.lines(wording::sketched(sitting.round.question().asks))?;
    Ok(())
}

fn slide(sitting: &mut Sitting<'_>, by: i64, out: &mut Out) -> Result<(), Halt> {
    let instrument = sitting.round.instrument();
    let Some(lines) = instrument.vernier_lines() else {
        return out.line(say::NO_GLASS_HERE);
    };
    let by = if instrument.glass_runs_leftward() { -by } else { by };
    // The glass starts over the vernier's 0.
    let line = sitting.lens.unwrap_or(0).saturating_add(by).clamp(*lines.start(), *lines.end());
    match sitting.slide(line)? {
        Some(picture) => {
            show(sitting, &picture, out)?;
            out.line(&wording::prompt(sitting.round.instrument(), sitting.round.question().asks))
        }
        None => out.line(say::NO_GLASS_HERE),
    }
}

fn explain(sitting: &Sitting<'_>, out: &mut Out) -> Result<(), Halt> {
    let (instrument, question) = (sitting.round.instrument(), sitting.round.question());
    let Some(Answered { mark, shares, .. }) = sitting.round.answered() else {
        return Ok(());
    };
    out.line(&wording::verdict(instrument, question.asks, mark))?;
    if let Some(note) = mark.note {
        out.line(wording::note(note))?;
    }
    if let Some(found) = mark.misreads.first() {
        out.line(&found.wrong.did)?;
        let both = beside(&question.case(instrument), found.misread, &found.wrong);
        for row in both.iter().flat_map(|both| &both.rows).filter(|row| row.is_replaced()) {
            out.line(&out::clean_name(&wording::beside::sentence(instrument, row)))?;
        }
        out.line(found.misread.cure)?;
    }
    let steps = say::steps(instrument, &question.reading, shares, question.zero_error, question.asks);
    let worked = wording::worked(&question.case(instrument));
    out.lines(steps.iter().chain(&worked).map(|line| format!("    {}", out::clean_name(line))))?;
    if let Some(advice) = wording::advice(&question.conditions) {
        out.line(advice)?;
    }
    // Said once, at the answer that settled it.
    let settled = sitting.round.diagnosis().filter(|diagnosis| diagnosis.asked == sitting.round.asked_here());
    if let Some(sentence) = settled.as_ref().and_then(wording::found) {
        out.line(&sentence)?;
    }
    out.line("")
}

fn end(sitting: &Sitting<'_>, complete: bool, out: &mut Out) -> Result<(), Halt> {
    let (right, answered, skipped) = sitting.round.score();
    out.line(&say::ask_summary(right, answered, skipped, complete))
}
