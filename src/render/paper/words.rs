//! Lines of words: cleaned, measured, cut, wrapped.

use super::{Weight, face};

/// Characters of a text that are looked at; what is longer is cut.
const LONGEST: usize = 2000;

/// What can be printed of a text, in one line: what has no glyph, is obeyed by a terminal or a typesetter, or turns other
/// characters round becomes a sign for what is missing.
pub fn clean(text: &str) -> String {
    let known = |c: char| {
        let joins = matches!(c, '\u{ad}' | '\u{61c}' | '\u{180e}' | '\u{200b}'..='\u{200f}' | '\u{2028}'..='\u{202e}');
        let hidden = matches!(c, '\u{2060}'..='\u{206f}' | '\u{feff}' | '\u{fe00}'..='\u{fe0f}' | '\u{fff9}'..='\u{fffc}');
        !joins
            && !hidden
            && !c.is_control()
            && face(Weight::Regular).glyph(c).is_some()
            && face(Weight::Bold).glyph(c).is_some()
    };
    let mut all = text.chars();
    let mut out: String = all
        .by_ref()
        .take(LONGEST)
        .map(|c| match c {
            '\n' | '\t' | '\r' | '\u{a0}' => ' ',
            c if known(c) => c,
            _ => '\u{fffd}',
        })
        .collect();
    if all.next().is_some() {
        out.push('\u{2026}');
    }
    out
}

/// How wide a clean text is in type of a size.
pub fn width(text: &str, size: i64, weight: Weight) -> i64 {
    let face = face(weight);
    let parts: i64 = text.chars().filter_map(|c| face.glyph(c)).map(|glyph| face.advance(glyph)).sum();
    parts * size / face.parts
}

/// As much of a clean text as has room, with an ellipsis where something is left out.
pub fn cut(text: &str, size: i64, weight: Weight, room: i64) -> String {
    if width(text, size, weight) <= room {
        return text.to_owned();
    }
    let mut kept: Vec<char> = text.chars().collect();
    loop {
        kept.pop();
        let shorter: String = kept.iter().collect::<String>().trim_end().to_owned() + "\u{2026}";
        if kept.is_empty() || width(&shorter, size, weight) <= room {
            return shorter;
        }
    }
}

/// A clean text in lines of at most `room`, at most so many; a word that is wider than a line is cut.
pub fn wrap(text: &str, size: i64, weight: Weight, room: i64, most: usize) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    let mut line = String::new();
    for word in text.split_whitespace() {
        let word = cut(word, size, weight, room);
        let longer = if line.is_empty() { word.clone() } else { format!("{line} {word}") };
        if width(&longer, size, weight) <= room {
            line = longer;
        } else {
            lines.push(std::mem::replace(&mut line, word));
        }
    }
    lines.push(line);
    if lines.len() > most {
        lines.truncate(most);
        if let Some(last) = lines.last_mut() {
            *last = cut(&format!("{last} \u{2026}"), size, weight, room);
        }
    }
    lines.retain(|line| !line.is_empty());
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_cannot_be_printed_is_replaced_and_what_is_too_long_is_cut() {
        let hostile = "a\u{1b}[2J\u{202e}b\u{200d}c\u{9b}d\ne\u{1f600}f\u{feff}";
        assert_eq!(clean(hostile), "a\u{fffd}[2J\u{fffd}b\u{fffd}c\u{fffd}d e\u{fffd}f\u{fffd}");
        assert_eq!(clean("35\u{b0}10\u{2032} \u{b1}0.1"), "35\u{b0}10\u{2032} \u{b1}0.1");
        let long = clean(&"x".repeat(10_000));
        assert_eq!(long.chars().count(), LONGEST + 1);
        let lines = wrap(&long, 3000, Weight::Regular, 50_000, 4);
        assert_eq!(lines.len(), 1);
        assert!(lines[0].ends_with('\u{2026}') && width(&lines[0], 3000, Weight::Regular) <= 50_000);
        let many = wrap(&"word ".repeat(400), 3000, Weight::Bold, 50_000, 3);
        assert!(many.len() == 3 && many[2].ends_with('\u{2026}'));
        assert!(many.iter().all(|line| width(line, 3000, Weight::Bold) <= 50_000));
        assert!(wrap(" \n ", 3000, Weight::Regular, 50_000, 3).is_empty());
    }
}
