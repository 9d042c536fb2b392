//! The paper of a set line by line: a self-test or a check without a full screen.

use super::asker::{self, Asker};
use super::words::{self, Heard};
use super::{Frame, now};
use crate::class::card::Card;
use crate::class::sitting::End;
use crate::cli::args::{Common, Size};
use crate::cli::exit::Halt;
use crate::cli::input::Lines;
use crate::cli::out::{self, Out};
use crate::cli::picture::Look;
use crate::cli::terminal;
use crate::drill::set::{Allowed, DrillSet};
use crate::instrument::Catalogue;
use crate::render::Glass;
use crate::scene::View;
use crate::session::{Act, Bench, Exercise, Keep, Missing, On, Whose};
use crate::store::round::{Desk, HandedIn, Note};
use crate::store::{self, Store};
use crate::wording::{self, bench, command, exercise as say};
use rand::TryRng;
use rand::rngs::SysRng;
use std::time::Instant;

pub(in crate::cli) use words::explain;

/// Rows of a terminal kept free below a picture for the question and the answer.
const ROWS_FOR_WORDS: u16 = 4;

/// How it is sat.
pub struct Seat<'a> {
    /// What holds for every command.
    pub common: &'a Common,
    /// The instruments.
    pub catalogue: &'a Catalogue,
    /// Who answers.
    pub learner: String,
    /// Sixteen hexadecimal digits by chance.
    pub id: String,
    /// The job card that is answered.
    pub card: Option<&'a Card>,
    /// Where it is kept; none in a private session.
    pub store: Option<Store>,
    /// The size of the pictures, where somebody chose it.
    pub size: Option<Size>,
    /// In the hand, or laid flat.
    pub view: View,
}

/// How it stands afterwards.
pub struct Sat {
    /// The exercise.
    pub exercise: Exercise,
    /// When it was shown.
    pub began: Instant,
    /// Something could not be kept.
    pub unsaved: bool,
    /// What became of the work on a job card.
    pub handed: Option<String>,
}

/// Asks a set to its end, or until it is left.
pub fn sit(asked: &DrillSet, seat: Seat<'_>, out: &mut Out) -> Result<Sat, Halt> {
    let Seat { common, catalogue, learner, id, card, store, size, view } = seat;
    let look = Look::on_standard_output(common);
    let own = || {
        let size = terminal::size()?;
        Some(Size { cols: size.cols, rows: size.rows.saturating_sub(ROWS_FOR_WORDS).max(1) })
    };
    let frame = Frame { look, size: size.or_else(own), view, own: false };
    let key = Exercise::key_of(&learner, card.map_or(&asked.id, |card| &card.number));
    let kept = store.as_ref().and_then(|store| store.setting(&key).ok().flatten());
    let mut desk = match card {
        Some(_) => Some(Desk::new(&store::data_dir(common.data_dir.clone())?)),
        None => None,
    };
    let on_desk = match (&mut desk, card) {
        (Some(desk), Some(card)) => Some(desk.look(&card.number, &learner)?),
        _ => None,
    };
    let (going, tries) = on_desk.map_or((None, 0), |found| (found.going, found.tries));
    let whose = Whose {
        id,
        learner,
        card: card.map(|card| card.number.clone()),
        purpose: card.map(|card| card.purpose),
        nth: tries + 1,
        at: now(),
    };
    let left = kept.as_deref().filter(|_| card.is_none());
    let left = left.and_then(|text| Exercise::read(asked, catalogue, text));
    let exercise = match (going, left.filter(|exercise| exercise.bench(catalogue).is_some())) {
        (Some(going), _) => Exercise::take_up(asked.clone(), catalogue, going, kept.as_deref()),
        (None, Some(exercise)) => Ok(exercise),
        (None, None) => Exercise::begin(asked.clone(), catalogue, whose),
    };
    let exercise = exercise.map_err(|missing| match missing {
        Missing::Instrument(id) => Halt::usage(say::missing_instrument(&id)),
        Missing::Question(place) => Halt::usage(say::missing_question(place)),
    })?;
    let bench = exercise.bench(catalogue).ok_or_else(|| Halt::usage(say::missing_question(1)))?;
    let began = Instant::now();
    let mut sitter = Sitter {
        exercise,
        bench,
        catalogue,
        drawn: asker::Desk::new(frame),
        store,
        card_desk: desk,
        handed: None,
        unsaved: false,
        began,
    };
    sitter.look_over()?;
    ask(&mut sitter, out)?;
    Ok(Sat { exercise: sitter.exercise, began, unsaved: sitter.unsaved, handed: sitter.handed })
}

/// Somebody answering a paper.
struct Sitter<'a> {
    exercise: Exercise,
    bench: Bench,
    catalogue: &'a Catalogue,
    drawn: asker::Desk,
    store: Option<Store>,
    /// Where a job card is worked on.
    card_desk: Option<Desk>,
    handed: Option<String>,
    unsaved: bool,
    began: Instant,
}

