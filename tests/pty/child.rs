//! What the tests run in a pseudo-terminal beside the program itself: this test program again, started for one of the two
//! parts below. Started as tests they have nothing to do.

use crate::driver::{Driver, Termios, command};
use crate::shop::{Shop, USUAL};
use crate::terminal::Manners;
use rustix::process::{Pid, Signal, kill_process};
use std::env;
use std::fs;
use std::io::Write;
use std::os::unix::process::ExitStatusExt;
use std::process::Command;
use std::thread;

/// What the keeper keeps, as a list in JSON.
const KEEPS: &str = "PTY_KEEPS";
/// Where the number of what it keeps is written.
const NUMBER: &str = "PTY_NUMBER";
/// Set for the part that panics.
const PANICS: &str = "PTY_PANICS";

/// Runs a command and holds the terminal after its end, as a shell does: without it the system itself would put the
/// settings right, because a terminal whose session has ended gets its first settings back.
#[test]
fn keeper() {
    let Ok(words) = env::var(KEEPS) else { return };
    let number = env::var(NUMBER).expect("a place for the number");
    let words: Vec<String> = serde_json::from_str(&words).expect("a list");
    let mut kept = Command::new("/bin/sh");
    kept.args(["-c", "echo $$ >\"$0\"; exec \"$@\"", &number]).args(words);
    let status = kept.env_remove(KEEPS).env_remove(NUMBER).status().expect("a shell");
    let how = match status.signal() {
        Some(signal) => format!("by signal {signal}"),
        None => format!("with code {:?}", status.code()),
    };
    let mut out = std::io::stdout();
    write!(out, "\r\n[ended {how}]\r\n").and_then(|()| out.flush()).expect("the terminal is there");
    loop {
        thread::park();
    }
}

/// Panics on the full screen that the trainer runs on.
#[test]
fn panicking() {
    if env::var_os(PANICS).is_some() {
        let never = linefall::tui::full_screen(|| -> std::io::Result<()> { panic!("a fault on purpose") });
        never.expect("it panics");
    }
}

/// A program that a keeper keeps.
pub struct Kept {
    pub driver: Driver,
    number: std::path::PathBuf,
}

impl Kept {
    pub fn trainer(shop: &Shop, args: &[&str], manners: Manners) -> Self {
        Self::start(shop, &shop.words(args), &[], manners)
    }

    pub fn panicking(shop: &Shop) -> Self {
        let words = [&own(), "child::panicking", "--exact", "--nocapture"].map(str::to_owned);
        Self::start(shop, &words, &[(PANICS, "1")], Manners::Named)
    }

    pub fn start(shop: &Shop, words: &[String], environment: &[(&str, &str)], manners: Manners) -> Self {
        let number = shop.home().join("number");
        let mut command = command(&own(), &["child::keeper", "--exact", "--nocapture"], shop.home());
        command.env(KEEPS, serde_json::to_string(&words).expect("a list"));
        command.env(NUMBER, &number);
        for (name, value) in environment {
            command.env(name, value);
        }
        Self { driver: Driver::start(command, USUAL, manners), number }
    }

    /// The number of the program, which must have started.
    pub fn pid(&self) -> Pid {
        let text = fs::read_to_string(&self.number).expect("it has started");
        text.trim().parse().ok().and_then(Pid::from_raw).expect("a number")
    }

    pub fn signal(&self, signal: Signal) {
        kill_process(self.pid(), signal).expect("the program is there");
    }

    /// Waits for its end, which must leave the terminal as it was; gives the screen.
    pub fn ends(&self, how: &str, before: &Termios) -> String {
        let screen = self.driver.sees("[ended ");
        let screen = if screen.contains("]\n") { screen } else { self.driver.sees("]\n") };
        assert!(screen.contains(&format!("[ended {how}]")), "not {how}:\n{screen}");
        assert_eq!(*before, self.driver.settings(), "the settings of the terminal");
        self.driver.until("an ordinary screen", |screen| {
            let plain = !screen.alternate_screen()
                && !screen.hide_cursor()
                && !screen.bracketed_paste()
                && !screen.application_cursor()
                && !screen.application_keypad()
                && screen.mouse_protocol_mode() == vt100::MouseProtocolMode::None
                && (screen.fgcolor(), screen.bgcolor()) == (vt100::Color::Default, vt100::Color::Default)
                && !screen.inverse()
                && !screen.bold();
            plain.then_some(())
        });
        screen
    }
}

fn own() -> String {
    env::current_exe().expect("this program has a name").to_string_lossy().into_owned()
}
