//! A robot that reads a tool from the SVG alone.

use crate::dial;
use crate::disc;
use crate::known::{Kind, Known};
use crate::page::{Line, Page, Plate, Text};
use linefall::instrument::{Course, Side};
use linefall::scene::View;

pub const FIXED: &str = "#e4e4e4";
pub const MOVING: &str = "#c6c6c6";

type Read = Result<i64, String>;

/// The reading, in quanta.
pub fn read(known: &Known, svg: &str) -> Read {
    of_page(known, &Page::parse(svg)?)
}

/// The same from a page, or a part of one.
pub fn of_page(known: &Known, page: &Page) -> Read {
    let mut page = page.clone();
    match (known.course, known.view) {
        // Which way a disc is read is told from its figures.
        _ if known.kind == Kind::Disc => {}
        (Course::Leftward, _) => page.mirror(),
        (Course::Upward, View::Held) => page.lay_down(),
        _ => {}
    }
    match (known.kind, known.view) {
        (Kind::Rule, _) => rule(known, &page),
        (Kind::Dial, _) => dial::read(known, &page),
        (Kind::Disc, _) => disc::read(known, &page),
        (Kind::Pair, _) => Ok(pair(known, &page)? + known.added),
        (Kind::Sleeve, View::Held) => held(known, &page),
        (Kind::Sleeve, View::Flat) => flat(known, &page),
    }
}

pub fn one<'a>(plates: &[&'a Plate], n: usize) -> Result<&'a Plate, String> {
    plates.get(n).copied().ok_or_else(|| format!("no plate {n}"))
}

/// The places of upright lines that stand on, or hang from, a level edge.
pub fn uprights(page: &Page, edge: i64, hang: bool) -> Vec<i64> {
    let meets = |line: &&Line| {
        let (near, far) = (line.y1, line.y2);
        line.x1 == line.x2 && near == edge && (far > edge) == hang
    };
    let mut places: Vec<i64> = page.lines.iter().filter(meets).map(|line| line.x1).collect();
    places.sort_unstable();
    places
}

/// Figures whose centre is on a line, with their sizes.
pub fn figures<'a>(page: &'a Page, lines: &[i64], from: i64, to: i64) -> Vec<&'a Text> {
    page.texts.iter().filter(|text| (from..=to).contains(&text.y) && lines.contains(&text.x)).collect()
}

pub fn value(text: &Text) -> Result<i64, String> {
    text.words.parse().map_err(|_| format!("a figure {:?}", text.words))
}

/// The line last reached at `index`, from the figures and lines of a straight scale.
pub fn main_scale(known: &Known, page: &Page, lines: &[i64], index: i64, from: i64, to: i64) -> Read {
    let figures = figures(page, lines, from, to);
    let tallest = figures.iter().map(|text| text.size).max().unwrap_or(0);
    let marker = page.texts.iter().find(|text| text.words.ends_with('\u{2039}'));
    let is_large = |text: &Text| known.large.is_some() && marker.is_none() && text.size == tallest;
    let reached = |large: bool| {
        figures.iter().filter(|text| text.x <= index && is_large(text) == large).max_by_key(|text| text.x)
    };
    let mut total = 0;
    let mut after = None;
    if let Some(worth) = known.large {
        let large = match (reached(true), marker) {
            (Some(text), _) => {
                after = Some(text.x);
                value(text)?
            }
            (None, Some(marker)) => {
                marker.words.trim_end_matches('\u{2039}').parse().map_err(|_| "a bad marker".to_owned())?
            }
            (None, None) => {
                let next = figures.iter().filter(|text| is_large(text)).min_by_key(|text| text.x);
                value(next.ok_or("no large figure")?)? - 1
            }
        };
        total += large * worth;
    }
    if let Some(text) = reached(false).filter(|text| after.is_none_or(|after| text.x > after)) {
        after = Some(text.x);
        total += value(text)? * known.small;
    }
    let after = after.ok_or("no figure reached")?;
    let more = lines.iter().filter(|x| **x > after && **x <= index).count();
    Ok(total + i64::try_from(more).map_err(|_| "many lines".to_owned())? * known.division)
}

