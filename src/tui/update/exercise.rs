//! Exercises and checks: chosen, begun, gone through, left, taken up, ended.

use super::sat::{Desked, Leaves, kept, put_away};
use super::{Effect, Env, back};
use crate::class::card::Card;
use crate::class::sitting::{End, Purpose, Sitting};
use crate::drill::set::{Allowed, DrillSet};
use crate::render::LineStyle;
use crate::session::{Act, Exercise, Missing, On, Stand, Whose};
use crate::tui::command::Command;
use crate::tui::model::{BenchScreen, Issued, Model, PartOf, ResultScreen, Screen, StartScreen};
use crate::wording::exercise as say;
use std::collections::BTreeMap;

/// Shows the list of sets.
pub(super) fn list(model: &mut Model) -> Vec<Effect> {
    model.screens.push(Screen::Sets { chosen: 0 });
    vec![Effect::LookUpSets]
}

/// What was put away of each set has been read.
pub(super) fn listed(model: &mut Model, last: BTreeMap<String, Sitting>, cards: Vec<Issued>) -> Vec<Effect> {
    model.sets.last = last;
    model.sets.cards = cards;
    Vec::new()
}

/// Shows the page before a set, or before it goes on.
pub(super) fn found(model: &mut Model, id: &str, kept: Option<&str>, env: &Env) -> Vec<Effect> {
    let Some(set) = model.sets.all.get(id).cloned() else { return Vec::new() };
    let left = kept.and_then(|text| Exercise::read(&set, &model.catalogue, text));
    match left.filter(|exercise| exercise.sitting().end == End::Open) {
        Some(exercise) => show(model, exercise),
        None => begin(model, set, None, env),
    }
    Vec::new()
}

/// Shows the page before a job card, or before it goes on.
pub(super) fn card_found(model: &mut Model, number: &str, desked: Desked, env: &Env) -> Vec<Effect> {
    let Some(Issued { card, set, .. }) = model.sets.card(number).cloned() else { return Vec::new() };
    match desked.going {
        None => begin(model, set, Some((&card, desked.tries + 1)), env),
        Some(going) => {
            let taken = Exercise::take_up(set, &model.catalogue, going, desked.put_away.as_deref());
            begun(model, taken);
        }
    }
    Vec::new()
}

fn begin(model: &mut Model, set: DrillSet, card: Option<(&Card, u32)>, env: &Env) {
    let whose = Whose {
        id: format!("{:016x}", env.seed.0),
        learner: model.learner.clone(),
        card: card.map(|(card, _)| card.number.clone()),
        purpose: card.map(|(card, _)| card.purpose),
        nth: card.map_or(1, |(_, nth)| nth),
        at: env.at.clone(),
    };
    let begun_now = Exercise::begin(set, &model.catalogue, whose);
    begun(model, begun_now);
}

fn begun(model: &mut Model, exercise: Result<Exercise, Missing>) {
    match exercise {
        Ok(exercise) => show(model, exercise),
        Err(Missing::Instrument(id)) => model.notice = Some(say::missing_instrument(&id)),
        Err(Missing::Question(place)) => model.notice = Some(say::missing_question(place)),
    }
}

fn show(model: &mut Model, exercise: Exercise) {
    let start = StartScreen::new(exercise, model);
    model.screens.push(Screen::Start(Box::new(start)));
}

/// The window has another size: what has no room in it is looked at anew.
pub(super) fn resized(model: &mut Model) {
    let Screen::Start(start) = model.screen() else { return };
    let needs = model.needs(&start.exercise);
    if let Screen::Start(start) = model.screen_mut() {
        start.needs = needs;
    }
}

/// Enter, on the pages round the questions.
pub(super) fn start(model: &mut Model, env: &Env) -> Vec<Effect> {
    match model.screen() {
        Screen::Sets { chosen } => {
            if let Some(issued) = model.sets.cards.get(*chosen) {
                return vec![Effect::LookUpCard(issued.card.number.clone())];
            }
            let set = model.sets.id_at(*chosen).map(str::to_owned);
            set.map(Effect::LookUpSet).into_iter().collect()
        }
        Screen::Start(start) if start.is_refused() => Vec::new(),
        Screen::Start(_) => go(model, env),
        Screen::Result(result) => {
            let chosen = result.chosen;
            look(model, chosen, env);
            Vec::new()
        }
        _ => Vec::new(),
    }
}

