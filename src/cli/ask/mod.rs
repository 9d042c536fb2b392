//! `linefall ask`: questions line by line.

mod asker;
mod json;
mod message;
pub mod options;
pub(in crate::cli) mod paper;
mod plain;
mod set;
mod stream;
mod task;
mod words;

use super::args::{Ask, Choose, Common, MOST_CELLS, Size};
use super::exit::{Exit, Halt};
use super::input::{Line, Lines};
use super::out::{self, Out};
use super::picture::Look;
use super::{shelf, terminal};
use crate::drill::{Question, Role, Seed, Sight, fullest, question, record};
use crate::exact::Quanta;
use crate::instrument::{Catalogue, Instrument};
use crate::render::describe::describe;
use crate::render::{self, Drawing, Glass, Refusal, Request};
use crate::scene::{self, View};
use crate::session::{self, Effect, Round, Shown, Step, Until};
use crate::store::{self, Store};
use crate::wording;
use crate::wording::command as say;
use crate::wording::doctor;
use rand::TryRng;
use rand::rngs::SysRng;
use std::time::Instant;

/// Rows of a terminal kept free below a picture for the question and the answer.
const ROWS_FOR_WORDS: u16 = 4;

/// Asks.
pub fn run(common: &Common, args: &Ask, out: &mut Out) -> Result<Exit, Halt> {
    let catalogue = shelf::catalogue(common);
    let seed = Seed(args.seed.map_or_else(any_seed, Ok)?);
    let frame = Frame::new(common, args);
    if let Some(name) =
        args.instrument.as_deref().filter(|name| !catalogue.names().any(|known| known == *name))
    {
        let sets = shelf::sets(common, &catalogue);
        if let Some(asked) = sets.get(name) {
            return set::run(asked, (common, args, &catalogue), (frame, seed), out);
        }
        if sets.is_near(name) && crate::diag::nearest(name, catalogue.names()).is_none() {
            shelf::set(&sets, name)?;
        }
    }
    let instruments = instruments(&catalogue, args, &frame, seed)?;
    let learner = common.learner.as_deref();
    let store = learner.map(|_| open(common)).transpose()?;
    if let Some(programme) = args.asked.programme() {
        if args.choose == Choose::Telling {
            return Err(Halt::usage(say::TELLING_ARE_READINGS));
        }
        return task::run(&instruments, seed, (common, args, &programme), (frame, store), out);
    }
    let (choose, until) = manner(args)?;
    let round =
        Round::new(&instruments, learner.unwrap_or_default(), seed, args.count()).watched(choose, until);
    let mut sitting = Sitting { round, frame, store, unsaved: false, shown_at: Instant::now(), lens: None };
    let mut lines = Lines::new();
    if args.json {
        json::run(&mut sitting, &instruments, seed, args, &mut lines, out)?;
    } else {
        plain::run(&mut sitting, &mut lines, out)?;
    }
    Ok(if sitting.unsaved { Exit::Trouble } else { Exit::Fine })
}

/// How the questions are chosen, and when they end.
fn manner(args: &Ask) -> Result<(session::Choose, Until), Halt> {
    match args.choose {
        Choose::Plain => Ok((session::Choose::Plain, Until::Count)),
        Choose::Telling if args.instrument.is_none() => Err(Halt::usage(say::TELLING_IS_ABOUT_ONE)),
        Choose::Telling if args.keep_going => Ok((session::Choose::Telling, Until::Count)),
        Choose::Telling => Ok((session::Choose::Telling, Until::Told)),
    }
}

/// The one asked for, or the tools of the crib, or all shipped ones. A size that is too small is said before the first
/// question: of one instrument it is
/// the end, of several those that fit are left.
fn instruments<'a>(
    catalogue: &'a Catalogue,
    args: &Ask,
    frame: &Frame,
    seed: Seed,
) -> Result<Vec<&'a Instrument>, Halt> {
    let fits = |instrument: &Instrument| frame.fits(instrument, &question(instrument, seed, 1));
    if let Some(id) = &args.instrument {
        let instrument = shelf::find(catalogue, id)?;
        return fits(instrument).map(|()| vec![instrument]);
    }
    let mut fitting = Vec::new();
    let mut first_fault = None;
    for instrument in shelf::practised(catalogue) {
        match fits(instrument) {
            Ok(()) => fitting.push(instrument),
            Err(halt) => {
                if let Halt::Said { why, .. } = &halt {
                    out::complain(&say::left_out(&instrument.id, why));
                }
                first_fault.get_or_insert(halt);
            }
        }
    }
    match first_fault {
        Some(halt) if fitting.is_empty() => Err(halt),
        _ => Ok(fitting),
    }
}

