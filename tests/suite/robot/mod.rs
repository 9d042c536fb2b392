//! A robot that reads an instrument from printed lines. It is told the kind of instrument and nothing else, and shares no code
//! with what draws or reads in the program.

mod dial;
mod disc;
pub mod kinds;
mod meet;
mod micrometer;
mod page;
mod pairs;
mod scale;
pub mod two;
mod upright;

use kinds::{Course, Divided, Kind, Known, Sliding};
pub use meet::Met;
use page::{Page, Stroke};
use scale::{Found, Line, Round, Scale, leftward, rightward};
use std::ops::Range;

/// A range, and the steps in a turn by which it is multiplied.
pub type Lead = (Range<i64>, i64);

/// What the robot made of a picture.
#[derive(Debug)]
pub struct Read {
    /// The reading, in quanta.
    pub value: i64,
    /// The tool is shown in the hand.
    pub held: bool,
    /// There is an overview, which was not read.
    pub overview: bool,
    /// How far the edge of a thimble may be early, times the second number, is in this range.
    pub lead: Option<Lead>,
    /// What was seen in the whole picture of a reading pair.
    pub whole: Option<Met>,
    /// What was seen through the glass.
    pub glass: Option<Met>,
    /// Dots from one graduation of the scale read last to the next, over its division in quanta.
    pub dots: i64,
    /// 1 where the zero has moved to the right, -1 to the left; none where that cannot be seen, or is not looked for.
    pub way: Option<i64>,
}

/// Reads printed lines.
pub fn read(lines: &[String], known: &Known) -> Result<Read, String> {
    let page = Page::new(lines)?;
    let manner = known.manner();
    match &known.kind {
        Kind::Rule(rule) => read_rule(&page, rule),
        Kind::Pair(scale, vernier) => {
            if let Some(beside) = two::Beside::of(known) {
                let (read, other) = two::read(&page, known, &beside)?;
                let wanted = beside.setting(read.value);
                if other.value != wanted {
                    return Err(format!("the scale beside says {}, not {wanted}", other.value));
                }
                return Ok(read);
            }
            if manner.course == Course::Upward && upright::is_there(&page) {
                let met = upright::look(&page, scale, vernier)?;
                let (value, dots) = (met.value + manner.added, met.dots);
                return Ok(Read {
                    value,
                    held: true,
                    overview: true,
                    dots,
                    lead: None,
                    whole: None,
                    glass: Some(met),
                    way: None,
                });
            }
            let leftward = manner.course == Course::Leftward;
            let part = PairAt { scale, vernier, round: Round::Straight, scale_above: true, leftward };
            let (whole, glass, overview) = part.look(&page, 0)?;
            let seen = whole.as_ref().or(glass.as_ref()).ok_or("no reading edge")?;
            let value = seen.value + manner.added;
            Ok(Read { value, held: false, overview, dots: seen.dots, lead: None, whole, glass, way: None })
        }
        Kind::Disc(disc) => disc::read(&page, disc),
        Kind::Dial(gauge) => dial::read(&page, gauge),
        Kind::Micrometer(barrel) => micrometer::read(&page, barrel),
    }
}

/// A level pair of scales somewhere on a page.
struct PairAt<'a> {
    scale: &'a Divided,
    vernier: &'a Sliding,
    round: Round,
    scale_above: bool,
    /// Both scales grow from right to left.
    leftward: bool,
}

/// The first rows below the level reading edges: the first column says where they are.
fn edges(page: &Page, from: i64) -> Vec<i64> {
    let sign = |row: i64, signs: [char; 2]| signs.contains(&page.at(0, row).ch);
    (from + 1..page.height())
        .filter(|row| sign(row - 1, ['\u{2510}', '.']) && sign(*row, ['\u{2518}', '\'']))
        .collect()
}

type Looks = (Option<Met>, Option<Met>, bool);

