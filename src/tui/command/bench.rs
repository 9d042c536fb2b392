//! The commands of the list of kinds and of the bench: what the practice screen has not.

use super::Command as C;
use super::Place::{Answered, Asking, Before, Choosing, Home, Kinds, Locked, Setting};
use super::{Command, ENTER, ESC, Entry, Place, control_key, entry, key, letter, shifted};
use crossterm::event::KeyCode;

const SET: &[Place] = &[Setting];
const CHOICES: &[Place] = &[Choosing];

/// The list. What is pressed with Shift or Ctrl stands before the same key alone; while a tool is set, the figures of a keypad
/// do what stands on its keys beside them.
pub(super) static BENCH: &[Entry] = &[
    entry(
        C::Kinds,
        &[letter('o', "o"), key(KeyCode::F(10), "F10")],
        &[Home],
        "Other kinds of question on the chosen instrument",
        "kind set in or out one step pair estimate zero decide heart level bench choose",
    ),
    entry(C::Start, &[ENTER], &[Kinds], "Ask questions of the chosen kind", "start begin drill"),
    entry(
        C::OtherPicture,
        &[letter('x', "x"), key(KeyCode::F(12), "F12")],
        &[Before, Asking, Answered, Choosing],
        "The other one of two pictures",
        "pair compare swap second",
    ),
    entry(C::Pick, &[ENTER], CHOICES, "Take the chosen answer", "mark answer"),
    entry(C::PickNumber(1), &[letter('1', "1-9")], CHOICES, "Take an answer by its number", "choose"),
    entry(C::PickNumber(2), &[letter('2', "2")], CHOICES, "Take the second answer", "choose"),
    entry(C::PickNumber(3), &[letter('3', "3")], CHOICES, "Take the third answer", "choose"),
    entry(C::PickNumber(4), &[letter('4', "4")], CHOICES, "Take the fourth answer", "choose"),
    entry(C::PickNumber(5), &[letter('5', "5")], CHOICES, "Take the fifth answer", "choose"),
    entry(C::PickNumber(6), &[letter('6', "6")], CHOICES, "Take the sixth answer", "choose"),
    entry(C::PickNumber(7), &[letter('7', "7")], CHOICES, "Take the seventh answer", "choose"),
    entry(C::PickNumber(8), &[letter('8', "8")], CHOICES, "Take the eighth answer", "choose"),
    entry(C::PickNumber(9), &[letter('9', "9")], CHOICES, "Take the ninth answer", "choose"),
    entry(C::GlassUp, &[letter('+', "+")], CHOICES, "Open the glass; again: stronger", "lens zoom"),
    entry(C::GlassDown, &[letter('-', "-")], CHOICES, "Weaker glass; again: close it", "lens zoom"),
    entry(
        C::GlassLeft,
        &[key(KeyCode::Left, "\u{2190}"), letter('<', "<")],
        CHOICES,
        "Slide the glass one line left, or down",
        "lens",
    ),
    entry(
        C::GlassRight,
        &[key(KeyCode::Right, "\u{2192}"), letter('>', ">")],
        CHOICES,
        "Slide the glass one line right, or up",
        "lens",
    ),
    entry(
        C::LineUp,
        &[shifted(KeyCode::Right, "Shift-\u{2192}"), letter('+', "+")],
        SET,
        "Move it on to the next line, exactly",
        "turn graduation",
    ),
    entry(
        C::LineDown,
        &[shifted(KeyCode::Left, "Shift-\u{2190}"), letter('-', "-")],
        SET,
        "Move it back to the line before, exactly",
        "turn graduation",
    ),
    entry(
        C::FarUp,
        &[control_key(KeyCode::Right, "Ctrl-\u{2192}"), letter('*', "*")],
        SET,
        "Move it on as far as the next figure is",
        "far coarse",
    ),
    entry(
        C::FarDown,
        &[control_key(KeyCode::Left, "Ctrl-\u{2190}"), letter('/', "/")],
        SET,
        "Move it back as far as the figure before is",
        "far coarse",
    ),
    entry(
        C::FineRight,
        &[key(KeyCode::Right, "\u{2192}"), letter('6', "6")],
        SET,
        "Move it by the least it can show, to the right",
        "turn thimble slide fine",
    ),
    entry(
        C::FineLeft,
        &[key(KeyCode::Left, "\u{2190}"), letter('4', "4")],
        SET,
        "Move it by the least it can show, to the left",
        "turn thimble slide fine",
    ),
    entry(
        C::CoarseUp,
        &[key(KeyCode::PageUp, "PgUp"), letter('9', "9")],
        SET,
        "Move it on by a turn, or a division of the main scale",
        "coarse thimble slide",
    ),
    entry(
        C::CoarseDown,
        &[key(KeyCode::PageDown, "PgDn"), letter('3', "3")],
        SET,
        "Move it back by a turn, or a division",
        "coarse thimble slide",
    ),
    entry(
        C::ToZero,
        &[key(KeyCode::Home, "Home"), letter('7', "7")],
        SET,
        "Close it: back to its zero",
        "nought begin",
    ),
    entry(C::Lock, &[ENTER], SET, "Lock it, to look at it once more", "clamp fix answer"),
    entry(
        C::GlassUp,
        &[key(KeyCode::Up, "\u{2191}"), letter('8', "8")],
        SET,
        "Open the glass; again: stronger",
        "lens zoom",
    ),
    entry(
        C::GlassDown,
        &[key(KeyCode::Down, "\u{2193}"), letter('2', "2")],
        SET,
        "Weaker glass; again: close it",
        "lens zoom",
    ),
    entry(
        C::GlassLeft,
        &[letter('<', "<"), letter(',', ",")],
        SET,
        "Slide the glass one line left, or down",
        "lens",
    ),
    entry(
        C::GlassRight,
        &[letter('>', ">"), letter('.', ".")],
        SET,
        "Slide the glass one line right, or up",
        "lens",
    ),
    entry(C::LeaveSet, &[ENTER], &[Locked], "Leave it as it stands", "mark answer done"),
    entry(
        C::Loosen,
        &[ESC, key(KeyCode::Backspace, "Backspace"), letter('-', "-")],
        &[Locked],
        "Loosen the lock and set it again",
        "unlock",
    ),
    entry(
        C::Skip,
        &[letter('s', "s"), key(KeyCode::F(8), "F8")],
        &[Choosing, Setting, Locked],
        "Pass it over and see the answer",
        "skip",
    ),
    entry(
        C::ShowEarlier,
        &[letter('c', "c"), key(KeyCode::F(5), "F5")],
        &[Choosing, Setting, Locked],
        "Show what came before again",
        "zero error closed tool",
    ),
];

/// The key bar of a place.
pub(super) fn bar(place: Place) -> &'static [(Command, &'static str)] {
    match place {
        Setting => &[
            (C::FineRight, "fine"),
            (C::CoarseUp, "coarse"),
            (C::Lock, "lock"),
            (C::GlassUp, "glass"),
            (C::Help, "help"),
        ],
        Locked => &[
            (C::LeaveSet, "leave it so"),
            (C::Loosen, "loosen"),
            (C::GlassUp, "glass"),
            (C::TurnView, "hand/flat"),
            (C::Help, "help"),
        ],
        Choosing => &[
            (C::PickNumber(1), "answer"),
            (C::GlassUp, "glass"),
            (C::TurnView, "hand/flat"),
            (C::Help, "help"),
            (C::Back, "back"),
        ],
        _ => &[(C::Start, "begin"), (C::Up, "choose"), (C::Help, "help"), (C::Back, "back")],
    }
}
