//! The terminal, the clock, chance and the store: the only place that touches them for the full screen.

mod sits;
mod stops;

use super::command::Command;
use super::model::{Model, Record, Screen};
use super::probe::{self, Late};
use super::ready::full_screen;
use super::theme::Theme;
use super::update::{
    Effect, Env, Loaded, Msg, begin_class, begin_project, begin_walk, bench_key, round_key, run_key, update,
};
use super::view::view;
use super::{Start, signals};
use crate::drill::Seed;
use crate::learner::summary::Summary;
use crate::render::{LineStyle, choose};
use crate::scene::View;
use crate::session::{Attendance, Begin};
use crate::store::Store;
use crate::store::round::Desk;
use crossterm::event::{self, Event, KeyEventKind};
use crossterm::execute;
use crossterm::terminal::{Clear, ClearType, window_size};
use rand::TryRng;
use rand::rngs::SysRng;
use ratatui::Terminal;
use ratatui::backend::CrosstermBackend;
use std::collections::BTreeMap;
use std::io::{self, Stdout};
use std::sync::mpsc::{Receiver, RecvTimeoutError, Sender, channel};
use std::thread;
use std::time::Instant;

/// The instrument of the very first reading.
const FIRST: &str = "micrometer-metric";

/// What wakes the trainer. Nothing else does but a clock on the screen: it never polls.
pub(super) enum Wake {
    /// A key, a new size.
    Event(Event),
    /// Keys can no longer be read.
    Deaf(io::Error),
    /// The terminal is gone.
    Gone,
    /// The program goes on after a stop.
    Continued,
    /// A signal that ends the program.
    Signal(i32),
    /// A countdown on the screen shows something else.
    Tick,
}

type Screenful = Terminal<CrosstermBackend<Stdout>>;

/// Runs the trainer until it is left. The terminal is restored on every way out, a panic included.
pub(super) fn run(start: Start) -> io::Result<()> {
    let clock = Instant::now();
    // A signal may come while the terminal is still being asked what it is.
    let (sender, wakes) = channel();
    signals::watch(sender.clone())?;
    let ended = full_screen(|| on_screen(start, clock, sender, &wakes));
    let Ended { signal, unsaved, why } =
        ended.map_err(|cause| io::Error::new(cause.kind(), format!("the full screen broke off: {cause}")))?;
    if unsaved > 0 {
        let answers = if unsaved == 1 { "1 answer".to_owned() } else { format!("{unsaved} answers") };
        let why = why.unwrap_or_default();
        return Err(io::Error::other(format!("{answers} could not be kept: {why}")));
    }
    if let Some(signal) = signal {
        signals::end_by(signal)?;
    }
    Ok(())
}

struct Ended {
    signal: Option<i32>,
    unsaved: usize,
    why: Option<String>,
}

fn on_screen(
    start: Start,
    clock: Instant,
    sender: Sender<Wake>,
    wakes: &Receiver<Wake>,
) -> io::Result<Ended> {
    let Start {
        catalogue,
        store,
        store_problem,
        learner,
        record,
        sets,
        place,
        class,
        lines,
        theme,
        terminal,
        no_color,
    } = start;
    let mut terminal = terminal;
    let setting = |key: &str| store.as_ref().and_then(|store| store.setting(key).ok().flatten());
    let key = terminal.key();
    let saved = setting(&key).and_then(|word| LineStyle::from_word(&word));
    let window = window_size().ok();
    let mut late = Late::Nothing;
    if lines.is_none() && saved.is_none() {
        (terminal.replies, late) = probe::ask();
    }
    let (style, _) = choose(lines, saved, &terminal);
    let far = matches!(place, Begin::Project(_)) && lines.is_none() && style == LineStyle::Thin;
    let answered_width = terminal.replies.as_ref().and_then(|replies| replies.cell_width);
    let width = window
        .as_ref()
        .filter(|w| w.width > 0 && w.columns > 0)
        .map(|w| u32::from(w.width / w.columns))
        .or(answered_width);
    if let (None, Some(store), true, Record::Kept) = (saved, &store, lines.is_none(), record) {
        // A choice that cannot be kept is made again next time.
        let _ = store.set_setting(&key, style.word());
    }
    let chosen_theme = match theme {
        super::ThemeChoice::Auto => setting("theme").and_then(|word| Theme::from_word(&word)),
        _ => None,
    };
    let size = window.map_or((80, 24), |w| (w.columns, w.rows));
    let mut model = Model {
        size,
        catalogue,
        learner,
        theme: if no_color { Theme::Mono } else { chosen_theme.unwrap_or(Theme::new(theme, no_color)) },
        // Bars are seen from farther away.
        lines: if far { LineStyle::Bars } else { style },
        small_cells: width.is_some_and(|width| width < 8),
        view: setting("view").and_then(|word| View::from_word(&word)).unwrap_or(View::Held),
        screens: vec![Screen::Home { chosen: 0 }],
        overlay: None,
        progress: None,
        gates: BTreeMap::new(),
        today: None,
        sets,
        now: clock.elapsed(),
        attendance: Attendance::default(),
        record,
        store_problem,
        unsaved: Vec::new(),
        class,
        notice: None,
    };
    let last = setting(&format!("last/{}", model.learner));
    if let Screen::Home { chosen } = &mut model.screens[0] {
        let at = last.as_deref().and_then(|last| model.catalogue.names().position(|id| id == last));
        *chosen = at.unwrap_or(0);
    }
    let first = match (place, last) {
        (Begin::Practice(id), _) => Effect::LookUp(id),
        (Begin::Bench(id, programme), _) => Effect::LookUpBench(id, programme),
        (Begin::Set(id), _) => Effect::LookUpSet(id),
        (Begin::Card(number), _) => Effect::LookUpCard(number),
        (Begin::Sets, _) => {
            model.screens.push(Screen::Sets { chosen: 0 });
            Effect::LookUpSets
        }
        (Begin::Walk(id), _) => {
            begin_walk(&mut model, Command::Walk, &id);
            Effect::Load
        }
        (Begin::Lesson(id), _) => {
            begin_walk(&mut model, Command::Walk, &id);
            begin_walk(&mut model, Command::Lesson, &id);
            Effect::Load
        }
        (Begin::Class, _) => begin_class(&mut model),
        (Begin::Project(projected), _) => {
            begin_project(&mut model, &projected, clock.elapsed());
            Effect::Load
        }
        (Begin::Home, Some(_)) => Effect::Load,
        (Begin::Home, None) => Effect::LookUp(FIRST.to_owned()),
    };
    let (unkept, waiting) = (Summary::default(), Some(Vec::new()));
    let mut runtime =
        Runtime { model, store, unkept, clock, terminal_key: key, late, waiting, desk: None, repaint: false };
    runtime.run(first, sender, wakes)
}

