//! A round for a room: forward, back, the clock, points, the glass.

use super::practice::{glass, mirrored};
use super::{Effect, Env};
use crate::instrument::Instrument;
use crate::render::LineStyle;
use crate::session::{Projected, Projector, Stage};
use crate::tui::command::Command;
use crate::tui::model::{Model, Screen};
use crate::tui::projecting::ProjectScreen;
use crate::wording::project as say;
use std::time::Duration;

/// How many questions are passed over where none can be drawn.
const TRIES: u32 = 24;
/// How many rows an answer is moved on at a key.
const ROWS_ON: usize = 2;

/// Puts a round up, not begun yet.
pub fn begin(model: &mut Model, projected: &Projected, now: Duration) {
    match Projector::new(projected, &model.catalogue) {
        Some(run) => {
            let screen = ProjectScreen::new(projected.title.clone(), run, now);
            model.screens.push(Screen::Project(Box::new(screen)));
        }
        None => model.notice = Some(say::NOTHING_TO_ASK.to_owned()),
    }
}

/// The time went on.
pub(super) fn tick(model: &mut Model, env: &Env) -> Vec<Effect> {
    if let Screen::Project(screen) = model.screen_mut() {
        screen.now = env.now;
    }
    Vec::new()
}

/// Carries a command out.
pub(super) fn project(model: &mut Model, command: Command, env: &Env) -> Vec<Effect> {
    use Command as C;
    tick(model, env);
    let Screen::Project(screen) = model.screen() else { return Vec::new() };
    let page = model.project_page(screen).ok();
    let hidden = page.as_ref().map_or(0, |page| page.said.hidden);
    let pages = page.as_ref().map_or(1, |page| page.pages);
    let asking = matches!(screen.run.stage(), Stage::Asking);
    let tool = screen.sights().into_iter().next().map(|sight| sight.tool);
    let Model { screens, catalogue, .. } = &mut *model;
    let Some(Screen::Project(screen)) = screens.last_mut() else { return Vec::new() };
    screen.left_out = None;
    let place = screen.run.which();
    match command {
        C::ProjectOn if asking && screen.page + 1 < pages => {
            screen.page += 1;
            return Vec::new();
        }
        C::ProjectOn if hidden > 0 => {
            screen.from += hidden.min(ROWS_ON);
            return Vec::new();
        }
        C::ProjectOn => {
            screen.run.forward(catalogue, env.now);
            screen.turned();
        }
        C::NextNow => {
            screen.run.next(catalogue, env.now);
            screen.turned();
        }
        C::ProjectBack if screen.page > 0 && asking => {
            screen.page -= 1;
            return Vec::new();
        }
        C::ProjectBack => {
            screen.run.back(catalogue, env.now);
            screen.turned();
        }
        C::Pause => screen.run.pause(env.now),
        C::Point(team) => screen.run.point(usize::from(team - 1)),
        C::TakeBack => screen.run.take_back(),
        C::OtherPicture => screen.page = (screen.page + 1) % pages.max(1),
        C::Back if screen.run.stage() == Stage::Over => return vec![Effect::Leave],
        C::Back => screen.run.end(env.now),
        _ => {
            let lines = tool.as_ref().and_then(Instrument::vernier_lines);
            let command = match &tool {
                Some(tool) if tool.glass_runs_leftward() => mirrored(command),
                _ => command,
            };
            glass(&mut screen.glass, command, lines.as_ref());
            return Vec::new();
        }
    }
    if screen.run.which() != place {
        take_drawable(model, env);
        // Some terminals smear a block glyph over its cell's edge; a false line must not stay on a picture.
        return (model.lines == LineStyle::Bars).then_some(Effect::Repaint).into_iter().collect();
    }
    if matches!(command, C::ProjectOn | C::NextNow) {
        take_drawable(model, env);
    }
    Vec::new()
}

/// Passes over what cannot be drawn in this window, and says so. Where nothing can, the clocks rest and the reason is on the screen.
fn take_drawable(model: &mut Model, env: &Env) {
    for _ in 0..TRIES {
        let Screen::Project(screen) = model.screen() else { return };
        if matches!(screen.run.stage(), Stage::Ready | Stage::Over) {
            return;
        }
        let Err(refusal) = model.project_fits(screen) else { return };
        let Model { screens, catalogue, .. } = &mut *model;
        let Some(Screen::Project(screen)) = screens.last_mut() else { return };
        screen.left_out = Some((screen.run.which().0, (refusal.needs_cols, refusal.needs_rows)));
        screen.run.pass_over(catalogue, env.now);
        screen.turned();
    }
    if let Screen::Project(screen) = model.screen_mut()
        && !screen.run.is_paused()
    {
        screen.run.pause(env.now);
    }
}
