//! A micrometer: the sleeve up to the thimble's edge, and the thimble, upright in the hand or unwrapped into a strip.

use super::kinds::{Barrel, Divided};
use super::meet::meet;
use super::page::{CELL, Page, Stroke, Word};
use super::scale::{Found, Line, Round, Scale, downward, leftward, rightward, upward};
use super::{Lead, PairAt, Read, edges};

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
    /// The value of the line last reached: uncovered, or on a reversed sleeve covered. None when even the zero of one that is
    /// uncovered is covered.
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
    let mut read = if let Some(vernier) = &barrel.vernier {
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
        Read { value: seen.value, held, overview, dots: seen.dots, lead: None, whole, glass, way: None }
    } else {
        let (value, dots) = if held {
            let datum = if barrel.covers { datum.dot } else { -datum.dot };
            on_datum(&place.thimble(page, barrel)?, &barrel.thimble, datum)?
        } else {
            strip(page, barrel, level_edges[0])?
        };
        Read { value, held, overview: false, dots, lead: None, whole: None, glass: None, way: None }
    };
    (read.value, read.lead) = sleeve.settled(barrel, read.value)?;
    if let Some(unit) = barrel.stamped {
        read.value += place.stamped(page, unit)?;
    }
    Ok(read)
}

impl Place {
    /// What the lengths stamped on the tool add: `2-3 in` on a frame, `rod 25-50 mm`, `collar 0.500 in`.
    fn stamped(&self, page: &Page, unit: i64) -> Result<i64, String> {
        let row: String = (1..self.edge - 1).map(|col| page.at(col, self.top).ch).collect();
        let texts: Vec<&str> = row.split("  ").map(str::trim).filter(|text| !text.is_empty()).collect();
        let mut start = None;
        let mut collar = 0;
        for text in texts {
            if !text.ends_with(" in") && !text.ends_with(" mm") {
                continue;
            }
            let (name, size) =
                text.split_once(' ').filter(|(_, size)| size.contains(' ')).unwrap_or(("", text));
            let size = size.split(' ').next().unwrap_or_default();
            let wrong = || format!("{text:?} is stamped");
            if name == "collar" {
                let (whole, part) = size.split_once('.').ok_or_else(wrong)?;
                let thousandths: i64 = format!("{whole}{part}").parse().map_err(|_| wrong())?;
                collar = thousandths * unit / 1000;
            } else if let Some((from, to)) = size.split_once('-') {
                let [from, to] = [from, to].map(str::parse::<i64>);
                let (from, to) = (from.map_err(|_| wrong())?, to.map_err(|_| wrong())?);
                if !(from < to && ["", "rod"].contains(&name) && start.replace(from * unit).is_none()) {
                    return Err(wrong());
                }
            }
        }
        Ok(start.ok_or("no size is stamped on it")? + collar)
    }

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
    fn thimble(&self, page: &Page, barrel: &Barrel) -> Result<Scale, String> {
        let divided = &barrel.thimble;
        let rows = self.top + 1..page.height();
        let lines = page.level(self.edge, &rows, 1)?;
        page.nothing_but(&(self.edge..self.edge + 4), &rows, &lines)?;
        let lines = if barrel.covers { downward(&lines) } else { upward(&lines) };
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
        let thimble = self.thimble(page, barrel)?;
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
        let growing = if barrel.covers { leftward } else { rightward };
        let (below, above) = (growing(&below), growing(&above));
        let mut lines: Vec<Line> = above.iter().chain(&below).copied().collect();
        lines.sort_by_key(|line| line.pos);
        let nearest = if barrel.covers { lines.first() } else { lines.last() };
        let Some(nearest) = nearest.copied() else {
            return Ok(Self { last: barrel.covers.then_some(barrel.scale.end), past: 0, pitch: None });
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
        if single && barrel.covers {
            // Lines are missing beyond it, so it is the last of all.
            let figure = found.only().ok_or("one line and no figure")? * divided.figures.worth;
            let is_end = divided.figures.wrap.map_or(figure, |wrap| figure + wrap) == divided.end
                || figure == divided.end;
            return if is_end {
                Ok(Self { last: Some(divided.end - divided.division), past: 0, pitch: None })
            } else {
                Err(format!("nothing but the line at {figure} shows"))
            };
        }
        if single {
            let next = Line { pos: nearest.pos + 1, ..nearest };
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
        let dot = nearest.pos.abs();
        let row = if page.at(dot.div_euclid(CELL), datum + 1).ch == ' ' { datum - 1 } else { datum + 1 };
        let from_edge = place.edge * CELL - line_width(page, dot, row) - dot;
        let (last, past) = if barrel.covers {
            // In whole cells, a line that shows keeps a cell for itself.
            let own = if scale.pitch % barrel.turn_divisions() == 0 { 0 } else { CELL };
            (scale.first - divided.division, scale.pitch - own - from_edge)
        } else {
            (scale.value(count - 1, divided), from_edge)
        };
        Ok(Self { last: Some(last), past, pitch: (!single).then_some(scale.pitch) })
    }

    /// The value of sleeve and thimble, and how far the edge is early. It is never so by half a turn, so the thimble settles
    /// which turn it is in.
    fn settled(&self, barrel: &Barrel, on_thimble: i64) -> Result<(i64, Option<Lead>), String> {
        let (turn, divisions) = (barrel.thimble.end, barrel.turn_divisions());
        let Some(last) = self.last else { return Ok((on_thimble - turn, None)) };
        let Some(pitch) = self.pitch else { return Ok((last + on_thimble, None)) };
        if self.past < 0 || self.past >= pitch {
            return Err(format!("the edge is {} dots past a line, the pitch is {pitch}", self.past));
        }
        // So many steps a turn are drawn: thimble divisions, or cells.
        let steps = if pitch % divisions == 0 { divisions } else { pitch / CELL };
        let dots = pitch / steps;
        if self.past % dots != 0 {
            return Err(format!("the edge is {} dots past a line, {dots} a step", self.past));
        }
        let step = self.past / dots;
        let of_turns = |turns: i64| {
            let from = step * turn - (on_thimble + turns * turn) * steps;
            (turns, from..from + turn)
        };
        let (turns, lead) = [-1, 0, 1]
            .map(of_turns)
            .into_iter()
            .min_by_key(
                |(_, lead)| if lead.contains(&0) { 0 } else { lead.start.abs().min((lead.end - 1).abs()) },
            )
            .expect("three to choose from");
        Ok((last + on_thimble + turns * turn, Some((lead, steps))))
    }
}

impl Barrel {
    /// Thimble divisions in a turn.
    fn turn_divisions(&self) -> i64 {
        self.thimble.end / self.thimble.division
    }
}

/// One dot for an eighth of a cell, else a cell.
fn line_width(page: &Page, dot: i64, row: i64) -> i64 {
    let glyph = page.at(dot.div_euclid(CELL), row);
    let thin = matches!(glyph.ch, '\u{1fb70}'..='\u{1fb75}' | '\u{2595}') || glyph.ch == '\u{258f}';
    if thin && !glyph.swapped { 1 } else { CELL }
}

/// The thimble's value at a place: of the line that stands there, or of the last one before it and whole quanta more.
fn on_datum(thimble: &Scale, divided: &Divided, datum: i64) -> Result<(i64, i64), String> {
    let (value, dots) = thimble.value_at(datum, divided)?;
    Ok((value.rem_euclid(divided.end), dots))
}

/// The thimble unwrapped, under the end of the datum line.
fn strip(page: &Page, barrel: &Barrel, edge: i64) -> Result<(i64, i64), String> {
    let thimble = &barrel.thimble;
    let cols = 1..page.width();
    let datum = page.upright(edge - 1, &cols, -1)?;
    let [datum] = datum[..] else { return Err(format!("{} datum lines over the strip", datum.len())) };
    let lines = page.upright(edge, &cols, 1)?;
    page.nothing_else(edge, &cols, 1, &lines, page.height())?;
    let lines = if barrel.covers { leftward(&lines) } else { rightward(&lines) };
    if i64::try_from(lines.len()).expect("few lines") * thimble.division > thimble.end {
        return Err(format!("{} lines: more than a turn", lines.len()));
    }
    let found = Found::beyond(page, &lines, &mut (edge..page.height()), &cols, thimble)?;
    let strip = Scale::new(lines, &found, thimble, Round::Turning)?;
    strip.check_lengths(thimble, None)?;
    on_datum(&strip, thimble, if barrel.covers { -datum.dot } else { datum.dot })
}