fn rule(known: &Known, page: &Page) -> Read {
    let edge = one(&page.plates_of(FIXED), 0)?.top;
    let ends: Vec<&Line> = page.lines.iter().filter(|line| line.y2 == edge && line.y1 < edge).collect();
    let [end] = ends[..] else { return Err("not one end of the work".to_owned()) };
    let work = page.plates_of("#b2b2b2");
    if work.iter().any(|work| work.right != end.x1 || work.bottom != edge) {
        return Err("the work ends elsewhere".to_owned());
    }
    let lines = uprights(page, edge, true);
    let beyond = beyond(&lines, end.x1, known.division)?;
    Ok(main_scale(known, page, &lines, end.x1, edge, i64::MAX)? + beyond)
}

/// The vernier line in line with one of the other scale: exactly one, or first and last. All others miss by what the
/// neighbours miss by, at the least, and that is a whole number of units.
fn coincidence(known: &Known, vernier: &[i64], other: &[i64]) -> Read {
    let fine = known.vernier.as_ref().ok_or("no vernier")?;
    if vernier.len() != fine.parts + 1 {
        return Err(format!("{} vernier lines", vernier.len()));
    }
    let pitch = |lines: &[i64]| lines.windows(2).map(|pair| (pair[1] - pair[0]).abs()).min().unwrap_or(0);
    let (part, division) = (pitch(vernier), pitch(other));
    let left = part % division;
    let hair = left.min(division - left);
    if hair < 100 || hair % 100 != 0 || part.min(division) < 1200 {
        return Err(format!("lines miss by {hair}, {part} and {division} apart"));
    }
    let misses: Vec<i64> = vernier
        .iter()
        .map(|at| other.iter().map(|line| (line - at).abs()).min().unwrap_or(i64::MAX))
        .collect();
    let in_line: Vec<usize> = (0..misses.len()).filter(|n| misses[*n] == 0).collect();
    if misses.iter().any(|miss| *miss != 0 && *miss < hair) {
        return Err("a miss too small to see".to_owned());
    }
    match in_line[..] {
        [0, last] if last == fine.parts => Ok(0),
        [line] if line != 0 && line != fine.parts => {
            i64::try_from(line).map(|line| line * fine.least_count).map_err(|_| "many lines".to_owned())
        }
        _ => Err(format!("in line: {in_line:?}")),
    }
}

fn pair(known: &Known, page: &Page) -> Read {
    let [main, vernier] = if known.bar_moves { [MOVING, FIXED] } else { [FIXED, MOVING] };
    let (main, vernier) = (one(&page.plates_of(main), 0)?, one(&page.plates_of(vernier), 0)?);
    let edge = main.bottom;
    if vernier.top != edge {
        return Err("the plates do not meet".to_owned());
    }
    let (upper, lower) = (uprights(page, edge, false), uprights(page, edge, true));
    if upper.len() + lower.len() != page.lines.len() {
        return Err("a line on neither plate".to_owned());
    }
    let zero = *lower.first().ok_or("no vernier")?;
    let count = figures(page, &lower, edge, vernier.bottom).len();
    if count < 2 {
        return Err("the vernier has no figures".to_owned());
    }
    Ok(main_scale(known, page, &upper, zero, 0, edge)? + coincidence(known, &lower, &upper)?)
}

