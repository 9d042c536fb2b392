//! Drives a program in a pseudo-terminal: keys in, screen out. Every wait is for something to be seen, none is for a time.

use crate::terminal::{Answers, Manners};
use portable_pty::{Child, CommandBuilder, ExitStatus, MasterPty, PtySize, native_pty_system};
use rustix::process::{Pid, Signal, kill_process};
use std::io::{self, Read, Write};
use std::num::NonZeroU16;
use std::path::Path;
use std::sync::{Arc, Condvar, Mutex, MutexGuard};
use std::thread::{self, JoinHandle};
use std::time::{Duration, Instant};
use vt100::{Parser, Screen};

/// When what is waited for is taken never to come. No test passes by it.
const DEADLINE: Duration = Duration::from_secs(20);

pub type Termios = Option<String>;

struct State {
    parser: Parser<Answers>,
    /// All that was written.
    bytes: Vec<u8>,
    /// Nobody has the terminal open any more.
    closed: bool,
    status: Option<ExitStatus>,
    /// The window is about to be closed.
    closing: bool,
}

struct Shared {
    state: Mutex<State>,
    changed: Condvar,
}

impl Shared {
    fn lock(&self) -> MutexGuard<'_, State> {
        self.state.lock().expect("no test fails while it holds the screen")
    }

    fn change(&self, change: impl FnOnce(&mut State)) {
        change(&mut self.lock());
        self.changed.notify_all();
    }
}

type Writer = Arc<Mutex<Box<dyn Write + Send>>>;

/// A program in a terminal of its own.
pub struct Driver {
    shared: Arc<Shared>,
    writer: Writer,
    master: Option<Box<dyn MasterPty + Send>>,
    pid: Pid,
    waiter: Option<JoinHandle<()>>,
    reader: Option<JoinHandle<()>>,
    /// The terminal's settings before the program started.
    pub before: Termios,
}

/// A command with nothing in its environment but what the tests set.
pub fn command(program: &str, args: &[&str], home: &Path) -> CommandBuilder {
    let mut command = CommandBuilder::new(program);
    command.args(args);
    command.env_clear();
    command.env("PATH", "/usr/local/bin:/usr/bin:/bin");
    command.env("HOME", home);
    command.env("TERM", "xterm-256color");
    command.env("LANG", "C.UTF-8");
    command.cwd(home);
    command
}

impl Driver {
    /// Starts a command in a terminal of `cols` by `rows`.
    pub fn start(command: CommandBuilder, (cols, rows): (u16, u16), manners: Manners) -> Self {
        let pair = native_pty_system().openpty(size(cols, rows)).expect("a pseudo-terminal");
        let before = settings(&*pair.master);
        let mut child = pair.slave.spawn_command(command).expect("the program starts");
        drop(pair.slave);
        let pid = child.process_id().and_then(|id| Pid::from_raw(i32::try_from(id).ok()?));
        let parser = Parser::new_with_callbacks(some(rows), some(cols), 0, Answers::default());
        let shared = Arc::new(Shared {
            state: Mutex::new(State {
                parser,
                bytes: Vec::new(),
                closed: false,
                status: None,
                closing: false,
            }),
            changed: Condvar::new(),
        });
        let writer: Writer = Arc::new(Mutex::new(pair.master.take_writer().expect("a way in")));
        let reader = pair.master.try_clone_reader().expect("a way out");
        let reader = listen(reader, Arc::clone(&shared), Arc::clone(&writer), manners);
        let waiting = Arc::clone(&shared);
        let waiter = thread::spawn(move || {
            let status = Child::wait(&mut *child).expect("the program can be waited for");
            waiting.change(|state| state.status = Some(status));
        });
        let pid = pid.expect("a program has a number");
        Self {
            shared,
            writer,
            master: Some(pair.master),
            pid,
            waiter: Some(waiter),
            reader: Some(reader),
            before,
        }
    }

    /// Closes the window, as a terminal does whose cross is clicked.
    pub fn close_window(mut self) {
        self.shared.lock().closing = true;
        // The next frame is the last that is read.
        self.types("\x0b");
        let _ = self.reader.take().map(JoinHandle::join);
        *self.writer.lock().expect("no test fails while it types") = Box::new(io::sink());
        self.master = None;
        // The rest waits for the program to end.
        let _ = self.waiter.take().map(JoinHandle::join);
    }

    fn master(&self) -> &dyn MasterPty {
        &**self.master.as_ref().expect("the window is open")
    }

    /// Waits until `found` finds something on a whole screen; fails with the screen when it never does.
    pub fn until<T>(&self, what: &str, found: impl Fn(&Screen) -> Option<T>) -> T {
        self.until_state(what, |state| {
            let whole = !state.parser.screen().alternate_screen() || ends_a_frame(&state.bytes);
            if whole { found(state.parser.screen()) } else { None }
        })
    }

    fn until_state<T>(&self, what: &str, found: impl Fn(&State) -> Option<T>) -> T {
        let end = Instant::now() + DEADLINE;
        let mut state = self.shared.lock();
        loop {
            if let Some(found) = found(&state) {
                return found;
            }
            let left = end.saturating_duration_since(Instant::now());
            let over = state.closed && state.status.is_some();
            if left.is_zero() || over {
                let screen = text(state.parser.screen());
                let status = state.status.clone();
                let last = state.bytes[state.bytes.len().saturating_sub(600)..].escape_ascii().to_string();
                drop(state);
                let why = if over { "and never will" } else { "in time" };
                panic!(
                    "not seen {why}: {what}; ended: {status:?}; the last bytes:\n{last}\nthe screen:\n{screen}"
                );
            }
            (state, _) = self.shared.changed.wait_timeout(state, left).expect("no test fails in here");
        }
    }

