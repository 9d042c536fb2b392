//! The commands of the class record: an instructor's screens, reached from the command line alone.

use super::Command as C;
use super::Place::{Bites, Class, ClassPage};
use super::{Command, ENTER, ESC, Entry, Place, entry, key, letter};
use crossterm::event::KeyCode;

const CLASS: &[Place] = &[Class];
const SIDEWAYS: &[Place] = &[Class, Bites];
const PAGES: &[Place] = &[ClassPage, Bites];
const EVERY: &[Place] = &[Class, ClassPage, Bites];

/// Something in the class record.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum OfClass {
    /// Open what is chosen.
    Open,
    /// What the class gets wrong.
    Wrong,
    /// Which questions bite.
    Questions,
    /// What was given out.
    Given,
    /// The instruments before, or the set before.
    Left,
    /// Those further on, or the next set.
    Right,
    /// Ten lines up.
    FarUp,
    /// Ten lines down.
    FarDown,
}

/// The list.
pub(super) static CLASS_RECORD: &[Entry] = &[
    entry(C::Class(OfClass::Open), &[ENTER], CLASS, "Open what is chosen", "learner look show"),
    entry(
        C::Up,
        &[key(KeyCode::Up, "\u{2191}\u{2193}"), letter('k', "k")],
        EVERY,
        "Choose the line above, or move up",
        "scroll",
    ),
    entry(
        C::Down,
        &[key(KeyCode::Down, "\u{2193}"), letter('j', "j")],
        EVERY,
        "Choose the line below, or move down",
        "scroll",
    ),
    entry(C::Class(OfClass::FarUp), &[key(KeyCode::PageUp, "PgUp")], EVERY, "Ten lines up", "scroll page"),
    entry(
        C::Class(OfClass::FarDown),
        &[key(KeyCode::PageDown, "PgDn")],
        EVERY,
        "Ten lines down",
        "scroll page",
    ),
    entry(
        C::Class(OfClass::Right),
        &[key(KeyCode::Right, "\u{2190}\u{2192}"), letter('l', "l")],
        SIDEWAYS,
        "The instruments further on, or the next set",
        "column right instrument",
    ),
    entry(
        C::Class(OfClass::Left),
        &[key(KeyCode::Left, "\u{2190}"), letter('h', "h")],
        SIDEWAYS,
        "The instruments before, or the set before",
        "column left instrument",
    ),
    entry(
        C::Class(OfClass::Wrong),
        &[letter('w', "w"), key(KeyCode::F(5), "F5")],
        CLASS,
        "What the class gets wrong",
        "misread chart common",
    ),
    entry(
        C::Class(OfClass::Questions),
        &[letter('b', "b"), key(KeyCode::F(6), "F6")],
        CLASS,
        "Which questions bite",
        "item analysis difficulty set questions",
    ),
    entry(
        C::Class(OfClass::Given),
        &[letter('g', "g"), key(KeyCode::F(7), "F7")],
        CLASS,
        "What was given out and came back",
        "issue return collect absent late check verdict",
    ),
    entry(C::Back, &[ESC], PAGES, "Back to the class", "stop return"),
    entry(C::Back, &[ESC], CLASS, "Leave the class record", "stop return"),
];

/// The key bar of a place.
pub(super) fn bar(place: Place) -> &'static [(Command, &'static str)] {
    match place {
        Class => &[
            (C::Class(OfClass::Open), "open"),
            (C::Class(OfClass::Wrong), "wrong"),
            (C::Class(OfClass::Questions), "which bite"),
            (C::Help, "help"),
            (C::Back, "leave"),
        ],
        Bites => &[
            (C::Up, "choose"),
            (C::Class(OfClass::Right), "another set"),
            (C::Help, "help"),
            (C::Back, "back"),
        ],
        _ => &[(C::Up, "scroll"), (C::Help, "help"), (C::Back, "back")],
    }
}
