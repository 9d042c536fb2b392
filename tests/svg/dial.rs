//! What the robots make of a dial or a collar: seen in an SVG, heard in a description.

use crate::known::{Known, Rim};
use crate::page::{Page, Plate};
use crate::reader::{FIXED, MOVING, late, main_scale, uprights, value};

/// The figure and whether there is one, by the rules of the trade: round the face, or both ways from 0.
fn figure(rim: &Rim, at: i64) -> Option<i64> {
    let at = at.rem_euclid(rim.turn());
    let from_zero = if rim.balanced { at.min(rim.turn() - at) } else { at };
    (from_zero % rim.every == 0).then_some(from_zero / rim.figure)
}

fn signed(rim: &Rim, at: i64) -> i64 {
    let at = at.rem_euclid(rim.turn());
    if rim.balanced && 2 * at > rim.turn() { at - rim.turn() } else { at }
}

pub fn read(known: &Known, page: &Page) -> Result<i64, String> {
    let rim = known.rim.as_ref().ok_or("no dial")?;
    let on_rim = strip(rim, page)?;
    let fixed = page.plates_of(FIXED);
    let first = fixed.first().ok_or("no plate")?;
    match rim.coarse {
        None => Ok(signed(rim, on_rim)),
        Some(division) if page.plates_of(MOVING).iter().any(|jaw| jaw.left == first.right) => {
            bar(known, page, first, division, on_rim)
        }
        Some(division) if rim.backward => {
            let mut mirrored = page.clone();
            mirrored.mirror();
            counter(known, &mirrored, first, division, on_rim)
        }
        Some(division) => counter(known, page, first, division, on_rim),
    }
}

/// The line under the hand, from the figures in view: there must be two, and one way only to understand them.
fn strip(rim: &Rim, page: &Page) -> Result<i64, String> {
    let plates = page.plates_of(FIXED);
    let upper = plates.last().ok_or("no strip")?;
    let edge = upper.bottom;
    let moving = page.plates_of(MOVING);
    let lower =
        moving.iter().find(|plate| plate.top == edge && plate.right == upper.right).ok_or("no rim")?;
    let hands = uprights(page, edge, false);
    let [hand] = hands[..] else { return Err(format!("{} hands", hands.len())) };
    let lines = uprights(page, edge, true);
    let hung = lines.iter().position(|x| *x == hand).ok_or("the hand is between two lines")?;
    let pitch = lines.get(1).ok_or("one line")? - lines[0];
    if lines.windows(2).any(|pair| pair[1] - pair[0] != pitch) {
        return Err("lines at unequal distances".to_owned());
    }
    let count = |n: usize| i64::try_from(n).expect("few lines");
    if count(lines.len()) * rim.division > rim.turn() {
        return Err("more than a turn".to_owned());
    }
    let mut seen = Vec::new();
    for text in page.texts.iter().filter(|text| text.y > edge && text.y <= lower.bottom) {
        let n = lines.iter().position(|x| *x == text.x).ok_or("a figure at no line")?;
        seen.push((count(n), value(text)?));
    }
    if seen.len() < 2 {
        return Err(format!("{} figures in view", seen.len()));
    }
    let fits = |first: &i64| {
        let told = |n: i64| figure(rim, first + n * rim.division * rim.sense);
        (0..count(lines.len())).all(|n| told(n) == seen.iter().find(|(at, _)| *at == n).map(|(_, f)| *f))
    };
    let firsts: Vec<i64> = (0..rim.parts).map(|n| n * rim.division).filter(fits).collect();
    let [first] = firsts[..] else { return Err(format!("the first line may be {firsts:?}")) };
    Ok((first + count(hung) * rim.division * rim.sense).rem_euclid(rim.turn()))
}

fn bar(known: &Known, page: &Page, plate: &Plate, division: i64, on_rim: i64) -> Result<i64, String> {
    let (top, jaw) = (plate.top, plate.right);
    let lines = uprights(page, top, true);
    let last = *lines.last().ok_or("no line on the bar")?;
    // A line is two units wide, and wholly in view where the jaw has reached it.
    if last + 100 > jaw {
        return Err("a line under the jaw".to_owned());
    }
    let passed = main_scale(known, page, &lines, last, top, plate.bottom)?;
    let Some(pitch) = lines.get(lines.len().wrapping_sub(2)).map(|before| last - before) else {
        return Ok(passed + on_rim);
    };
    let beyond = (jaw - 100 - last) * division;
    if beyond % pitch != 0 || beyond / pitch >= division {
        return Err(format!("the jaw is {} past a line", jaw - 100 - last));
    }
    Ok(passed + on_rim + division * late(beyond / pitch - on_rim, division))
}

fn counter(known: &Known, page: &Page, plate: &Plate, division: i64, on_rim: i64) -> Result<i64, String> {
    let edge = plate.top;
    let hands = uprights(page, edge, false);
    let [hand] = hands[..] else { return Err(format!("{} small hands", hands.len())) };
    let lines = uprights(page, edge, true);
    let passed = main_scale(known, page, &lines, hand, edge, plate.bottom)?;
    let pitch = lines.get(1).ok_or("one line")? - lines[0];
    let last = lines.iter().filter(|x| **x <= hand).max().ok_or("before its 0")?;
    let ahead = (hand - last) * division / pitch - on_rim;
    Ok(passed + on_rim + division * late(ahead, division))
}

/// What was said of a dial.
#[derive(Default)]
pub struct Heard {
    between: Option<(i64, i64)>,
    clockwise: bool,
    lines: i64,
    in_line: bool,
}

impl Heard {
    pub fn hear(&mut self, said: &str) -> Result<(), String> {
        if let Some(rest) = said.strip_prefix("going ") {
            let (way, rest) = rest.split_once(", ").ok_or("no way")?;
            self.clockwise = match way {
                "clockwise" | "to the right" => true,
                "counter-clockwise" | "to the left" => false,
                other => return Err(format!("a way {other:?}")),
            };
            let (last, next) = rest.split_once(", the next is ").ok_or("no next figure")?;
            let (_, last) = last.rsplit_once(' ').ok_or("no last figure")?;
            let number = |text: &str| text.parse().map_err(|_| format!("not a number: {text:?}"));
            self.between = Some((number(last)?, number(next)?));
        } else if said.contains(" more line") {
            let first = said.split(' ').next().unwrap_or_default();
            self.lines = if first == "no" { 0 } else { first.parse().map_err(|_| said.to_owned())? };
        } else {
            self.in_line = said.ends_with(" is in line with the line last counted");
        }
        Ok(())
    }

    /// The place under the hand.
    pub fn place(&self, rim: &Rim) -> Result<i64, String> {
        let (last, next) = self.between.ok_or("no figures")?;
        if !self.in_line || self.clockwise != (rim.sense > 0) {
            return Err("the hand is between two lines, or the figures run the other way".to_owned());
        }
        let starts: Vec<i64> = (0..rim.turn())
            .filter(|at| figure(rim, *at) == Some(last) && figure(rim, at + rim.every) == Some(next))
            .collect();
        let [start] = starts[..] else { return Err(format!("between {last} and {next}: {starts:?}")) };
        Ok((start + self.lines * rim.division).rem_euclid(rim.turn()))
    }

    pub fn value(&self, rim: &Rim) -> Result<i64, String> {
        Ok(signed(rim, self.place(rim)?))
    }
}
