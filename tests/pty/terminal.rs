//! A terminal as far as it answers questions.

use vt100::{Callbacks, Screen};

/// How a terminal answers what it is asked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Manners {
    /// At once, like `kitty(0.35)`.
    Named,
    /// Never.
    Silent,
    /// Like the named one, but only when the test says so.
    Late,
}

/// Collects what the terminal has to answer.
#[derive(Default)]
pub struct Answers {
    /// Answers not given yet.
    pub due: Vec<u8>,
    /// The last question of the burst has been asked.
    pub asked: bool,
}

impl Answers {
    fn answer(&mut self, bytes: &[u8]) {
        self.due.extend_from_slice(bytes);
    }
}

impl Callbacks for Answers {
    fn unhandled_csi(
        &mut self,
        screen: &mut Screen,
        first: Option<u8>,
        _: Option<u8>,
        params: &[&[u16]],
        last: char,
    ) {
        let number = params.first().and_then(|param| param.first()).copied().unwrap_or(0);
        match (first, number, last) {
            (Some(b'>'), _, 'q') => self.answer(b"\x1bP>|kitty(0.35)\x1b\\"),
            (Some(b'>'), _, 'c') => self.answer(b"\x1b[>1;4000;35c"),
            (Some(b'='), _, 'c') => self.answer(b"\x1bP!|00000000\x1b\\"),
            (None, 16, 't') => self.answer(b"\x1b[6;17;8t"),
            (None, 6, 'n') => {
                let (row, col) = screen.cursor_position();
                self.answer(format!("\x1b[{};{}R", row + 1, col + 1).as_bytes());
            }
            (None, _, 'c') => {
                self.answer(b"\x1b[?62;c");
                self.asked = true;
            }
            _ => {}
        }
    }
}