/// Sleeve and thimble together; the thimble settles the turn.
fn sleeve(known: &Known, page: &Page, datum: i64, fine: i64) -> Read {
    let plate = one(&page.plates_of(FIXED), 0)?;
    let edge = one(&page.plates_of(MOVING), 0)?.left;
    if plate.right != edge {
        return Err("sleeve and thimble do not meet".to_owned());
    }
    let in_view: Vec<&Line> =
        page.lines.iter().filter(|line| line.x1 == line.x2 && line.y1 == datum).collect();
    let mut lines: Vec<i64> = in_view.iter().map(|line| line.x1).collect();
    lines.sort_unstable();
    // The last line is in view as a whole: its width is two units, and its right side touches the edge at the nearest.
    if lines.iter().any(|x| x + 100 > edge) {
        return Err("a line under the thimble".to_owned());
    }
    if known.covers {
        let figures = figures(page, &lines, plate.top, plate.bottom);
        return reversed(known, &in_view, &lines, &figures, datum, edge, fine);
    }
    let pitch = lines.windows(2).map(|pair| pair[1] - pair[0]).min().unwrap_or(2500);
    let figures: Vec<&Text> = figures(page, &lines, plate.top, plate.bottom);
    let last = figures.iter().max_by_key(|text| text.x).ok_or("no figure on the sleeve")?;
    let below = lines.iter().filter(|x| **x < last.x).count();
    let count = |n: usize| i64::try_from(n).expect("few lines");
    let by_figure = value(last)? * known.small;
    let figure_at = count(below) * known.division;
    if (figure_at - by_figure) % (known.wrap.unwrap_or(i64::MAX / known.small) * known.small) != 0 {
        return Err(format!("figure {} after {below} lines", last.words));
    }
    if let Some(halves) = known.halves {
        for line in &in_view {
            let number = lines.iter().position(|x| *x == line.x1).unwrap_or(0);
            let is_above = line.y2 < datum;
            if (number % 2 == 1) != (is_above == (halves == Side::Above)) {
                return Err(format!("line {number} on the wrong side"));
            }
        }
    }
    let passed = count(lines.len() - 1) * known.division;
    let beyond = (edge - 100 - lines[lines.len() - 1]) * known.division;
    if beyond % pitch != 0 {
        return Err("the edge is between two settings".to_owned());
    }
    if beyond / pitch >= known.division {
        return Err("a line that the edge has reached does not show".to_owned());
    }
    Ok(known.added + passed + fine + known.division * late(beyond / pitch - fine, known.division))
}

/// A sleeve that is covered as the reading grows: all that shows, from the edge to its far end on the left.
fn reversed(
    known: &Known,
    in_view: &[&Line],
    lines: &[i64],
    figures: &[&Text],
    datum: i64,
    edge: i64,
    fine: i64,
) -> Read {
    let Some(nearest) = lines.last() else { return Ok(known.added + known.end + fine) };
    let count = |n: usize| i64::try_from(n).expect("few lines");
    let value_at = |x: i64| {
        let beyond = lines.iter().filter(|other| **other < x).count();
        known.end - count(beyond) * known.division
    };
    if figures.is_empty() {
        return Err("no figure on the sleeve".to_owned());
    }
    for text in figures {
        let off = value_at(text.x) - value(text)? * known.small;
        if off % (known.wrap.unwrap_or(i64::MAX / known.small) * known.small) != 0 {
            return Err(format!("figure {} at {}", text.words, value_at(text.x)));
        }
    }
    if let Some(halves) = known.halves {
        for line in in_view {
            let is_half = value_at(line.x1) / known.division % 2 == 1;
            if is_half != ((line.y2 < datum) == (halves == Side::Above)) {
                return Err(format!("the line at {} on the wrong side", value_at(line.x1)));
            }
        }
    }
    let pitch = lines.windows(2).map(|pair| pair[1] - pair[0]).min().unwrap_or(2500);
    let short = (edge - 100 - nearest) * known.division;
    if short % pitch != 0 {
        return Err("the edge is between two settings".to_owned());
    }
    let past = known.division - short / pitch;
    if past < 0 {
        return Err("a line that the edge has not reached does not show".to_owned());
    }
    let covered = value_at(*nearest) - known.division;
    Ok(known.added + covered + fine + known.division * late(past - fine, known.division))
}

/// 1 when the edge is nearly a turn ahead of the thimble (the next line shows late), -1 when it is as far behind.
pub fn late(ahead: i64, turn: i64) -> i64 {
    if 2 * ahead > turn {
        1
    } else if 2 * ahead < -turn {
        -1
    } else {
        0
    }
}

/// How far a place is beyond the line last reached, in quanta.
fn beyond(lines: &[i64], at: i64, division: i64) -> Read {
    let last = lines.iter().rfind(|line| **line <= at).ok_or("no line reached")?;
    let pitch = lines.windows(2).map(|pair| pair[1] - pair[0]).min().unwrap_or(i64::MAX);
    let beyond = (at - last) * division;
    if beyond % pitch != 0 || beyond / pitch >= division {
        return Err("between two settings".to_owned());
    }
    Ok(beyond / pitch)
}

