//! Commands while a tool is moved by hand, or in a lesson.

use super::practice::{cannot, glass, mirrored};
use super::{Effect, Env};
use crate::exact::Quanta;
use crate::instrument::{Instrument, Stroke, Toward};
use crate::lesson::lesson_for;
use crate::session::{Asked, Mode, More, Phase, Teaching, TeachingStep, Walk, WalkStep};
use crate::tui::command::Command;
use crate::tui::model::{Follow, GlassState, LessonScreen, Model, Screen, WalkScreen};
use crate::wording::walk as say;

/// Opens a walk or a lesson on what is chosen or shown.
pub(super) fn open(model: &mut Model, command: Command) -> Vec<Effect> {
    let name = match model.screen() {
        Screen::Home { chosen } => model.ids().get(*chosen).map(|id| (*id).to_owned()),
        Screen::Walk(walk) => Some(walk.instrument.clone()),
        Screen::Practice(practice) => {
            let Phase::Answered(_) = practice.run.phase() else {
                model.notice = Some(say::NOT_WHILE_ASKED.to_owned());
                return Vec::new();
            };
            if let Some(instrument) = model.catalogue.get(&practice.instrument) {
                // The tool as it was read, on its lines and in good order.
                let question = practice.run.question();
                let fitted = instrument.fitted(&question.variant);
                let value = practice.run.tool().value(question.reading.total);
                let at = fitted.lattice.at(value).filter(|at| is_setting(&fitted, *at));
                let at = at.unwrap_or_else(|| fitted.travel().zero());
                let run = Walk::at(instrument, &question.variant, at);
                let screen = WalkScreen::new(practice.instrument.clone(), run);
                model.screens.push(Screen::Walk(Box::new(screen)));
            }
            return Vec::new();
        }
        _ => None,
    };
    if let Some(name) = name {
        begin(model, command, &name);
    }
    Vec::new()
}

/// Begins a walk on an instrument, or its lesson.
pub fn begin(model: &mut Model, command: Command, name: &str) {
    let Some(instrument) = model.catalogue.get(name) else { return };
    let screen = match command {
        Command::Lesson => {
            let Some(lesson) = lesson_for(instrument) else {
                model.notice = Some(say::no_lesson(&instrument.family));
                return;
            };
            let run = Teaching::new(lesson);
            Screen::Lesson(Box::new(LessonScreen { run, field: String::new(), glass: None }))
        }
        _ => Screen::Walk(Box::new(WalkScreen::new(name.to_owned(), Walk::new(instrument)))),
    };
    model.screens.push(screen);
}

fn is_setting(tool: &Instrument, at: Quanta) -> bool {
    at >= tool.low && at <= tool.high && (at - tool.low).is_multiple_of(tool.step)
}

/// Carries a command out.
pub(super) fn walk(model: &mut Model, command: Command, env: &Env) -> Vec<Effect> {
    if let Some(why) = cannot(model, command) {
        model.notice = Some(why.to_owned());
        return Vec::new();
    }
    let tool = model.tool_shown();
    let command = match &tool {
        Some(tool) if tool.glass_runs_leftward() => mirrored(command),
        _ => command,
    };
    let lines = tool.and_then(|tool| tool.vernier_lines());
    match model.screen_mut() {
        Screen::Walk(walk) => {
            if is_glass(command) {
                let slid = matches!(command, Command::GlassLeft | Command::GlassRight);
                let showing = *walk.run.mode() == Mode::Showing;
                if let (true, Follow::InLine, Some(line)) = (showing, walk.follow, walk.in_line()) {
                    // It is slid from where it is seen.
                    let dots = walk.glass.and_then(|glass| glass.dots);
                    if slid || walk.glass.is_some() {
                        walk.glass = Some(GlassState { line, dots });
                    }
                }
                glass(&mut walk.glass, command, lines.as_ref());
                if slid {
                    walk.follow = Follow::Slid;
                }
                if walk.glass.is_none() {
                    walk.follow = Follow::InLine;
                }
            } else {
                moved(walk, command, env);
            }
        }
        Screen::Lesson(lesson) => {
            if is_glass(command) {
                glass(&mut lesson.glass, command, lines.as_ref());
            } else if taught(lesson, command) == More::Ended {
                ended(model);
            }
        }
        _ => {}
    }
    Vec::new()
}

