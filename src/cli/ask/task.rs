//! Questions of other kinds, line by line.

use super::asker::{Asker, Easel};
use super::stream::{self, Stream};
use super::words::{self, Heard};
use super::{Frame, Picture};
use crate::cli::args::{Ask, Common};
use crate::cli::exit::{Exit, Halt};
use crate::cli::input::Lines;
use crate::cli::out::{self, Out};
use crate::cli::shelf;
use crate::drill::Seed;
use crate::instrument::Instrument;
use crate::session::{Act, Bench, Effect, Programme, Tour};
use crate::store::Store;
use crate::wording::{bench, command as say};
use std::time::Instant;

/// How many tasks are passed over where the pictures of none fit.
const TRIES: usize = 24;

/// Asks.
pub(super) fn run(
    instruments: &[&Instrument],
    seed: Seed,
    (common, args, programme): (&Common, &Ask, &Programme),
    (frame, store): (Frame, Option<Store>),
    out: &mut Out,
) -> Result<Exit, Halt> {
    if let (Some(_), [instrument]) = (&args.instrument, instruments) {
        shelf::sensible(instrument, programme)?;
    }
    let learner = common.learner.as_deref().unwrap_or_default();
    let tour = Tour::new(instruments, learner, programme, seed, args.count());
    let tour = tour.ok_or_else(|| Halt::usage(say::NO_SUCH_QUESTION))?;
    let mut sitting = Sitting { tour, easel: Easel::new(frame), store, unsaved: false };
    let mut lines = Lines::new();
    if args.json {
        let asked = instruments.iter().flat_map(|tool| programme.kinds(tool)).collect();
        let head = stream::head(instruments, seed, args.count(), &asked);
        let stream = Stream { seed, reveal: args.reveal, head };
        let complete = stream::run(&mut sitting, stream, &mut lines, out)?;
        stream::end(&sitting, complete, None, out)?;
    } else {
        in_words(&mut sitting, &mut lines, out)?;
    }
    Ok(if sitting.unsaved { Exit::Trouble } else { Exit::Fine })
}

/// Someone answering.
struct Sitting<'a> {
    tour: Tour<'a>,
    easel: Easel,
    /// Where answers are kept, if they are.
    store: Option<Store>,
    /// An answer could not be kept.
    unsaved: bool,
}

impl Asker for Sitting<'_> {
    fn bench(&self) -> &Bench {
        self.tour.bench()
    }

    fn easel(&self) -> &Easel {
        &self.easel
    }

    fn easel_mut(&mut self) -> &mut Easel {
        &mut self.easel
    }

    fn which(&self) -> (u32, u32) {
        (self.tour.number(), self.tour.count())
    }

    fn take(&mut self, act: Act) {
        for Effect::Save(attempt) in self.tour.act(act) {
            if let Some(Err(error)) = self.store.as_ref().map(|store| store.append(&attempt)) {
                self.unsaved = true;
                out::complain(&error.to_string());
            }
        }
    }

    fn advance(&mut self) -> bool {
        self.tour.advance()
    }

    fn score(&self) -> (u32, u32, u32) {
        self.tour.score()
    }

    fn pose(&mut self) -> Result<Vec<Picture>, Halt> {
        self.open();
        let mut pictures = self.all();
        for _ in 0..TRIES {
            // What cannot be drawn at this size is not asked about.
            if pictures.is_ok() || self.tour.bench().which().0 > 1 {
                break;
            }
            self.tour.pass_over();
            self.open();
            pictures = self.all();
        }
        self.easel.shown_at = Instant::now();
        pictures
    }
}

/// Asks in words to the end, or until the input ends.
fn in_words(sitting: &mut Sitting<'_>, lines: &mut Lines, out: &mut Out) -> Result<(), Halt> {
    out.line(bench::ASK_START)?;
    out.line("")?;
    let complete = loop {
        match words::one(sitting, lines, out)? {
            Heard::Answered => {
                words::explain(sitting.bench(), out)?;
                out.line("")?;
            }
            Heard::Left | Heard::TimeUp => break false,
        }
        if !sitting.advance() {
            break true;
        }
    };
    let (right, answered, skipped) = sitting.score();
    out.line(&say::ask_summary(right, answered, skipped, complete))
}
