//! Tools with two sets of scales, as the robot is told about them, and how it reads two pairs on one beam.

use super::kinds::{Divided, Figures, Kind, Known, Sliding, lines, millimetres, plain};
use super::page::Page;
use super::scale::Round;
use super::{Met, PairAt, Read, edges, frame};
use std::ops::Range;

/// Inches to millimetres.
const INCH: (i64, i64) = (127, 5);

pub const CALIPER_MILLIMETRES: Known = Known {
    id: "caliper-two-scale",
    quantum: (1, 20),
    range: (0, 3000),
    interval: 200,
    can_be_off: true,
    kind: Kind::Pair(
        millimetres(20, 172, &[200, 100]),
        Sliding { part: 19, lines: lines(20, &[2], plain(2)) },
    ),
};

pub const CALIPER_INCHES: Known = Known {
    id: "caliper-two-scale reads=in",
    quantum: (1, 128),
    range: (0, 768),
    interval: 128,
    can_be_off: true,
    kind: Kind::Pair(
        Divided { division: 8, end: 824, tiers: &[128, 64, 32, 16], figures: plain(128) },
        Sliding { part: 7, lines: lines(8, &[4], plain(1)) },
    ),
};

pub const THICKNESS_INCH: Known = Known {
    id: "gear-tooth-inch",
    quantum: (1, 1000),
    range: (0, 1000),
    interval: 100,
    can_be_off: true,
    kind: Kind::Pair(
        Divided {
            division: 20,
            end: 1380,
            tiers: &[1000, 100],
            figures: Figures { worth: 100, wrap: Some(1000), large: Some(1000) },
        },
        Sliding { part: 19, lines: lines(20, &[5], plain(1)) },
    ),
};

pub const HEIGHT_INCH: Known = Known {
    id: "gear-tooth-inch reads=height",
    quantum: (1, 1000),
    range: (0, 600),
    interval: 100,
    can_be_off: true,
    kind: Kind::Pair(
        Divided { division: 20, end: 980, tiers: &[100], figures: plain(100) },
        Sliding { part: 19, lines: lines(20, &[5], plain(1)) },
    ),
};

/// Half millimetres, a figure at every fifth millimetre.
const fn halves(end: i64) -> Divided {
    Divided { division: 25, end, tiers: &[250, 50], figures: plain(50) }
}

pub const THICKNESS_METRIC: Known = Known {
    id: "gear-tooth-metric",
    quantum: (1, 50),
    range: (0, 2000),
    interval: 250,
    can_be_off: true,
    kind: Kind::Pair(halves(2600), Sliding { part: 24, lines: lines(25, &[5], plain(5)) }),
};

pub const HEIGHT_METRIC: Known = Known {
    id: "gear-tooth-metric reads=height",
    quantum: (1, 50),
    range: (0, 1500),
    interval: 250,
    can_be_off: true,
    kind: Kind::Pair(halves(2100), Sliding { part: 24, lines: lines(25, &[5], plain(5)) }),
};

/// A second pair on the same beam.
pub struct Beside {
    pub known: &'static Known,
    /// It lies above the first one.
    pub above: bool,
    /// A quantum of the first pair in quanta of this one.
    ratio: (i64, i64),
}

impl Beside {
    /// The pair beside one of the two-scale caliper.
    pub fn of(known: &Known) -> Option<Self> {
        match known.id {
            // 0.05 mm in 128ths of an inch: 1/20 * 5/127 * 128.
            "caliper-two-scale" => {
                Some(Self { known: &CALIPER_INCHES, above: true, ratio: (128 * INCH.1, 20 * INCH.0) })
            }
            "caliper-two-scale reads=in" => {
                Some(Self { known: &CALIPER_MILLIMETRES, above: false, ratio: (20 * INCH.0, 128 * INCH.1) })
            }
            _ => None,
        }
    }

    /// Where this pair stands when the first one stands at a setting: at the nearest setting, half way up.
    pub fn setting(&self, first: i64) -> i64 {
        let (up, down) = self.ratio;
        (2 * first * up + down).div_euclid(2 * down)
    }
}

/// Reads both pairs of a beam: each as a whole, and both or one through a glass.
pub fn read(page: &Page, known: &Known, beside: &Beside) -> Result<(Read, Read), String> {
    let (upper, lower) = if beside.above { (beside.known, known) } else { (known, beside.known) };
    let (upper, lower) = if page.find(0, "overview").is_some() {
        through_glasses(page, upper, lower)?
    } else {
        wholes(page, upper, lower, !beside.above)?
    };
    Ok(if beside.above { (lower, upper) } else { (upper, lower) })
}

fn at(known: &Known) -> PairAt<'_> {
    let Kind::Pair(scale, vernier) = &known.kind else { unreachable!("both are pairs") };
    PairAt { scale, vernier, round: Round::Straight, scale_above: true, leftward: false }
}

