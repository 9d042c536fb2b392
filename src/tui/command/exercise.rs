//! The commands of exercises and checks, before and after their questions.

use super::Command as C;
use super::Place::{GoOn, Home, Result, Sets, Start};
use super::{Command, ENTER, ESC, Entry, Place, entry, key, letter};
use crossterm::event::KeyCode;

const LISTS: &[Place] = &[Sets, Start, GoOn, Result];

/// The list.
pub(super) static EXERCISE: &[Entry] = &[
    entry(
        C::Sets,
        &[letter('x', "x"), key(KeyCode::F(11), "F11")],
        &[Home],
        "Exercises, skills checks and self-tests",
        "set drill job card course exam examination",
    ),
    entry(C::Start, &[ENTER], &[Sets], "What the chosen set asks", "start begin"),
    entry(C::Start, &[ENTER], &[Start], "Begin it", "start"),
    entry(C::Start, &[ENTER], &[GoOn], "Go on with it", "start resume"),
    entry(C::Start, &[ENTER], &[Result], "Look at what went wrong, with its steps", "why explain"),
    entry(
        C::Anew,
        &[letter('n', "n")],
        &[GoOn],
        "Leave it as it is and begin anew, with fresh questions",
        "again restart",
    ),
    entry(
        C::WritePage,
        &[letter('w', "w"), key(KeyCode::F(7), "F7")],
        &[Result],
        "Write the page for the supervisor",
        "print save file report",
    ),
    entry(
        C::Up,
        &[key(KeyCode::Up, "\u{2191}\u{2193}"), letter('k', "k")],
        LISTS,
        "Choose the line above, or scroll up",
        "",
    ),
    entry(
        C::Down,
        &[key(KeyCode::Down, "\u{2193}"), letter('j', "j")],
        LISTS,
        "Choose the line below, or scroll down",
        "",
    ),
    entry(C::Back, &[ESC], LISTS, "Leave this page", "stop return"),
];

/// The key bar of a place.
pub(super) fn bar(place: Place) -> &'static [(Command, &'static str)] {
    match place {
        Sets => &[(C::Start, "look at it"), (C::Up, "choose"), (C::Help, "help"), (C::Back, "back")],
        Start => &[(C::Start, "begin"), (C::Up, "scroll"), (C::Help, "help"), (C::Back, "back")],
        GoOn => &[(C::Start, "go on"), (C::Anew, "begin anew"), (C::Help, "help"), (C::Back, "back")],
        _ => &[
            (C::Up, "choose"),
            (C::Start, "look at it"),
            (C::WritePage, "page"),
            (C::Help, "help"),
            (C::Back, "back"),
        ],
    }
}
