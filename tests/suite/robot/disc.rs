//! A disc figured both ways, with a double vernier or an index line; any level pair whose vernier reaches back from its zero.
//!
//! What a line is worth follows from the figures about it: the one way to number the lines at which all figures in view, and
//! those told at the ends, are right. A protractor is read as the trade teaches it: whole degrees passed, then the half of the
//! vernier that lies the way the degrees grow; the other half must make up the rest to a whole degree.

use super::kinds::Disc;
use super::meet::Met;
use super::page::{Page, Stroke};
use super::{Read, edges, frame};
use std::ops::Range;

/// A scale as it is seen: its lines, and what the figures say.
struct Seen {
    lines: Vec<Stroke>,
    pitch: i64,
    /// Lines counted from the leftmost in view, and the figure there; those beyond the window are told at its ends.
    figures: Vec<(i64, i64)>,
}

fn count(n: usize) -> i64 {
    i64::try_from(n).expect("few lines")
}

impl Seen {
    fn new(
        page: &Page,
        lines: Vec<Stroke>,
        rows: impl IntoIterator<Item = i64>,
        cols: &Range<i64>,
    ) -> Result<Self, String> {
        let [first, second, ..] = lines[..] else { return Err(format!("{} lines", lines.len())) };
        let pitch = second.dot - first.dot;
        if lines.windows(2).any(|pair| pair[1].dot - pair[0].dot != pitch) {
            return Err("lines are not one pitch apart".to_owned());
        }
        let mut figures = Vec::new();
        let words = rows.into_iter().find_map(|row| page.figures(row, cols)).unwrap_or_default();
        let number = |text: &str| text.parse::<i64>().map_err(|_| format!("{text:?} is no figure"));
        for word in words {
            let there =
                match (word.text.split_once(['\u{2039}', '<']), word.text.split_once(['\u{203a}', '>'])) {
                    (Some((figure, after)), _) => (-number(after)?, number(figure)?),
                    (_, Some((before, figure))) => {
                        (count(lines.len()) - 1 + number(before)?, number(figure)?)
                    }
                    _ => {
                        let at = lines.iter().position(|line| line.middle == word.centre());
                        let at = at.ok_or_else(|| format!("the figure {word:?} stands at no line"))?;
                        (count(at), number(&word.text)?)
                    }
                };
            figures.push(there);
        }
        if figures.is_empty() {
            return Err("no figure in view".to_owned());
        }
        Ok(Self { lines, pitch, figures })
    }

    /// The numbers that the leftmost line in view can have.
    fn numbers(&self, all: &Range<i64>, figure: fn(i64) -> Option<i64>) -> Vec<i64> {
        let last = all.end - count(self.lines.len());
        let fits = |first: &i64| self.figures.iter().all(|(at, seen)| figure(first + at) == Some(*seen));
        (all.start..=last).filter(fits).collect()
    }

    /// Longer lines are worth more, and equal ones equally long.
    fn check_lengths(&self, first: i64, tiers: &[i64]) -> Result<(), String> {
        let mut lengths = vec![None::<i64>; tiers.len() + 1];
        for (number, line) in (first..).zip(&self.lines) {
            let class = tiers.iter().position(|tier| number % tier == 0).unwrap_or(tiers.len());
            match lengths[class] {
                None => lengths[class] = Some(line.length),
                Some(length) if length == line.length => {}
                Some(length) => return Err(format!("line {number} is {} long, not {length}", line.length)),
            }
        }
        let seen: Vec<i64> = lengths.into_iter().flatten().collect();
        if seen.windows(2).any(|pair| pair[0] < pair[1]) || seen.len() > 2 && seen[0] == seen[seen.len() - 1]
        {
            return Err(format!("the lengths {seen:?} do not get shorter"));
        }
        Ok(())
    }
}

/// What was read at one reading edge: the value, which way the zero has moved, what meets.
struct Stand {
    /// The place of the zero, in quanta to the right of the disc's nought.
    places: Vec<i64>,
    met: Met,
}

/// Reads a page.
pub fn read(page: &Page, disc: &Disc) -> Result<Read, String> {
    let top = page.find(0, " glass").map(|(row, _)| row);
    let overview = page.find(0, "overview").is_some();
    let end = top.unwrap_or(page.height());
    let (mut whole, mut glass) = (None, None);
    for edge in edges(page, 0) {
        let (place, rows, cols) = if edge < end {
            (&mut whole, 0..end, 1..page.width())
        } else {
            let (rows, cols) = frame(page, end)?;
            (&mut glass, rows, cols)
        };
        let squeezed = edge < end && top.is_some();
        if place.replace(stand(page, disc, edge, rows, &cols, squeezed)?).is_some() {
            return Err("two reading edges in one place".to_owned());
        }
    }
    if top.is_some() != glass.is_some() || overview == whole.is_some() {
        return Err("a glass without an edge, or an overview with one".to_owned());
    }
    let mut places = whole.as_ref().or(glass.as_ref()).ok_or("no reading edge")?.places.clone();
    if let (Some(whole), Some(glass)) = (&whole, &glass) {
        places.retain(|place| glass.places.contains(place));
        if places.is_empty() {
            return Err(format!("the whole says {:?}, the glass {:?}", whole.places, glass.places));
        }
    }
    let value = places.first().ok_or("no place")?.abs();
    if places.iter().any(|place| place.abs() != value) {
        return Err(format!("the figures allow {places:?}"));
    }
    // At nought and where the figures turn back both ways read the same.
    let way = match places[..] {
        [one] if one != 0 => Some(one.signum()),
        _ => None,
    };
    let dots = whole.as_ref().or(glass.as_ref()).map_or(0, |stand| stand.met.dots);
    let met = |stand: Option<Stand>| stand.map(|stand| Met { value, ..stand.met });
    let has_vernier = disc.vernier.is_some();
    let (whole, glass) = (met(whole).filter(|_| has_vernier), met(glass).filter(|_| has_vernier));
    Ok(Read { value, held: false, overview, lead: None, whole, glass, dots, way })
}