fn is_glass(command: Command) -> bool {
    use Command as C;
    matches!(command, C::GlassUp | C::GlassDown | C::GlassLeft | C::GlassRight)
}

fn moved(walk: &mut WalkScreen, command: Command, env: &Env) {
    use Command as C;
    let to_right = if walk.run.travel().grows.is_leftward() { Toward::Smaller } else { Toward::Larger };
    let to_left = if to_right == Toward::Larger { Toward::Smaller } else { Toward::Larger };
    let step = match command {
        C::FineRight => WalkStep::Move(Stroke::Fine, to_right),
        C::FineLeft => WalkStep::Move(Stroke::Fine, to_left),
        C::LineUp => WalkStep::Move(Stroke::Line, Toward::Larger),
        C::LineDown => WalkStep::Move(Stroke::Line, Toward::Smaller),
        C::CoarseUp => WalkStep::Move(Stroke::Coarse, Toward::Larger),
        C::CoarseDown => WalkStep::Move(Stroke::Coarse, Toward::Smaller),
        C::FarUp => WalkStep::Move(Stroke::Far, Toward::Larger),
        C::FarDown => WalkStep::Move(Stroke::Far, Toward::Smaller),
        C::ToZero => WalkStep::Zero,
        C::Elsewhere => WalkStep::Elsewhere(env.seed),
        C::Form => WalkStep::Form,
        C::GuessMode => {
            // A glass that lies where the lines meet would give the reading away.
            walk.glass = None;
            WalkStep::Mode
        }
        C::Skip => WalkStep::Show,
        C::ClearField => {
            walk.field.clear();
            return;
        }
        C::Guess => match (walk.run.asked(), walk.field.is_empty()) {
            (None, _) => WalkStep::Elsewhere(env.seed),
            (Some(_), _) => WalkStep::Guess(walk.field.clone()),
        },
        _ => return,
    };
    let guessing = matches!(step, WalkStep::Guess(_));
    walk.run.step(step);
    let nonsense = matches!(walk.run.mode(), Mode::Guessing { again: Some(_), .. });
    if !(guessing && nonsense) {
        walk.field.clear();
    }
}

fn taught(lesson: &mut LessonScreen, command: Command) -> More {
    let open = matches!(lesson.run.asked(), Asked::Open { .. });
    let step = match command {
        Command::LessonNext if open => TeachingStep::Answer(std::mem::take(&mut lesson.field)),
        Command::LessonNext => TeachingStep::Next,
        Command::LessonBack => TeachingStep::Back,
        Command::Skip => TeachingStep::Show,
        Command::ClearField => {
            lesson.field.clear();
            return More::Yes;
        }
        _ => return More::Yes,
    };
    if matches!(step, TeachingStep::Next | TeachingStep::Back) {
        lesson.glass = None;
        lesson.field.clear();
    }
    lesson.run.step(step)
}

/// After the last step the tool is handed over where it stands.
fn ended(model: &mut Model) {
    let Some(Screen::Lesson(lesson)) = model.screens.pop() else { return };
    model.notice = Some(say::LESSON_ENDS.to_owned());
    if matches!(model.screens.last(), Some(Screen::Walk(_))) {
        return;
    }
    let lesson = lesson.run;
    let stand = lesson.point().stand;
    if let Some(instrument) = model.catalogue.get(&lesson.lesson().on) {
        let run = Walk::at(instrument, &stand.variant, stand.setting);
        let screen = WalkScreen::new(instrument.id.clone(), run);
        model.screens.push(Screen::Walk(Box::new(screen)));
    }
}
