//! A robot that hears the sentences of a description and reads the tool from them.

use crate::dial;
use crate::disc;
use crate::known::{Kind, Known};
use linefall::instrument::Course;

type Heard = Result<i64, String>;

/// The reading, in quanta.
pub fn read(known: &Known, sentences: &[String]) -> Heard {
    let mut main = Scale::default();
    let mut thimble = Scale::default();
    let mut vernier = Vec::new();
    let mut dial = dial::Heard::default();
    if known.kind == Kind::Disc {
        return disc::hear(known, sentences);
    }
    for sentence in sentences {
        let Some((scale, said)) = sentence.split_once(": ") else { continue };
        let said = said.strip_suffix('.').ok_or_else(|| format!("no full stop: {sentence}"))?;
        // A tool with two sets of scales names each: inch scale, height vernier.
        let mut words = scale.split(&[' ', ','][..]);
        let word = match (words.next(), words.next()) {
            (Some(_), Some("scale")) => Some("Main"),
            (Some(_), Some("vernier")) => Some("Vernier"),
            (word, _) => word,
        };
        match word {
            Some("Sleeve" | "Rule" | "Main" | "Bar" | "Counter") => main.hear(said)?,
            Some("Thimble") => thimble.hear(said)?,
            Some("Dial" | "Collar") => dial.hear(said)?,
            Some("Vernier") => vernier.push(vernier_line(scale, said)?),
            _ => {}
        }
    }
    if let Some(rim) = &known.rim {
        let Some(division) = rim.coarse else { return dial.value(rim) };
        let fine = dial.place(rim)?;
        return Ok(main.last_line(known)? + fine + settled(main.tenths * division / 10 - fine, division));
    }
    let mut total = if known.covers { main.last_covered(known)? } else { main.last_line(known)? };
    total += known.added;
    if known.kind == Kind::Sleeve {
        let of = known.thimble.as_ref().ok_or("no thimble")?;
        let figure = thimble.small.ok_or("no figure on the thimble")? * of.figure;
        let mut fine = (figure + thimble.lines * of.division).rem_euclid(of.parts * of.division);
        if known.vernier.is_none() {
            fine += beyond(thimble.tenths, of.division)?;
        }
        // The edge has gone so far past the line last showing; the thimble settles the turn.
        let ahead = main.tenths * known.division / 10 - fine;
        total += fine + settled(ahead, known.division);
    } else if known.kind == Kind::Rule {
        total += beyond(main.tenths, known.division)?;
    }
    if let Some(fine) = &known.vernier {
        total += in_line(&vernier, fine.parts, known.course == Course::Leftward)? * fine.least_count;
    }
    Ok(total)
}

/// What lies beyond a line: so many tenths of a division, told as quarters where a division has no tenths.
fn beyond(tenths: i64, division: i64) -> Heard {
    match (tenths, division) {
        (0, _) => Ok(0),
        (_, division) if division % 10 == 0 => Ok(tenths * division / 10),
        (5, division) if division % 2 == 0 => Ok(division / 2),
        (2, division) if division % 4 == 0 => Ok(division / 4),
        (8, division) if division % 4 == 0 => Ok(division / 4 * 3),
        _ => Err("it stands between two lines".to_owned()),
    }
}

/// A turn more or less, where the coarse scale is more than half of one away from the fine one.
fn settled(ahead: i64, turn: i64) -> i64 {
    if 2 * ahead > turn {
        turn
    } else if 2 * ahead < -turn {
        -turn
    } else {
        0
    }
}

#[derive(Default)]
pub struct Scale {
    large: Option<i64>,
    small: Option<i64>,
    times: i64,
    lines: i64,
    pub tenths: i64,
    all_covered: bool,
}

