//! The paper of a drill set, asked by its seed: nothing of it is put away, and the answers are kept for a learner who is named.

use super::asker::Asker;
use super::message::{OutcomeOut, SetHeadOut};
use super::paper::{Over, Put, Sitter, missing, questions};
use super::stream::{self, Stream};
use super::{Frame, now, open, words};
use crate::class::sitting::End;
use crate::cli::args::{Ask, Choose, Common};
use crate::cli::exit::{Exit, Halt};
use crate::cli::input::Lines;
use crate::cli::out::{self, Out};
use crate::drill::Seed;
use crate::drill::set::{DrillSet, Feedback};
use crate::instrument::{Catalogue, Instrument};
use crate::session::{Exercise, Whose};
use crate::wording;
use crate::wording::{bench, command, exercise as say};

/// Asks.
pub(super) fn run(
    set: &DrillSet,
    (common, args, catalogue): (&Common, &Ask, &Catalogue),
    (frame, seed): (Frame, Seed),
    out: &mut Out,
) -> Result<Exit, Halt> {
    if args.asked.programme().is_some() {
        return Err(Halt::usage(command::SET_SAYS_WHAT));
    }
    if args.count.is_some() || args.choose == Choose::Telling {
        return Err(Halt::usage(command::SET_SAYS_HOW));
    }
    let seed = set.seed(seed);
    let set = DrillSet { seed: Some(seed), ..set.clone() };
    let learner = common.learner.as_deref();
    let store = learner.map(|_| open(common)).transpose()?;
    let whose = Whose {
        // It names a sitting that is kept; this one is not.
        id: format!("{:016x}", seed.0),
        learner: learner.unwrap_or_default().to_owned(),
        card: None,
        purpose: None,
        nth: 1,
        at: now(),
    };
    let exercise = Exercise::begin(set, catalogue, whose).map_err(|what| missing(&what))?;
    let mut sitting = Sitter::new(exercise, catalogue, frame, (store, Put::Nowhere))?;
    let mut lines = Lines::new();
    if args.json {
        in_stream(&mut sitting, seed, args, &mut lines, out)?;
    } else {
        in_words(&mut sitting, &mut lines, out)?;
    }
    Ok(if sitting.unsaved { Exit::Trouble } else { Exit::Fine })
}

fn in_words(sitting: &mut Sitter<'_>, lines: &mut Lines, out: &mut Out) -> Result<(), Halt> {
    let set = sitting.exercise.set();
    out.line(&out::clean_name(&format!("{} ({})", set.title, wording::set::in_short(set))))?;
    out.line(bench::ASK_START)?;
    out.line("")?;
    if questions(sitting, lines, out)? == Over::Left {
        sitting.end(End::Left);
    }
    let exercise = &sitting.exercise;
    let (judged, taken) = (exercise.judged(sitting.catalogue), exercise.sitting());
    if exercise.feedback() == Feedback::AtTheEnd {
        for entry in taken.entries.iter().filter(|entry| !entry.attempt.verdict.is_right()) {
            if let Some(bench) = exercise.look_back(sitting.catalogue, entry) {
                out.line(&say::looked_at(entry.place, &entry.attempt.answer))?;
                words::explain(&bench, out)?;
                out.line("")?;
            }
        }
    }
    out.line(&say::head(taken.purpose, judged.outcome))?;
    out.lines(say::result(&judged, taken, exercise.plan().as_ref()))
}

fn in_stream(
    sitting: &mut Sitter<'_>,
    seed: Seed,
    args: &Ask,
    lines: &mut Lines,
    out: &mut Out,
) -> Result<(), Halt> {
    let set = sitting.exercise.set();
    let mut tools: Vec<&Instrument> = Vec::new();
    for item in sitting.exercise.paper() {
        tools.extend(
            sitting.catalogue.get(&item.instrument).filter(|tool| tools.iter().all(|t| t.id != tool.id)),
        );
    }
    let kinds = sitting.exercise.paper().iter().map(|item| item.kind).collect();
    let mut head = stream::head(&tools, seed, set.count, &kinds);
    head.set = Some(SetHeadOut {
        id: set.id.clone(),
        title: set.title.clone(),
        revision: set.revision.clone(),
        feedback: set.feedback,
        glass: set.glass,
        seconds: set.time,
    });
    let complete = stream::run(sitting, Stream { seed, reveal: args.reveal, head }, lines, out)?;
    if !complete {
        sitting.end(if sitting.is_time_up() { End::TimeUp } else { End::Left });
    }
    let exercise = &sitting.exercise;
    if exercise.feedback() == Feedback::AtTheEnd {
        for entry in &exercise.sitting().entries {
            if let Some(bench) = exercise.look_back(sitting.catalogue, entry) {
                stream::told(seed, entry.place, &bench, out)?;
            }
        }
    }
    let judged = exercise.judged(sitting.catalogue);
    let outcome = OutcomeOut {
        questions: judged.score.answered,
        right: judged.score.right,
        end: exercise.sitting().end,
        stands: judged.outcome,
    };
    stream::end(sitting, complete, Some(outcome), out)
}
