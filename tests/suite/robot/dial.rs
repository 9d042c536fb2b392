//! A dial or a collar: the rim unrolled under its hand, and the bar up to the jaw's edge or the counter with its small hand.

use super::kinds::{Divided, Gauge, Turns};
use super::page::{CELL, Page, Word};
use super::scale::{Found, Line, Round, Scale, rightward};
use super::{Read, edges};

pub fn read(page: &Page, gauge: &Gauge) -> Result<Read, String> {
    let level = edges(page, 0);
    let (coarse, strip) = match (&gauge.turns, &level[..]) {
        (None, [strip]) => (None, *strip),
        (Some(Turns::Bar(bar)), [strip]) => (Some(on_bar(page, bar)?), *strip),
        (Some(Turns::Counter(counter)), [first, strip]) => (Some(on_counter(page, counter, *first)?), *strip),
        _ => return Err(format!("{} level edges", level.len())),
    };
    let (at, dots) = rim(page, gauge, strip)?;
    let turn = gauge.dial.end;
    let value = match &coarse {
        Some(coarse) => coarse.last + at,
        None if gauge.balanced && 2 * at > turn => at - turn,
        None => at,
    };
    if let Some(coarse) = &coarse {
        coarse.agrees(at, turn)?;
    }
    let held = page.find(0, "overview").is_some();
    Ok(Read { value, held, overview: false, dots, lead: None, whole: None, glass: None, way: None })
}

/// What counts the turns, as far as it goes.
struct Coarse {
    /// The value of the line last reached; a turn below zero where none is.
    last: i64,
    /// How far past it the edge or the small hand is, in dots, and the dots from line to line, where they can be seen.
    past: Option<(i64, i64)>,
    /// Places are whole cells.
    cells: bool,
}

impl Coarse {
    /// The edge must be where the dial says it is, rounded down.
    fn agrees(&self, at: i64, turn: i64) -> Result<(), String> {
        let Some((past, pitch)) = self.past else { return Ok(()) };
        let exact = at * pitch / turn;
        let wanted = if self.cells { exact / CELL * CELL } else { exact };
        if past == wanted { Ok(()) } else { Err(format!("{past} dots past a line for {wanted}")) }
    }
}

/// True where the glyph of a line can only stand in the middle of a cell.
fn whole_cells(page: &Page, line: &Line, row: i64) -> bool {
    matches!(page.at(line.pos.div_euclid(CELL), row).ch, '\u{2502}' | '|')
}

/// A scale that hangs from a row, with at least one line in view.
fn hanging(page: &Page, divided: &Divided, row: i64, to: i64, mut lines: Vec<Line>) -> Result<Scale, String> {
    let cols = 1..to;
    let found = Found::beyond(page, &lines, &mut (row..(row + 6).min(page.height())), &cols, divided)?;
    let single = lines.len() == 1;
    if single {
        lines.push(Line { pos: lines[0].pos + 1, middle: -1, length: 0 });
    }
    let mut scale = Scale::new(lines, &found, divided, Round::Straight)?;
    if single {
        scale.lines.pop();
        scale.pitch = 0;
    } else {
        scale.check_lengths(divided, None)?;
    }
    Ok(scale)
}

fn on_bar(page: &Page, bar: &Divided) -> Result<Coarse, String> {
    let (top, at) = page.find(0, "\u{2514}\u{2518}").or_else(|| page.find(0, "`'")).ok_or("no jaw")?;
    let (row, edge) = (top + 1, at + 1);
    let cols = 1..edge;
    let strokes = page.upright(row, &cols, 1)?;
    page.nothing_else(row, &cols, 1, &strokes, page.height())?;
    if (edge..page.width()).any(|col| page.at(col, row).ch != ' ') {
        return Err("a line on the jaw".to_owned());
    }
    let lines = rightward(&strokes);
    let Some(last) = lines.last().copied() else {
        return Ok(Coarse { last: -bar.division, past: None, cells: false });
    };
    let scale = hanging(page, bar, row, edge, lines)?;
    let count = i64::try_from(scale.lines.len()).expect("few lines");
    let thin = page.at(last.pos.div_euclid(CELL), row);
    let is_thin = !thin.swapped && matches!(thin.ch, '\u{1fb70}'..='\u{1fb75}' | '\u{2595}' | '\u{258f}');
    let flush = edge * CELL - if is_thin { 1 } else { CELL };
    Ok(Coarse {
        last: scale.value(count - 1, bar),
        past: (scale.pitch > 0).then_some((flush - last.pos, scale.pitch)),
        cells: whole_cells(page, &last, row),
    })
}

