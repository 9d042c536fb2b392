//! Signals: the terminal is restored first, then the signal does what it does by default.

use super::runtime::Wake;
use crossterm::event::{KeyCode, KeyEvent, KeyModifiers};
use std::io;
use std::sync::mpsc::Sender;

/// What ends a program whose terminal is gone.
#[cfg(unix)]
pub(super) const HANGUP: Option<i32> = Some(signal_hook::consts::SIGHUP);
#[cfg(not(unix))]
pub(super) const HANGUP: Option<i32> = None;

/// Wakes the trainer on the signals that end a program, and on the one after a stop.
#[cfg(unix)]
pub(super) fn watch(sender: Sender<Wake>) -> io::Result<()> {
    use signal_hook::consts::{SIGCONT, SIGHUP, SIGINT, SIGQUIT, SIGTERM};
    let mut signals = signal_hook::iterator::Signals::new([SIGTERM, SIGHUP, SIGINT, SIGQUIT, SIGCONT])?;
    std::thread::spawn(move || {
        for signal in signals.forever() {
            let wake = if signal == SIGCONT { Wake::Continued } else { Wake::Signal(signal) };
            if sender.send(wake).is_err() {
                return;
            }
        }
    });
    Ok(())
}

/// Wakes the trainer when the terminal is gone. Whoever waits for keys is not told so.
#[cfg(unix)]
pub(super) fn watch_terminal(sender: Sender<Wake>) {
    use rustix::event::{PollFd, PollFlags, poll};
    std::thread::spawn(move || {
        let stdin = rustix::stdio::stdin();
        // Nothing is asked for: the end of a terminal is told unasked.
        let mut fds = [PollFd::new(&stdin, PollFlags::empty())];
        while poll(&mut fds, None) == Err(rustix::io::Errno::INTR) {}
        if fds[0].revents().intersects(PollFlags::HUP | PollFlags::ERR) {
            // Where nobody listens the trainer has ended already.
            let _ = sender.send(Wake::Gone);
        }
    });
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
pub(super) fn watch_terminal(_sender: Sender<Wake>) {}

#[cfg(not(unix))]
pub(super) fn end_by(_signal: i32) -> io::Result<()> {
    Ok(())
}

#[cfg(not(unix))]
pub(super) fn suspend() -> io::Result<()> {
    Ok(())
}

/// True when the terminal hands over whole lines only, as a shell leaves it.
#[cfg(unix)]
pub(super) fn has_line_editing() -> bool {
    use rustix::termios::{LocalModes, tcgetattr};
    tcgetattr(rustix::stdio::stdin()).is_ok_and(|set| set.local_modes.contains(LocalModes::ICANON))
}

#[cfg(not(unix))]
pub(super) fn has_line_editing() -> bool {
    false
}

/// Ctrl-Z, which raw mode delivers as a key.
pub(super) fn is_suspend(key: KeyEvent) -> bool {
    cfg!(unix) && key.code == KeyCode::Char('z') && key.modifiers.contains(KeyModifiers::CONTROL)
}
