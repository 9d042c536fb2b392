//! The paper of a set line by line: a self-test or a check without a full screen.

mod plain;

use super::asker::{Asker, Easel};
use super::{Frame, now};
use crate::class::card::Card;
use crate::class::sitting::End;
use crate::cli::args::{Common, Size};
use crate::cli::exit::Halt;
use crate::cli::out::{self, Out};
use crate::cli::picture::Look;
use crate::cli::terminal;
use crate::drill::Verdict;
use crate::drill::set::{Allowed, DrillSet};
use crate::instrument::Catalogue;
use crate::render::Glass;
use crate::scene::View;
use crate::session::{Act, Bench, Exercise, Keep, Missing, On, Whose};
use crate::store::round::{Desk, HandedIn, Note};
use crate::store::{self, Store};
use crate::wording::{command, exercise as say};
use rand::TryRng;
use rand::rngs::SysRng;
use std::time::Instant;

pub(in crate::cli) use super::words::explain;
pub(super) use plain::{Over, questions};

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
    let exercise = exercise.map_err(|what| missing(&what))?;
    let mut sitter = Sitter::new(exercise, catalogue, frame, (store, Put::Away))?;
    sitter.desk = desk;
    plain::run(&mut sitter, out)?;
    let began = sitter.began;
    Ok(Sat { exercise: sitter.exercise, began, unsaved: sitter.unsaved, handed: sitter.handed })
}

/// Somebody answering a paper.
pub(super) struct Sitter<'a> {
    pub(super) exercise: Exercise,
    bench: Bench,
    pub(super) catalogue: &'a Catalogue,
    easel: Easel,
    store: Option<Store>,
    /// Whether the paper is put away as it stands, to be taken up again.
    put: Put,
    /// Where a job card is worked on.
    desk: Option<Desk>,
    handed: Option<String>,
    /// Something could not be kept.
    pub(super) unsaved: bool,
    began: Instant,
}

/// What is kept of a paper that is not ended.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Put {
    /// It is put away as it stands.
    Away,
    /// Nothing: it is asked by its seed.
    Nowhere,
}

impl<'a> Sitter<'a> {
    pub(super) fn new(
        exercise: Exercise,
        catalogue: &'a Catalogue,
        frame: Frame,
        (store, put): (Option<Store>, Put),
    ) -> Result<Self, Halt> {
        let bench = exercise.bench(catalogue).ok_or_else(|| missing(&Missing::Question(1)))?;
        let (easel, began) = (Easel::new(frame), Instant::now());
        let (desk, handed, unsaved) = (None, None, false);
        let sitter = Self { exercise, bench, catalogue, easel, store, put, desk, handed, unsaved, began };
        sitter.look_over()?;
        Ok(sitter)
    }

    /// Every picture of the paper must have room before it is begun: a set is asked as a whole or not at all.
    fn look_over(&self) -> Result<(), Halt> {
        let (first, _) = self.exercise.which();
        for (number, item) in (1..).zip(self.exercise.paper()).skip_while(|(number, _)| *number < first) {
            let parts = item.task(self.catalogue).map(|task| task.parts).unwrap_or_default();
            for sight in parts.iter().flat_map(|part| part.earlier().into_iter().chain(part.pictures.clone()))
            {
                let drawn = self.easel.frame.draw(&sight, self.glass(None), 0);
                drawn.map_err(|halt| of_question(number, halt))?;
            }
        }
        Ok(())
    }

    /// Ends it as it stands.
    pub(super) fn end(&mut self, end: End) {
        let keep = self.exercise.end(end, &now());
        self.keep(keep);
    }

    /// Puts down what came of it, and where the paper stands.
    fn keep(&mut self, keep: Vec<Keep>) {
        if keep.is_empty() {
            return;
        }
        if self.put == Put::Away {
            self.put_away(Leaves::No);
        }
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
        let Some(desk) = &mut self.desk else { return };
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

    fn easel(&self) -> &Easel {
        &self.easel
    }

    fn easel_mut(&mut self) -> &mut Easel {
        &mut self.easel
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
        let count =
            |is: fn(&Verdict) -> bool| u32::try_from(verdicts().filter(is).count()).unwrap_or(u32::MAX);
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

/// What of a set cannot be asked.
pub(super) fn missing(what: &Missing) -> Halt {
    match what {
        Missing::Instrument(id) => Halt::usage(say::missing_instrument(id)),
        Missing::Question(place) => Halt::usage(say::missing_question(*place)),
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
