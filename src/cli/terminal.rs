//! What the surroundings tell: the terminal, its size, the variables that matter.

use super::args::{Common, Size};
use crate::render::{LineStyle, Terminal, Why, choose};
use crate::store::{self, Access, Store};
use std::env;
use std::io::{self, IsTerminal};

/// The size where nothing tells another.
pub const USUAL: Size = Size { cols: 80, rows: 24 };

/// The terminal on the standard output, as far as the environment tells.
pub fn terminal() -> Terminal {
    Terminal {
        is_terminal: io::stdout().is_terminal(),
        term: variable("TERM"),
        program: variable("TERM_PROGRAM"),
        utf8: utf8(),
        replies: None,
    }
}

/// True when both the standard input and the standard output are a terminal.
pub fn both_ends() -> bool {
    io::stdin().is_terminal() && io::stdout().is_terminal()
}

/// True when `NO_COLOR` is set to anything.
pub fn no_color() -> bool {
    !variable("NO_COLOR").is_empty()
}

/// The size of the terminal on the standard output; `None` where it is none.
#[cfg(unix)]
pub fn size() -> Option<Size> {
    let size = rustix::termios::tcgetwinsize(io::stdout()).ok()?;
    (size.ws_col > 0 && size.ws_row > 0).then_some(Size { cols: size.ws_col, rows: size.ws_row })
}

/// The size of the terminal on the standard output; never known on this system.
#[cfg(not(unix))]
pub fn size() -> Option<Size> {
    None
}

/// The line style for what is written to `terminal`, and why.
pub fn line_style(common: &Common, terminal: &Terminal) -> (LineStyle, Why) {
    let asked = common.lines.or(common.plain.then_some(LineStyle::Ascii));
    let saved = if asked.is_none() && terminal.is_terminal { saved_style(common, terminal) } else { None };
    choose(asked, saved, terminal)
}

/// The style saved for this terminal. Whatever stands in the way, a picture can be drawn without it.
fn saved_style(common: &Common, terminal: &Terminal) -> Option<LineStyle> {
    let dir = store::data_dir(common.data_dir.clone()).ok()?;
    if !dir.join(store::FILE_NAME).is_file() {
        return None;
    }
    let opened = Store::open_for(&dir, Access::ReadOnly).ok()?;
    let word = opened.store.setting(&terminal.key()).ok()??;
    LineStyle::from_word(&word)
}

fn variable(name: &str) -> String {
    env::var_os(name).map(|text| text.to_string_lossy().into_owned()).unwrap_or_default()
}

fn utf8() -> bool {
    if cfg!(windows) {
        return true;
    }
    let locale = ["LC_ALL", "LC_CTYPE", "LANG"].into_iter().map(variable).find(|text| !text.is_empty());
    locale.is_some_and(|locale| {
        let locale = locale.to_ascii_lowercase();
        locale.contains("utf-8") || locale.contains("utf8")
    })
}
