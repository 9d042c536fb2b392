//! A graduated scale as it is made out in a picture: lines, their pitch, and the value that the figures give each.

use super::kinds::Divided;
use super::page::{Page, Stroke, Word};
use std::ops::Range;

/// A line of a scale. `pos` grows the way the scale's figures grow.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Line {
    pub pos: i64,
    pub middle: i64,
    pub length: i64,
}

/// Left to right.
pub fn rightward(strokes: &[Stroke]) -> Vec<Line> {
    strokes.iter().map(|s| Line { pos: s.dot, middle: s.middle, length: s.length }).collect()
}

/// Right to left.
pub fn leftward(strokes: &[Stroke]) -> Vec<Line> {
    let line = |s: &Stroke| Line { pos: -s.dot, middle: s.middle, length: s.length };
    strokes.iter().rev().map(line).collect()
}

/// Top to bottom.
pub fn downward(strokes: &[Stroke]) -> Vec<Line> {
    rightward(strokes)
}

/// Bottom to top.
pub fn upward(strokes: &[Stroke]) -> Vec<Line> {
    strokes.iter().rev().map(|s| Line { pos: -s.dot, middle: s.middle, length: s.length }).collect()
}

/// The figures found beside a scale's lines.
#[derive(Default, Debug)]
pub struct Found {
    /// Number of the line, figure.
    small: Vec<(i64, i64)>,
    large: Vec<(i64, i64)>,
    /// The nearest small figure left of the window, and how many lines after it the first line in view is.
    small_left: Option<(i64, i64)>,
    large_left: Option<i64>,
}

impl Found {
    pub fn count(&self) -> usize {
        self.small.len() + usize::from(self.small_left.is_some())
    }

    /// The only figure, where there is but one.
    pub fn only(&self) -> Option<i64> {
        if let [(_, figure)] = self.small[..] { Some(figure) } else { None }
    }

    /// Assigns small figures to lines by the cell they stand at.
    pub fn small(&mut self, words: &[Word], lines: &[Line]) -> Result<(), String> {
        for word in words {
            match word.off_view() {
                Some((figure, after)) if !after.is_empty() => {
                    self.small_left = Some((number(figure)?, number(after)?));
                }
                Some(_) => return Err(format!("{word:?} does not say how many lines come after it")),
                None => self.small.push((at_line(word, lines)?, number(&word.text)?)),
            }
        }
        Ok(())
    }

    /// The same for large figures.
    pub fn large(&mut self, words: &[Word], lines: &[Line]) -> Result<(), String> {
        for word in words {
            match word.off_view() {
                Some((figure, "")) => self.large_left = Some(number(figure)?),
                Some(_) => return Err(format!("{word:?} in the row of large figures")),
                None => self.large.push((at_line(word, lines)?, number(&word.text)?)),
            }
        }
        Ok(())
    }

    /// Looks for a level scale's rows of figures, from its lines outward.
    pub fn beyond(
        page: &Page,
        lines: &[Line],
        rows: &mut dyn Iterator<Item = i64>,
        cols: &Range<i64>,
        divided: &Divided,
    ) -> Result<Self, String> {
        let mut found = Self::default();
        let mut figured = rows.filter_map(|row| page.figures(row, cols));
        match (divided.figures.large, figured.next()) {
            (_, None) => {}
            (None, Some(words)) => found.small(&words, lines)?,
            // Where there is but one row, nothing but the large 0 at the scale's beginning is in view.
            (Some(_), Some(words)) => match figured.next() {
                Some(further) => {
                    found.small(&words, lines)?;
                    found.large(&further, lines)?;
                }
                None => found.large(&words, lines)?,
            },
        }
        Ok(found)
    }
}

fn number(text: &str) -> Result<i64, String> {
    text.parse().map_err(|_| format!("{text:?} is no figure"))
}

fn at_line(word: &Word, lines: &[Line]) -> Result<i64, String> {
    lines
        .iter()
        .position(|line| line.middle == word.centre())
        .map(|n| i64::try_from(n).expect("few lines"))
        .ok_or_else(|| format!("the figure {word:?} stands at no line"))
}

/// A scale whose lines have values.
#[derive(Debug)]
pub struct Scale {
    pub lines: Vec<Line>,
    /// Dots from line to line.
    pub pitch: i64,
    /// The value of the first line in view.
    pub first: i64,
    /// How many figures tell it.
    pub figures: usize,
}

/// Whether a scale begins again after its end.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Round {
    Straight,
    Turning,
}

impl Scale {
    pub fn new(lines: Vec<Line>, found: &Found, divided: &Divided, round: Round) -> Result<Self, String> {
        let pitch = pitch(&lines)?;
        let count = i64::try_from(lines.len()).expect("few lines");
        let first = first_value(found, divided, count, round)?;
        let figures = found.count() + found.large.len() + usize::from(found.large_left.is_some());
        let scale = Self { lines, pitch, first, figures };
        if round == Round::Straight && (first < 0 || scale.value(count - 1, divided) > divided.end) {
            return Err(format!(
                "lines from {first} to {} are in view: more than there are",
                scale.value(count - 1, divided)
            ));
        }
        Ok(scale)
    }