impl PairAt<'_> {
    /// The whole and the glass, if they are there, and whether there is an overview.
    fn look(&self, page: &Page, from: i64) -> Result<Looks, String> {
        let top = page.find(from, " glass").map(|(row, _)| row);
        let overview = page.find(from, "overview").map(|(row, _)| row);
        if let Some(row) = overview {
            let empty = (0..page.width() - 12).all(|col| page.at(col, row).ch == ' ');
            if !empty {
                return Err("the plates of an overview touch".to_owned());
            }
        }
        let whole_end = top.unwrap_or(page.height());
        let edges = edges(page, from);
        let mut whole = None;
        let mut glass = None;
        for edge in edges {
            if edge < whole_end {
                let met = self.at(page, edge, from..whole_end, &(1..page.width()), top.is_some())?;
                if met.view != (0, self.vernier.lines.end) {
                    return Err(format!("of the whole vernier the lines {:?} are in view", met.view));
                }
                if whole.replace(met).is_some() {
                    return Err("two reading edges outside the glass".to_owned());
                }
            } else {
                let (rows, cols) = frame(page, whole_end)?;
                let met = self.at(page, edge, rows, &cols, false)?;
                if glass.replace(met).is_some() {
                    return Err("two reading edges in the glass".to_owned());
                }
            }
        }
        if top.is_some() != glass.is_some() || overview.is_some() == whole.is_some() {
            return Err("a glass without an edge, or an overview with one".to_owned());
        }
        if let (Some(whole), Some(glass)) = (&whole, &glass)
            && whole.value != glass.value
        {
            return Err(format!("the whole says {}, the glass {}", whole.value, glass.value));
        }
        Ok((whole, glass, overview.is_some()))
    }

    fn at(
        &self,
        page: &Page,
        edge: i64,
        rows: Range<i64>,
        cols: &Range<i64>,
        squeezed: bool,
    ) -> Result<Met, String> {
        let (above, below) = (page.upright(edge - 1, cols, -1)?, page.upright(edge, cols, 1)?);
        page.nothing_else(edge - 1, cols, -1, &above, rows.start - 1)?;
        page.nothing_else(edge, cols, 1, &below, rows.end)?;
        let order: fn(&[Stroke]) -> Vec<Line> = if self.leftward { leftward } else { rightward };
        let (above, below) = (order(&above), order(&below));
        // Where the last line is the leftmost its figure hangs over into the first column.
        let hangs = self.leftward && cols.end == page.width();
        let figure_cols = &(cols.start - i64::from(hangs)..cols.end);
        let mut up = (rows.start..edge).rev();
        let mut down = edge..rows.end;
        let (scale, vernier): (_, _) = if self.scale_above { (above, below) } else { (below, above) };
        let (scale_rows, vernier_rows): (&mut dyn Iterator<Item = i64>, &mut dyn Iterator<Item = i64>) =
            if self.scale_above { (&mut up, &mut down) } else { (&mut down, &mut up) };
        let found = Found::beyond(page, &scale, scale_rows, figure_cols, self.scale)?;
        let scale = Scale::new(scale, &found, self.scale, self.round)?;
        let found = Found::beyond(page, &vernier, vernier_rows, figure_cols, &self.vernier.lines)?;
        let vernier = Scale::new(vernier, &found, &self.vernier.lines, Round::Straight)?;
        // Beside an open glass the whole may be squeezed until line lengths cannot be told; then the glass shows them.
        if !squeezed {
            scale.check_lengths(self.scale, None)?;
            // On a sleeve the vernier's line 0 is the datum line and longer than the rest.
            vernier.check_lengths(&self.vernier.lines, (!self.scale_above).then_some(0))?;
        }
        meet::meet(&scale, self.scale, &vernier, self.vernier, self.round)
    }
}

/// The inside of a glass whose frame begins at a row.
fn frame(page: &Page, top: i64) -> Result<(Range<i64>, Range<i64>), String> {
    let corner = |glyph: char| matches!(glyph, '\u{2510}' | '\u{2518}' | '+');
    let right = (1..page.width()).rev().find(|col| corner(page.at(*col, top).ch)).ok_or("no frame")?;
    let bottom = (top + 1..page.height())
        .find(|row| corner(page.at(right, *row).ch))
        .ok_or("a frame that is open below")?;
    if !matches!(page.at(0, top).ch, '\u{250c}' | '+') || !matches!(page.at(0, bottom).ch, '\u{2514}' | '+') {
        return Err("a frame without left corners".to_owned());
    }
    let side = |row: i64| matches!(page.at(right, row).ch, '\u{2502}' | '!');
    if !(top + 1..bottom).all(side) {
        return Err("a gap in the frame's right side".to_owned());
    }
    Ok((top + 1..bottom, 1..right))
}

fn read_rule(page: &Page, rule: &Divided) -> Result<Read, String> {
    let edges = edges(page, 0);
    let [edge] = edges[..] else { return Err(format!("{} reading edges", edges.len())) };
    let cols = 1..page.width();
    let work = page.upright(edge - 1, &cols, -1)?;
    page.nothing_else(edge - 1, &cols, -1, &work, -1)?;
    let work = rightward(&work);
    let [end] = work[..] else { return Err(format!("{} ends of the work", work.len())) };
    let lines = page.upright(edge, &cols, 1)?;
    page.nothing_else(edge, &cols, 1, &lines, page.height())?;
    let lines = rightward(&lines);
    let found = Found::beyond(page, &lines, &mut (edge..page.height()), &cols, rule)?;
    let scale = Scale::new(lines, &found, rule, Round::Straight)?;
    scale.check_lengths(rule, None)?;
    let (value, dots) = scale.value_at(end.pos, rule)?;
    if found.count() == 0 && scale.figures == 0 {
        return Err("no figure in view".to_owned());
    }
    Ok(Read { value, held: false, overview: false, lead: None, whole: None, glass: None, way: None, dots })
}