/// Goes from the page before to the questions.
fn go(model: &mut Model, env: &Env) -> Vec<Effect> {
    let Some(Screen::Start(start)) = model.screens.pop() else { return Vec::new() };
    let mut exercise = start.exercise;
    exercise.shown(env.now);
    let Some(run) = exercise.bench(&model.catalogue) else {
        // Everything was answered before it could be ended.
        let keep = exercise.end(End::Done, &env.at);
        let effects = kept(model, &exercise, keep, env);
        return over(model, exercise, effects);
    };
    let bench = BenchScreen::of_paper(exercise, run, env.now);
    model.screens.push(Screen::Bench(Box::new(bench)));
    let passed = pass_by(model, env);
    put_away(model, Leaves::No, env).into_iter().chain(passed).chain(smeared(model)).collect()
}

/// Begins a set anew that was left.
pub(super) fn anew(model: &mut Model, env: &Env) -> Vec<Effect> {
    let Some(Screen::Start(start)) = model.screens.pop() else { return Vec::new() };
    let mut exercise = start.exercise;
    let keep = exercise.end(End::Left, &env.at);
    let effects = kept(model, &exercise, keep, env);
    begin(model, exercise.set().clone(), None, env);
    effects
}

/// What a command means while a paper is gone through, where that is not what it means at the bench.
pub(super) fn takes(model: &mut Model, command: Command, env: &Env) -> Option<Vec<Effect>> {
    use Command as C;
    if command == C::Quit {
        let mut effects = put_away(model, Leaves::Now, env);
        effects.push(Effect::Leave);
        return Some(effects);
    }
    let Screen::Bench(bench) = model.screen_mut() else { return None };
    match &bench.part_of {
        PartOf::Run => return None,
        PartOf::Past { nth: (nth, _) } => {
            let nth = *nth;
            return past(model, command, nth, env);
        }
        PartOf::Paper(_) => {}
    }
    let (silent, bare, leaving) = (bench.is_silent(), bench.glass_rule == Allowed::No, bench.leaving.take());
    let why = match command {
        C::GlassUp
        | C::GlassDown
        | C::GlassLeft
        | C::GlassRight
        | C::GlassLeftFive
        | C::GlassRightFive
        | C::GlassZero
            if bare =>
        {
            say::NO_GLASS
        }
        C::Progress | C::Walk | C::Lesson if silent => say::NOT_NOW,
        C::Back if silent && leaving.is_none() => {
            bench.leaving = Some(env.now);
            say::LEAVE
        }
        C::Back => return Some(leave(model, env)),
        _ => return None,
    };
    model.notice = Some(why.to_owned());
    Some(Vec::new())
}

/// Looking at what went wrong.
fn past(model: &mut Model, command: Command, nth: usize, env: &Env) -> Option<Vec<Effect>> {
    let on = match command {
        Command::Next => {
            let Screen::Bench(bench) = model.screen() else { return None };
            // What is out of view is brought up first.
            model.bench_hidden(bench) == 0
        }
        Command::NextNow => true,
        Command::Back => {
            model.screens.pop();
            return Some(Vec::new());
        }
        _ => false,
    };
    if !on {
        return None;
    }
    model.screens.pop();
    look(model, nth, env);
    Some(Vec::new())
}

/// Shows one of the answers that went wrong, counted from 0; nothing after the last.
fn look(model: &mut Model, nth: usize, env: &Env) {
    let Screen::Result(result) = model.screen() else { return };
    let wrong = result.wrong();
    let count = wrong.len();
    let bench = wrong.get(nth).and_then(|entry| result.exercise.look_back(&model.catalogue, entry));
    let chosen = nth.min(count.saturating_sub(1));
    if let Screen::Result(result) = model.screen_mut() {
        result.chosen = chosen;
    }
    if let Some(run) = bench {
        let screen = BenchScreen::of_past(run, (nth + 1, count), env.now);
        model.screens.push(Screen::Bench(Box::new(screen)));
    }
}

/// Hands an act to the paper; none where the bench is no part of one.
pub(super) fn acted(model: &mut Model, act: Act, env: &Env) -> Option<Vec<Effect>> {
    let Model { screens, catalogue, .. } = model;
    let Some(Screen::Bench(bench)) = screens.last_mut() else { return None };
    let BenchScreen { part_of: PartOf::Paper(exercise), run, .. } = &mut **bench else { return None };
    let locked = matches!(act, Act::Lock);
    let keep = exercise.act(run, catalogue, act);
    if matches!(run.stand(), Stand::Asking { again: Some(_) }) {
        bench.hinted = true;
    }
    if keep.is_empty() {
        return Some(smeared(model).filter(|_| locked).into_iter().collect());
    }
    (bench.saving, bench.from, bench.again) = (true, 0, None);
    let exercise = bench.paper()?.clone();
    Some(kept(model, &exercise, keep, env))
}