impl Scale {
    pub fn hear(&mut self, said: &str) -> Result<(), String> {
        if let Some(rest) = said.strip_prefix("the last ").or(said.strip_prefix("the first ")) {
            let (which, figure) = rest.split_once(" is ").ok_or("no figure")?;
            let (figure, times) = figure.split_once(", the ").unwrap_or((figure, "first"));
            let figure = Some(number(figure)?);
            if which.starts_with("large") {
                self.large = figure;
            } else {
                self.small = figure;
                self.times = match times.split(' ').next() {
                    Some("first") => 0,
                    Some("second") => 1,
                    Some("third") => 2,
                    other => return Err(format!("{other:?}")),
                };
            }
        } else if said.starts_with("no small figure") {
            self.small = None;
        } else if said.contains(" more line") {
            let first = said.split(' ').next().unwrap_or_default();
            self.lines += if first == "no" { 0 } else { number(first)? };
        } else if said == "no line shows; all of them are under the thimble" {
            self.all_covered = true;
        } else if let Some(short) = said.strip_suffix(" short of the nearest line") {
            let (_, short) = short.split_once(" is ").ok_or("no distance")?;
            self.tenths = match short {
                "a whole division" => 0,
                "nearly a whole division" => 1,
                "about three quarters of a division" => 2,
                "about two thirds of a division" => 3,
                "a little more than half a division" => 4,
                "half a division" => 5,
                "a little less than half a division" => 6,
                "about a third of a division" => 7,
                "about a quarter of a division" => 8,
                "a hair" => 9,
                other => return Err(format!("a distance {other:?}")),
            };
        } else if let Some((_, standing)) = said.split_once(" is ") {
            self.tenths = match standing {
                "in line with the line last counted" => 0,
                "just past the line last counted" => 1,
                "about a quarter of the way to the next line" => 2,
                "about a third of the way to the next line" => 3,
                "a little less than half way to the next line" => 4,
                "half way to the next line" => 5,
                "a little more than half way to the next line" => 6,
                "about two thirds of the way to the next line" => 7,
                "about three quarters of the way to the next line" => 8,
                "nearly at the next line" => 9,
                other => return Err(format!("a standing {other:?}")),
            };
        } else {
            return Err(format!("not understood: {said:?}"));
        }
        Ok(())
    }

    /// The line under a thimble that covers, from what still shows.
    fn last_covered(&self, known: &Known) -> Heard {
        if self.all_covered {
            return Ok(known.end);
        }
        let again = self.times * known.wrap.unwrap_or(0);
        let figure = self.small.ok_or("no figure shows")? + again;
        Ok(figure * known.small - (self.lines + 1) * known.division)
    }

    pub fn last_line(&self, known: &Known) -> Heard {
        let large = match (known.large, self.large) {
            (Some(worth), Some(figure)) => figure * worth,
            (None, None) => 0,
            _ => return Err("large figures are not as they should be".to_owned()),
        };
        let again = self.times * known.wrap.unwrap_or(0);
        let small = self.small.map_or(0, |figure| (figure + again) * known.small);
        if self.large.is_none() && self.small.is_none() {
            return Err("no figure".to_owned());
        }
        Ok(large + small + self.lines * known.division)
    }
}

fn number(text: &str) -> Heard {
    text.parse().map_err(|_| format!("not a number: {text:?}"))
}

/// A vernier line's number, and -1, 0 or 1 for a line of the other scale before it, in line, or after it; 2 for half way.
pub fn vernier_line(scale: &str, said: &str) -> Result<(i64, i64, bool), String> {
    let line = scale.split_once("ernier line ").ok_or("not a vernier line")?.1;
    let line = number(line.split(',').next().unwrap_or_default())?;
    let meets = if said.ends_with("is in line with it") {
        0
    } else if said.ends_with("to its left") || said.ends_with("below it") {
        -1
    } else if said.ends_with("to its right") || said.ends_with("above it") {
        1
    } else if said.starts_with("it is half way") {
        2
    } else {
        return Err(format!("not understood: {said:?}"));
    };
    Ok((line, meets, said.contains(" a hair ")))
}

/// The line to take: the only one in line, or the first of first and last. Its neighbours miss by a hair, one to each side.
pub fn in_line(lines: &[(i64, i64, bool)], parts: usize, leftward: bool) -> Heard {
    let after_it = if leftward { -1 } else { 1 };
    if lines.len() != parts + 1 || lines.iter().zip(0..).any(|(line, n)| line.0 != n) {
        return Err("the vernier's lines are not all told".to_owned());
    }
    let met: Vec<usize> = (0..lines.len()).filter(|n| lines[*n].1 == 0).collect();
    let taken = match met[..] {
        [0, last] if last == parts => 0,
        [line] if line != 0 && line != parts => line,
        _ => return Err(format!("in line: {met:?}")),
    };
    let before = taken.checked_sub(1).is_none_or(|n| lines[n].1 == -after_it && lines[n].2);
    let after = lines[taken + 1].1 == after_it && lines[taken + 1].2;
    if before && after { Ok(lines[taken].0) } else { Err("the neighbours do not miss both ways".to_owned()) }
}