struct Runtime {
    model: Model,
    store: Option<Store>,
    /// What the readings of a private session come to; it goes with the session.
    unkept: Summary,
    clock: Instant,
    terminal_key: String,
    late: Late,
    /// Settings that wait until the first frame is out; none from then on.
    waiting: Option<Vec<(String, String)>>,
    /// Where a job card is worked on.
    desk: Option<Desk>,
    /// The next frame is drawn on an empty screen.
    repaint: bool,
}

impl Runtime {
    fn run(&mut self, first: Effect, sender: Sender<Wake>, wakes: &Receiver<Wake>) -> io::Result<Ended> {
        let mut screen = Terminal::new(CrosstermBackend::new(io::stdout()))?;
        // Earlier readings are counted after the first frame, so that it never waits for them.
        let late = match first {
            Effect::Load => Some(Effect::Load),
            other => {
                self.perform(other);
                Some(Effect::Load)
            }
        };
        self.draw(&mut screen)?;
        for (key, value) in self.waiting.take().unwrap_or_default() {
            self.remember(&key, &value);
        }
        signals::watch_terminal(sender.clone());
        listen(sender);
        if let Some(late) = late {
            self.perform(late);
            self.draw(&mut screen)?;
        }
        loop {
            let wake = self.wake(wakes);
            let msg = match wake {
                Wake::Deaf(cause) => return Err(cause),
                Wake::Gone => return Ok(self.ended(signals::HANGUP)),
                Wake::Continued => {
                    self.take_back(&mut screen)?;
                    continue;
                }
                Wake::Signal(signal) => return Ok(self.ended(Some(signal))),
                Wake::Tick => Msg::Tick,
                Wake::Event(Event::Key(key)) if self.late.takes(key) => continue,
                Wake::Event(Event::Key(key)) if key.kind != KeyEventKind::Release => {
                    if signals::is_suspend(key) {
                        self.suspend(&mut screen)?;
                        continue;
                    }
                    Msg::Key(key)
                }
                Wake::Event(Event::Resize(cols, rows)) => {
                    // A window made smaller and large again in one go has lost what was in it.
                    self.repaint = true;
                    Msg::Resize(cols, rows)
                }
                Wake::Event(_) => continue,
            };
            if self.message(msg) {
                return Ok(self.ended(None));
            }
            if std::mem::take(&mut self.repaint) {
                execute!(io::stdout(), Clear(ClearType::All))?;
                screen = Terminal::new(CrosstermBackend::new(io::stdout()))?;
            }
            self.draw(&mut screen)?;
        }
    }

    /// What comes next; where a countdown is on the screen, at the latest its next second.
    fn wake(&self, wakes: &Receiver<Wake>) -> Wake {
        let Some(wait) = self.model.changes_in(self.clock.elapsed()) else {
            return wakes.recv().unwrap_or(Wake::Gone);
        };
        match wakes.recv_timeout(wait) {
            Ok(wake) => wake,
            Err(RecvTimeoutError::Timeout) => Wake::Tick,
            Err(RecvTimeoutError::Disconnected) => Wake::Gone,
        }
    }

