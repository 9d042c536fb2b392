//! Bursts of questions to the terminal, read raw up to the answer every terminal gives, before keys are read.

use crate::render::Replies;
use crossterm::event::{KeyCode, KeyEvent, KeyModifiers};

#[cfg(unix)]
pub(super) use unix::ask;

/// Asks nothing where the terminal cannot be read raw.
#[cfg(not(unix))]
pub(super) fn ask() -> (Option<Replies>, Late) {
    (None, Late::Nothing)
}

#[cfg(unix)]
mod unix {
    use super::{Late, Replies, read_replies};
    use rustix::event::{PollFd, PollFlags, Timespec, poll};
    use std::io::{self, Write};
    use std::time::{Duration, Instant};

    /// How long an answer, or its next byte, is waited for.
    const LIMIT: Duration = Duration::from_millis(300);
    /// How long answers are waited for in all.
    const LONGEST: Duration = Duration::from_millis(900);

    /// Name, tertiary attributes, cell size, the width of an eighth block, and last the primary attributes, which every
    /// terminal answers. Answers that come too late can be told from keys, see [`Late`].
    const BURST: &[u8] =
        b"\x1b[>q\x1b[=c\x1b[16t\x1b[H\xe2\x96\x8f\x1b[6n\x1b[H\xf0\x9f\xad\xb0\x1b[6n\x1b[H\x1b[2K\x1b[c";
    /// The secondary attributes, whose answer could not be told from keys: asked only of one that answers in time.
    const VERSION: &[u8] = b"\x1b[>c\x1b[c";

    /// What the terminal answers, none when it stays silent, and what may still come. Raw mode must be on.
    pub(in crate::tui) fn ask() -> (Option<Replies>, Late) {
        let mut heard = exchange(BURST);
        let in_time = is_complete(&heard);
        let named = |replies: &Replies| !replies.version.is_empty() || replies.tertiary.is_empty();
        if in_time && !read_replies(&heard).is_none_or(|replies| named(&replies)) {
            heard.extend(exchange(VERSION));
        }
        (read_replies(&heard), if in_time { Late::Nothing } else { Late::Possible })
    }

    /// Asks, and listens up to the primary attributes.
    fn exchange(questions: &[u8]) -> Vec<u8> {
        let mut heard = Vec::new();
        let mut out = io::stdout();
        if out.write_all(questions).and_then(|()| out.flush()).is_err() {
            return heard;
        }
        let end = Instant::now() + LONGEST;
        while !is_complete(&heard) {
            let left = end.saturating_duration_since(Instant::now()).min(LIMIT);
            if left.is_zero() || !is_readable(left) {
                break;
            }
            let mut buffer = [0; 512];
            match rustix::io::read(rustix::stdio::stdin(), &mut buffer) {
                Ok(count) if count > 0 => heard.extend_from_slice(&buffer[..count]),
                _ => break,
            }
        }
        heard
    }

    fn is_readable(left: Duration) -> bool {
        let stdin = rustix::stdio::stdin();
        let mut fds = [PollFd::new(&stdin, PollFlags::IN)];
        let time = Timespec::try_from(left).ok();
        matches!(poll(&mut fds, time.as_ref()), Ok(ready) if ready > 0)
    }

    /// The primary attributes are there: `ESC [ ? ... c`.
    fn is_complete(heard: &[u8]) -> bool {
        heard.windows(3).enumerate().any(|(at, start)| {
            start == b"\x1b[?" && heard[at + 3..].iter().find(|b| b.is_ascii_alphabetic()) == Some(&b'c')
        })
    }
}

/// What may still come of answers that were not there in time. Those with a text in them would be taken for keys: they begin
/// like Alt-P and end like Alt-backslash.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Late {
    /// Nothing.
    Nothing,
    /// All of it.
    Possible,
    /// An answer has begun, so many characters ago.
    Begun(u8),
}

