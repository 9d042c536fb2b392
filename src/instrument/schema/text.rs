//! Text from a file: what may be in it, and how it is repeated in a message.

use unicode_width::UnicodeWidthChar;

/// Characters a text may have.
pub(super) const LONGEST: usize = 120;
/// Characters a sentence or two may have.
pub(super) const LONGEST_PROSE: usize = 400;
/// Bytes that a text of so many characters may have to each of them.
const BYTES: usize = 4;
/// Marks that may stand on one letter.
const MARKS: usize = 2;

/// Why a text is refused.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum TextFault {
    /// Nothing, or only space.
    Empty,
    /// Too many characters.
    TooLong,
    /// A character that is not seen or moves others about.
    Hidden(char),
    /// More than two marks on one letter.
    Piled,
}

/// True for controls, bidirectional controls, zero-width characters, tags, private use and non-characters.
pub(super) fn is_hidden(c: char) -> bool {
    c.is_control()
        || matches!(c,
            '\u{ad}' | '\u{34f}' | '\u{600}'..='\u{605}' | '\u{61c}' | '\u{6dd}' | '\u{70f}' | '\u{115f}' | '\u{1160}'
            | '\u{17b4}' | '\u{17b5}' | '\u{180b}'..='\u{180f}' | '\u{200b}'..='\u{200f}' | '\u{2028}'..='\u{202e}'
            | '\u{2060}'..='\u{206f}' | '\u{3164}' | '\u{e000}'..='\u{f8ff}' | '\u{fe00}'..='\u{fe0f}' | '\u{feff}'
            | '\u{ffa0}' | '\u{fff0}'..='\u{fffb}' | '\u{1bca0}'..='\u{1bca3}' | '\u{1d173}'..='\u{1d17a}'
            | '\u{e0000}'..='\u{10ffff}')
        || u32::from(c) & 0xfffe == 0xfffe
}

/// The first thing wrong with a text of at most so many characters, if anything is.
pub(super) fn fault_in(text: &str, longest: usize) -> Option<TextFault> {
    if text.trim().is_empty() {
        return Some(TextFault::Empty);
    }
    if text.len() > longest * BYTES || text.chars().count() > longest {
        return Some(TextFault::TooLong);
    }
    let mut marks = 0;
    for c in text.chars() {
        if is_hidden(c) {
            return Some(TextFault::Hidden(c));
        }
        marks = if c.width() == Some(0) { marks + 1 } else { 0 };
        if marks > MARKS {
            return Some(TextFault::Piled);
        }
    }
    None
}

/// A text from a file as a message may repeat it: short, and hidden characters spelled out.
pub fn shown(text: &str) -> String {
    const SHOWN: usize = 40;
    let mut out = String::new();
    for (n, c) in text.chars().enumerate() {
        if n == SHOWN {
            out.push_str("...");
            break;
        }
        if is_hidden(c) || c.width() == Some(0) {
            out.extend(c.escape_unicode());
        } else {
            out.push(c);
        }
    }
    out
}

/// A corrected line of the file; of a key that holds a list, the corrected item.
pub(crate) fn corrected(key: &str, text: &str) -> String {
    match key {
        "tiers" | "range" | "engraved" | "halves" | "reads" | "kinds" | "provoke" | "readings" => {
            format!("\"{text}\"")
        }
        _ => format!("{key} = \"{text}\""),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_what_is_seen_passes() {
        assert_eq!(fault_in("0\u{2013}25 mm, 5\u{b0} \u{e9}tag\u{e8}re", LONGEST), None);
        for c in ['\u{1b}', '\u{202e}', '\u{200b}', '\u{e0041}', '\u{85}', '\u{e000}', '\u{7f}'] {
            assert_eq!(fault_in(&format!("a{c}b"), LONGEST), Some(TextFault::Hidden(c)));
        }
        assert_eq!(fault_in(&format!("a{}", "\u{301}".repeat(3)), LONGEST), Some(TextFault::Piled));
        assert_eq!(fault_in(&"x".repeat(121), LONGEST), Some(TextFault::TooLong));
        assert_eq!(fault_in("  ", LONGEST), Some(TextFault::Empty));
    }

    #[test]
    fn a_message_never_repeats_what_is_hidden() {
        assert_eq!(shown("a\u{1b}[31m"), "a\\u{1b}[31m");
        assert_eq!(shown(&"x".repeat(50)), format!("{}...", "x".repeat(40)));
    }
}
