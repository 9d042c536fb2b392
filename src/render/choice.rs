//! Which line style a terminal gets. A missing glyph cannot be detected by any query, so thin lines are drawn only where the
//! terminal is known to draw them itself; everything else gets bars, which are just as exact.

use super::LineStyle;

/// What is known of a terminal.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Terminal {
    /// Output goes to a terminal at all.
    pub is_terminal: bool,
    /// `TERM`.
    pub term: String,
    /// `TERM_PROGRAM`.
    pub program: String,
    /// The locale's character set is UTF-8.
    pub utf8: bool,
    /// What it answered when asked, if it was.
    pub replies: Option<Replies>,
}

/// What a terminal answered to one burst of queries.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Replies {
    /// Its name and version, `kitty(0.26.5)`.
    pub version: String,
    /// The secondary attributes, `65;7006;1`.
    pub secondary: String,
    /// The tertiary attributes, in hexadecimal.
    pub tertiary: String,
    /// A one-eighth block moved the cursor by other than one column.
    pub wide_blocks: bool,
    /// The width of a cell in pixels, if it told.
    pub cell_width: Option<u32>,
}

/// Why a style was chosen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Why {
    /// `--lines` said so.
    Asked,
    /// Chosen on the calibration strip or found out earlier, and saved.
    Saved,
    /// Output does not go to a terminal.
    NoTerminal,
    /// `TERM=dumb`, or no UTF-8.
    Plain,
    /// The Linux console has few glyphs.
    Console,
    /// The terminal told its name and draws thin lines itself.
    Named,
    /// Nothing is known of it.
    Unknown,
}

impl Terminal {
    /// The key under which a choice is saved for this terminal.
    pub fn key(&self) -> String {
        let keep = |text: &str| -> String {
            text.chars()
                .filter(|c| c.is_ascii_alphanumeric() || matches!(c, '-' | '_' | '.'))
                .take(40)
                .collect()
        };
        format!("lines/{}/{}", keep(&self.term), keep(&self.program))
    }
}

/// The style for a terminal, and why.
pub fn choose(asked: Option<LineStyle>, saved: Option<LineStyle>, terminal: &Terminal) -> (LineStyle, Why) {
    if let Some(style) = asked {
        return (style, Why::Asked);
    }
    if !terminal.is_terminal {
        return (LineStyle::Ascii, Why::NoTerminal);
    }
    if let Some(style) = saved {
        return (style, Why::Saved);
    }
    if terminal.term == "dumb" || !terminal.utf8 {
        return (LineStyle::Ascii, Why::Plain);
    }
    if terminal.term == "linux" {
        return (LineStyle::Cell, Why::Console);
    }
    match &terminal.replies {
        Some(replies) if replies.wide_blocks => (LineStyle::Ascii, Why::Plain),
        Some(replies) if draws_thin(replies) => (LineStyle::Thin, Why::Named),
        // In a multiplexer the variable leaks in from outside, so what was answered counts more.
        Some(replies) if !replies.version.is_empty() => (LineStyle::Bars, Why::Unknown),
        _ if terminal.program == "vscode" => (LineStyle::Thin, Why::Named),
        _ => (LineStyle::Bars, Why::Unknown),
    }
}

/// The terminals known to draw U+1FB70 to U+1FB7B themselves.
fn draws_thin(replies: &Replies) -> bool {
    let version = replies.version.to_ascii_lowercase();
    let (name, rest) = version.split_once(['(', ' ']).unwrap_or((&version, ""));
    let numbers: Vec<u64> = rest
        .split(|c: char| !c.is_ascii_digit())
        .filter(|digits| !digits.is_empty())
        .filter_map(|digits| digits.parse().ok())
        .collect();
    match name {
        "kitty" => numbers >= vec![0, 19],
        "foot" | "ghostty" => true,
        "konsole" => numbers >= vec![22, 4],
        "wezterm" => numbers.first().is_some_and(|date| *date >= 20_240_401),
        _ => {
            let second: u64 = replies.secondary.split(';').nth(1).and_then(|n| n.parse().ok()).unwrap_or(0);
            replies.tertiary.eq_ignore_ascii_case("7E565445") && second >= 6000
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn answering(version: &str, secondary: &str, tertiary: &str) -> (LineStyle, Why) {
        let replies = Replies {
            version: version.to_owned(),
            secondary: secondary.to_owned(),
            tertiary: tertiary.to_owned(),
            ..Replies::default()
        };
        let terminal = Terminal {
            is_terminal: true,
            term: "xterm-256color".to_owned(),
            utf8: true,
            replies: Some(replies),
            ..Terminal::default()
        };
        choose(None, None, &terminal)
    }

    // The replies are the ones measured from real windows, `terminal_drawing` section 4 of the design notes.
    #[test]
    fn named_terminals() {
        let thin = (LineStyle::Thin, Why::Named);
        let bars = (LineStyle::Bars, Why::Unknown);
        assert_eq!(answering("kitty(0.26.5)", "1;4000;26", ""), thin);
        assert_eq!(answering("", "65;7006;1", "7E565445"), thin);
        assert_eq!(answering("foot(1.13.1)", "", "464f4f54"), thin);
        assert_eq!(answering("Konsole 22.12.3", "", "7E4B4445"), thin);
        assert_eq!(answering("Konsole 21.12.3", "", "7E4B4445"), bars);
        assert_eq!(answering("WezTerm 20240203-110809-5046fc22", "", ""), bars);
        assert_eq!(answering("WezTerm 20250101-000000-abcdef", "", ""), thin);
        assert_eq!(answering("XTerm(379)", "41;379;0", ""), bars);
        assert_eq!(answering("tmux 3.3a", "84;0;0", ""), bars);
        assert_eq!(answering("", "0;1700;1", ""), bars);
    }

    #[test]
    fn order_of_reasons() {
        let mut terminal = Terminal { term: "dumb".to_owned(), ..Terminal::default() };
        assert_eq!(choose(Some(LineStyle::Bars), None, &terminal), (LineStyle::Bars, Why::Asked));
        assert_eq!(choose(None, Some(LineStyle::Thin), &terminal), (LineStyle::Ascii, Why::NoTerminal));
        terminal.is_terminal = true;
        assert_eq!(choose(None, Some(LineStyle::Thin), &terminal), (LineStyle::Thin, Why::Saved));
        assert_eq!(choose(None, None, &terminal), (LineStyle::Ascii, Why::Plain));
        terminal.utf8 = true;
        terminal.term = "linux".to_owned();
        assert_eq!(choose(None, None, &terminal), (LineStyle::Cell, Why::Console));
        terminal.term = "xterm".to_owned();
        assert_eq!(choose(None, None, &terminal), (LineStyle::Bars, Why::Unknown));
        terminal.program = "vscode".to_owned();
        assert_eq!(choose(None, None, &terminal), (LineStyle::Thin, Why::Named));
    }
}