impl Sitter<'_> {
    /// Every picture of the paper must have room before it is begun.
    fn look_over(&self) -> Result<(), Halt> {
        let (first, _) = self.exercise.which();
        for (number, item) in (1..).zip(self.exercise.paper()).skip_while(|(number, _)| *number < first) {
            let parts = item.task(self.catalogue).map(|task| task.parts).unwrap_or_default();
            for sight in parts.iter().flat_map(|part| part.earlier().into_iter().chain(part.pictures.clone()))
            {
                self.drawn
                    .frame
                    .draw(&sight, self.glass(None), 0)
                    .map_err(|halt| of_question(number, halt))?;
            }
        }
        Ok(())
    }

    /// Puts down what came of it, and where the paper stands.
    fn keep(&mut self, keep: Vec<Keep>) {
        if keep.is_empty() {
            return;
        }
        self.put_away(Leaves::No);
        for attempt in keep.into_iter().flat_map(|keep| match keep {
            Keep::Save(all) => all,
            Keep::Append(_) | Keep::End(_) => Vec::new(),
        }) {
            let outcome = self.store.as_ref().map(|store| store.append(&attempt).map(drop));
            self.complain(outcome);
        }
    }

    /// Puts the paper away as it stands.
    fn put_away(&mut self, leaves: Leaves) {
        let text = self.exercise.put_away(self.began.elapsed());
        let outcome = self.store.as_ref().map(|store| store.set_setting(&self.exercise.key(), &text));
        self.complain(outcome);
        let Some(desk) = &mut self.card_desk else { return };
        let mut drawn = [0; 32];
        if let Err(cause) = SysRng.try_fill_bytes(&mut drawn) {
            self.unsaved = true;
            return out::complain(&format!("no random numbers: {cause}"));
        }
        let (seed, nth) = (self.exercise.seed().0, self.exercise.nth());
        let note = Note { seed, nth, at: now(), leaves: leaves == Leaves::Now, drawn };
        match desk.put_down(self.exercise.sitting(), &note) {
            Ok(None) => {}
            Ok(Some(HandedIn { waiting, why, .. })) => {
                let why = why.map(|why| why.to_string());
                self.handed = Some(say::handed_in(waiting, why.as_deref()));
            }
            Err(error) => self.complain(Some(Err(error))),
        }
    }

    fn complain(&mut self, outcome: Option<Result<(), store::StoreError>>) {
        if let Some(Err(error)) = outcome {
            self.unsaved = true;
            out::complain(&error.to_string());
        }
    }
}

impl Asker for Sitter<'_> {
    fn bench(&self) -> &Bench {
        &self.bench
    }

    fn desk(&self) -> &asker::Desk {
        &self.drawn
    }

    fn desk_mut(&mut self) -> &mut asker::Desk {
        &mut self.drawn
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
        let judged = self.exercise.judged(self.catalogue);
        (judged.score.right, judged.score.answered - judged.passed_over, judged.passed_over)
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

/// Whether a paper is left.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Leaves {
    /// It goes on.
    No,
    /// It is left now.
    Now,
}

/// A refusal with the question it belongs to.
fn of_question(number: u32, halt: Halt) -> Halt {
    match halt {
        Halt::Said { exit, why } => Halt::Said { exit, why: say::of_question(number, &why) },
        Halt::ReaderGone => halt,
    }
}

/// Asks to the end, or until it is left or the input ends.
fn ask(sitter: &mut Sitter<'_>, out: &mut Out) -> Result<(), Halt> {
    head(sitter, out)?;
    let mut lines = Lines::new();
    sitter.exercise.shown(sitter.began.elapsed());
    sitter.put_away(Leaves::No);
    loop {
        match words::one(sitter, &mut lines, out)? {
            Heard::Answered if sitter.is_silent() => out.line(say::TAKEN)?,
            Heard::Answered => explain(&sitter.bench, out)?,
            Heard::Left => return leave(sitter, out),
            Heard::TimeUp => {
                out.line(say::TIME_UP)?;
                out.line("")?;
                let keep = sitter.exercise.end(End::TimeUp, &now());
                sitter.keep(keep);
                return Ok(());
            }
        }
        out.line("")?;
        if !sitter.advance() {
            return Ok(());
        }
    }
}

/// What there is to know before it begins.
fn head(sitter: &Sitter<'_>, out: &mut Out) -> Result<(), Halt> {
    let (set, sitting) = (sitter.exercise.set(), sitter.exercise.sitting());
    out.line(&out::clean_name(&set.title))?;
    out.line(say::form(sitting.purpose, set))?;
    for (label, text) in say::start(set, sitting.purpose, say::WORDS, sitter.catalogue) {
        out.line(&out::clean_name(format!("{label:<14}{text}").trim_end()))?;
    }
    if !sitting.entries.is_empty() {
        out.line(&say::goes_on(sitter.exercise.which(), sitting.interruptions))?;
    }
    out.line(wording::CAUTIONS[0])?;
    out.line(bench::ASK_START)?;
    out.line("")
}

fn leave(sitter: &mut Sitter<'_>, out: &mut Out) -> Result<(), Halt> {
    sitter.exercise.hidden(sitter.began.elapsed());
    sitter.put_away(Leaves::Now);
    out.line(if sitter.store.is_some() { say::LEFT } else { say::LEFT_FOR_GOOD })
}
