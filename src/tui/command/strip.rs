//! The commands of the looks: the calibration strip, the themes.

use super::Command as C;
use super::Place::{
    Answered, Asking, Before, Choosing, Guess, Home, Kinds, Lesson, Lines, Locked, Progress, Setting, Walk,
};
use super::{ALL, Command, Entry, entry, key, letter};
use crossterm::event::KeyCode;

/// The list.
pub(super) static STRIP: &[Entry] = &[
    entry(C::Lines1, &[letter('1', "1-4")], &[Lines], "Draw thin lines", ""),
    entry(C::Lines2, &[letter('2', "2")], &[Lines], "Draw bars", "bold"),
    entry(C::Lines3, &[letter('3', "3")], &[Lines], "Draw one position a cell", ""),
    entry(C::Lines4, &[letter('4', "4")], &[Lines], "Draw plain characters", "ascii"),
    entry(
        C::Lines,
        &[letter('l', "l"), key(KeyCode::F(3), "F3")],
        &[Home, Before, Asking, Answered, Progress, Walk, Guess, Lesson, Kinds, Choosing, Setting, Locked],
        "Choose line style on the calibration strip",
        "thin bars glyphs boxes gaps",
    ),
    entry(
        C::Theme,
        &[letter('t', "t"), key(KeyCode::F(4), "F4")],
        ALL,
        "Next theme: steel, dark, mono, contrast",
        "colour color light",
    ),
];

/// The strip's key bar.
pub(super) static BAR: &[(Command, &str)] = &[(C::Lines1, "take"), (C::Help, "help"), (C::Back, "back")];
