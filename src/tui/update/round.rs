//! Today's round: begun, gone through, put away.

use super::{Effect, Env, Loaded, back, new_screen};
use crate::drill::record::Attempt;
use crate::drill::{Kind, Seed};
use crate::instrument::Instrument;
use crate::learner::again::Outcome;
use crate::learner::calendar::Day;
use crate::learner::gates::{Target, gates};
use crate::learner::progress::of_summary;
use crate::learner::repair::Word;
use crate::learner::schedule::{Today, today};
use crate::learner::sitting::{Posed, Sitting};
use crate::render::LineStyle;
use crate::session::{Practice, Programme};
use crate::tui::model::{BenchScreen, Model, PracticeScreen, Screen, TodayScreen};
use crate::wording;

/// The setting a learner's round is put away under.
pub fn round_key(learner: &str) -> String {
    format!("round/{learner}")
}

/// Takes in what was read of earlier readings: what they come to, and what there is to do today.
pub(super) fn loaded(model: &mut Model, loaded: &Loaded, env: &Env) {
    let summary = &loaded.summary;
    model.progress = Some(of_summary(summary));
    model.attendance.know(summary);
    let all: Vec<&Instrument> = model.catalogue.all().collect();
    let judged = all.iter().filter_map(|tool| {
        let kept = summary.on(&tool.id).filter(|kept| kept.score.answered > 0)?;
        Some((tool.id.clone(), gates(tool, kept, Target::of(tool))))
    });
    model.gates = judged.collect();
    let Some(day) = Day::of(&env.at) else { return };
    let put_away = loaded.round.as_deref().and_then(|text| serde_json::from_str::<Sitting>(text).ok());
    let before = model.today.take();
    let kept = before.as_ref().and_then(|today| today.going.clone());
    let going =
        put_away.or(kept).filter(|sitting| sitting.day() == day && sitting.score().0 < sitting.length());
    let plan = today(summary, &all, day);
    let something = going.is_some() || matches!(plan, Today::Round(_));
    let chosen = something && before.is_none_or(|before| before.chosen);
    model.today = Some(TodayScreen { day, plan, going, chosen });
}

/// Begins today's round, or goes on with it.
pub(super) fn start(model: &mut Model, env: &Env) -> Vec<Effect> {
    let Some(today) = &mut model.today else { return Vec::new() };
    let sitting = match (today.going.take(), &today.plan) {
        (Some(sitting), _) => sitting,
        (None, Today::Round(round)) => Sitting::new(round, today.day, env.seed),
        (None, Today::Rest(_) | Today::Fresh) => return Vec::new(),
    };
    let Some((screen, effect)) = show(model, sitting, env) else {
        model.notice = Some(wording::today::TOO_SMALL.to_owned());
        return Vec::new();
    };
    model.screens.push(screen);
    vec![effect]
}

/// Shows the next question of the round that is up, or ends it.
pub(super) fn next(model: &mut Model, env: &Env) -> Vec<Effect> {
    let sitting = match model.screen_mut() {
        Screen::Practice(practice) => practice.sitting.take(),
        Screen::Bench(bench) => bench.sitting.take(),
        _ => None,
    };
    let Some(sitting) = sitting else { return Vec::new() };
    let score = sitting.score();
    if let Some((screen, effect)) = show(model, sitting, env) {
        *model.screen_mut() = screen;
        // As with every next question: no smeared bar may stay on a plate.
        let repaint = (model.lines == LineStyle::Bars).then_some(Effect::Repaint);
        return std::iter::once(effect).chain(repaint).collect();
    }
    let mut effects = vec![Effect::Remember(round_key(&model.learner), String::new())];
    effects.extend(back(model));
    model.notice = Some(wording::today::done(score));
    effects
}

/// The screen of the question that is up in a round, or of the next one; none when it is over. What cannot be drawn in this
/// window is not asked about, so it is passed over.
fn show(model: &Model, mut sitting: Sitting, env: &Env) -> Option<(Screen, Effect)> {
    loop {
        if sitting.up().is_none() {
            sitting.next(&model.catalogue);
        }
        let posed = sitting.up()?.clone();
        if let Some(mut screen) = screen(model, posed, env) {
            let effect = put_away(&model.learner, &sitting);
            match &mut screen {
                Screen::Practice(practice) => practice.sitting = Some(sitting),
                Screen::Bench(bench) => bench.sitting = Some(sitting),
                _ => {}
            }
            return Some((screen, effect));
        }
        sitting.pass_over();
    }
}

/// A question of a round on its screen; none where the instrument is not there or the window too small.
fn screen(model: &Model, posed: Posed, env: &Env) -> Option<Screen> {
    let instrument = model.catalogue.get(&posed.instrument)?;
    let (learner, seed) = (model.learner.clone(), Seed(posed.seed));
    if posed.kind == Kind::Read {
        let run = Practice::resume(instrument, learner, seed, posed.number);
        let screen = new_screen(posed.instrument, run, env);
        return model.picture(&screen).is_ok().then(|| Screen::Practice(Box::new(screen)));
    }
    let programme = Programme::Kinds(vec![posed.kind]);
    let run = programme.bench(instrument, learner, seed, posed.number)?;
    let screen = BenchScreen::new(posed.instrument, programme, run, env.now);
    model.bench_fits(&screen).then(|| Screen::Bench(Box::new(screen)))
}

/// Takes in that a task of a round is done; it counts as one, right where every part of it is.
pub(super) fn done(bench: &mut BenchScreen, learner: &str) -> Option<Effect> {
    let (part, parts) = bench.run.which();
    let sitting = bench.sitting.as_mut()?;
    if part == parts {
        let (_, right) = bench.run.score();
        let all_right = usize::try_from(right).is_ok_and(|right| right == parts);
        sitting.heard(if all_right { Outcome::Right } else { Outcome::Missed });
    }
    Some(put_away(learner, sitting))
}

/// Takes in an answer of a round.
pub(super) fn heard(practice: &mut PracticeScreen, attempt: &Attempt, learner: &str) -> Option<Effect> {
    let target = Target::of(practice.run.tool());
    let sitting = practice.sitting.as_mut()?;
    sitting.heard(Outcome::of(attempt, target));
    match &practice.word {
        Some(Word::Named(found)) => sitting.repair(&practice.instrument, found.id),
        Some(Word::Clear(found) | Word::NotYet(found)) => sitting.repaired(&practice.instrument, found.id),
        None => {}
    }
    Some(put_away(learner, sitting))
}

fn put_away(learner: &str, sitting: &Sitting) -> Effect {
    let text = serde_json::to_string(sitting).expect("a round is always JSON");
    Effect::Remember(round_key(learner), text)
}