impl Late {
    /// True for a key that is none but belongs to a late answer.
    pub(super) fn takes(&mut self, key: KeyEvent) -> bool {
        // No name of a terminal is longer.
        const LONGEST: u8 = 80;
        let alt = key.modifiers.contains(KeyModifiers::ALT);
        let (taken, next) = match (*self, key.code) {
            (Self::Possible, KeyCode::Char('P')) if alt => (true, Self::Begun(0)),
            (Self::Begun(0), KeyCode::Char('>' | '!')) => (true, Self::Begun(1)),
            (Self::Begun(1..), KeyCode::Char('\\')) => (true, Self::Possible),
            (Self::Begun(count @ 1..LONGEST), KeyCode::Char(_) | KeyCode::Esc) => {
                (true, Self::Begun(count + 1))
            }
            (Self::Begun(_), _) => (false, Self::Possible),
            (unchanged, _) => (false, unchanged),
        };
        *self = next;
        taken
    }
}

/// Picks the answers apart.
#[cfg_attr(not(unix), allow(dead_code))]
fn read_replies(heard: &[u8]) -> Option<Replies> {
    if heard.is_empty() {
        return None;
    }
    let text = String::from_utf8_lossy(heard);
    let mut replies = Replies::default();
    for part in text.split('\u{1b}') {
        if let Some(version) = part.strip_prefix("P>|") {
            replies.version = version.chars().filter(|c| !c.is_control()).take(80).collect();
        } else if let Some(tertiary) = part.strip_prefix("P!|") {
            replies.tertiary = tertiary.chars().filter(char::is_ascii_hexdigit).take(16).collect();
        } else if let Some(rest) = part.strip_prefix("[>") {
            rest.trim_end_matches('c').clone_into(&mut replies.secondary);
        } else if let Some(size) = part.strip_prefix("[6;") {
            let width = size.trim_end_matches('t').split(';').nth(1);
            replies.cell_width = width.and_then(|width| width.parse().ok());
        } else if let Some(cursor) = part.strip_prefix('[').and_then(|rest| rest.strip_suffix('R')) {
            replies.wide_blocks |= cursor.split(';').nth(1) != Some("2");
        }
    }
    Some(replies)
}

#[cfg(test)]
mod tests {
    use super::{Late, read_replies};
    use crossterm::event::{KeyCode, KeyEvent, KeyModifiers};

    // Replies as measured from a real window, `terminal_drawing` section 4 of the design notes.
    #[test]
    fn picks_a_named_terminal_apart() {
        let heard = b"\x1bP>|kitty(0.26.5)\x1b\\\x1b[>1;4000;26c\x1b[6;17;8t\x1b[1;2R\x1b[1;2R\x1b[?62;c";
        let replies = read_replies(heard).expect("something was heard");
        assert_eq!(replies.version, "kitty(0.26.5)");
        assert_eq!(replies.secondary, "1;4000;26");
        assert_eq!(replies.cell_width, Some(8));
        assert!(!replies.wide_blocks);
    }

    #[test]
    fn silence_and_wide_blocks() {
        assert_eq!(read_replies(b""), None);
        assert!(read_replies(b"\x1b[1;3R\x1b[?6c").expect("heard").wide_blocks);
    }

    /// The keys that are left over once a late state has looked at them; `~` stands for Alt.
    fn left_over(late: &mut Late, keys: &str) -> String {
        let mut modifiers = KeyModifiers::NONE;
        let mut left = String::new();
        for c in keys.chars() {
            if c == '~' {
                modifiers = KeyModifiers::ALT;
            } else if !late
                .takes(KeyEvent::new(KeyCode::Char(c), std::mem::replace(&mut modifiers, KeyModifiers::NONE)))
            {
                left.push(c);
            }
        }
        left
    }

    #[test]
    fn late_answers_are_no_keys() {
        let mut late = Late::Possible;
        assert_eq!(left_over(&mut late, "1~P>|kitty(0.35)~\\2~P!|00000000~\\3"), "123");
        assert_eq!(late, Late::Possible);
        // Alt-P of a person, and a name without an end.
        assert_eq!(left_over(&mut late, "~P4.2"), "4.2");
        assert_eq!(left_over(&mut late, &format!("~P>{}", "5".repeat(100))).len(), 21);
        assert_eq!(left_over(&mut Late::Nothing, "~P>|6"), "P>|6");
    }
}