    /// Waits until a text is on the screen; gives the whole screen.
    pub fn sees(&self, wanted: &str) -> String {
        self.until(wanted, |screen| Some(text(screen)).filter(|text| text.contains(wanted)))
    }

    /// Waits until one of these texts is on the screen; gives its place among them.
    pub fn sees_one_of(&self, wanted: &[&str]) -> usize {
        self.until(&wanted.join(" or "), |screen| {
            let text = text(screen);
            wanted.iter().position(|wanted| text.contains(wanted))
        })
    }

    /// Waits until the screen is exactly this.
    pub fn is(&self, wanted: &str) {
        self.until(&format!("exactly\n{wanted}"), |screen| (text(screen) == wanted).then_some(()));
    }

    /// Waits until a text has left the screen.
    pub fn no_longer_sees(&self, gone: &str) {
        self.until(&format!("no more {gone}"), |screen| (!text(screen).contains(gone)).then_some(()));
    }

    /// Waits until the program has asked the terminal what it is.
    pub fn is_asked(&self) {
        self.until_state("the questions to the terminal", |state| {
            state.parser.callbacks().asked.then_some(())
        });
    }

    /// What a late terminal owes is given now.
    pub fn answer_late(&self) {
        let due = std::mem::take(&mut self.shared.lock().parser.callbacks_mut().due);
        assert!(!due.is_empty(), "nothing was asked");
        write(&self.writer, &due);
    }

    /// Types.
    pub fn types(&self, keys: &str) {
        write(&self.writer, keys.as_bytes());
    }

    /// Gives the window another size.
    pub fn resize(&self, cols: u16, rows: u16) {
        let mut state = self.shared.lock();
        state.parser.set_size(some(rows), some(cols));
        self.master().resize(size(cols, rows)).expect("a terminal can be resized");
    }

    /// All bytes written so far.
    pub fn bytes(&self) -> Vec<u8> {
        self.shared.lock().bytes.clone()
    }

    /// Waits for a byte to be written; true when none came in this time.
    pub fn stays_quiet(&self, time: Duration) -> bool {
        let state = self.shared.lock();
        let count = state.bytes.len();
        let quiet = |state: &mut State| state.bytes.len() == count;
        let waited = self.shared.changed.wait_timeout_while(state, time, quiet);
        waited.expect("no test fails in here").1.timed_out()
    }

    /// The number of the job in front.
    pub fn foreground(&self) -> Pid {
        self.master().process_group_leader().and_then(Pid::from_raw).expect("a job is in front")
    }

    /// The number of the program.
    pub fn pid(&self) -> Pid {
        self.pid
    }

    /// Sends the program a signal.
    pub fn signal(&self, signal: Signal) {
        kill_process(self.pid, signal).expect("the program is there");
    }

    /// Waits until the program has ended and all it wrote has been read.
    pub fn ends(&self) -> ExitStatus {
        let status = self
            .until_state("its end", |state| if state.closed { state.status.clone().map(Some) } else { None });
        status.expect("it has ended")
    }

    /// The terminal's settings now.
    pub fn settings(&self) -> Termios {
        settings(self.master())
    }
}

impl Drop for Driver {
    fn drop(&mut self) {
        // What became of it is of no interest any more.
        if self.shared.state.lock().is_ok_and(|state| state.status.is_none()) {
            let _ = kill_process(self.pid, Signal::KILL);
        }
        let _ = self.waiter.take().map(JoinHandle::join);
    }
}

fn listen(
    mut reader: Box<dyn Read + Send>,
    shared: Arc<Shared>,
    writer: Writer,
    manners: Manners,
) -> JoinHandle<()> {
    thread::spawn(move || {
        let mut buffer = [0; 4096];
        // A terminal that nobody has open reads as ended.
        while let Ok(count @ 1..) = reader.read(&mut buffer) {
            let mut due = Vec::new();
            let mut closing = false;
            shared.change(|state| {
                state.bytes.extend_from_slice(&buffer[..count]);
                state.parser.process(&buffer[..count]);
                if manners == Manners::Named {
                    due = std::mem::take(&mut state.parser.callbacks_mut().due);
                }
                closing = state.closing;
            });
            if closing {
                break;
            }
            if !due.is_empty() {
                write(&writer, &due);
            }
        }
        shared.change(|state| state.closed = true);
    })
}

/// A frame ends with the cursor hidden, or shown and put in its place.
fn ends_a_frame(bytes: &[u8]) -> bool {
    const SHOWN: &[u8] = b"\x1b[?25h\x1b[";
    let last = &bytes[bytes.len().saturating_sub(24)..];
    if last.ends_with(b"\x1b[?25l") {
        return true;
    }
    let Some((b'H', place)) = last.split_last() else { return false };
    let at = place.windows(SHOWN.len()).rposition(|part| part == SHOWN);
    at.is_some_and(|at| place[at + SHOWN.len()..].iter().all(|byte| byte.is_ascii_digit() || *byte == b';'))
}

fn write(writer: &Writer, bytes: &[u8]) {
    let mut writer = writer.lock().expect("no test fails while it types");
    writer.write_all(bytes).and_then(|()| writer.flush()).expect("the terminal takes keys");
}

fn settings(master: &dyn MasterPty) -> Termios {
    master.get_termios().map(|termios| format!("{termios:?}"))
}

fn size(cols: u16, rows: u16) -> PtySize {
    PtySize { rows, cols, pixel_width: 0, pixel_height: 0 }
}

fn some(cells: u16) -> NonZeroU16 {
    NonZeroU16::new(cells).expect("a terminal has cells")
}

/// The screen, a line a row.
pub fn text(screen: &Screen) -> String {
    screen.rows(0, screen.size().1.get()).map(|row| row.trim_end().to_owned() + "\n").collect()
}