/// What was put down is on the disk, or why not. Where nothing is told the next question comes at once.
pub(super) fn sat(model: &mut Model, outcome: Result<(), String>, env: &Env) -> Vec<Effect> {
    if let Err(why) = outcome {
        model.store_problem = Some(why);
    }
    let Screen::Bench(bench) = model.screen_mut() else { return Vec::new() };
    if !(bench.is_silent() && bench.saving) {
        return Vec::new();
    }
    bench.saving = false;
    next(model, env).unwrap_or_default()
}

/// Goes on to the next part or question; none where the bench is no part of a paper.
pub(super) fn next(model: &mut Model, env: &Env) -> Option<Vec<Effect>> {
    let Model { screens, catalogue, .. } = model;
    let Some(Screen::Bench(bench)) = screens.last_mut() else { return None };
    let BenchScreen { part_of: PartOf::Paper(exercise), run, .. } = &mut **bench else { return None };
    let on = exercise.go_on(run, catalogue, &env.at);
    Some(went(model, on, env))
}

fn went(model: &mut Model, on: On, env: &Env) -> Vec<Effect> {
    let Screen::Bench(bench) = model.screen_mut() else { return Vec::new() };
    match on {
        On::Here => bench.begin_part(env.now),
        On::Next(run) => {
            bench.instrument.clone_from(&run.part().tool.id);
            bench.run = *run;
            bench.begin_part(env.now);
            let passed = pass_by(model, env);
            return passed.into_iter().chain(smeared(model)).collect();
        }
        On::Over(keep) => {
            let Some(Screen::Bench(bench)) = model.screens.pop() else { return Vec::new() };
            let PartOf::Paper(exercise) = bench.part_of else { return Vec::new() };
            let effects = kept(model, &exercise, keep, env);
            return over(model, *exercise, effects);
        }
    }
    smeared(model).into_iter().collect()
}

/// In an exercise what cannot be drawn in this window is passed by. A check has been looked over as a whole.
fn pass_by(model: &mut Model, env: &Env) -> Vec<Effect> {
    let Screen::Bench(bench) = model.screen() else { return Vec::new() };
    let Some(exercise) = bench.paper() else { return Vec::new() };
    if exercise.sitting().purpose != Purpose::Exercise || bench.run.which().0 > 1 || model.bench_fits(bench) {
        return Vec::new();
    }
    let Model { screens, catalogue, .. } = model;
    let Some(Screen::Bench(bench)) = screens.last_mut() else { return Vec::new() };
    let PartOf::Paper(exercise) = &mut bench.part_of else { return Vec::new() };
    let on = exercise.pass_by(catalogue, &env.at);
    went(model, on, env)
}

/// The time of an exercise is up: it ends where it stands.
pub(super) fn time_up(model: &mut Model, env: &Env) -> Option<Vec<Effect>> {
    let (at, exercise) = model.under_way_mut()?;
    if !exercise.left(env.now)?.is_zero() {
        return None;
    }
    let keep = exercise.end(End::TimeUp, &env.at);
    let exercise = exercise.clone();
    model.screens.truncate(at);
    model.overlay = None;
    let effects = kept(model, &exercise, keep, env);
    Some(over(model, exercise, effects))
}

/// Shows what it comes to.
fn over(model: &mut Model, mut exercise: Exercise, mut effects: Vec<Effect>) -> Vec<Effect> {
    exercise.hidden(model.now);
    let result = ResultScreen::new(exercise, model);
    model.sets.last.insert(result.exercise.set().id.clone(), result.exercise.sitting().clone());
    if let Some(path) = model.sets.page.clone() {
        effects.push(Effect::WritePage(Some(path), result.page_name(), result.page(model)));
    }
    model.screens.push(Screen::Result(Box::new(result)));
    effects
}

/// Writes the page for the supervisor.
pub(super) fn write_page(model: &Model) -> Vec<Effect> {
    let Screen::Result(result) = model.screen() else { return Vec::new() };
    vec![Effect::WritePage(model.sets.page.clone(), result.page_name(), result.page(model))]
}

/// Leaves it, to be taken up again.
fn leave(model: &mut Model, env: &Env) -> Vec<Effect> {
    let mut effects = put_away(model, Leaves::Now, env);
    if let Some(exercise) = model.under_way() {
        let (id, sitting) = (exercise.set().id.clone(), exercise.sitting().clone());
        model.sets.last.insert(id, sitting);
    }
    effects.extend(back(model));
    effects
}

/// Some terminals smear a block glyph over its cell's edge; a false line must not stay on a plate.
fn smeared(model: &Model) -> Option<Effect> {
    (model.lines == LineStyle::Bars).then_some(Effect::Repaint)
}
