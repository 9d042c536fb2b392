//! Signals: the terminal is restored first, then the signal does what it does by default.

use super::runtime::Wake;
use crossterm::event::{KeyCode, KeyEvent, KeyModifiers};
use std::io;
use std::sync::mpsc::Sender;

/// Wakes the trainer on the signals that end a program.
#[cfg(unix)]
pub(super) fn watch(sender: Sender<Wake>) -> io::Result<()> {
    use signal_hook::consts::{SIGHUP, SIGINT, SIGQUIT, SIGTERM};
    let mut signals = signal_hook::iterator::Signals::new([SIGTERM, SIGHUP, SIGINT, SIGQUIT])?;
    std::thread::spawn(move || {
        for signal in signals.forever() {
            if sender.send(Wake::Signal(signal)).is_err() {
                return;
            }
        }
    });
    Ok(())
}

/// Ends the program by a signal's default action.
#[cfg(unix)]
pub(super) fn end_by(signal: i32) -> io::Result<()> {
    signal_hook::low_level::emulate_default_handler(signal)
}

/// Stops the program until it is continued.
#[cfg(unix)]
pub(super) fn suspend() -> io::Result<()> {
    use rustix::process::{Signal, kill_current_process_group};
    kill_current_process_group(Signal::TSTP).map_err(io::Error::from)
}

#[cfg(not(unix))]
pub(super) fn watch(_sender: Sender<Wake>) -> io::Result<()> {
    Ok(())
}

#[cfg(not(unix))]
pub(super) fn end_by(_signal: i32) -> io::Result<()> {
    Ok(())
}

#[cfg(not(unix))]
pub(super) fn suspend() -> io::Result<()> {
    Ok(())
}

/// Ctrl-Z, which raw mode delivers as a key.
pub(super) fn is_suspend(key: KeyEvent) -> bool {
    cfg!(unix) && key.code == KeyCode::Char('z') && key.modifiers.contains(KeyModifiers::CONTROL)
}
