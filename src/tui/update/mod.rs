//! What happens on a message. Nothing is drawn here and nothing is written: effects are returned.

mod bench;
mod class;
mod exercise;
mod lists;
mod practice;
mod project;
mod round;
mod sat;
mod typing;
mod walk;

use super::command::{Command, command_for};
use super::model::{Issued, Model, Overlay, OverlayKind, PracticeScreen, Screen};
use crate::class::sitting::Sitting;
use crate::drill::Seed;
use crate::drill::record::Attempt;
use crate::learner::summary::Summary;
use crate::render::LineStyle;
use crate::scene::View;
use crate::session::{Practice, Programme};
use crate::wording;
use crossterm::event::KeyEvent;
use std::collections::BTreeMap;
use std::time::Duration;

pub use bench::bench_key;
pub use class::begin as begin_class;
pub use project::begin as begin_project;
pub use round::round_key;
pub use sat::{Desked, Sat};
pub use walk::begin as begin_walk;

/// Something that happened.
pub enum Msg {
    /// A key was pressed.
    Key(KeyEvent),
    /// The terminal has another size.
    Resize(u16, u16),
    /// A countdown went on.
    Tick,
    /// An attempt was written down, or why not.
    Saved(Box<Attempt>, Result<(), String>),
    /// Earlier readings have been read.
    Loaded(Box<Loaded>),
    /// A run that was left earlier.
    Resumed(Option<Resume>, String),
    /// A run of some kinds of question on an instrument that was left earlier.
    BenchResumed(Option<Resume>, String, Programme),
    /// The last sitting of each set has been read, and the job cards for this learner.
    SetsFound(BTreeMap<String, Sitting>, Vec<Issued>),
    /// The job card of this number is wanted; what there is of it.
    CardFound(String, Box<Desked>),
    /// A sitting on a job card is done; what became of it.
    HandedIn(String),
    /// The set of this id is wanted; what was put away of it.
    SetFound(String, Option<String>),
    /// A sitting was put down, or why not.
    Sat(Result<(), String>),
    /// The page for the supervisor was written to this file, or why not.
    PageWritten(Result<String, String>),
}

/// What is known of earlier readings.
pub struct Loaded {
    /// What they come to.
    pub summary: Summary,
    /// The round that was put away, as text.
    pub round: Option<String>,
}

/// Where a run was left.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Resume {
    /// Its seed.
    pub seed: Seed,
    /// The question that was up.
    pub number: u32,
}

/// What the runtime must carry out.
#[derive(Debug)]
pub enum Effect {
    /// Write an attempt down and answer with [`Msg::Saved`].
    Save(Box<Attempt>),
    /// Remember a setting.
    Remember(String, String),
    /// Read earlier readings and answer with [`Msg::Loaded`].
    Load,
    /// Look up where practice on an instrument was left; answer with [`Msg::Resumed`].
    LookUp(String),
    /// The same for some kinds of question; answer with [`Msg::BenchResumed`].
    LookUpBench(String, Programme),
    /// Look up what was put away of every set; answer with [`Msg::SetsFound`].
    LookUpSets,
    /// Look up what was put away of this set; answer with [`Msg::SetFound`].
    LookUpSet(String),
    /// Look up what there is of the job card of this number; answer with [`Msg::CardFound`].
    LookUpCard(String),
    /// Put a sitting down as it is now; answer with [`Msg::Sat`].
    Sit(Box<Sat>),
    /// Write the page for the supervisor, into this file where one is named, else under this name beside the record; answer with
    /// [`Msg::PageWritten`].
    WritePage(Option<String>, String, Vec<String>),
    /// End the program.
    Leave,
    /// Draw the next frame on an empty screen.
    Repaint,
    /// Remember this line style for the terminal.
    SaveLines(LineStyle),
}

/// What a message may depend on beside the model: the time and chance.
pub struct Env {
    /// UTC now, RFC 3339.
    pub at: String,
    /// Since the program started.
    pub now: Duration,
    /// A fresh seed, should one be needed.
    pub seed: Seed,
}

