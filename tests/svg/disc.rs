//! A disc figured both ways, read at a double vernier or an index line: from the picture, and from what is said of it.

use crate::known::Known;
use crate::listener::{Scale, in_line, vernier_line};
use crate::page::Page;
use crate::reader::{FIXED, MOVING, figures, one, uprights, value};
use linefall::instrument::Course;

type Read = Result<i64, String>;

/// From the picture. Which way the figures grow at the zero tells the half of the vernier to read.
pub fn read(known: &Known, page: &Page) -> Read {
    let (disc, under) = (one(&page.plates_of(FIXED), 0)?, one(&page.plates_of(MOVING), 0)?);
    if under.top != disc.bottom {
        return Err("the plates do not meet".to_owned());
    }
    let edge = disc.bottom;
    let (upper, lower) = (uprights(page, edge, false), uprights(page, edge, true));
    let parts = known.vernier.as_ref().map_or(0, |fine| fine.parts);
    if lower.len() != 2 * parts + 1 {
        return Err(format!("{} lines on the vernier", lower.len()));
    }
    let zero = lower[parts];
    let seen = figures(page, &upper, 0, edge);
    let mut numbers = Vec::new();
    for text in &seen {
        numbers.push((text.x, value(text)?));
    }
    numbers.sort_unstable();
    let before = numbers.iter().rev().find(|(x, _)| *x <= zero).ok_or("no figure left of the zero")?;
    let after = numbers.iter().find(|(x, _)| *x > zero).ok_or("no figure right of the zero")?;
    let rightward = after.1 > before.1;
    let at_end = upper.contains(&zero) && numbers.contains(&(zero, 0)) || before.1 == known.back.unwrap_or(0);
    if rightward != (known.course == Course::Rightward) && !(at_end && before.0 == zero) {
        return Err("the figures grow the other way".to_owned());
    }
    // Whole divisions from the last figure passed, the way the figures grow.
    let (from, lines) = if at_end && before.0 == zero {
        (before.1, 0)
    } else if rightward {
        (before.1, upper.iter().filter(|x| **x > before.0 && **x <= zero).count())
    } else {
        let last = numbers.iter().find(|(x, _)| *x >= zero).ok_or("no figure")?;
        (last.1, upper.iter().filter(|x| **x < last.0 && **x >= zero).count())
    };
    let count = |n: usize| i64::try_from(n).map_err(|_| "many lines".to_owned());
    let whole = from * known.small + count(lines)? * known.division;
    let Some(fine) = &known.vernier else {
        return if upper.contains(&zero) { Ok(whole) } else { Err("between two lines".to_owned()) };
    };
    let met: Vec<usize> = (0..lower.len()).filter(|n| upper.contains(&lower[*n])).collect();
    let read = match met[..] {
        [first, zero, last] if first == 0 && zero == parts && last == 2 * parts => 0,
        [left, right] if left < parts && right > parts => {
            let (left, right) = (parts - left, right - parts);
            if left + right != parts {
                return Err(format!("the halves read {left} and {right}"));
            }
            if rightward { right } else { left }
        }
        _ => return Err(format!("in line: {met:?}")),
    };
    Ok(whole + count(read)? * fine.least_count)
}

/// From the sentences.
pub fn hear(known: &Known, sentences: &[String]) -> Read {
    let mut main = Scale::default();
    let (mut zero, mut left, mut right) = (Vec::new(), Vec::new(), Vec::new());
    let mut grows = None;
    for sentence in sentences {
        if let Some((_, way)) = sentence.split_once("grow to the ") {
            grows = Some(way.trim_end_matches('.').to_owned());
        }
        let Some((scale, said)) = sentence.split_once(": ") else { continue };
        let said = said.strip_suffix('.').ok_or_else(|| format!("no full stop: {sentence}"))?;
        if scale == "Disc" {
            main.hear(said)?;
        } else if let Some(rest) = scale.strip_prefix("Vernier left half, ") {
            left.insert(0, vernier_line(&format!("Vernier {rest}"), said)?);
        } else if let Some(rest) = scale.strip_prefix("Vernier right half, ") {
            right.push(vernier_line(&format!("Vernier {rest}"), said)?);
        } else if scale.starts_with("Vernier") {
            zero.push(vernier_line(scale, said)?);
        }
    }
    let rightward = match grows.as_deref() {
        Some("right") => true,
        Some("left") => false,
        other => return Err(format!("it grows to the {other:?}")),
    };
    let whole = main.last_line(known)?;
    let Some(fine) = &known.vernier else {
        return if main.tenths == 0 { Ok(whole) } else { Err("between two lines".to_owned()) };
    };
    left.splice(0..0, zero.iter().copied());
    right.splice(0..0, zero.iter().copied());
    // A line passed stands between the zero and the figure it came from: seen going left, its neighbours change sides.
    let (to_left, to_right) = (in_line(&left, fine.parts, true)?, in_line(&right, fine.parts, false)?);
    if (to_left + to_right) % i64::try_from(fine.parts).map_err(|_| "many parts".to_owned())? != 0 {
        return Err(format!("the halves read {to_left} and {to_right}"));
    }
    Ok(whole + if rightward { to_right } else { to_left } * fine.least_count)
}