/// A seed that is short enough to be typed again.
pub(super) fn any_seed() -> Result<u64, Halt> {
    SysRng.try_next_u32().map(u64::from).map_err(|cause| Halt::trouble(format!("no random numbers: {cause}")))
}

/// The store, which must take what is to be kept.
fn open(common: &Common) -> Result<Store, Halt> {
    let dir = store::data_dir(common.data_dir.clone())?;
    let opened = Store::open(&dir)?;
    if let Some(migrated) = &opened.migrated {
        let copy = out::clean_name(&migrated.copy.to_string_lossy());
        out::complain(&say::brought_up_to_date(&copy));
    }
    match opened.store.why_read_only() {
        Some(why) => Err(Halt::trouble(doctor::record(true, Some(why)))),
        None => Ok(opened.store),
    }
}

/// How the pictures are made.
struct Frame {
    look: Look,
    /// The size, where someone chose it or a terminal has it; else a picture is as large as it must be.
    size: Option<Size>,
    view: View,
    /// The size is the terminal's: a sketch must fit beside the picture.
    own: bool,
}

/// A picture, which one it is, and how large.
struct Picture {
    role: Role,
    size: Size,
    drawing: Drawing,
    /// What can be seen, a sentence a line; the reading is not in it.
    sentences: Vec<String>,
}

impl Frame {
    fn new(common: &Common, args: &Ask) -> Self {
        // A stream is the same on every terminal.
        let look = if args.json { Look::in_a_file(common) } else { Look::on_standard_output(common) };
        let own = || terminal::size().filter(|_| !args.json);
        let size = args.size.or_else(|| {
            own().map(|size| Size { cols: size.cols, rows: size.rows.saturating_sub(ROWS_FOR_WORDS).max(1) })
        });
        Self { look, size, view: args.view, own: args.size.is_none() && !args.json }
    }

    /// Whether an instrument can be drawn in its usual form: at its first question, and with the most that may be stamped on it.
    fn fits(&self, instrument: &Instrument, first: &Question) -> Result<(), Halt> {
        let first = first.clone().plainly(instrument);
        self.pictures(&first.tool(instrument), &first)?;
        let stamped =
            |tool: &Instrument| tool.engraved.iter().map(|text| text.chars().count()).sum::<usize>();
        let fittings = instrument.fittings().into_iter().map(|variant| instrument.usual_of(&variant));
        let fittings = fittings.map(|variant| (instrument.fitted(&variant), variant));
        if let Some((tool, variant)) = fittings.max_by_key(|(tool, _)| stamped(tool)) {
            let widest = Question::new(&tool, 1, tool.low, Quanta::ZERO, variant);
            self.pictures(&tool, &widest)?;
        }
        if let Some(tagged) = fullest(instrument, 1) {
            self.pictures(instrument, &tagged)?;
        }
        Ok(())
    }

    /// The pictures of a question: what is seen before the work first.
    fn pictures(&self, instrument: &Instrument, question: &Question) -> Result<Vec<Picture>, Halt> {
        let mut all = Vec::new();
        for sight in question.earlier(instrument) {
            all.push(self.draw(&sight, Glass::IfNeeded, 0)?);
        }
        all.push(self.measuring(instrument, question, None)?);
        Ok(all)
    }

    fn measuring(
        &self,
        instrument: &Instrument,
        question: &Question,
        lens: Option<i64>,
    ) -> Result<Picture, Halt> {
        let glass = lens.map_or(Glass::IfNeeded, Glass::At);
        let sketch = wording::sketch(question.asks).filter(|_| self.own);
        let beside = sketch.map_or(0, |_| wording::SKETCH_ROWS);
        self.draw(&question.measuring(instrument), glass, beside)
    }

