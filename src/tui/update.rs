//! What happens on a message. Nothing is drawn here and nothing is written: effects are returned.

use super::command::{Command, Place, command_for, find};
use super::model::{GlassState, Model, Overlay, OverlayKind, PracticeScreen, Screen};
use crate::drill::Seed;
use crate::drill::record::Attempt;
use crate::learner::progress::Progress;
use crate::render::LineStyle;
use crate::scene::View;
use crate::session::{self, Phase, Practice, Step};
use crossterm::event::{KeyCode, KeyEvent, KeyModifiers};
use std::time::Duration;

/// Something that happened.
pub enum Msg {
    /// A key was pressed.
    Key(KeyEvent),
    /// The terminal has another size.
    Resize(u16, u16),
    /// An attempt was written down, or why not.
    Saved(Box<Attempt>, Result<(), String>),
    /// Earlier readings have been read.
    Loaded(Progress),
    /// A run that was left earlier.
    Resumed(Option<Resume>, String),
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
    /// End the program.
    Leave,
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
    match msg {
        Msg::Resize(cols, rows) => {
            model.size = (cols, rows);
            Vec::new()
        }
        Msg::Loaded(progress) => {
            model.progress = Some(progress);
            Vec::new()
        }
        Msg::Saved(attempt, outcome) => saved(model, *attempt, outcome),
        Msg::Resumed(resume, instrument) => begin(model, instrument, resume, env),
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
    if let Screen::Practice(practice) = model.screen_mut() {
        practice.saving = false;
    }
    Vec::new()
}

/// Starts practice, or goes on with it where it was left.
fn begin(model: &mut Model, instrument: String, resume: Option<Resume>, env: &Env) -> Vec<Effect> {
    let Some(known) = model.catalogue.get(&instrument) else { return Vec::new() };
    let resume = resume.unwrap_or(Resume { seed: env.seed, number: 1 });
    let run = Practice::resume(known, model.learner.clone(), resume.seed, resume.number);
    let effects = vec![
        remember_run(&model.learner, &instrument, resume),
        Effect::Remember(format!("last/{}", model.learner), instrument.clone()),
    ];
    model.screens.push(Screen::Practice(Box::new(PracticeScreen {
        instrument,
        run,
        field: String::new(),
        glass: None,
        told: 0,
        closed_again: false,
        since: env.now,
        saving: false,
    })));
    effects
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
    if model.overlay.is_some() {
        return overlay_key(model, event, env);
    }
    let place = model.place();
    let typing = matches!(model.screen(), Screen::Practice(practice) if !practice.field.is_empty())
        && place == Place::Asking;
    if let Some(command) = command_for(place, event, typing) {
        return run(model, command, env);
    }
    if place == Place::Asking {
        type_key(model, event);
    }
    Vec::new()
}

fn type_key(model: &mut Model, event: KeyEvent) {
    const LONGEST: usize = 40;
    let Screen::Practice(practice) = model.screen_mut() else { return };
    let plain = !event.modifiers.intersects(KeyModifiers::CONTROL | KeyModifiers::ALT);
    match event.code {
        KeyCode::Char(c) if plain && !c.is_control() && practice.field.chars().count() < LONGEST => {
            practice.field.push(c);
        }
        KeyCode::Backspace => {
            practice.field.pop();
        }
        KeyCode::Delete => practice.field.clear(),
        _ => {}
    }
}

fn overlay_key(model: &mut Model, event: KeyEvent, env: &Env) -> Vec<Effect> {
    let place = model.place();
    let Some(overlay) = &mut model.overlay else { return Vec::new() };
    let count = find(place, &overlay.text).len();
    match event.code {
        KeyCode::Esc => model.overlay = None,
        KeyCode::Up => overlay.chosen = overlay.chosen.saturating_sub(1),
        KeyCode::Down => overlay.chosen = (overlay.chosen + 1).min(count.saturating_sub(1)),
        KeyCode::Backspace if overlay.text.pop().is_none() => {
            model.overlay = None;
        }
        KeyCode::Char('c') if event.modifiers.contains(KeyModifiers::CONTROL) => return vec![Effect::Leave],
        KeyCode::Char(c) if !c.is_control() => {
            overlay.text.push(c);
            overlay.chosen = 0;
        }
        KeyCode::Enter => {
            let found = find(place, &overlay.text);
            let chosen = found.get(overlay.chosen).filter(|entry| entry.places.contains(&place));
            let command = chosen.map(|entry| entry.command);
            model.overlay = None;
            if let Some(command) = command {
                return run(model, command, env);
            }
        }
        _ => {}
    }
    Vec::new()
}

/// Carries a command out.
pub fn run(model: &mut Model, command: Command, env: &Env) -> Vec<Effect> {
    use Command as C;
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
        C::Lines1 => return take_lines(model, LineStyle::Thin),
        C::Lines2 => return take_lines(model, LineStyle::Bars),
        C::Lines3 => return take_lines(model, LineStyle::Cell),
        C::Lines4 => return take_lines(model, LineStyle::Ascii),
        C::Back => return back(model),
        C::Up | C::Down => choose(model, command),
        C::Start => return start(model),
        C::TurnView => {
            model.view = match model.view {
                View::Held => View::Flat,
                View::Flat => View::Held,
            };
            return vec![Effect::Remember("view".to_owned(), model.view.word().to_owned())];
        }
        C::SeenClosed
        | C::Answer
        | C::Next
        | C::NextNow
        | C::ShowClosed
        | C::Skip
        | C::ClearField
        | C::GlassUp
        | C::GlassDown
        | C::GlassLeft
        | C::GlassRight
        | C::GlassLeftFive
        | C::GlassRightFive
        | C::GlassZero => {
            let on_glass = !matches!(
                command,
                C::SeenClosed | C::Answer | C::Next | C::NextNow | C::ShowClosed | C::Skip | C::ClearField
            );
            if on_glass && !model.has_glass() && model.has_thimble() {
                model.notice = Some("the glass lies on the view laid flat; Tab turns to it".to_owned());
                return Vec::new();
            }
            return practice(model, command, env);
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
    if model.screens.len() > 1 {
        model.screens.pop();
    } else if !matches!(model.screen(), Screen::Home { .. }) {
        model.screens = vec![Screen::Home { chosen: 0 }];
    }
    if matches!(model.screen(), Screen::Home { .. }) { vec![Effect::Load] } else { Vec::new() }
}

fn choose(model: &mut Model, command: Command) {
    let home = model.ids().len();
    let listed = model.progress.as_ref().map_or(0, |progress| progress.instruments.len());
    let (chosen, count) = match model.screen_mut() {
        Screen::Home { chosen } => (chosen, home),
        Screen::Progress { chosen } => (chosen, listed),
        Screen::Practice(_) | Screen::Lines => return,
    };
    *chosen = match command {
        Command::Up => chosen.saturating_sub(1),
        _ => (*chosen + 1).min(count.saturating_sub(1)),
    };
}

fn start(model: &mut Model) -> Vec<Effect> {
    let Screen::Home { chosen } = model.screen() else { return Vec::new() };
    let id = model.ids().get(*chosen).map(|id| (*id).to_owned());
    id.map(|id| vec![Effect::LookUp(id)]).unwrap_or_default()
}

fn practice(model: &mut Model, command: Command, env: &Env) -> Vec<Effect> {
    let Screen::Practice(practice) = model.screen() else { return Vec::new() };
    let shown = model.shown(practice);
    let instrument = model.instrument(practice).clone();
    let learner = model.learner.clone();
    let lines = instrument.stages.iter().rev().find_map(|stage| match &stage.form {
        crate::instrument::Form::Vernier(vernier) => Some(vernier.parts),
        _ => None,
    });
    let retry = model.unsaved.clone();
    let Screen::Practice(practice) = model.screen_mut() else { return Vec::new() };
    let took = env.now.saturating_sub(practice.since);
    let at = env.at.clone();
    let effects = match command {
        Command::SeenClosed => {
            practice.since = env.now;
            practice.glass = None;
            practice.run.step(&instrument, Step::SeenClosed)
        }
        Command::Answer => {
            practice.closed_again = false;
            let text = std::mem::take(&mut practice.field);
            let effects =
                practice.run.step(&instrument, Step::Answer { text: text.clone(), took, at, shown });
            if effects.is_empty() {
                practice.field = text;
            }
            effects
        }
        Command::Skip => practice.run.step(&instrument, Step::Skip { took, at, shown }),
        Command::ClearField => {
            practice.field.clear();
            Vec::new()
        }
        Command::ShowClosed => {
            let has_closed = practice.run.question().asks == crate::reading::Asks::Corrected;
            practice.closed_again = has_closed && !practice.closed_again;
            Vec::new()
        }
        Command::Next | Command::NextNow => {
            let Phase::Answered(answered) = practice.run.phase() else { return Vec::new() };
            let shares = answered.shares.len();
            let all_told = command == Command::NextNow || practice.told >= shares;
            if practice.saving {
                return Vec::new();
            }
            practice.closed_again = false;
            if !all_told {
                practice.told += 1;
                return Vec::new();
            }
            practice.run.step(&instrument, Step::Next);
            (practice.glass, practice.told, practice.since) = (None, 0, env.now);
            let resume = Resume { seed: practice.run.seed(), number: practice.run.question().number };
            return vec![remember_run(&learner, &practice.instrument, resume)];
        }
        _ => {
            glass(practice, command, lines);
            practice.run.step(&instrument, Step::Glass)
        }
    };
    let mut all: Vec<Effect> = Vec::new();
    for effect in effects {
        let session::Effect::Save(attempt) = effect;
        practice.saving = true;
        practice.told = if attempt.verdict.is_right() { usize::MAX } else { 0 };
        // The next question is what is resumed, should the power go now.
        let resume = Resume { seed: practice.run.seed(), number: practice.run.question().number + 1 };
        all.extend(retry.iter().map(|unsaved| Effect::Save(Box::new(unsaved.clone()))));
        all.push(Effect::Save(attempt));
        all.push(remember_run(&learner, &practice.instrument, resume));
    }
    all
}

/// Opens, slides, strengthens or closes the glass. It starts at the vernier's 0 and never goes anywhere by itself.
fn glass(practice: &mut PracticeScreen, command: Command, lines: Option<i64>) {
    let Some(last) = lines else { return };
    let Some(open) = &mut practice.glass else {
        if command != Command::GlassDown {
            practice.glass = Some(GlassState { line: 0, dots: None });
        }
        if matches!(command, Command::GlassUp | Command::GlassDown) {
            return;
        }
        return glass(practice, command, lines);
    };
    let slide = |by: i64| (open.line + by).clamp(0, last);
    match command {
        Command::GlassLeft => open.line = slide(-1),
        Command::GlassRight => open.line = slide(1),
        Command::GlassLeftFive => open.line = slide(-5),
        Command::GlassRightFive => open.line = slide(5),
        Command::GlassZero => open.line = 0,
        Command::GlassUp => {
            open.dots = match open.dots {
                None => Some(8),
                Some(2) => None,
                Some(dots) => Some(dots),
            }
        }
        Command::GlassDown => match open.dots {
            Some(8) => open.dots = None,
            None => open.dots = Some(2),
            Some(_) => practice.glass = None,
        },
        _ => {}
    }
}
