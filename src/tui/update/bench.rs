//! Questions of any kind: chosen, gone through, put away.

use super::practice::{cannot, glass, mirrored, upright};
use super::{Effect, Env, Resume, exercise, round};
use crate::drill::record::Attempt;
use crate::drill::task::Wanted;
use crate::instrument::{Instrument, Stroke, Toward};
use crate::render::LineStyle;
use crate::session::{self, Act, Noted, Programme, Stand};
use crate::tui::command::Command;
use crate::tui::model::{BenchScreen, Model, Screen};
use crate::wording::bench as say;

/// How many tasks are passed over where none can be drawn.
const TRIES: u32 = 24;

/// How many rows an explanation is moved on at a key.
const ROWS_ON: u8 = 2;

/// The setting under which the place in a run is kept.
pub fn bench_key(learner: &str, instrument: &str, programme: &Programme) -> String {
    format!("bench/{learner}/{instrument}/{}", programme.word())
}

/// Shows which kinds there are on the chosen instrument.
pub(super) fn kinds(model: &mut Model) {
    let Screen::Home { chosen } = model.screen() else { return };
    let name = model.ids().get(*chosen).map(|id| (*id).to_owned());
    if let Some((name, known)) = name.and_then(|name| Some((name.clone(), model.catalogue.get(&name)?))) {
        let offers = Programme::all(known);
        model.screens.push(Screen::Kinds { instrument: name, offers, chosen: 0 });
    }
}

/// Begins a run of some kinds, or goes on with it where it was left.
pub(super) fn begin(
    model: &mut Model,
    instrument: String,
    programme: Programme,
    resume: Option<Resume>,
    env: &Env,
) -> Vec<Effect> {
    let Some(known) = model.catalogue.get(&instrument) else { return Vec::new() };
    let Resume { seed, number } = resume.unwrap_or(Resume { seed: env.seed, number: 1 });
    let Some(run) = programme.bench(known, model.learner.clone(), seed, number) else {
        model.notice = Some(say::NO_SENSE.to_owned());
        return Vec::new();
    };
    let last = Effect::Remember(format!("last/{}", model.learner), instrument.clone());
    let screen = BenchScreen::new(instrument, programme, run, env.now);
    model.screens.push(Screen::Bench(Box::new(screen)));
    let fits = take_drawable(model, env);
    if !fits {
        model.notice = Some(say::TOO_SMALL.to_owned());
    }
    vec![remember(model, 0), last].into_iter().chain(smeared(model)).collect()
}

/// Passes over what cannot be drawn in this window; false where nothing could be found that can.
fn take_drawable(model: &mut Model, env: &Env) -> bool {
    for _ in 0..TRIES {
        let Screen::Bench(bench) = model.screen() else { return true };
        if model.bench_fits(bench) {
            return true;
        }
        let Some(listed) = model.catalogue.get(&bench.instrument).cloned() else { return false };
        if let Screen::Bench(bench) = model.screen_mut() {
            bench.run.pass_over(&listed);
            bench.begin_part(env.now);
        }
    }
    false
}

/// Where the run stands, or so many tasks later.
fn remember(model: &Model, later: u32) -> Effect {
    let (key, text) = match model.screen() {
        Screen::Bench(bench) => {
            let run = &bench.run;
            let key = bench_key(&model.learner, &bench.instrument, &bench.programme);
            (key, format!("{} {}", run.seed().0, run.turn() + later))
        }
        _ => (String::new(), String::new()),
    };
    Effect::Remember(key, text)
}

/// Some terminals smear a block glyph over its cell's edge; a false line must not stay on a plate.
fn smeared(model: &Model) -> Option<Effect> {
    (model.lines == LineStyle::Bars).then_some(Effect::Repaint)
}

/// Carries a command out.
pub(super) fn bench(model: &mut Model, command: Command, env: &Env) -> Vec<Effect> {
    use Command as C;
    if let Some(why) = cannot(model, command) {
        model.notice = Some(why.to_owned());
        return Vec::new();
    }
    let Screen::Bench(bench) = model.screen() else { return Vec::new() };
    let Some(listed) = model.catalogue.get(&bench.instrument).cloned() else { return Vec::new() };
    let shown = model.bench_shown(bench);
    let hidden = model.bench_hidden(bench);
    let page = model.bench_page(bench);
    let (turns, one_at_a_time) = (page.turns, page.plates.len() == 1 && bench.sights().len() == 2);
    let tool = model.tool_shown();
    let command = match &tool {
        Some(tool) if tool.glass_runs_leftward() => mirrored(command),
        _ => command,
    };
    let command = if model.stands_upright(shown.view) { upright(command) } else { command };
    let Screen::Bench(bench) = model.screen_mut() else { return Vec::new() };
    let noted = Noted { took: env.now.saturating_sub(bench.since), at: env.at.clone(), shown };
    let act = match command {
        C::Seen => {
            let next = bench.before.map_or(0, |seen| seen + 1);
            bench.before = (next < bench.earlier().len()).then_some(next);
            bench.since = env.now;
            return Vec::new();
        }
        C::ShowEarlier => {
            let next = bench.again.map_or(0, |shown| shown + 1);
            bench.again = (next < bench.earlier().len()).then_some(next);
            return Vec::new();
        }
        C::OtherPicture if turns => {
            // The first, the second where they do not stand together, the answers.
            let second = bench.front == 0 && one_at_a_time && !bench.turned;
            (bench.turned, bench.front) = (!bench.turned && !second, usize::from(second));
            return Vec::new();
        }
        C::OtherPicture => {
            bench.front = if bench.run.sights().len() > 1 { 1 - bench.front } else { 0 };
            return Vec::new();
        }
        C::ClearField => {
            bench.field.clear();
            return Vec::new();
        }
        C::Next if hidden > 0 => {
            // One row of what was in view stays.
            bench.from += hidden.min(usize::from(ROWS_ON));
            return Vec::new();
        }
        C::Next | C::NextNow => return next(model, &listed, env),
        C::Answer => Act::Type(bench.field.clone(), noted),
        C::Pick => Act::Choose(bench.chosen, noted),
        C::PickNumber(number) => {
            bench.chosen = usize::from(number - 1);
            Act::Choose(bench.chosen, noted)
        }
        C::Lock => Act::Lock,
        C::Loosen => Act::Loosen,
        C::LeaveSet => Act::Leave(noted),
        C::Skip => Act::Skip(noted),
        _ => {
            if let Some(stroke) = moved(bench, command) {
                stroke
            } else {
                let lines = tool.and_then(|tool| tool.vernier_lines());
                let front = bench.front();
                glass(&mut bench.glass[front], command, lines.as_ref());
                Act::Glass
            }
        }
    };
    match exercise::acted(model, act.clone(), env) {
        Some(effects) => effects,
        None => carried_out(model, &listed, act),
    }
}

