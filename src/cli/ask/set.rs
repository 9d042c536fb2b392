//! The paper of a drill set, asked by its seed: nothing of it is put away, and the answers are kept for a learner who is named.

use super::asker::{Asker, Desk};
use super::message::{OutcomeOut, SetHeadOut};
use super::stream::{self, Stream};
use super::words::{self, Heard};
use super::{Frame, now, open};
use crate::class::sitting::End;
use crate::cli::args::{Ask, Choose, Common};
use crate::cli::exit::{Exit, Halt};
use crate::cli::input::Lines;
use crate::cli::out::{self, Out};
use crate::drill::Seed;
use crate::drill::set::{Allowed, DrillSet, Feedback};
use crate::drill::task::Task;
use crate::instrument::{Catalogue, Instrument};
use crate::render::Glass;
use crate::session::{Act, Bench, Exercise, Keep, Missing, On, Whose};
use crate::store::Store;
use crate::wording;
use crate::wording::{bench, command, exercise as say};
use std::time::Instant;

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
    let exercise = Exercise::begin(set, catalogue, whose).map_err(missing)?;
    let bench = exercise.bench(catalogue).ok_or_else(|| missing(Missing::Question(1)))?;
    let desk = Desk::new(frame);
    let mut sitting =
        Sitting { exercise, bench, catalogue, desk, store, unsaved: false, began: Instant::now() };
    sitting.look_over()?;
    let mut lines = Lines::new();
    if args.json {
        in_stream(&mut sitting, seed, args, &mut lines, out)?;
    } else {
        in_words(&mut sitting, &mut lines, out)?;
    }
    Ok(if sitting.unsaved { Exit::Trouble } else { Exit::Fine })
}

fn missing(what: Missing) -> Halt {
    match what {
        Missing::Instrument(id) => Halt::usage(say::missing_instrument(&id)),
        Missing::Question(place) => Halt::usage(say::missing_question(place)),
    }
}

/// Somebody answering a paper.
struct Sitting<'a> {
    exercise: Exercise,
    bench: Bench,
    catalogue: &'a Catalogue,
    desk: Desk,
    /// Where answers are kept, if they are.
    store: Option<Store>,
    /// An answer could not be kept.
    unsaved: bool,
    began: Instant,
}

impl Sitting<'_> {
    /// Every picture of the paper must have room before it is begun: a set asks all of it or nothing.
    fn look_over(&self) -> Result<(), Halt> {
        for item in self.exercise.paper() {
            let parts = item.task(self.catalogue).map(|task: Task| task.parts).unwrap_or_default();
            let sights =
                parts.iter().flat_map(|part| part.earlier().into_iter().chain(part.pictures.clone()));
            for sight in sights {
                self.desk.frame.draw(&sight, self.glass(None), 0).map_err(|halt| match halt {
                    Halt::Said { exit, why } => Halt::Said { exit, why: say::of_question(item.place, &why) },
                    Halt::ReaderGone => halt,
                })?;
            }
        }
        Ok(())
    }

    fn keep(&mut self, all: Vec<Keep>) {
        for keep in all {
            let Keep::Save(attempts) = keep else { continue };
            for attempt in attempts {
                if let Some(Err(error)) = self.store.as_ref().map(|store| store.append(&attempt)) {
                    self.unsaved = true;
                    out::complain(&error.to_string());
                }
            }
        }
    }

    /// Ends it as it stands.
    fn end(&mut self, end: End) {
        let keep = self.exercise.end(end, &now());
        self.keep(keep);
    }
}

impl Asker for Sitting<'_> {
    fn bench(&self) -> &Bench {
        &self.bench
    }

    fn desk(&self) -> &Desk {
        &self.desk
    }

    fn desk_mut(&mut self) -> &mut Desk {
        &mut self.desk
    }

    fn which(&self) -> (u32, u32) {
        self.exercise.which()
    }

    fn take(&mut self, act: Act) {
        let keep = self.exercise.act(&mut self.bench, self.catalogue, act);
        self.keep(keep);
    }

    fn advance(&mut self) -> bool {
        match self.exercise.go_on(&mut self.bench, self.catalogue, &now()) {
            On::Here => true,
            On::Next(next) => {
                self.bench = *next;
                true
            }
            On::Over(keep) => {
                self.keep(keep);
                false
            }
        }
    }

    fn score(&self) -> (u32, u32, u32) {
        let verdicts = || self.exercise.sitting().entries.iter().map(|entry| entry.attempt.verdict);
        let count = |is: fn(&crate::drill::Verdict) -> bool| {
            u32::try_from(verdicts().filter(is).count()).unwrap_or(u32::MAX)
        };
        (count(|v| v.is_right()), count(|v| v.is_answer()), count(|v| !v.is_answer()))
    }

    fn glass(&self, over: Option<i64>) -> Glass {
        match (self.exercise.glass(), over) {
            (Allowed::No, _) => Glass::Forbidden,
            (Allowed::Yes, None) => Glass::IfNeeded,
            (Allowed::Yes, Some(line)) => Glass::At(line),
        }
    }

    fn clock(&self) -> String {
        let left = self.exercise.left(self.began.elapsed());
        left.map_or_else(String::new, |left| format!("   {}", say::clock(left)))
    }

    fn is_time_up(&self) -> bool {
        self.exercise.left(self.began.elapsed()).is_some_and(|left| left.is_zero())
    }

    fn is_silent(&self) -> bool {
        self.exercise.is_silent()
    }

    fn no_glass(&self) -> &'static str {
        if self.exercise.glass() == Allowed::No { say::NO_GLASS } else { command::NO_GLASS_HERE }
    }
}

fn in_words(sitting: &mut Sitting<'_>, lines: &mut Lines, out: &mut Out) -> Result<(), Halt> {
    let set = sitting.exercise.set();
    out.line(&out::clean_name(&format!("{} ({})", set.title, wording::set::in_short(set))))?;
    out.line(bench::ASK_START)?;
    out.line("")?;
    loop {
        match words::one(sitting, lines, out)? {
            Heard::Answered if sitting.is_silent() => out.line(say::TAKEN)?,
            Heard::Answered => words::explain(sitting.bench(), out)?,
            Heard::Left => {
                sitting.end(End::Left);
                break;
            }
            Heard::TimeUp => {
                out.line(say::TIME_UP)?;
                sitting.end(End::TimeUp);
                break;
            }
        }
        out.line("")?;
        if !sitting.advance() {
            break;
        }
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
    sitting: &mut Sitting<'_>,
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