fn stand(
    page: &Page,
    disc: &Disc,
    edge: i64,
    rows: Range<i64>,
    cols: &Range<i64>,
    squeezed: bool,
) -> Result<Stand, String> {
    let (above, below) = (page.upright(edge - 1, cols, -1)?, page.upright(edge, cols, 1)?);
    page.nothing_else(edge - 1, cols, -1, &above, rows.start - 1)?;
    // What is engraved stands right under an index line.
    let under = below.first().filter(|_| disc.vernier.is_none()).map_or(rows.end, |line| edge + line.length);
    page.nothing_else(edge, cols, 1, &below, under)?;
    // A figure at the last line may hang over into the first column.
    let figure_cols = &(cols.start - i64::from(cols.end == page.width())..cols.end);
    let scale = Seen::new(page, above, (rows.start..edge).rev(), figure_cols)?;
    if scale.pitch % disc.division != 0 {
        return Err(format!("a pitch of {} dots", scale.pitch));
    }
    let dots = scale.pitch / disc.division;
    let numbers = scale.numbers(&disc.lines, disc.figure);
    let Some(vernier) = &disc.vernier else {
        let [index] = below[..] else { return Err(format!("{} index lines", below.len())) };
        let at = scale.lines.iter().position(|line| line.dot == index.dot).ok_or("between two lines")?;
        let places = numbers.into_iter().map(|first| (first + count(at)) * disc.division);
        let places: Vec<i64> = places.filter(|place| disc.places.contains(place)).collect();
        for place in &places {
            scale.check_lengths(place / disc.division - count(at), disc.tiers)?;
        }
        let met = Met {
            value: 0,
            in_line: Vec::new(),
            view: (0, 0),
            dots,
            miss: 0,
            neighbour: true,
            passed_in_view: true,
            lines: [scale.lines.len(), 1],
            figures: [scale.figures.len(), 1],
        };
        return Ok(Stand { places, met });
    };
    let fine = Seen::new(page, below, edge..rows.end, figure_cols)?;
    if fine.pitch != dots * vernier.part {
        return Err(format!("{dots} dots per quantum on the disc, a part of {} dots", fine.pitch));
    }
    let fine_numbers = fine.numbers(&vernier.lines, vernier.figure);
    let [first] = fine_numbers[..] else { return Err(format!("the vernier begins at {fine_numbers:?}")) };
    if !squeezed {
        fine.check_lengths(first, vernier.tiers)?;
    }
    let zero = fine.lines[0].dot - first * fine.pitch;
    let mut places = Vec::new();
    for leftmost in numbers {
        let past = zero - scale.lines[0].dot;
        if past % dots != 0 {
            return Err(format!("the zero is {past} dots past a line at {dots} dots per quantum"));
        }
        let place = leftmost * disc.division + past / dots;
        if disc.places.contains(&place) {
            if !squeezed {
                scale.check_lengths(leftmost, disc.tiers)?;
            }
            places.push(place);
        }
    }
    let met = meet(&scale, &fine, first, zero, dots);
    for place in &places {
        by_lines(disc, *place, &met, vernier.half)?;
    }
    Ok(Stand { places, met })
}

/// Which lines meet, and by how much the others miss.
fn meet(scale: &Seen, fine: &Seen, first: i64, zero: i64, dots: i64) -> Met {
    let (mut in_line, mut miss, mut neighbour) = (Vec::new(), i64::MAX, false);
    for (n, line) in fine.lines.iter().enumerate() {
        for (m, other) in scale.lines.iter().enumerate() {
            let apart = (line.dot - other.dot).abs();
            if apart == 0 {
                in_line.push(first + count(n));
                let both = |up: bool| {
                    let next = |at: usize| if up { Some(at + 1) } else { at.checked_sub(1) };
                    next(n).is_some_and(|n| n < fine.lines.len())
                        && next(m).is_some_and(|m| m < scale.lines.len())
                };
                neighbour |= both(true) || both(false);
            } else {
                miss = miss.min(apart);
            }
        }
    }
    let passed = |line: &Stroke| (zero - line.dot).abs() < scale.pitch;
    Met {
        value: 0,
        in_line,
        view: (first, first + count(fine.lines.len()) - 1),
        dots,
        miss,
        neighbour,
        passed_in_view: scale.lines.iter().any(passed),
        lines: [scale.lines.len(), fine.lines.len()],
        figures: [scale.figures.len(), fine.figures.len()],
    }
}

/// The lines in line say the same as the place of the zero: on the half that lies the way the figures grow they count the parts
/// passed, on the other what is missing to the next division. On a vernier that runs back there is but that half.
fn by_lines(disc: &Disc, place: i64, met: &Met, half: i64) -> Result<(), String> {
    let way = if place < 0 { -1 } else { 1 };
    let passed = place.abs() % disc.division;
    for line in &met.in_line {
        let said = if half * way * line < 0 { disc.division - line.abs() } else { line.abs() };
        if said % disc.division != passed {
            return Err(format!("line {line} in line says {said}, the zero {passed}"));
        }
    }
    let inner = |side: i64| met.in_line.iter().find(|line| **line * side > 0 && line.abs() < disc.division);
    if let (Some(right), Some(left)) = (inner(1), inner(-1))
        && right - left != disc.division
    {
        return Err(format!("the halves read {right} and {left}"));
    }
    Ok(())
}