/// A stroke with the tool that is being set.
fn moved(bench: &BenchScreen, command: Command) -> Option<Act> {
    use Command as C;
    let part = bench.run.part();
    if !matches!(part.wanted, Wanted::Setting(_)) {
        return None;
    }
    let travel = part.tool.travel();
    let (right, left) = if travel.grows.is_leftward() {
        (Toward::Smaller, Toward::Larger)
    } else {
        (Toward::Larger, Toward::Smaller)
    };
    let at = bench.run.at();
    let to = match command {
        C::FineRight => travel.moved(at, Stroke::Fine, right),
        C::FineLeft => travel.moved(at, Stroke::Fine, left),
        C::LineUp => travel.moved(at, Stroke::Line, Toward::Larger),
        C::LineDown => travel.moved(at, Stroke::Line, Toward::Smaller),
        C::CoarseUp => travel.moved(at, Stroke::Coarse, Toward::Larger),
        C::CoarseDown => travel.moved(at, Stroke::Coarse, Toward::Smaller),
        C::FarUp => travel.moved(at, Stroke::Far, Toward::Larger),
        C::FarDown => travel.moved(at, Stroke::Far, Toward::Smaller),
        C::ToZero => travel.zero(),
        _ => return None,
    };
    Some(Act::Move(to - at))
}

/// Hands an act to the run, and what comes of it to the runtime.
fn carried_out(model: &mut Model, listed: &Instrument, act: Act) -> Vec<Effect> {
    let retry = model.unsaved.clone();
    let locked = matches!(act, Act::Lock);
    let Screen::Bench(bench) = model.screen_mut() else { return Vec::new() };
    let effects = bench.run.act(listed, act);
    if matches!(bench.run.stand(), Stand::Asking { again: Some(_) }) {
        bench.hinted = true;
    }
    let Some(session::Effect::Save(attempt)) = effects.into_iter().next() else {
        return smeared(model).filter(|_| locked).into_iter().collect();
    };
    (bench.saving, bench.from, bench.again) = (true, 0, None);
    save(model, attempt, retry)
}

/// What could not be written down before is tried again with the attempt.
fn save(model: &mut Model, attempt: Box<Attempt>, retry: Vec<Attempt>) -> Vec<Effect> {
    let mut all: Vec<Effect> = retry.into_iter().map(|unsaved| Effect::Save(Box::new(unsaved))).collect();
    all.push(Effect::Save(attempt));
    let Model { screens, learner, .. } = model;
    if let Some(Screen::Bench(bench)) = screens.last_mut()
        && let Some(put_away) = round::done(bench, learner)
    {
        all.push(put_away);
        return all;
    }
    // A task that is done is not asked again, should the power go now.
    let Screen::Bench(bench) = model.screen() else { return all };
    let (part, parts) = bench.run.which();
    all.push(remember(model, u32::from(part == parts)));
    all
}

/// Goes on to the next part or task.
fn next(model: &mut Model, listed: &Instrument, env: &Env) -> Vec<Effect> {
    let Screen::Bench(bench) = model.screen_mut() else { return Vec::new() };
    if bench.saving {
        return Vec::new();
    }
    if let Some(effects) = exercise::next(model, env) {
        return effects;
    }
    let Screen::Bench(bench) = model.screen_mut() else { return Vec::new() };
    let (part, parts) = bench.run.which();
    if bench.sitting.is_some() && part == parts {
        return round::next(model, env);
    }
    bench.run.act(listed, Act::Next);
    bench.begin_part(env.now);
    if bench.run.which().0 == 1 && !take_drawable(model, env) {
        model.notice = Some(say::TOO_SMALL.to_owned());
    }
    let in_round = matches!(model.screen(), Screen::Bench(bench) if bench.sitting.is_some());
    let remembered = (!in_round).then(|| remember(model, 0));
    remembered.into_iter().chain(smeared(model)).collect()
}
