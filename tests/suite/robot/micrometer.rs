//! A micrometer: the sleeve up to the thimble's edge, and the thimble, upright in the hand or unwrapped into a strip.

use super::kinds::{Barrel, Divided};
use super::meet::meet;
use super::page::{CELL, Page, Stroke, Word};
use super::scale::{Found, Line, Round, Scale, rightward, upward};
use super::{PairAt, Read, edges};

/// Where the tool lies on the page.
struct Place {
    /// The row of the signs: the frame's band.
    top: i64,
    /// First column of the thimble.
    edge: i64,
    /// It is shown in the hand, and fills the page downwards.
    held: bool,
}

/// What the sleeve says.
struct Sleeve {
    /// The value of the line last uncovered; none when even its zero is covered.
    last: Option<i64>,
    /// How far the edge is past that line, in dots from where it would be flush.
    past: i64,
    /// Dots from line to line, where two are in view.
    pitch: Option<i64>,
}

pub fn read(page: &Page, barrel: &Barrel) -> Result<Read, String> {
    let signs = page.find(0, "\u{2514}\u{2518}").or_else(|| page.find(0, "`'")).ok_or("no upright edge")?;
    let level_edges = edges(page, signs.0);
    let held = level_edges.is_empty();
    let place = Place { top: signs.0, edge: signs.1 + 1, held };
    let levels = if held { place.levels(page)? } else { place.first_level(page)? };
    let datum = match (&barrel.vernier, held) {
        (Some(vernier), true) => {
            let lines = usize::try_from(vernier.lines.end).expect("few lines") + 1;
            *levels.get(lines - 1).ok_or_else(|| format!("{} lines on the sleeve", levels.len()))?
        }
        _ => *levels.first().ok_or("no datum line")?,
    };
    let sleeve = Sleeve::read(page, barrel, &place, datum.dot.div_euclid(CELL))?;
    let turn = barrel.thimble.end;
    let total = |on_thimble: i64| sleeve.last.map_or(on_thimble - turn, |last| last + on_thimble);
    let read = if let Some(vernier) = &barrel.vernier {
        let (whole, glass, overview) = if held {
            let lines = &levels[..=usize::try_from(vernier.lines.end).expect("few lines")];
            (Some(place.upright_vernier(page, barrel, lines)?), None, false)
        } else {
            let pair = PairAt {
                scale: &barrel.thimble,
                vernier,
                round: Round::Turning,
                scale_above: false,
                leftward: false,
            };
            pair.look(page, datum.dot.div_euclid(CELL) + 1)?
        };
        let seen = whole.as_ref().or(glass.as_ref()).ok_or("no thimble to read")?;
        Read { value: total(seen.value), held, overview, dots: seen.dots, whole, glass }
    } else {
        let (value, dots) = if held {
            on_datum(&place.thimble(page, &barrel.thimble)?, &barrel.thimble, -datum.dot)?
        } else {
            strip(page, &barrel.thimble, level_edges[0])?
        };
        Read { value: total(value), held, overview: false, dots, whole: None, glass: None }
    };
    sleeve.agrees(barrel, read.value)?;
    Ok(read)
}

impl Place {
    /// The level lines that run along the sleeve up to the edge.
    fn levels(&self, page: &Page) -> Result<Vec<Stroke>, String> {
        let along: Vec<Stroke> = page
            .level(self.edge - 1, &(self.top + 1..page.height()), -1)?
            .into_iter()
            .filter(|stroke| stroke.length >= 10)
            .collect();
        Ok(along)
    }

    /// The datum line alone, where a strip with lines of its own follows below.
    fn first_level(&self, page: &Page) -> Result<Vec<Stroke>, String> {
        for row in self.top + 1..page.height() {
            let strokes = page.level(self.edge - 1, &(row..row + 2), -1)?;
            if let Some(datum) = strokes.into_iter().find(|stroke| stroke.length >= 10) {
                return Ok(vec![datum]);
            }
        }
        Err("no datum line".to_owned())
    }

