//! Stopped from outside, and going on after that.

use super::{Runtime, Screenful, signals};
use crate::tui::ready::{enter, leave};
use crossterm::terminal::disable_raw_mode;
use ratatui::Terminal;
use ratatui::backend::CrosstermBackend;
use std::io;

impl Runtime {
    /// Stops, and goes on after that.
    pub(super) fn suspend(&mut self, screen: &mut Screenful) -> io::Result<()> {
        leave()?;
        signals::suspend()?;
        self.take_back(screen)
    }

    /// Makes the terminal ready again, whatever was done to it meanwhile.
    pub(super) fn take_back(&mut self, screen: &mut Screenful) -> io::Result<()> {
        if signals::has_line_editing() {
            // What was set before is forgotten with this, so that it is set anew.
            disable_raw_mode()?;
        }
        enter()?;
        *screen = Terminal::new(CrosstermBackend::new(io::stdout()))?;
        self.draw(screen)
    }
}