fn seen(whole: Option<Met>, glass: Option<Met>, overview: bool) -> Result<Read, String> {
    let met = whole.as_ref().or(glass.as_ref()).ok_or("no reading edge")?;
    let (value, dots) = (met.value, met.dots);
    Ok(Read { value, held: false, overview, dots, lead: None, whole, glass, way: None })
}

/// Both whole, the upper vernier above its main scale; a glass over one of them where one is open.
fn wholes(page: &Page, upper: &Known, lower: &Known, glass_is_upper: bool) -> Result<(Read, Read), String> {
    let glass_top = page.find(0, " glass").map(|(row, _)| row);
    let edges = edges(page, 0);
    let (first, second) = match (&edges[..], glass_top) {
        ([first, second], None) | ([first, second, _], Some(_)) => (*first, *second),
        _ => return Err(format!("reading edges at {edges:?}")),
    };
    let end = glass_top.unwrap_or(page.height());
    if second >= end {
        return Err("an edge of the beam is in the glass".to_owned());
    }
    let (cols, squeezed) = (1..page.width(), glass_top.is_some());
    let upside_down = PairAt { scale_above: false, ..at(upper) };
    // The beam has the lines and figures of both edges; each pair is looked at from its own edge outward.
    let met = [
        upside_down.at(page, first, 0..second, &cols, squeezed)?,
        at(lower).at(page, second, first..end, &cols, squeezed)?,
    ];
    for (met, known) in met.iter().zip([upper, lower]) {
        if met.view != (0, at(known).vernier.lines.end) {
            return Err(format!("of a whole vernier the lines {:?} are in view", met.view));
        }
    }
    let zeros = [page.upright(first - 1, &cols, -1)?, page.upright(second, &cols, 1)?];
    if zeros[0].first().map(|stroke| stroke.dot) != zeros[1].first().map(|stroke| stroke.dot) {
        return Err(format!("the verniers do not begin in one line: {zeros:?}"));
    }
    let [upper_met, lower_met] = met;
    let mut glass = None;
    if let (Some(top), Some(edge)) = (glass_top, edges.get(2)) {
        let (rows, cols) = frame(page, top)?;
        let known = if glass_is_upper { upper } else { lower };
        let pair = PairAt { scale_above: !glass_is_upper, ..at(known) };
        let met = pair.at(page, *edge, rows, &cols, false)?;
        let whole = if glass_is_upper { &upper_met } else { &lower_met };
        if met.value != whole.value {
            return Err(format!("the whole says {}, the glass {}", whole.value, met.value));
        }
        glass = Some(met);
    }
    let (upper_glass, lower_glass) = if glass_is_upper { (glass, None) } else { (None, glass) };
    Ok((seen(Some(upper_met), upper_glass, false)?, seen(Some(lower_met), lower_glass, false)?))
}

/// One pair under the other, a glass over each; what is above a glass is an overview or the whole.
fn through_glasses(page: &Page, upper: &Known, lower: &Known) -> Result<(Read, Read), String> {
    let glass = |from: i64| page.find(from, " glass").map(|(row, _)| row).ok_or("no glass");
    let first = glass(0)?;
    let second = glass(first + 1)?;
    let (rows, _) = frame(page, first)?;
    Ok((
        through_glass(page, upper, 0..rows.end, first, false)?,
        through_glass(page, lower, rows.end + 1..page.height(), second, true)?,
    ))
}

fn through_glass(
    page: &Page,
    known: &Known,
    block: Range<i64>,
    top: i64,
    scale_above: bool,
) -> Result<Read, String> {
    let pair = PairAt { scale_above, ..at(known) };
    let edges = edges(page, block.start);
    let mut before = edges.iter().filter(|edge| (block.start..top).contains(edge));
    let mut inside = edges.iter().filter(|edge| (top..block.end).contains(edge));
    let (Some(edge), None) = (inside.next(), inside.next()) else {
        return Err("not one edge in a glass".to_owned());
    };
    let (rows, cols) = frame(page, top)?;
    let glass = pair.at(page, *edge, rows, &cols, false)?;
    let overview = page.find(block.start, "overview").map(|(row, _)| row).filter(|row| *row < top);
    match (before.next(), overview) {
        (None, Some(row)) => {
            if !(0..page.width() - 12).all(|col| page.at(col, row).ch == ' ') {
                return Err("the plates of an overview touch".to_owned());
            }
            seen(None, Some(glass), true)
        }
        (Some(edge), None) => {
            let whole = pair.at(page, *edge, block.start..top, &(1..page.width()), true)?;
            if whole.value != glass.value {
                return Err(format!("the whole says {}, the glass {}", whole.value, glass.value));
            }
            // The picture as a whole is slid, because the other pair is.
            seen(None, Some(glass), true)
        }
        _ => Err("an overview with an edge, or neither".to_owned()),
    }
}
