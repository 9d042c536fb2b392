//! Texts in so many cells of a terminal.

use unicode_width::{UnicodeWidthChar, UnicodeWidthStr};

/// A text in exactly so many cells, the last of them empty: cut with a sign where it is too long.
pub fn fit(text: &str, cells: usize) -> String {
    let room = cells.saturating_sub(1);
    let mut fitted = cut(text, room);
    let used = fitted.width();
    fitted.extend(std::iter::repeat_n(' ', cells.saturating_sub(used)));
    fitted
}

/// A text in at most so many cells: cut with a sign where it is too long.
pub fn cut(text: &str, cells: usize) -> String {
    // So much of a text can be seen at all; what is longer is not measured.
    let seen: String = text.chars().take(4 * cells + 4).collect();
    if seen.width() <= cells && seen.len() == text.len() {
        return seen;
    }
    let mut fitted = String::new();
    let mut used = 0;
    for c in seen.chars() {
        let width = c.width().unwrap_or(0);
        if used + width + 1 > cells {
            break;
        }
        used += width;
        fitted.push(c);
    }
    if cells > 0 {
        fitted.push('\u{2026}');
    }
    fitted
}

/// A sentence in lines of at most so many cells. A word that is longer than a line is cut.
pub fn wrapped(text: &str, cells: usize) -> Vec<String> {
    let mut lines = vec![String::new()];
    for word in text.split_whitespace() {
        let word = cut(word, cells);
        let last = lines.last_mut().expect("there is always a line");
        if last.is_empty() {
            last.push_str(&word);
        } else if last.width() + 1 + word.width() <= cells {
            last.push(' ');
            last.push_str(&word);
        } else {
            lines.push(word);
        }
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn texts_take_the_cells_they_are_given() {
        assert_eq!(fit("k7", 5), "k7   ");
        assert_eq!(fit("Brackwater", 6), "Brac\u{2026} ");
        // Wide characters take two cells.
        assert_eq!(fit("\u{5927}\u{5c0f}\u{5bf8}", 6), "\u{5927}\u{5c0f}\u{2026} ");
        assert_eq!(fit(&"x".repeat(10_000), 4), "xx\u{2026} ");
        assert_eq!((cut("abc", 3), cut("abcd", 3)), ("abc".to_owned(), "ab\u{2026}".to_owned()));
        assert_eq!(wrapped("one two three", 7), ["one two", "three"]);
        assert_eq!(wrapped(&"y".repeat(50), 5), ["yyyy\u{2026}"]);
    }
}