    fn ended(&self, signal: Option<i32>) -> Ended {
        Ended { signal, unsaved: self.model.unsaved.len(), why: self.model.store_problem.clone() }
    }

    fn env(&self) -> Env {
        let mut rng = SysRng;
        Env {
            at: jiff::Timestamp::now().strftime("%Y-%m-%dT%H:%M:%S.%3fZ").to_string(),
            now: self.clock.elapsed(),
            // Without the system's random numbers the clock must do; questions are no secret.
            seed: Seed(rng.try_next_u64().unwrap_or_else(|_| u64::from(self.clock.elapsed().subsec_nanos()))),
        }
    }

    /// Carries a message out with all that follows; true when the trainer is to be left.
    fn message(&mut self, msg: Msg) -> bool {
        let env = self.env();
        let effects = update(&mut self.model, msg, &env);
        if self.model.notice.is_none() {
            let problem = self.model.store_problem.as_ref();
            self.model.notice = problem.map(|why| format!("Nothing can be kept: {why}."));
        }
        // All are carried out, also those after one that ends the program.
        let mut leave = false;
        for effect in effects {
            leave |= self.perform(effect);
        }
        leave
    }

    fn perform(&mut self, effect: Effect) -> bool {
        match effect {
            Effect::Leave => return true,
            Effect::Save(attempt) if self.model.record == Record::Private => {
                self.unkept.add(&attempt);
                return self.message(Msg::Saved(attempt, Ok(())));
            }
            Effect::Save(attempt) => {
                let outcome = match &self.store {
                    Some(store) => store.append(&attempt).map(drop).map_err(|error| error.to_string()),
                    None => Err(self.model.store_problem.clone().unwrap_or_default()),
                };
                if outcome.is_ok() {
                    // Whatever stood in the way before is gone.
                    self.model.store_problem = None;
                }
                return self.message(Msg::Saved(attempt, outcome));
            }
            Effect::Remember(key, value) => match &mut self.waiting {
                Some(waiting) => waiting.push((key, value)),
                None => self.remember(&key, &value),
            },
            Effect::Repaint => self.repaint = true,
            Effect::SaveLines(style) => {
                let key = self.terminal_key.clone();
                self.remember(&key, style.word());
            }
            Effect::Load if self.model.record == Record::Private => {
                let loaded = Loaded { summary: self.unkept.clone(), round: None };
                return self.message(Msg::Loaded(Box::new(loaded)));
            }
            Effect::Load => {
                let Some(store) = &self.store else { return false };
                let learner = &self.model.learner;
                // A round that cannot be read is begun anew.
                let round = store.setting(&round_key(learner)).ok().flatten();
                match store.summary(learner) {
                    Ok(found) => {
                        let loaded = Loaded { summary: found.summary, round };
                        return self.message(Msg::Loaded(Box::new(loaded)));
                    }
                    Err(error) => self.model.notice = Some(error.to_string()),
                }
            }
            Effect::LookUp(instrument) => {
                let resume = self.left_at(&run_key(&self.model.learner, &instrument));
                return self.message(Msg::Resumed(resume, instrument));
            }
            Effect::LookUpSets => return self.look_up_sets(),
            Effect::LookUpSet(id) => return self.look_up_set(id),
            Effect::LookUpCard(number) => return self.look_up_card(number),
            Effect::Sit(sat) => return self.sit(&sat),
            Effect::WritePage(path, name, lines) => return self.write_page(path, &name, &lines),
            Effect::LookUpBench(instrument, programme) => {
                let resume = self.left_at(&bench_key(&self.model.learner, &instrument, &programme));
                return self.message(Msg::BenchResumed(resume, instrument, programme));
            }
        }
        false
    }

    fn draw(&mut self, screen: &mut Screenful) -> io::Result<()> {
        let model = &mut self.model;
        screen
            .draw(|frame| {
                // The window may have changed since the last word on its size.
                let area = frame.area();
                model.size = (area.width, area.height);
                if let Some(cursor) = view(model, frame.buffer_mut()) {
                    frame.set_cursor_position(cursor);
                }
            })
            .map(drop)
    }
}

/// Thirty-two bytes by chance.
fn drawn() -> io::Result<[u8; 32]> {
    let mut bytes = [0; 32];
    SysRng.try_fill_bytes(&mut bytes).map_err(io::Error::other)?;
    Ok(bytes)
}

/// Reads events on a thread of their own, so that the trainer sleeps until one comes.
fn listen(sender: Sender<Wake>) {
    thread::spawn(move || {
        loop {
            let wake = event::read().map_or_else(Wake::Deaf, Wake::Event);
            let deaf = matches!(wake, Wake::Deaf(_));
            if sender.send(wake).is_err() || deaf {
                return;
            }
        }
    });
}