    /// Draws one; `beside` rows are left free for a sketch where the picture fits all the same.
    fn draw(&self, sight: &Sight, glass: Glass, beside: u16) -> Result<Picture, Halt> {
        let scene =
            |view| scene::build(&sight.tool, &sight.pose, &sight.variant, view).tagged(sight.tags.clone());
        let asked = scene(self.view);
        let request = |size: Size| Request {
            glass,
            marks: self.look.marks(),
            ..Request::new(i64::from(size.cols), i64::from(size.rows), self.look.lines)
        };
        let mut size = self.size.unwrap_or(terminal::USUAL);
        let smaller = Size { rows: size.rows.saturating_sub(beside).max(1), ..size };
        if beside > 0 && render::draw(&asked, &request(smaller)).is_ok() {
            size = smaller;
        }
        loop {
            match render::draw(&asked, &request(size)) {
                Ok(drawing) => {
                    let seen = describe(&scene(drawing.view));
                    let sentences = wording::describe(&sight.tool, &seen);
                    return Ok(Picture { role: sight.role, size, drawing, sentences });
                }
                Err(refusal) => {
                    let larger = larger(size, &refusal);
                    if self.size.is_some() || larger == size {
                        return Err(refusal.into());
                    }
                    size = larger;
                }
            }
        }
    }
}

/// The size that a refused picture needs, if that is more than it had.
fn larger(size: Size, refusal: &Refusal) -> Size {
    let cells =
        |had: u16, needs: i64| u16::try_from(needs.min(i64::from(MOST_CELLS))).unwrap_or(had).max(had);
    Size { cols: cells(size.cols, refusal.needs_cols), rows: cells(size.rows, refusal.needs_rows) }
}

/// Someone answering.
struct Sitting<'a> {
    round: Round<'a>,
    frame: Frame,
    /// Where answers are kept, if they are.
    store: Option<Store>,
    /// An answer could not be kept.
    unsaved: bool,
    shown_at: Instant,
    /// Where the glass is held over the question that is up, if it has been slid.
    lens: Option<i64>,
}

impl Sitting<'_> {
    /// The pictures of the question that is up; the clock starts.
    fn pose(&mut self) -> Result<Vec<Picture>, Halt> {
        self.lens = None;
        let mut pictures = self.frame.pictures(self.round.instrument(), self.round.question());
        if pictures.is_err() {
            // A less common tool may need more room than the usual one.
            self.take(Step::Plainly);
            pictures = self.frame.pictures(self.round.instrument(), self.round.question());
        }
        self.shown_at = Instant::now();
        pictures
    }

    /// The measuring picture with the glass over a vernier line; `None` when there is no glass to slide.
    fn slide(&mut self, line: i64) -> Result<Option<Picture>, Halt> {
        let (instrument, question) = (self.round.instrument(), self.round.question());
        let picture = self.frame.measuring(instrument, question, Some(line))?;
        if picture.drawing.glass.is_none() {
            return Ok(None);
        }
        self.lens = picture.drawing.glass;
        self.take(Step::Glass);
        Ok(Some(picture))
    }

    /// Hands in an answer.
    fn answer(&mut self, text: String) -> Result<(), Halt> {
        let (took, at, shown) = (self.shown_at.elapsed(), now(), self.shown()?);
        self.take(Step::Answer { text, took, at, shown });
        Ok(())
    }

    /// Passes over.
    fn skip(&mut self) -> Result<(), Halt> {
        let (took, at, shown) = (self.shown_at.elapsed(), now(), self.shown()?);
        self.take(Step::Skip { took, at, shown });
        Ok(())
    }

    fn take(&mut self, step: Step) {
        for Effect::Save(attempt) in self.round.step(step) {
            if let Some(Err(error)) = self.store.as_ref().map(|store| store.append(&attempt)) {
                self.unsaved = true;
                out::complain(&error.to_string());
            }
        }
    }

    /// How the question was shown, for the record.
    fn shown(&self) -> Result<Shown, Halt> {
        let (instrument, question) = (self.round.instrument(), self.round.question());
        let Picture { size, drawing, .. } = self.frame.measuring(instrument, question, self.lens)?;
        Ok(Shown {
            view: match drawing.view {
                View::Held => record::View::Held,
                View::Flat => record::View::Flat,
            },
            lines: self.frame.look.lines.word(),
            cols: u32::from(size.cols),
            rows: u32::from(size.rows),
            glass: drawing.glass.is_some(),
        })
    }
}

fn read(lines: &mut Lines) -> Result<Option<Line>, Halt> {
    lines.next().map_err(|cause| Halt::trouble(format!("cannot read the answers: {cause}")))
}

/// The time, UTC to the second as RFC 3339 has it.
fn now() -> String {
    jiff::Timestamp::now().strftime("%Y-%m-%dT%H:%M:%SZ").to_string()
}
