//! Text typed into the answer field, help or the palette.

use super::{Effect, Env, run};
use crate::session::Asked;
use crate::tui::command::{Place, find};
use crate::tui::model::{Model, Screen};
use crossterm::event::{KeyCode, KeyEvent, KeyModifiers};

/// The answer field of the screen on top, while something is asked.
pub(super) fn field(model: &Model) -> Option<&String> {
    match (model.screen(), model.place()) {
        (Screen::Practice(practice), Place::Asking) => Some(&practice.field),
        (Screen::Bench(bench), Place::Asking) => Some(&bench.field),
        (Screen::Walk(walk), Place::Guess) if walk.run.asked().is_some() => Some(&walk.field),
        (Screen::Lesson(lesson), _) if matches!(lesson.run.asked(), Asked::Open { .. }) => {
            Some(&lesson.field)
        }
        _ => None,
    }
}

/// Types into the answer field.
pub(super) fn type_key(model: &mut Model, event: KeyEvent) {
    const LONGEST: usize = 40;
    if field(model).is_none() {
        return;
    }
    let field = match model.screen_mut() {
        Screen::Practice(practice) => &mut practice.field,
        Screen::Bench(bench) => &mut bench.field,
        Screen::Walk(walk) => &mut walk.field,
        Screen::Lesson(lesson) => &mut lesson.field,
        _ => return,
    };
    let plain = !event.modifiers.intersects(KeyModifiers::CONTROL | KeyModifiers::ALT);
    match event.code {
        KeyCode::Char(c) if plain && !c.is_control() && field.chars().count() < LONGEST => {
            field.push(c);
        }
        KeyCode::Backspace => {
            field.pop();
        }
        KeyCode::Delete => field.clear(),
        _ => {}
    }
}

/// Types into help or the palette.
pub(super) fn overlay_key(model: &mut Model, event: KeyEvent, env: &Env) -> Vec<Effect> {
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
