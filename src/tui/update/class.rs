//! What happens in the class record.

use super::{Effect, back};
use crate::tui::classing::{ClassScreen, HEADS, Page, page};
use crate::tui::command::{Command as C, OfClass as Do};
use crate::tui::model::{Model, Screen};

/// Lines of a far step.
const FAR: usize = 10;

/// Begins in the class record; nothing of a learner's is looked up.
pub fn begin(model: &mut Model) -> Effect {
    model.screens = vec![Screen::Class(Box::default())];
    Effect::Repaint
}

/// Carries a command out; none where it is one that every screen has.
pub(super) fn class(model: &mut Model, command: C) -> Option<Vec<Effect>> {
    let room = model.class.as_ref()?;
    let cells = usize::from(model.size.0.saturating_sub(4));
    let Screen::Class(screen) = model.screens.last_mut()? else { return None };
    let step = match command {
        C::Class(Do::FarUp | Do::FarDown) => FAR,
        _ => 1,
    };
    let moved = |place: usize, count: usize| match command {
        C::Up | C::Class(Do::FarUp) => place.saturating_sub(step),
        C::Down | C::Class(Do::FarDown) => (place + step).min(count.saturating_sub(1)),
        _ => place,
    };
    let mut opened = None;
    match (&mut **screen, command) {
        (_, C::Back) => {
            if model.screens.len() == 1 {
                return Some(vec![Effect::Leave]);
            }
            return Some(back(model));
        }
        (ClassScreen::List { chosen, .. }, C::Up | C::Down | C::Class(Do::FarUp | Do::FarDown)) => {
            *chosen = moved(*chosen, HEADS + room.class.members.len());
        }
        (ClassScreen::List { column, .. }, C::Class(Do::Right)) => {
            *column = (*column + 1).min(room.class.instruments.len().saturating_sub(1));
        }
        (ClassScreen::List { column, .. }, C::Class(Do::Left)) => *column = column.saturating_sub(1),
        (ClassScreen::List { chosen, .. }, C::Class(Do::Open)) => {
            opened = Some(match *chosen {
                0 => ClassScreen::Page { page: Page::Wrong, from: 0 },
                1 => ClassScreen::questions(room, 0, &model.catalogue),
                2 => ClassScreen::Page { page: Page::Given, from: 0 },
                n => ClassScreen::Page { page: Page::Learner(n - HEADS), from: 0 },
            });
        }
        (ClassScreen::List { .. }, C::Class(Do::Wrong)) => {
            opened = Some(ClassScreen::Page { page: Page::Wrong, from: 0 });
        }
        (ClassScreen::List { .. }, C::Class(Do::Given)) => {
            opened = Some(ClassScreen::Page { page: Page::Given, from: 0 });
        }
        (ClassScreen::List { .. }, C::Class(Do::Questions)) => {
            opened = Some(ClassScreen::questions(room, 0, &model.catalogue));
        }
        (ClassScreen::Page { page: of, from }, C::Up | C::Down | C::Class(Do::FarUp | Do::FarDown)) => {
            let rows = usize::from(model.size.1.saturating_sub(2));
            let lines = page(room, *of, &model.catalogue, cells).len();
            *from = moved(*from, lines.saturating_sub(rows) + 1);
        }
        (
            ClassScreen::Questions { found, chosen, .. },
            C::Up | C::Down | C::Class(Do::FarUp | Do::FarDown),
        ) => {
            let count = found.as_ref().ok().and_then(Option::as_ref).map_or(0, |found| found.lines.len());
            *chosen = moved(*chosen, count);
        }
        (ClassScreen::Questions { set, .. }, C::Class(Do::Left | Do::Right)) => {
            let count = room.sets.len().max(1);
            let next = if command == C::Class(Do::Right) { *set + 1 } else { *set + count - 1 } % count;
            **screen = ClassScreen::questions(room, next, &model.catalogue);
        }
        _ => return None,
    }
    if let Some(opened) = opened {
        model.screens.push(Screen::Class(Box::new(opened)));
    }
    Some(Vec::new())
}