/// Carries a message out.
pub fn update(model: &mut Model, msg: Msg, env: &Env) -> Vec<Effect> {
    model.now = env.now;
    if let (Msg::Key(_) | Msg::Tick, Some(effects)) = (&msg, exercise::time_up(model, env)) {
        return effects;
    }
    match msg {
        Msg::Resize(cols, rows) => {
            model.size = (cols, rows);
            exercise::resized(model);
            Vec::new()
        }
        Msg::SetsFound(last, cards) => exercise::listed(model, last, cards),
        Msg::CardFound(number, desked) => exercise::card_found(model, &number, *desked, env),
        Msg::HandedIn(word) => {
            model.notice = Some(word);
            Vec::new()
        }
        Msg::SetFound(id, kept) => exercise::found(model, &id, kept.as_deref(), env),
        Msg::Sat(outcome) => exercise::sat(model, outcome, env),
        Msg::PageWritten(outcome) => {
            model.notice = Some(outcome.map_or_else(|why| why, |path| wording::exercise::written(&path)));
            Vec::new()
        }
        Msg::Tick => project::tick(model, env),
        Msg::Loaded(loaded) => {
            round::loaded(model, &loaded, env);
            Vec::new()
        }
        Msg::Saved(attempt, outcome) => saved(model, *attempt, outcome),
        Msg::Resumed(resume, instrument) => begin(model, instrument, resume, env),
        Msg::BenchResumed(resume, instrument, programme) => {
            bench::begin(model, instrument, programme, resume, env)
        }
        Msg::Key(event) => key(model, event, env),
    }
}

fn saved(model: &mut Model, attempt: Attempt, outcome: Result<(), String>) -> Vec<Effect> {
    match outcome {
        Ok(()) => model.unsaved.retain(|unsaved| *unsaved != attempt),
        Err(why) => {
            model.store_problem = Some(why);
            if !model.unsaved.contains(&attempt) {
                model.unsaved.push(attempt);
            }
        }
    }
    match model.screen_mut() {
        Screen::Practice(practice) => practice.saving = false,
        Screen::Bench(bench) => bench.saving = false,
        _ => {}
    }
    Vec::new()
}

/// Starts practice, or goes on with it where it was left.
fn begin(model: &mut Model, instrument: String, resume: Option<Resume>, env: &Env) -> Vec<Effect> {
    let Some(known) = model.catalogue.get(&instrument) else { return Vec::new() };
    let resume = resume.unwrap_or(Resume { seed: env.seed, number: 1 });
    let number = model.attendance.next(known, resume.seed, resume.number).unwrap_or(resume.number);
    let resume = Resume { number, ..resume };
    let run = Practice::resume(known, model.learner.clone(), resume.seed, number);
    let run = run.trapped().bringing_back();
    let effects = vec![
        remember_run(&model.learner, &instrument, resume),
        Effect::Remember(format!("last/{}", model.learner), instrument.clone()),
    ];
    model.screens.push(Screen::Practice(Box::new(new_screen(instrument, run, env))));
    practice::take_usual(model);
    effects
}

/// A question just shown.
fn new_screen(instrument: String, run: Practice, env: &Env) -> PracticeScreen {
    PracticeScreen {
        instrument,
        run,
        sitting: None,
        field: String::new(),
        glass: None,
        hinted: false,
        told: 0,
        again: None,
        since: env.now,
        saving: false,
        word: None,
    }
}

fn remember_run(learner: &str, instrument: &str, resume: Resume) -> Effect {
    Effect::Remember(run_key(learner, instrument), format!("{} {}", resume.seed.0, resume.number))
}

/// The setting under which the place in a run is kept.
pub fn run_key(learner: &str, instrument: &str) -> String {
    format!("run/{learner}/{instrument}")
}

/// Reads a kept place in a run.
pub fn read_run(text: &str) -> Option<Resume> {
    let (seed, number) = text.split_once(' ')?;
    Some(Resume { seed: Seed(seed.parse().ok()?), number: number.parse().ok().filter(|n| *n > 0)? })
}

fn key(model: &mut Model, event: KeyEvent, env: &Env) -> Vec<Effect> {
    model.notice = None;
    match model.screen_mut() {
        Screen::Practice(practice) => practice.hinted = false,
        Screen::Bench(bench) => bench.hinted = false,
        _ => {}
    }
    if model.overlay.is_some() {
        return typing::overlay_key(model, event, env);
    }
    let place = model.place();
    let typing = typing::field(model).is_some_and(|field| !field.is_empty());
    if let Some(command) = command_for(place, event, typing) {
        return run(model, command, env);
    }
    typing::type_key(model, event);
    Vec::new()
}

