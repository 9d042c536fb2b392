//! What the doctor says.

use crate::render::Why;

/// Why a line style was chosen.
pub fn why(why: Why) -> &'static str {
    match why {
        Why::Asked => "asked for on the command line",
        Why::Saved => "chosen for this terminal earlier",
        Why::NoTerminal => "the output is no terminal",
        Why::Plain => "the terminal is a plain one, or its locale is not UTF-8",
        Why::Console => "the console has few characters",
        Why::Named => "the terminal is known to draw them itself",
        Why::Unknown => "nothing is known of this terminal",
    }
}

/// The short word for that.
pub fn why_word(why: Why) -> &'static str {
    match why {
        Why::Asked => "asked",
        Why::Saved => "saved",
        Why::NoTerminal => "no-terminal",
        Why::Plain => "plain",
        Why::Console => "console",
        Why::Named => "named",
        Why::Unknown => "unknown",
    }
}

/// Whether the record is there and can be written.
pub fn record(there: bool, problem: Option<&str>) -> String {
    match (there, problem) {
        (true, None) => "can be written".to_owned(),
        (false, None) => "not there yet; the first answer makes it".to_owned(),
        (_, Some(why)) => format!("nothing can be saved: {why}"),
    }
}

/// A person's own instruments or exercises.
pub fn own_files(own: usize, faulty: usize) -> String {
    match (own + faulty, faulty) {
        (0, _) => "none of your own".to_owned(),
        (_, 0) => format!("{own} of your own"),
        _ => format!("{own} of your own, {faulty} left out"),
    }
}
