//! Lines of lists chosen and begun.

use super::{Effect, Env, exercise, round};
use crate::drill::task::Wanted;
use crate::learner::schedule::Today;
use crate::session::Programme;
use crate::tui::command::Command;
use crate::tui::model::{Model, Screen};

/// Lines that a care card has at the most, wrapped.
const LONGEST_CARD: usize = 40;

/// Chooses the line above or below.
pub(super) fn choose(model: &mut Model, command: Command) {
    if choose_today(model, command) {
        return;
    }
    let home = model.ids().len();
    let sets = model.sets.lines();
    let listed = model.progress.as_ref().map_or(0, |progress| progress.instruments.len());
    let (chosen, count) = match model.screen_mut() {
        Screen::Home { chosen } => (chosen, home),
        Screen::Progress { chosen } => (chosen, listed),
        Screen::Care { from, .. } => (from, LONGEST_CARD),
        Screen::Kinds { chosen, offers, .. } => {
            let count = offers.len();
            (chosen, count)
        }
        Screen::Bench(bench) => {
            let Wanted::Choice(choice) = &bench.run.part().wanted else { return };
            let count = choice.options.len();
            (&mut bench.chosen, count)
        }
        Screen::Sets { chosen } => (chosen, sets),
        Screen::Start(start) => (&mut start.from, LONGEST_CARD),
        Screen::Result(result) => {
            let count = result.wrong().len();
            (&mut result.chosen, count)
        }
        _ => return,
    };
    *chosen = match command {
        Command::Up => chosen.saturating_sub(1),
        _ => (*chosen + 1).min(count.saturating_sub(1)),
    };
}

/// Goes from the list up to what there is to do today, or down from it; true where that was it.
fn choose_today(model: &mut Model, command: Command) -> bool {
    let Screen::Home { chosen } = model.screen() else { return false };
    let at_top = *chosen == 0;
    let Some(today) = &mut model.today else { return false };
    let there = today.going.is_some() || matches!(today.plan, Today::Round(_));
    match (today.chosen, command) {
        (true, Command::Down) => today.chosen = false,
        (true, _) => {}
        (false, Command::Up) if at_top && there => today.chosen = true,
        (false, _) => return false,
    }
    true
}

/// Shows the care card of what is chosen or shown.
pub(super) fn show_care(model: &mut Model) {
    let instrument = match model.screen() {
        Screen::Practice(practice) => Some(practice.instrument.clone()),
        Screen::Bench(bench) => Some(bench.instrument.clone()),
        Screen::Kinds { instrument, .. } => Some(instrument.clone()),
        Screen::Walk(walk) => Some(walk.instrument.clone()),
        Screen::Lesson(lesson) => Some(lesson.run.lesson().on.clone()),
        Screen::Home { chosen } => model.ids().get(*chosen).map(|id| (*id).to_owned()),
        _ => None,
    };
    if let Some(instrument) = instrument {
        model.screens.push(Screen::Care { instrument, from: 0 });
    }
}

/// Begins what is chosen.
pub(super) fn start(model: &mut Model, env: &Env) -> Vec<Effect> {
    if let Screen::Kinds { instrument, offers, chosen } = model.screen() {
        let begin = |offer: &Programme| Effect::LookUpBench(instrument.clone(), offer.clone());
        return offers.get(*chosen).map(begin).into_iter().collect();
    }
    let Screen::Home { chosen } = model.screen() else { return exercise::start(model, env) };
    if model.today.as_ref().is_some_and(|today| today.chosen) {
        return round::start(model, env);
    }
    let id = model.ids().get(*chosen).map(|id| (*id).to_owned());
    id.map(|id| vec![Effect::LookUp(id)]).unwrap_or_default()
}