    /// The thimble's lines, which begin at its edge.
    fn thimble(&self, page: &Page, divided: &Divided) -> Result<Scale, String> {
        let rows = self.top + 1..page.height();
        let lines = page.level(self.edge, &rows, 1)?;
        page.nothing_but(&(self.edge..self.edge + 4), &rows, &lines)?;
        let lines = upward(&lines);
        let mut found = Found::default();
        let cols = self.edge + 4..page.width();
        for row in rows {
            let words = page.figures(row, &cols).unwrap_or_default();
            found.small(&standing(words, row), &lines)?;
        }
        let thimble = Scale::new(lines, &found, divided, Round::Turning)?;
        thimble.check_lengths(divided, None)?;
        Ok(thimble)
    }

    fn upright_vernier(&self, page: &Page, barrel: &Barrel, lines: &[Stroke]) -> Result<super::Met, String> {
        let vernier = barrel.vernier.as_ref().expect("asked only with a vernier");
        let lines = upward(lines);
        if lines.iter().any(|line| line.length != lines[0].length) {
            return Err("vernier lines of different lengths".to_owned());
        }
        let mut found = Found::default();
        for row in self.top + 1..=lines[0].middle {
            let words = page.figures(row, &(1..5)).unwrap_or_default();
            found.small(&standing(words, row), &lines)?;
        }
        if found.count() < lines.len() {
            return Err(format!("{} figures at {} vernier lines", found.count(), lines.len()));
        }
        let thimble = self.thimble(page, &barrel.thimble)?;
        let scale = Scale::new(lines, &found, &vernier.lines, Round::Straight)?;
        if scale.lines.len() != thimble_lines(vernier.lines.end) || scale.first != 0 {
            return Err(format!("vernier lines from {}", scale.first));
        }
        meet(&thimble, &barrel.thimble, &scale, vernier, Round::Turning)
    }
}

fn thimble_lines(parts: i64) -> usize {
    usize::try_from(parts + 1).expect("few lines")
}

/// Figures beside upright scales stand at a row: the row takes the place of the column.
pub(super) fn standing(words: Vec<Word>, row: i64) -> Vec<Word> {
    words
        .into_iter()
        .map(|word| Word { start: row - (word.centre() - word.start), text: word.text })
        .collect()
}

impl Sleeve {
    fn read(page: &Page, barrel: &Barrel, place: &Place, datum: i64) -> Result<Self, String> {
        let cols = 1..place.edge;
        let below = page.upright(datum + 1, &cols, 1)?;
        // Laid flat, a strip may follow at once.
        let reach = below.iter().map(|stroke| stroke.length);
        let reach = if barrel.split { reach.min() } else { reach.max() }.unwrap_or(0);
        let end = if place.held { page.height() } else { datum + 1 + reach };
        page.nothing_else(datum + 1, &cols, 1, &below, end)?;
        let above = if barrel.split { page.upright(datum - 1, &cols, -1)? } else { Vec::new() };
        page.nothing_else(datum - 1, &cols, -1, &above, place.top)?;
        let (below, above) = (rightward(&below), rightward(&above));
        let mut lines: Vec<Line> = above.iter().chain(&below).copied().collect();
        lines.sort_by_key(|line| line.pos);
        let Some(last) = lines.last().copied() else {
            return Ok(Self { last: None, past: 0, pitch: None });
        };
        let mut found = Found::default();
        let mut figured = Vec::new();
        for (side, rows) in [
            (&above, (place.top + 1..datum).rev().collect::<Vec<_>>()),
            (&below, (datum + 1..(datum + 5).min(page.height())).collect()),
        ] {
            if side.is_empty() {
                continue;
            }
            if let Some(words) = rows.into_iter().find_map(|row| page.figures(row, &cols)) {
                found.small(&words, side)?;
                let mut moved = Found::default();
                moved.small(&words, &lines)?;
                (found, figured) = (moved, side.clone());
            }
        }
        let divided = &barrel.scale;
        // A single line in view is enough when it has a figure.
        let single = lines.len() == 1;
        if single {
            let next = Line { pos: last.pos + 1, ..last };
            lines.push(Line { middle: -1, ..next });
        }
        let scale = Scale::new(lines, &found, divided, Round::Straight)?;
        let count = i64::try_from(scale.lines.len()).expect("few lines") - i64::from(single);
        if let Some(whole) = barrel.whole.filter(|_| barrel.split) {
            let stands = |n: i64| figured.contains(&scale.lines[usize::try_from(n).expect("in view")]);
            if let Some(n) = (0..count).find(|n| stands(*n) != (scale.value(*n, divided) % whole == 0)) {
                return Err(format!("the line at {} is on the wrong side", scale.value(n, divided)));
            }
        } else if !single {
            scale.check_lengths(divided, None)?;
        }
        let width =
            if page.at(last.pos.div_euclid(CELL), datum + 1).ch == ' ' { datum - 1 } else { datum + 1 };
        let flush = place.edge * CELL - line_width(page, &last, width);
        Ok(Self {
            last: Some(scale.value(count - 1, divided)),
            past: flush - last.pos,
            pitch: (!single).then_some(scale.pitch),
        })
    }

