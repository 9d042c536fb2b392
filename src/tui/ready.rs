//! The terminal made ready for a full screen, and restored.

use crossterm::cursor::Show;
use crossterm::execute;
use crossterm::style::ResetColor;
use crossterm::terminal::{
    Clear, ClearType, EnterAlternateScreen, LeaveAlternateScreen, disable_raw_mode, enable_raw_mode,
};
use std::io;

/// Runs something with the terminal ready for a full screen, and restores it on every way out, a panic included.
pub fn full_screen<T>(inside: impl FnOnce() -> io::Result<T>) -> io::Result<T> {
    restore_on_panic();
    let outcome = enter().and_then(|()| inside());
    // What cannot be written to any more has nothing to restore; what happened inside counts.
    let _ = leave();
    outcome
}

/// Makes the terminal ready.
pub(super) fn enter() -> io::Result<()> {
    enable_raw_mode()?;
    execute!(io::stdout(), EnterAlternateScreen, Clear(ClearType::All))
}

/// Restores it.
pub(super) fn leave() -> io::Result<()> {
    let left = execute!(io::stdout(), ResetColor, LeaveAlternateScreen, Show);
    disable_raw_mode().and(left)
}

fn restore_on_panic() {
    let before = std::panic::take_hook();
    std::panic::set_hook(Box::new(move |info| {
        // Nothing more can be done for a terminal that cannot be written to.
        let _ = leave();
        before(info);
    }));
}