/// The thimble line last passed. Lines and figures are told by their places, growing as the numbers do.
fn thimble(known: &Known, lines: &[i64], figures: &[(i64, i64)], datum: i64) -> Read {
    let thimble = known.thimble.as_ref().ok_or("no thimble")?;
    let index = |n: usize| i64::try_from(n).expect("few lines");
    let last = lines.iter().rposition(|at| *at <= datum).ok_or("no thimble line reached")?;
    if figures.is_empty() {
        return Err("no figure on the thimble".to_owned());
    }
    let mut numbers = figures.iter().map(|(at, figure)| {
        let n = lines.iter().position(|line| line == at).map_or(i64::MIN / 4, index);
        (figure * thimble.figure / thimble.division + index(last) - n).rem_euclid(thimble.parts)
    });
    let number = numbers.next().unwrap_or(0);
    if numbers.any(|other| other != number) {
        return Err("the thimble's figures do not agree".to_owned());
    }
    let beyond = match known.vernier {
        Some(_) => 0,
        None => beyond(lines, datum, thimble.division)?,
    };
    Ok(number * thimble.division + beyond)
}

fn held(known: &Known, page: &Page) -> Read {
    let edge = one(&page.plates_of(MOVING), 0)?.left;
    // The way in which the thimble's figures grow: upward, or downward on a reversed one.
    let up = if known.covers { 1 } else { -1 };
    let level = |meets: &dyn Fn(&Line) -> bool| {
        let mut places: Vec<i64> = page
            .lines
            .iter()
            .filter(|line| line.y1 == line.y2 && meets(line))
            .map(|line| up * line.y1)
            .collect();
        places.sort_unstable();
        places
    };
    let on_thimble = level(&|line| line.x1 == edge && line.x2 > edge);
    let on_sleeve = level(&|line| line.x2 == edge && line.x1 < edge);
    let datum = *on_sleeve.first().ok_or("no datum line")?;
    let mut found = Vec::new();
    for text in page.texts.iter().filter(|text| text.x > edge) {
        let middle = up * (text.y - text.size * 3 / 8);
        let nearest = on_thimble.iter().min_by_key(|at| (**at - middle).abs()).ok_or("no thimble line")?;
        if (nearest - middle).abs() > 200 {
            return Err("a figure beside its line".to_owned());
        }
        found.push((*nearest, value(text)?));
    }
    let mut fine = thimble(known, &on_thimble, &found, datum)?;
    if known.vernier.is_some() {
        fine += coincidence(known, &on_sleeve, &on_thimble)?;
    } else if on_sleeve.len() != 1 {
        return Err("more than one datum line".to_owned());
    }
    sleeve(known, page, up * datum, fine)
}

fn flat(known: &Known, page: &Page) -> Read {
    let (upper, lower) = (one(&page.plates_of(FIXED), 1)?, one(&page.plates_of(MOVING), 1)?);
    let edge = upper.bottom;
    if lower.top != edge || upper.left != lower.left {
        return Err("the strip's plates do not meet".to_owned());
    }
    let (above, below) = (uprights(page, edge, false), uprights(page, edge, true));
    let longest = page
        .lines
        .iter()
        .filter(|line| line.x1 == line.x2 && line.y1 == edge && line.y2 < edge)
        .min_by_key(|line| line.y2)
        .ok_or("no datum line")?;
    let zero = *above.first().ok_or("no datum line")?;
    if longest.x1 != zero {
        return Err("the datum line is not at the vernier's 0".to_owned());
    }
    let right = if known.covers { -1 } else { 1 };
    let mut found = Vec::new();
    for text in figures(page, &below, edge, lower.bottom) {
        found.push((right * text.x, value(text)?));
    }
    let mut turned: Vec<i64> = below.iter().map(|x| right * x).collect();
    turned.sort_unstable();
    let mut fine = thimble(known, &turned, &found, right * zero)?;
    if known.vernier.is_some() {
        fine += coincidence(known, &above, &below)?;
    }
    let tool_end = one(&page.plates_of(MOVING), 0)?.bottom;
    let datum =
        page.lines.iter().find(|line| line.y1 == line.y2 && line.y1 < tool_end).ok_or("no datum line")?;
    sleeve(known, page, datum.y1, fine)
}
