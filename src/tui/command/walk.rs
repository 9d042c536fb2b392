//! The commands of a walk and of a lesson.

use super::Command as C;
use super::Place::{Answered, Asking, Guess, Home, Lesson, Walk};
use super::{Command, ENTER, Entry, Place, control, control_key, entry, key, letter, shifted};
use crossterm::event::KeyCode;

const WALKS: &[Place] = &[Walk, Guess];
const SCENES: &[Place] = &[Walk, Guess, Lesson];

/// The list. What is pressed with Shift or Ctrl stands before the same key alone.
pub(super) static WALK: &[Entry] = &[
    entry(
        C::Walk,
        &[letter('w', "w"), key(KeyCode::F(7), "F7")],
        &[Home, Asking, Answered],
        "Turn it yourself and watch the reading build up",
        "walk through move thimble slide learn explain",
    ),
    entry(
        C::Lesson,
        &[letter('e', "e"), key(KeyCode::F(9), "F9")],
        &[Home, Walk, Guess],
        "The lesson: how it is built and read, step by step",
        "teach learn explain principle vernier",
    ),
    entry(
        C::LineUp,
        &[shifted(KeyCode::Right, "Shift-\u{2192}"), letter('n', "n")],
        WALKS,
        "Move it on to the next line, exactly",
        "turn graduation",
    ),
    entry(
        C::LineDown,
        &[shifted(KeyCode::Left, "Shift-\u{2190}"), letter('b', "b")],
        WALKS,
        "Move it back to the line before, exactly",
        "turn graduation",
    ),
    entry(
        C::FarUp,
        &[control_key(KeyCode::Right, "Ctrl-\u{2192}")],
        WALKS,
        "Move it on as far as the next figure is",
        "far coarse",
    ),
    entry(
        C::FarDown,
        &[control_key(KeyCode::Left, "Ctrl-\u{2190}")],
        WALKS,
        "Move it back as far as the figure before is",
        "far coarse",
    ),
    entry(
        C::FineRight,
        &[key(KeyCode::Right, "\u{2192}")],
        WALKS,
        "Move it by the least it can show, to the right",
        "turn thimble slide fine",
    ),
    entry(
        C::FineLeft,
        &[key(KeyCode::Left, "\u{2190}")],
        WALKS,
        "Move it by the least it can show, to the left",
        "turn thimble slide fine",
    ),
    entry(
        C::CoarseUp,
        &[key(KeyCode::PageUp, "PgUp")],
        WALKS,
        "Move it on by a turn, or a division of the main scale",
        "coarse thimble slide",
    ),
    entry(
        C::CoarseDown,
        &[key(KeyCode::PageDown, "PgDn")],
        WALKS,
        "Move it back by a turn, or a division",
        "coarse thimble slide",
    ),
    entry(C::ToZero, &[key(KeyCode::Home, "Home")], WALKS, "Close it: back to its zero", "nought begin"),
    entry(C::Elsewhere, &[letter('r', "r")], WALKS, "Set it somewhere by chance", "random new another"),
    entry(
        C::Form,
        &[letter('v', "v"), key(KeyCode::F(5), "F5")],
        WALKS,
        "Another form of it: rods, half lines, figures, the way it is held",
        "variant maker fitted rod collar frame",
    ),
    entry(
        C::GuessMode,
        &[letter('g', "g"), key(KeyCode::F(10), "F10")],
        WALKS,
        "Hide the reading and guess it, or show it again",
        "try test reveal",
    ),
    entry(C::Guess, &[ENTER], &[Guess], "Enter the guess; when all is open, set it elsewhere", "mark"),
    entry(
        C::Skip,
        &[letter('s', "s"), key(KeyCode::F(8), "F8")],
        &[Guess, Lesson],
        "Show it without a guess",
        "skip reveal",
    ),
    entry(
        C::LessonNext,
        &[ENTER, key(KeyCode::Right, "\u{2192}"), key(KeyCode::Char(' '), "Space")],
        &[Lesson],
        "Go on, or enter the answer",
        "next",
    ),
    entry(
        C::LessonBack,
        &[key(KeyCode::Left, "\u{2190}"), key(KeyCode::PageUp, "PgUp")],
        &[Lesson],
        "Go back a step",
        "before previous",
    ),
    entry(
        C::GlassUp,
        &[key(KeyCode::Up, "\u{2191}")],
        SCENES,
        "Open the glass; again: stronger",
        "lens zoom",
    ),
    entry(
        C::GlassDown,
        &[key(KeyCode::Down, "\u{2193}")],
        SCENES,
        "Weaker glass; again: close it",
        "lens zoom",
    ),
    entry(C::GlassLeft, &[letter('<', "<")], SCENES, "Slide the glass one line left, or down", "lens"),
    entry(C::GlassRight, &[letter('>', ">")], SCENES, "Slide the glass one line right, or up", "lens"),
    entry(C::ClearField, &[control('u', "Ctrl-U")], &[Guess, Lesson], "Empty the answer field", ""),
];

/// The key bar of a place.
pub(super) fn bar(place: Place) -> &'static [(Command, &'static str)] {
    match place {
        Walk => &[
            (C::FineRight, "fine"),
            (C::CoarseUp, "coarse"),
            (C::GuessMode, "guess"),
            (C::Lesson, "lesson"),
            (C::Help, "help"),
        ],
        Guess => &[
            (C::Guess, "say it"),
            (C::FineRight, "move"),
            (C::GuessMode, "show all"),
            (C::Help, "help"),
            (C::Back, "back"),
        ],
        _ => &[
            (C::LessonNext, "go on"),
            (C::LessonBack, "go back"),
            (C::GlassUp, "glass"),
            (C::Help, "help"),
            (C::Back, "back"),
        ],
    }
}
