//! The commands of a round for a room. A presenter's clicker has keys for forward and back only: page keys or arrows.

use super::Command as C;
use super::Place::Project;
use super::{Command, ENTER, ESC, Entry, Place, entry, key, letter};
use crossterm::event::KeyCode;

const HERE: &[Place] = &[Project];

/// The list.
pub(super) static PROJECT: &[Entry] = &[
    entry(
        C::ProjectOn,
        &[
            key(KeyCode::PageDown, "PgDn"),
            key(KeyCode::Right, "\u{2192}"),
            key(KeyCode::Down, "\u{2193}"),
            ENTER,
            key(KeyCode::Char(' '), "Space"),
        ],
        HERE,
        "Show the answer, then go on",
        "reveal next forward begin",
    ),
    entry(
        C::ProjectBack,
        &[
            key(KeyCode::PageUp, "PgUp"),
            key(KeyCode::Left, "\u{2190}"),
            key(KeyCode::Up, "\u{2191}"),
            key(KeyCode::Backspace, "Backspace"),
        ],
        HERE,
        "Go back a step, or a question",
        "previous before",
    ),
    entry(C::NextNow, &[letter('n', "n")], HERE, "Straight to the next question", "skip"),
    entry(
        C::Pause,
        &[letter('p', "p"), letter('b', "b"), key(KeyCode::Char('.'), ".")],
        HERE,
        "Stop the clock, or start it again",
        "pause wait",
    ),
    entry(C::Point(1), &[letter('1', "1")], HERE, "A point for team 1", "score"),
    entry(C::Point(2), &[letter('2', "2")], HERE, "A point for team 2", "score"),
    entry(C::Point(3), &[letter('3', "3")], HERE, "A point for team 3", "score"),
    entry(C::Point(4), &[letter('4', "4")], HERE, "A point for team 4", "score"),
    entry(C::TakeBack, &[key(KeyCode::Char('-'), "-")], HERE, "Take the last point back", "undo score"),
    entry(C::GlassLeft, &[key(KeyCode::Char('<'), "<")], HERE, "Slide the glass left, or down", "lens"),
    entry(C::GlassRight, &[key(KeyCode::Char('>'), ">")], HERE, "Slide the glass right, or up", "lens"),
    entry(C::GlassZero, &[key(KeyCode::Home, "Home")], HERE, "The glass back to 0", "lens"),
    entry(C::OtherPicture, &[letter('x', "x")], HERE, "The other picture, or the answers", "page"),
    entry(C::Back, &[ESC], HERE, "End the round; again: leave", "stop"),
];

/// The key bar; the screen has none, the first page names the keys.
pub(super) const BAR: &[(Command, &str)] = &[
    (C::ProjectOn, "go on"),
    (C::ProjectBack, "back"),
    (C::Pause, "clock"),
    (C::Help, "help"),
    (C::Back, "end"),
];
