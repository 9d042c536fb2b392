//! Commands while a question is up.

use super::{Effect, Env, Resume, remember_run, round};
use crate::learner::calendar::Day;
use crate::render::LineStyle;
use crate::session::{self, Phase, Step};
use crate::tui::command::Command;
use crate::tui::model::{GlassState, Model, Screen};
use std::ops::RangeInclusive;

/// Why a command can do nothing with what is shown, if so.
pub(super) fn cannot(model: &Model, command: Command) -> Option<&'static str> {
    use Command as C;
    let drawing = model.drawing()?;
    match (command, &drawing) {
        (C::Seen | C::Answer | C::Skip | C::Pick | C::PickNumber(_) | C::Lock | C::LeaveSet, Err(_)) => {
            Some("nothing is asked about a picture that is not drawn")
        }
        (C::TurnView, Ok(drawing)) if drawing.view != model.view && model.has_two_views() => {
            Some("the view in the hand does not fit in this window with these lines")
        }
        (
            C::GlassUp
            | C::GlassDown
            | C::GlassLeft
            | C::GlassRight
            | C::GlassLeftFive
            | C::GlassRightFive
            | C::GlassZero,
            Ok(drawing),
        ) if model.has_thimble() && !model.has_glass(drawing) => {
            Some("the glass lies on a vernier laid flat; Tab turns to that view where there is one")
        }
        _ => None,
    }
}

/// Carries a practice command out.
pub(super) fn practice(model: &mut Model, command: Command, env: &Env) -> Vec<Effect> {
    let Screen::Practice(practice) = model.screen() else { return Vec::new() };
    let shown = model.shown(practice);
    let through_glass = shown.glass;
    let bars = model.lines == LineStyle::Bars;
    let instrument = model.instrument(practice).clone();
    // The next question is posed on the instrument, not on the tool as it lies there under the conditions of this one.
    let listed = model.catalogue.get(&practice.instrument).unwrap_or(&instrument).clone();
    let learner = model.learner.clone();
    let lines = instrument.vernier_lines();
    let command = if instrument.glass_runs_leftward() { mirrored(command) } else { command };
    let command = if model.stands_upright(shown.view) { upright(command) } else { command };
    let retry = model.unsaved.clone();
    let Screen::Practice(practice) = model.screen_mut() else { return Vec::new() };
    let took = env.now.saturating_sub(practice.since);
    let at = env.at.clone();
    let effects = match command {
        Command::Seen => {
            practice.since = env.now;
            practice.glass = None;
            practice.run.step(&listed, Step::Seen)
        }
        Command::Answer => {
            practice.again = None;
            let text = std::mem::take(&mut practice.field);
            let effects = practice.run.step(&listed, Step::Answer { text: text.clone(), took, at, shown });
            if effects.is_empty() {
                practice.field = text;
                practice.hinted = true;
            }
            effects
        }
        Command::Skip => practice.run.step(&listed, Step::Skip { took, at, shown }),
        Command::ClearField => {
            practice.field.clear();
            Vec::new()
        }
        Command::ShowEarlier => {
            let next = practice.again.map_or(0, |shown| shown + 1);
            let known = practice.run.question().earlier(practice.run.tool()).len();
            practice.again = (next < known).then_some(next);
            Vec::new()
        }
        Command::Next | Command::NextNow => {
            let Phase::Answered(answered) = practice.run.phase() else { return Vec::new() };
            let shares = answered.shares.len();
            let all_told = command == Command::NextNow || practice.told >= shares;
            if practice.saving {
                return Vec::new();
            }
            practice.again = None;
            if !all_told {
                practice.told += 1;
                // The answer is given: now the glass may show the line that runs straight through.
                let share = &answered.shares[practice.told - 1];
                if let (true, Some(line)) = (share.kind.counts_lines() && through_glass, share.at) {
                    let dots = practice.glass.and_then(|glass| glass.dots);
                    practice.glass = Some(GlassState { line: instrument.glass_line(line.0), dots });
                }
                return Vec::new();
            }
            if practice.sitting.is_some() {
                return round::next(model, env);
            }
            let Model { screens, attendance, .. } = model;
            let Some(Screen::Practice(practice)) = screens.last_mut() else { return Vec::new() };
            let repair = attendance.next(&listed, practice.run.seed(), practice.run.beyond());
            practice.run.step(&listed, repair.map_or(Step::Next, Step::NextAs));
            (practice.glass, practice.told, practice.since, practice.word) = (None, 0, env.now, None);
            let resume = Resume { seed: practice.run.seed(), number: practice.run.goes_on_at(&listed) };
            let mut effects = vec![remember_run(&learner, &practice.instrument, resume)];
            if bars {
                // Some terminals smear a block glyph over its cell's edge; a false line must not stay on a plate.
                effects.push(Effect::Repaint);
            }
            take_usual(model);
            return effects;
        }
        _ => {
            glass(&mut practice.glass, command, lines.as_ref());
            practice.run.step(&listed, Step::Glass)
        }
    };
    let Model { screens, attendance, .. } = model;
    let Some(Screen::Practice(practice)) = screens.last_mut() else { return Vec::new() };
    let mut all: Vec<Effect> = Vec::new();
    for effect in effects {
        let session::Effect::Save(attempt) = effect;
        practice.word = attendance.hear(&listed, &practice.run, Day::of(&attempt.at));
        practice.saving = true;
        practice.told = if attempt.verdict.is_right() { usize::MAX } else { 0 };
        // The next question is what is resumed, should the power go now.
        let resume = Resume { seed: practice.run.seed(), number: practice.run.goes_on_at(&listed) };
        all.extend(retry.iter().map(|unsaved| Effect::Save(Box::new(unsaved.clone()))));
        let round = round::heard(practice, &attempt, &learner);
        all.push(Effect::Save(attempt));
        all.push(round.unwrap_or_else(|| remember_run(&learner, &practice.instrument, resume)));
    }
    all
}

