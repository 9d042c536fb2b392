//! One burst of questions to the terminal, read raw up to the answer every terminal gives, before keys are read.

use crate::render::Replies;

#[cfg(unix)]
pub(super) use unix::ask;

/// Asks nothing where the terminal cannot be read raw.
#[cfg(not(unix))]
pub(super) fn ask() -> Option<Replies> {
    None
}

#[cfg(unix)]
mod unix {
    use super::{Replies, read_replies};
    use rustix::event::{PollFd, PollFlags, Timespec, poll};
    use std::io::{self, Write};
    use std::time::{Duration, Instant};

    /// How long an answer is waited for.
    const LIMIT: Duration = Duration::from_millis(300);

    /// Name, secondary and tertiary attributes, cell size, the width of an eighth block, and last the primary attributes,
    /// which every terminal answers.
    const BURST: &[u8] =
        b"\x1b[>q\x1b[>c\x1b[=c\x1b[16t\x1b[H\xe2\x96\x8f\x1b[6n\x1b[H\xf0\x9f\xad\xb0\x1b[6n\x1b[H\x1b[2K\x1b[c";

    /// What the terminal answers; none when it stays silent. Raw mode must be on.
    pub(in crate::tui) fn ask() -> Option<Replies> {
        let mut out = io::stdout();
        out.write_all(BURST).and_then(|()| out.flush()).ok()?;
        let mut heard = Vec::new();
        let until = Instant::now() + LIMIT;
        while !is_complete(&heard) {
            let left = until.saturating_duration_since(Instant::now());
            if left.is_zero() || !is_readable(left) {
                break;
            }
            let mut buffer = [0; 512];
            let count = rustix::io::read(rustix::stdio::stdin(), &mut buffer).ok()?;
            if count == 0 {
                break;
            }
            heard.extend_from_slice(&buffer[..count]);
        }
        read_replies(&heard)
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
    use super::read_replies;

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
}