    /// The value of a line in view.
    pub fn value(&self, n: i64, divided: &Divided) -> i64 {
        self.first + n * divided.division
    }

    /// The value at a place, and the dots in a quantum: that of the last line there or before, and whole quanta beyond it.
    pub fn value_at(&self, pos: i64, divided: &Divided) -> Result<(i64, i64), String> {
        if self.pitch % divided.division != 0 {
            return Err(format!("a pitch of {} dots", self.pitch));
        }
        let dots = self.pitch / divided.division;
        let passed = (0..).zip(&self.lines).take_while(|(_, line)| line.pos <= pos).last();
        let (n, line) = passed.ok_or("no line at the place or before it")?;
        let beyond = pos - line.pos;
        if beyond % dots != 0 || beyond >= self.pitch {
            return Err(format!("{beyond} dots beyond a line, {dots} in a quantum"));
        }
        Ok((self.value(n, divided) + beyond / dots, dots))
    }

    /// A line's length must follow from its value, and longer ones must be worth more.
    pub fn check_lengths(&self, divided: &Divided, skip: Option<i64>) -> Result<(), String> {
        let mut lengths = [None::<i64>; 8];
        for (n, line) in (0..).zip(&self.lines) {
            let value = self.value(n, divided);
            if skip == Some(value) {
                continue;
            }
            let class =
                divided.tiers.iter().position(|tier| value % tier == 0).unwrap_or(divided.tiers.len());
            match lengths[class] {
                None => lengths[class] = Some(line.length),
                Some(length) if length == line.length => {}
                Some(length) => {
                    return Err(format!("the line at {value} is {} long, not {length}", line.length));
                }
            }
        }
        let seen: Vec<i64> = lengths.into_iter().flatten().collect();
        if seen.windows(2).any(|pair| pair[0] < pair[1]) {
            return Err(format!("the lengths {seen:?} do not get shorter"));
        }
        if seen.len() == 2 && seen[0] == seen[1] && divided.tiers.len() == 1 {
            return Err(format!("all lines are {} long", seen[0]));
        }
        Ok(())
    }
}

fn pitch(lines: &[Line]) -> Result<i64, String> {
    let [first, second, ..] = lines else { return Err(format!("{} lines are not enough", lines.len())) };
    let pitch = second.pos - first.pos;
    match lines.windows(2).find(|pair| pair[1].pos - pair[0].pos != pitch) {
        None => Ok(pitch),
        Some(pair) => Err(format!("lines at {} and {} where the pitch is {pitch}", pair[0].pos, pair[1].pos)),
    }
}

fn all_agree(mut values: impl Iterator<Item = i64>, what: &str) -> Result<Option<i64>, String> {
    let Some(first) = values.next() else { return Ok(None) };
    match values.find(|value| *value != first) {
        None => Ok(Some(first)),
        Some(other) => Err(format!("{what} figures contradict: {first} and {other}")),
    }
}

fn first_value(found: &Found, divided: &Divided, count: i64, round: Round) -> Result<i64, String> {
    let figures = &divided.figures;
    let most = figures.wrap.map_or(divided.end, |wrap| wrap - 1);
    let small = found.small.iter().map(|(_, figure)| *figure);
    let left = found.small_left.map(|(figure, _)| figure);
    if let Some(figure) = small.chain(left).find(|figure| figure * figures.worth > most) {
        return Err(format!("a figure {figure}: the highest stands for {most}"));
    }
    let turned = |value: i64| figures.wrap.map_or(value, |wrap| value.rem_euclid(wrap));
    let small = found.small.iter().map(|(n, figure)| figure * figures.worth - n * divided.division);
    let left =
        found.small_left.iter().map(|(figure, after)| figure * figures.worth + after * divided.division);
    let small = all_agree(small.chain(left).map(turned), "small")?;
    if let Some(worth) = figures.large {
        let large = found.large.iter().map(|(n, figure)| figure * worth - n * divided.division);
        let large = all_agree(large, "large")?;
        return match (large, small, found.large_left) {
            (Some(large), Some(small), _) if turned(large) != small => {
                Err(format!("large figures say {large}, small ones {small}"))
            }
            (Some(large), _, _) => Ok(large),
            (None, Some(small), Some(left)) => Ok(left * worth + small),
            _ => Err("no large figure in view, and none that is left of it".to_owned()),
        };
    }
    let small = small.ok_or("no figure in view")?;
    match (figures.wrap, round) {
        (Some(wrap), Round::Straight) => {
            let first = small % wrap;
            // A last 0 is the scale's end, unless lines follow it.
            let last = first + (count - 1) * divided.division;
            Ok(if last > divided.end { first - wrap } else { first })
        }
        _ => Ok(small),
    }
}
