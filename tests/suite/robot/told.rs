//! What a robot is told beside the kind of instrument: what its maker did differently, and whether it is held the other way
//! round. A page that is so held is turned back before it is read, by the robot's own list of glyphs.

use super::kinds::{Kind, Known};
use super::page::{CELL, Glyph};

/// The instrument of a variant's word, and whether it is held the other way round.
pub fn told(known: &Known, word: &str) -> (Known, bool) {
    let (mut known, mut turned) = (known.clone(), false);
    for choice in word.split(' ') {
        match choice {
            "figures=cm" => match &mut known.kind {
                Kind::Rule(scale) | Kind::Pair(scale, _) => scale.figures.worth *= 10,
                Kind::Micrometer(_) | Kind::Dial(_) | Kind::Disc(_) => {
                    panic!("{} counts no millimetres", known.id)
                }
            },
            "vernier=long" => match &mut known.kind {
                // A division more to every part, so as much more of the scale is needed.
                Kind::Pair(scale, vernier) => {
                    vernier.part += scale.division;
                    scale.end += scale.division * vernier.lines.end;
                }
                _ => panic!("{} has no vernier on a scale", known.id),
            },
            "counter=against" => match &mut known.kind {
                Kind::Dial(gauge) => gauge.counter = -gauge.counter,
                _ => panic!("{} has no counter", known.id),
            },
            "held=turned" => turned = true,
            _ => {}
        }
    }
    (known, turned)
}

/// Rows of printed cells, turned by half a turn; words and figures are read as they are printed.
pub fn turned_back(mut rows: Vec<Vec<Glyph>>, cols: usize) -> Vec<Vec<Glyph>> {
    // Halves of bars are the only cells with ink and paper changed.
    let bars = rows.iter().flatten().any(|glyph| glyph.swapped);
    rows.reverse();
    for row in &mut rows {
        row.resize(cols, Glyph { ch: ' ', swapped: false });
        row.reverse();
        let is_word: Vec<bool> = (0..row.len()).map(|n| in_word(row, n)).collect();
        for (glyph, _) in row.iter_mut().zip(&is_word).filter(|(_, word)| !**word) {
            *glyph = partner(*glyph, bars);
        }
        let mut at = 0;
        while at < row.len() {
            let end = (at..row.len()).find(|n| !is_word[*n]).unwrap_or(row.len());
            // What stands on the two sides of a sign changes places.
            for part in row[at..end].split_mut(|glyph| is_sign(glyph.ch)) {
                part.reverse();
            }
            for glyph in &mut row[at..end] {
                glyph.ch = match glyph.ch {
                    '\u{2039}' => '\u{203a}',
                    '\u{203a}' => '\u{2039}',
                    '<' => '>',
                    '>' => '<',
                    ch => ch,
                };
            }
            at = end.max(at + 1);
        }
    }
    rows
}

fn is_sign(ch: char) -> bool {
    matches!(ch, '\u{2039}' | '\u{203a}' | '<' | '>')
}

/// Digits, letters and signs; a stop, a hyphen or one space between two of them.
fn in_word(row: &[Glyph], n: usize) -> bool {
    let at = |n: Option<usize>| n.and_then(|n| row.get(n)).map_or(' ', |glyph| glyph.ch);
    let (before, ch, after) = (at(n.checked_sub(1)), at(Some(n)), at(n.checked_add(1)));
    match ch {
        '.' | '-' => before.is_ascii_alphanumeric() && after.is_ascii_alphanumeric(),
        ' ' => {
            let joins = |ch: char| ch.is_ascii_alphanumeric() || ch == ':';
            joins(before) && joins(after) && !(before.is_ascii_digit() && after.is_ascii_digit())
        }
        ':' => true,
        ch => ch.is_ascii_alphanumeric() || is_sign(ch),
    }
}

/// The same mark half a turn round.
fn partner(glyph: Glyph, bars: bool) -> Glyph {
    let Glyph { ch, swapped } = glyph;
    let other = match ch {
        '\u{250c}' => '\u{2518}',
        '\u{2518}' => '\u{250c}',
        '\u{2510}' => '\u{2514}',
        '\u{2514}' => '\u{2510}',
        '.' => '\'',
        '\'' => '.',
        '`' => ',',
        ',' => '`',
        '\u{2595}' => '\u{258f}',
        '\u{258f}' if !bars => '\u{2595}',
        '\u{2594}' => '\u{2581}',
        '\u{2581}' if !bars => '\u{2594}',
        _ => ch,
    };
    if other != ch {
        return Glyph { ch: other, swapped };
    }
    let code = u32::from(ch);
    // So many eighths of ink from the left, or from below; what is left of the cell is ink after half a turn.
    let eighths = match code {
        0x2589..=0x258f => Some((0x2590, 0x2590 - code)),
        0x2581..=0x2587 => Some((0x2580, code - 0x2580)),
        _ => None,
    };
    if let (Some((base, ink)), true) = (eighths, bars) {
        let rest = u32::try_from(CELL).expect("eight") - ink;
        let code = if base == 0x2590 { base - rest } else { base + rest };
        return Glyph { ch: char::from_u32(code).expect("a block"), swapped: !swapped };
    }
    let code = match code {
        // Six eighths between the first and the last, counted from the other side.
        0x1fb70..=0x1fb75 => 0x1fb75 - (code - 0x1fb70),
        0x1fb76..=0x1fb7b => 0x1fb7b - (code - 0x1fb76),
        code => code,
    };
    Glyph { ch: char::from_u32(code).expect("a line"), swapped }
}