    /// How far the edge is past the last line must be what the thimble says, as far as it can be seen.
    fn agrees(&self, barrel: &Barrel, value: i64) -> Result<(), String> {
        let (Some(last), Some(pitch)) = (self.last, self.pitch) else { return Ok(()) };
        let (division, turn) = (barrel.thimble.division, barrel.scale.division);
        let rest = value - last;
        if self.past < 0 || self.past >= pitch {
            return Err(format!("the edge is {} dots past a line, the pitch is {pitch}", self.past));
        }
        let divisions = turn / division;
        let seen = if pitch % divisions == 0 {
            (self.past, rest.div_euclid(division) * (pitch / divisions))
        } else {
            (self.past / CELL, rest * (pitch / CELL) / turn)
        };
        if seen.0 == seen.1 { Ok(()) } else { Err(format!("the edge stands at {seen:?} for {rest} past")) }
    }
}

/// One dot for an eighth of a cell, else a cell.
fn line_width(page: &Page, line: &Line, row: i64) -> i64 {
    let glyph = page.at(line.pos.div_euclid(CELL), row);
    let thin = matches!(glyph.ch, '\u{1fb70}'..='\u{1fb75}' | '\u{2595}') || glyph.ch == '\u{258f}';
    if thin && !glyph.swapped { 1 } else { CELL }
}

/// The thimble's value at a place where one of its lines stands.
fn on_datum(thimble: &Scale, divided: &Divided, datum: i64) -> Result<(i64, i64), String> {
    let mut on = (0..).zip(&thimble.lines).filter(|(_, line)| line.pos == datum);
    let (n, _) = on.next().ok_or("no thimble line at the datum line")?;
    if thimble.pitch % divided.division != 0 {
        return Err(format!("a pitch of {} dots on the thimble", thimble.pitch));
    }
    Ok((thimble.value(n, divided).rem_euclid(divided.end), thimble.pitch / divided.division))
}

/// The thimble unwrapped, under the end of the datum line.
fn strip(page: &Page, thimble: &Divided, edge: i64) -> Result<(i64, i64), String> {
    let cols = 1..page.width();
    let datum = page.upright(edge - 1, &cols, -1)?;
    let [datum] = datum[..] else { return Err(format!("{} datum lines over the strip", datum.len())) };
    let lines = page.upright(edge, &cols, 1)?;
    page.nothing_else(edge, &cols, 1, &lines, page.height())?;
    let lines = rightward(&lines);
    if i64::try_from(lines.len()).expect("few lines") * thimble.division > thimble.end {
        return Err(format!("{} lines: more than a turn", lines.len()));
    }
    let found = Found::beyond(page, &lines, &mut (edge..page.height()), &cols, thimble)?;
    let strip = Scale::new(lines, &found, thimble, Round::Turning)?;
    strip.check_lengths(thimble, None)?;
    on_datum(&strip, thimble, datum.dot)
}