/// Where there is no room for the picture of a less common tool, the usual one is taken.
pub(super) fn take_usual(model: &mut Model) {
    let Screen::Practice(practice) = model.screen() else { return };
    if model.picture(practice).is_ok() {
        return;
    }
    let Some(listed) = model.catalogue.get(&practice.instrument).cloned() else { return };
    if let Screen::Practice(practice) = model.screen_mut() {
        practice.run.step(&listed, Step::Plainly);
    }
}

/// Left is towards the vernier's higher lines where its figures grow to the left.
pub(super) fn mirrored(command: Command) -> Command {
    match command {
        Command::GlassLeft => Command::GlassRight,
        Command::GlassRight => Command::GlassLeft,
        Command::GlassLeftFive => Command::GlassRightFive,
        Command::GlassRightFive => Command::GlassLeftFive,
        other => other,
    }
}

/// On a scale that stands upright the page keys go up and down.
pub(super) fn upright(command: Command) -> Command {
    match command {
        Command::GlassLeftFive => Command::GlassRightFive,
        Command::GlassRightFive => Command::GlassLeftFive,
        other => other,
    }
}

/// Opens, slides, strengthens or closes the glass. It starts at the vernier's 0 and never goes anywhere by itself.
pub(super) fn glass(
    glass_open: &mut Option<GlassState>,
    command: Command,
    lines: Option<&RangeInclusive<i64>>,
) {
    let Some(known) = lines else { return };
    let Some(open) = glass_open else {
        if command != Command::GlassDown {
            *glass_open = Some(GlassState { line: 0, dots: None });
        }
        if matches!(command, Command::GlassUp | Command::GlassDown) {
            return;
        }
        return glass(glass_open, command, lines);
    };
    let slide = |by: i64| (open.line + by).clamp(*known.start(), *known.end());
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
            Some(_) => *glass_open = None,
        },
        _ => {}
    }
}
