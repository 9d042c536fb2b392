//! Questions of other kinds, line by line.

mod json;
mod plain;

use super::{Frame, Picture, now, read};
use crate::cli::args::{Ask, Common};
use crate::cli::exit::{Exit, Halt};
use crate::cli::input::Lines;
use crate::cli::out::{self, Out};
use crate::cli::shelf;
use crate::drill::{Seed, record};
use crate::instrument::Instrument;
use crate::render::Glass;
use crate::scene::View;
use crate::session::{Act, Effect, Noted, Programme, Shown, Tour};
use crate::store::Store;
use crate::wording::command as say;
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
    let tour = Tour::new(instruments, learner, programme, seed, args.count);
    let tour = tour.ok_or_else(|| Halt::usage(say::NO_SUCH_QUESTION))?;
    let mut sitting =
        Sitting { tour, frame, store, unsaved: false, shown_at: Instant::now(), lens: [None; 2] };
    let mut lines = Lines::new();
    if args.json {
        json::run(&mut sitting, instruments, seed, (args, programme), &mut lines, out)?;
    } else {
        plain::run(&mut sitting, &mut lines, out)?;
    }
    Ok(if sitting.unsaved { Exit::Trouble } else { Exit::Fine })
}

/// Someone answering.
struct Sitting<'a> {
    tour: Tour<'a>,
    frame: Frame,
    /// Where answers are kept, if they are.
    store: Option<Store>,
    /// An answer could not be kept.
    unsaved: bool,
    shown_at: Instant,
    /// Where the glass is held over each of the pictures, if it has been slid.
    lens: [Option<i64>; 2],
}

impl Sitting<'_> {
    /// The pictures of the part that is up, what is seen before the work first; the clock starts.
    fn pose(&mut self) -> Result<Vec<Picture>, Halt> {
        self.lens = [self.tour.bench().part().glass, None];
        let mut pictures = self.all();
        for _ in 0..TRIES {
            // What cannot be drawn at this size is not asked about.
            if pictures.is_ok() || self.tour.bench().which().0 > 1 {
                break;
            }
            self.tour.pass_over();
            self.lens = [self.tour.bench().part().glass, None];
            pictures = self.all();
        }
        self.shown_at = Instant::now();
        pictures
    }

    fn all(&self) -> Result<Vec<Picture>, Halt> {
        let bench = self.tour.bench();
        let part = bench.part();
        let mut all = Vec::new();
        // A later part has seen it.
        if bench.which().0 == 1 {
            for sight in part.earlier() {
                all.push(self.frame.draw(&sight, Glass::IfNeeded, 0)?);
            }
        }
        all.extend(self.work()?);
        Ok(all)
    }

    /// The pictures of the work as they are now.
    fn work(&self) -> Result<Vec<Picture>, Halt> {
        let glass = |place: usize| self.lens.get(place).copied().flatten().map_or(Glass::IfNeeded, Glass::At);
        let sights = self.tour.bench().sights();
        sights.iter().enumerate().map(|(place, sight)| self.frame.draw(sight, glass(place), 0)).collect()
    }

    /// One of the pictures with the glass over a vernier line; `None` where there is no glass to slide.
    fn slide(&mut self, place: usize, line: i64) -> Result<Option<Picture>, Halt> {
        let Some(sight) = self.tour.bench().sights().into_iter().nth(place) else { return Ok(None) };
        let picture = self.frame.draw(&sight, Glass::At(line), 0)?;
        if picture.drawing.glass.is_none() {
            return Ok(None);
        }
        self.lens[place.min(1)] = picture.drawing.glass;
        self.take(Act::Glass);
        Ok(Some(picture))
    }

    /// Answers, moves or locks the tool, as it was typed.
    fn answer(&mut self, text: String) -> Result<(), Halt> {
        let noted = self.noted()?;
        self.take(Act::Type(text, noted));
        Ok(())
    }

    /// Takes one of the answers offered.
    fn choose(&mut self, place: usize) -> Result<(), Halt> {
        let noted = self.noted()?;
        self.take(Act::Choose(place, noted));
        Ok(())
    }

    /// Passes over.
    fn skip(&mut self) -> Result<(), Halt> {
        let noted = self.noted()?;
        self.take(Act::Skip(noted));
        Ok(())
    }

    fn take(&mut self, act: Act) {
        for Effect::Save(attempt) in self.tour.act(act) {
            if let Some(Err(error)) = self.store.as_ref().map(|store| store.append(&attempt)) {
                self.unsaved = true;
                out::complain(&error.to_string());
            }
        }
    }

    fn noted(&self) -> Result<Noted, Halt> {
        let pictures = self.work()?;
        let first = pictures.first();
        let shown = Shown {
            view: match first.map_or(self.frame.view, |picture| picture.drawing.view) {
                View::Held => record::View::Held,
                View::Flat => record::View::Flat,
            },
            lines: self.frame.look.lines.word(),
            cols: first.map_or(0, |picture| u32::from(picture.size.cols)),
            rows: first.map_or(0, |picture| u32::from(picture.size.rows)),
            glass: pictures.iter().any(|picture| picture.drawing.glass.is_some()),
        };
        Ok(Noted { took: self.shown_at.elapsed(), at: now(), shown })
    }
}
