//! Keys by which commands are given.

use crossterm::event::{KeyCode, KeyEvent, KeyModifiers};

/// A key with its name on screen.
pub struct Key {
    pub(super) code: KeyCode,
    pub(super) held: Held,
    /// Its name on screen.
    pub name: &'static str,
}

/// What is held down with a key.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Held {
    /// Nothing that matters.
    Alone,
    /// Ctrl.
    Control,
    /// Shift, on a key that is no letter.
    Shift,
}

pub(super) const fn key(code: KeyCode, name: &'static str) -> Key {
    Key { code, held: Held::Alone, name }
}

pub(super) const fn shifted(code: KeyCode, name: &'static str) -> Key {
    Key { code, held: Held::Shift, name }
}

pub(super) const fn control_key(code: KeyCode, name: &'static str) -> Key {
    Key { code, held: Held::Control, name }
}

pub(super) const fn letter(letter: char, name: &'static str) -> Key {
    key(KeyCode::Char(letter), name)
}

pub(super) const fn control(letter: char, name: &'static str) -> Key {
    control_key(KeyCode::Char(letter), name)
}

impl Key {
    /// Whether it is the key of an event.
    pub(super) fn is(&self, event: KeyEvent, typing: bool) -> bool {
        let text = matches!(self.code, KeyCode::Char(c) if c.is_alphanumeric() || c == ' ');
        let control = event.modifiers.contains(KeyModifiers::CONTROL);
        let shift = event.modifiers.contains(KeyModifiers::SHIFT);
        self.code == event.code
            && (self.held == Held::Control) == control
            && (self.held != Held::Shift || shift)
            && !(text && typing && !control)
    }
}