/// Carries a command out.
pub fn run(model: &mut Model, command: Command, env: &Env) -> Vec<Effect> {
    use Command as C;
    if let Some(effects) = class::class(model, command) {
        return effects;
    }
    if let Some(effects) = exercise::takes(model, command, env) {
        return effects;
    }
    match command {
        C::Quit => return vec![Effect::Leave],
        C::Help => open(model, OverlayKind::Help),
        C::Palette => open(model, OverlayKind::Palette),
        C::Theme => return next_theme(model),
        C::Progress => {
            model.screens.push(Screen::Progress { chosen: 0 });
            return vec![Effect::Load];
        }
        C::Lines => model.screens.push(Screen::Lines),
        C::Care => lists::show_care(model),
        C::Lines1 => return take_lines(model, LineStyle::Thin),
        C::Lines2 => return take_lines(model, LineStyle::Bars),
        C::Lines3 => return take_lines(model, LineStyle::Cell),
        C::Lines4 => return take_lines(model, LineStyle::Ascii),
        _ if matches!(model.screen(), Screen::Project(_)) && command != C::TurnView => {
            return project::project(model, command, env);
        }
        C::Back => return back(model),
        C::Up | C::Down => lists::choose(model, command),
        C::Start => return lists::start(model, env),
        C::TurnView => {
            if let Some(why) = practice::cannot(model, command) {
                model.notice = Some(why.to_owned());
                return Vec::new();
            }
            model.view = match model.view {
                View::Held => View::Flat,
                View::Flat => View::Held,
            };
            return vec![Effect::Remember("view".to_owned(), model.view.word().to_owned())];
        }
        C::Walk | C::Lesson => return walk::open(model, command),
        C::Kinds => bench::kinds(model),
        C::Sets => return exercise::list(model),
        C::Anew => return exercise::anew(model, env),
        C::WritePage => return exercise::write_page(model),
        _ if matches!(model.screen(), Screen::Bench(_)) => return bench::bench(model, command, env),
        C::OtherPicture
        | C::Pick
        | C::PickNumber(_)
        | C::Lock
        | C::Loosen
        | C::LeaveSet
        | C::Class(_)
        | C::ProjectOn
        | C::ProjectBack
        | C::Pause
        | C::Point(_)
        | C::TakeBack => {}
        C::FineRight
        | C::FineLeft
        | C::LineUp
        | C::LineDown
        | C::CoarseUp
        | C::CoarseDown
        | C::FarUp
        | C::FarDown
        | C::ToZero
        | C::Elsewhere
        | C::Form
        | C::GuessMode
        | C::Guess
        | C::LessonNext
        | C::LessonBack => return walk::walk(model, command, env),
        _ if matches!(model.screen(), Screen::Walk(_) | Screen::Lesson(_)) => {
            return walk::walk(model, command, env);
        }
        C::Seen
        | C::Answer
        | C::Next
        | C::NextNow
        | C::ShowEarlier
        | C::Skip
        | C::ClearField
        | C::GlassUp
        | C::GlassDown
        | C::GlassLeft
        | C::GlassRight
        | C::GlassLeftFive
        | C::GlassRightFive
        | C::GlassZero => {
            return match practice::cannot(model, command) {
                Some(why) => {
                    model.notice = Some(why.to_owned());
                    Vec::new()
                }
                None => practice::practice(model, command, env),
            };
        }
    }
    Vec::new()
}

fn open(model: &mut Model, kind: OverlayKind) {
    model.overlay = Some(Overlay { kind, text: String::new(), chosen: 0 });
}

fn next_theme(model: &mut Model) -> Vec<Effect> {
    model.theme = model.theme.next();
    model.notice = Some(format!("theme: {}", model.theme.word()));
    vec![Effect::Remember("theme".to_owned(), model.theme.word().to_owned())]
}

fn take_lines(model: &mut Model, style: LineStyle) -> Vec<Effect> {
    model.lines = style;
    let mut effects = back(model);
    effects.push(Effect::SaveLines(style));
    effects
}

fn back(model: &mut Model) -> Vec<Effect> {
    let left = match model.screen_mut() {
        Screen::Practice(practice) => Some((practice.instrument.clone(), practice.sitting.take())),
        Screen::Bench(bench) if bench.sitting.is_some() => {
            Some((bench.instrument.clone(), bench.sitting.take()))
        }
        _ => None,
    };
    let left = left.map(|(instrument, sitting)| {
        if let (Some(today), Some(sitting)) = (&mut model.today, sitting) {
            today.going = Some(sitting);
        }
        instrument
    });
    if model.screens.len() > 1 {
        model.screens.pop();
    } else if !matches!(model.screen(), Screen::Home { .. }) {
        model.screens = vec![Screen::Home { chosen: 0 }];
    }
    if let (Some(left), Screen::Home { chosen }) =
        (left, model.screens.last_mut().expect("there is always a screen"))
    {
        *chosen = model.catalogue.names().position(|id| id == left).unwrap_or(*chosen);
    }
    let counts = matches!(model.screen(), Screen::Home { .. } | Screen::Kinds { .. });
    if counts { vec![Effect::Load] } else { Vec::new() }
}