fn on_counter(page: &Page, counter: &Divided, edge: i64) -> Result<Coarse, String> {
    let cols = 1..page.width();
    let hand = rightward(&page.upright(edge - 1, &cols, -1)?);
    let [hand] = hand[..] else { return Err(format!("{} small hands", hand.len())) };
    let strokes = page.upright(edge, &cols, 1)?;
    page.nothing_else(edge, &cols, 1, &strokes, page.height())?;
    let scale = hanging(page, counter, edge, page.width(), rightward(&strokes))?;
    let whole = scale.value(i64::try_from(scale.lines.len()).expect("few lines") - 1, counter);
    if (scale.first, whole) != (0, counter.end) {
        return Err(format!("the counter is in view from {} to {whole}", scale.first));
    }
    let (n, line) =
        (0..).zip(&scale.lines).filter(|(_, line)| line.pos <= hand.pos).last().ok_or("before its 0")?;
    Ok(Coarse {
        last: scale.value(n, counter),
        past: Some((hand.pos - line.pos, scale.pitch)),
        cells: whole_cells(page, &hand, edge - 1),
    })
}

/// The figure that a dial has at a value, if it has one, and the class of its line.
fn figured(gauge: &Gauge, value: i64) -> (Option<i64>, usize) {
    let turn = gauge.dial.end;
    let value = value.rem_euclid(turn);
    let from_zero = if gauge.balanced { value.min(turn - value) } else { value };
    let figure = (from_zero % gauge.every == 0).then_some(from_zero / gauge.dial.figures.worth);
    let class = gauge.dial.tiers.iter().position(|tier| from_zero % tier == 0);
    (figure, class.unwrap_or(gauge.dial.tiers.len()))
}

/// The value of the line under the hand, and the dots per quantum.
fn rim(page: &Page, gauge: &Gauge, edge: i64) -> Result<(i64, i64), String> {
    let cols = 1..page.width();
    let hand = rightward(&page.upright(edge - 1, &cols, -1)?);
    let [hand] = hand[..] else { return Err(format!("{} hands", hand.len())) };
    let strokes = page.upright(edge, &cols, 1)?;
    page.nothing_else(edge, &cols, 1, &strokes, page.height())?;
    let lines = rightward(&strokes);
    let (division, turn) = (gauge.dial.division, gauge.dial.end);
    let pitch = lines.get(1).ok_or("one line")?.pos - lines[0].pos;
    if lines.windows(2).any(|pair| pair[1].pos - pair[0].pos != pitch) || pitch % division != 0 {
        return Err("lines at unequal distances".to_owned());
    }
    if i64::try_from(lines.len()).expect("few lines") * division > turn {
        return Err(format!("{} lines: more than a turn", lines.len()));
    }
    let words = (edge..page.height()).find_map(|row| page.figures(row, &cols)).ok_or("no figures")?;
    let seen = words.iter().map(|word| at_line(word, &lines)).collect::<Result<Vec<_>, _>>()?;
    if seen.len() < 2 {
        return Err("two figures are needed to tell which way they run".to_owned());
    }
    // Where may the first line stand, so that all figures and all lengths are as they are?
    let agrees = |first: &i64| {
        let at = |n: i64| first + n * division * gauge.sense;
        let figures = seen.iter().all(|(n, figure)| figured(gauge, at(*n)).0 == Some(*figure));
        let mut lengths = [None; 8];
        figures
            && (0..)
                .zip(&lines)
                .all(|(n, line)| *lengths[figured(gauge, at(n)).1].get_or_insert(line.length) == line.length)
            && lengths.iter().flatten().is_sorted_by(|a, b| a >= b)
            && lengths.iter().flatten().collect::<std::collections::BTreeSet<_>>().len() > 1
    };
    let firsts: Vec<i64> = (0..turn / division).map(|n| n * division).filter(agrees).collect();
    let [first] = firsts[..] else { return Err(format!("the first line may be {firsts:?}")) };
    // No figure that belongs to a line in view is missing, but at the ends, where it has no room.
    for n in 2..i64::try_from(lines.len()).expect("few lines") - 2 {
        if let (Some(figure), _) = figured(gauge, first + n * division * gauge.sense)
            && !seen.contains(&(n, figure))
        {
            return Err(format!("the figure {figure} is missing"));
        }
    }
    let on = (0..).zip(&lines).find(|(_, line)| line.pos == hand.pos);
    let (n, _) = on.ok_or("the hand is between two lines")?;
    Ok(((first + n * division * gauge.sense).rem_euclid(turn), pitch / division))
}

fn at_line(word: &Word, lines: &[Line]) -> Result<(i64, i64), String> {
    let figure = word.text.parse().map_err(|_| format!("{word:?} is no figure"))?;
    let line = (0..).zip(lines).find(|(_, line)| line.middle == word.centre());
    line.map(|(n, _)| (n, figure)).ok_or_else(|| format!("the figure {word:?} stands at no line"))
}
