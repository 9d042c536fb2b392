//! What a robot is told about an instrument: divisions and figures, in whole numbers. Written from the published geometry,
//! not from the definitions.

use super::{pairs, two};
use std::ops::Range;

/// Figures on a scale. All lengths in quanta.
pub struct Figures {
    /// What a small figure 1 is worth.
    pub worth: i64,
    /// After this much the small figures start again at 0.
    pub wrap: Option<i64>,
    /// What a large figure 1 is worth, where the scale has large figures.
    pub large: Option<i64>,
}

/// A divided scale.
pub struct Divided {
    /// From line to line.
    pub division: i64,
    /// The last value that may be seen on it; for a thimble, one turn.
    pub end: i64,
    /// Line lengths: a line has the first of these that divides its value.
    pub tiers: &'static [i64],
    pub figures: Figures,
}

/// A vernier: its lines are counted, `part` is their distance in quanta.
pub struct Sliding {
    pub part: i64,
    /// Counted in lines: division 1, the end is the number of parts.
    pub lines: Divided,
}

/// The sleeve of a micrometer.
pub struct Barrel {
    pub scale: Divided,
    /// The distance of the whole lines, where there are half lines.
    pub whole: Option<i64>,
    /// Whole and half lines stand on two sides of the datum line.
    pub split: bool,
    pub thimble: Divided,
    pub vernier: Option<Sliding>,
    /// The thimble covers the sleeve as the reading grows; all figures run the other way.
    pub covers: bool,
    /// Quanta in a unit, where a rod, a collar or the frame add what is stamped on them.
    pub stamped: Option<i64>,
}

/// What counts the turns of a dial.
pub enum Turns {
    /// A bar up to the jaw's edge.
    Bar(Divided),
    /// A counter with a small hand.
    Counter(Divided),
}

/// A dial or a collar.
pub struct Gauge {
    pub turns: Option<Turns>,
    pub dial: Divided,
    /// From figure to figure.
    pub every: i64,
    /// Figured both ways from 0.
    pub balanced: bool,
    /// 1 where the figures run with the clock, -1 against it.
    pub sense: i64,
}

/// A disc figured both ways, or another scale whose vernier reaches back. Lines are numbered from the nought, to the left
/// below it, whichever way the figures grow.
pub struct Disc {
    /// From line to line, in quanta.
    pub division: i64,
    /// The numbers that lines can have.
    pub lines: Range<i64>,
    /// The figure of a line.
    pub figure: fn(i64) -> Option<i64>,
    /// Line lengths: a line has the first of these that divides its number.
    pub tiers: &'static [i64],
    /// Where its zero can stand, in quanta.
    pub places: Range<i64>,
    /// None where it is read at an index line.
    pub vernier: Option<Halves>,
}

/// The vernier of a [`Disc`].
pub struct Halves {
    /// From line to line, in quanta.
    pub part: i64,
    /// The numbers of its lines, from its zero, to the left below it.
    pub lines: Range<i64>,
    pub figure: fn(i64) -> Option<i64>,
    pub tiers: &'static [i64],
    /// 1 where the half read lies the way the figures grow, -1 where it lies against it.
    pub half: i64,
}

/// How the scales go together.
pub enum Kind {
    Rule(Divided),
    Pair(Divided, Sliding),
    Micrometer(Barrel),
    Dial(Gauge),
    Disc(Disc),
}

/// One instrument. Where it has two sets of scales there is one of these for each; the second set's id goes on with the word
/// that reads it, `reads=in`.
pub struct Known {
    pub id: &'static str,
    /// One quantum as a fraction of the unit.
    pub quantum: (i128, i128),
    /// Lowest and highest setting.
    pub range: (i64, i64),
    /// The distance between neighbouring figures of its first scale.
    pub interval: i64,
    pub can_be_off: bool,
    pub kind: Kind,
}

pub(super) const fn plain(worth: i64) -> Figures {
    Figures { worth, wrap: None, large: None }
}

pub(super) const fn wrapped(worth: i64, wrap: i64) -> Figures {
    Figures { worth, wrap: Some(wrap), large: None }
}

pub(super) const fn lines(parts: i64, tiers: &'static [i64], figures: Figures) -> Divided {
    Divided { division: 1, end: parts, tiers, figures }
}

/// 40 threads to the inch; a line every 0.025 in, a figure every 0.1 in, 0 again at the inch.
const fn inch_sleeve(inch: i64, tiers: &'static [i64]) -> Divided {
    Divided { division: inch / 40, end: inch, tiers, figures: wrapped(inch / 10, inch) }
}

/// Figures every five divisions, counting divisions.
const fn thimble(division: i64, parts: i64, tiers: &'static [i64]) -> Divided {
    let turn = division * parts;
    Divided { division, end: turn, tiers, figures: wrapped(division, turn) }
}

/// Ten parts, a figure on every line, the last one 0 again.
const TENTHS: Sliding = Sliding { part: 9, lines: lines(10, &[], wrapped(1, 10)) };

/// A line every millimetre; figures count millimetres.
pub(super) const fn millimetres(mm: i64, end: i64, tiers: &'static [i64]) -> Divided {
    Divided { division: mm, end: end * mm, tiers, figures: plain(mm) }
}

/// Half millimetres on two sides of the datum line, figures every five.
const fn half_millimetres(end: i64, covers: bool, stamped: Option<i64>) -> Barrel {
    Barrel {
        scale: Divided { division: 50, end, tiers: &[500], figures: plain(100) },
        whole: Some(100),
        split: true,
        thimble: thimble(1, 50, &[5]),
        vernier: None,
        covers,
        stamped,
    }
}

/// So many divisions round a dial, figures counting what they are worth.
const fn round(parts: i64, tiers: &'static [i64], worth: i64) -> Divided {
    lines(parts, tiers, plain(worth))
}

/// A hundred divisions, a figure at every tenth.
const fn hundred(balanced: bool) -> Gauge {
    Gauge { turns: None, dial: round(100, &[10, 5], 1), every: 10, balanced, sense: 1 }
}

pub static KNOWN: [Known; 45] = [
    pairs::BEVEL_PROTRACTOR,
    pairs::PROTRACTOR_HEAD,
    pairs::RULE_INCH_100,
    pairs::CALIPER_INCH_25_INSIDE,
    pairs::CALIPER_INCH_50,
    pairs::CALIPER_INCH_128,
    pairs::CALIPER_METRIC_10,
    pairs::CALIPER_METRIC_20_LONG,
    pairs::CALIPER_METRIC_50_INSIDE,
    pairs::HEIGHT_GAUGE_INCH,
    pairs::HEIGHT_GAUGE_METRIC,
    pairs::DEPTH_GAUGE_INCH,
    pairs::DEPTH_GAUGE_METRIC,
    two::CALIPER_MILLIMETRES,
    two::CALIPER_INCHES,
    two::THICKNESS_INCH,
    two::HEIGHT_INCH,
    two::THICKNESS_METRIC,
    two::HEIGHT_METRIC,
    Known {
        id: "rule-inch-64",
        quantum: (1, 64),
        range: (0, 384),
        interval: 8,
        can_be_off: false,
        kind: Kind::Rule(Divided {
            division: 1,
            end: 384,
            tiers: &[32, 16, 8, 4, 2],
            figures: Figures { worth: 1, wrap: Some(64), large: Some(64) },
        }),
    },
    Known {
        id: "rule-metric",
        quantum: (1, 1),
        range: (0, 150),
        interval: 10,
        can_be_off: false,
        kind: Kind::Rule(millimetres(1, 150, &[10, 5])),
    },
    Known {
        id: "micrometer-inch",
        quantum: (1, 1000),
        range: (0, 1000),
        interval: 100,
        can_be_off: true,
        kind: Kind::Micrometer(Barrel {
            scale: inch_sleeve(1000, &[100]),
            whole: None,
            split: false,
            thimble: thimble(1, 25, &[5]),
            vernier: None,
            covers: false,
            stamped: Some(1000),
        }),
    },
    Known {
        id: "micrometer-inch-tenths",
        quantum: (1, 10_000),
        range: (0, 10_000),
        interval: 1000,
        can_be_off: true,
        kind: Kind::Micrometer(Barrel {
            scale: inch_sleeve(10_000, &[1000]),
            whole: None,
            split: false,
            thimble: thimble(10, 25, &[50]),
            vernier: Some(TENTHS),
            covers: false,
            stamped: Some(10_000),
        }),
    },
    Known {
        id: "micrometer-metric",
        quantum: (1, 100),
        range: (0, 2500),
        interval: 500,
        can_be_off: true,
        kind: Kind::Micrometer(half_millimetres(2500, false, Some(100))),
    },
    Known {
        id: "micrometer-metric-microns",
        quantum: (1, 1000),
        range: (0, 25_000),
        interval: 5000,
        can_be_off: true,
        kind: Kind::Micrometer(Barrel {
            scale: Divided { division: 500, end: 25_000, tiers: &[5000, 1000], figures: plain(1000) },
            whole: Some(1000),
            split: false,
            thimble: thimble(10, 50, &[50]),
            vernier: Some(TENTHS),
            covers: false,
            stamped: Some(1000),
        }),
    },
    Known {
        id: "depth-micrometer-inch",
        quantum: (1, 1000),
        range: (0, 1000),
        interval: 100,
        can_be_off: true,
        kind: Kind::Micrometer(Barrel {
            scale: Divided { end: 1000, ..inch_sleeve(1000, &[100]) },
            whole: None,
            split: false,
            thimble: thimble(1, 25, &[5]),
            vernier: None,
            covers: true,
            stamped: Some(1000),
        }),
    },
    Known {
        id: "depth-micrometer-metric",
        quantum: (1, 100),
        range: (0, 2500),
        interval: 500,
        can_be_off: true,
        kind: Kind::Micrometer(half_millimetres(2500, true, Some(100))),
    },
    Known {
        id: "inside-micrometer-inch",
        quantum: (1, 1000),
        range: (1000, 1500),
        interval: 100,
        can_be_off: true,
        kind: Kind::Micrometer(Barrel {
            scale: Divided { end: 500, ..inch_sleeve(1000, &[100]) },
            whole: None,
            split: false,
            thimble: thimble(1, 25, &[5]),
            vernier: None,
            covers: false,
            stamped: Some(1000),
        }),
    },
    Known {
        id: "inside-micrometer-metric",
        quantum: (1, 100),
        range: (5000, 7500),
        interval: 500,
        can_be_off: true,
        kind: Kind::Micrometer(half_millimetres(2500, false, Some(100))),
    },
    Known {
        id: "inside-jaw-micrometer-metric",
        quantum: (1, 100),
        range: (500, 3000),
        interval: 500,
        can_be_off: true,
        kind: Kind::Micrometer(half_millimetres(3000, true, None)),
    },
    Known {
        id: "caliper-inch-25",
        quantum: (1, 1000),
        range: (0, 6000),
        interval: 100,
        can_be_off: true,
        kind: Kind::Pair(
            Divided {
                division: 25,
                end: 6600,
                tiers: &[1000, 100],
                figures: Figures { worth: 100, wrap: Some(1000), large: Some(1000) },
            },
            Sliding { part: 24, lines: lines(25, &[5], plain(1)) },
        ),
    },
    Known {
        id: "caliper-metric-20",
        quantum: (1, 20),
        range: (0, 3000),
        interval: 200,
        can_be_off: true,
        kind: Kind::Pair(
            millimetres(20, 169, &[200, 100]),
            Sliding { part: 19, lines: lines(20, &[2], plain(2)) },
        ),
    },
    Known {
        id: "caliper-metric-50",
        quantum: (1, 50),
        range: (0, 7500),
        interval: 500,
        can_be_off: true,
        kind: Kind::Pair(
            millimetres(50, 199, &[500, 250]),
            Sliding { part: 49, lines: lines(50, &[5], wrapped(5, 50)) },
        ),
    },
    Known {
        id: "dial-caliper-inch",
        quantum: (1, 1000),
        range: (0, 6000),
        interval: 100,
        can_be_off: true,
        kind: Kind::Dial(Gauge {
            turns: Some(Turns::Bar(Divided {
                division: 100,
                end: 6000,
                tiers: &[1000],
                figures: Figures { worth: 100, wrap: Some(1000), large: Some(1000) },
            })),
            ..hundred(false)
        }),
    },
    Known {
        id: "dial-caliper-metric",
        quantum: (1, 100),
        range: (0, 15_000),
        interval: 1000,
        can_be_off: true,
        kind: Kind::Dial(Gauge {
            turns: Some(Turns::Bar(millimetres(100, 150, &[1000, 500]))),
            ..hundred(false)
        }),
    },
    Known {
        id: "dial-indicator-metric-continuous",
        quantum: (1, 100),
        range: (0, 999),
        interval: 100,
        can_be_off: false,
        kind: Kind::Dial(Gauge {
            turns: Some(Turns::Counter(Divided {
                division: 100,
                end: 1000,
                tiers: &[],
                figures: wrapped(100, 1000),
            })),
            ..hundred(false)
        }),
    },
    Known {
        id: "dial-indicator-inch-balanced",
        quantum: (1, 1000),
        range: (-49, 49),
        interval: 98,
        can_be_off: false,
        kind: Kind::Dial(hundred(true)),
    },
    Known {
        id: "lever-indicator-inch",
        quantum: (1, 2000),
        range: (-29, 29),
        interval: 58,
        can_be_off: false,
        kind: Kind::Dial(Gauge { dial: round(60, &[10, 2], 2), ..hundred(true) }),
    },
    Known {
        id: "lever-indicator-metric",
        quantum: (1, 100),
        range: (-39, 39),
        interval: 78,
        can_be_off: false,
        kind: Kind::Dial(Gauge { dial: round(80, &[10, 5], 1), ..hundred(true) }),
    },
    Known {
        id: "cross-slide-dial-inch",
        quantum: (1, 1000),
        range: (0, 99),
        interval: 99,
        can_be_off: false,
        kind: Kind::Dial(hundred(false)),
    },
    Known {
        id: "cross-slide-dial-inch-radius",
        quantum: (1, 1000),
        range: (0, 99),
        interval: 99,
        can_be_off: false,
        kind: Kind::Dial(hundred(false)),
    },
    Known {
        id: "cross-slide-dial-metric-diameter",
        quantum: (1, 20),
        range: (0, 79),
        interval: 79,
        can_be_off: false,
        kind: Kind::Dial(Gauge { dial: round(80, &[10, 5], 2), ..hundred(false) }),
    },
    Known {
        id: "cross-slide-dial-metric",
        quantum: (1, 20),
        range: (0, 79),
        interval: 79,
        can_be_off: false,
        kind: Kind::Dial(Gauge { dial: round(80, &[10, 5], 2), ..hundred(false) }),
    },
    Known {
        id: "lesson-5-part",
        quantum: (1, 5),
        range: (0, 150),
        interval: 25,
        can_be_off: false,
        kind: Kind::Pair(millimetres(5, 34, &[25]), Sliding { part: 4, lines: lines(5, &[], plain(1)) }),
    },
    Known {
        id: "lesson-10-part",
        quantum: (1, 10),
        range: (0, 500),
        interval: 100,
        can_be_off: false,
        kind: Kind::Pair(
            millimetres(10, 59, &[100, 50]),
            Sliding { part: 9, lines: lines(10, &[5], wrapped(1, 10)) },
        ),
    },
];

/// How a pair of scales lies and moves, where that is out of the common.
#[derive(Clone, Copy, PartialEq, Eq)]
pub struct Manner {
    /// The way the figures of both scales grow in the hand.
    pub course: Course,
    /// The bar moves and the vernier stands still.
    pub bar_moves: bool,
    /// What is added to what the scales show.
    pub added: i64,
}

#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Course {
    Rightward,
    Leftward,
    Upward,
}

impl Known {
    /// The id of the instrument, and which of its sets of scales this is.
    pub fn set(&self) -> (&'static str, &'static str) {
        self.id.split_once(' ').unwrap_or((self.id, ""))
    }

    pub fn manner(&self) -> Manner {
        let common = Manner { course: Course::Rightward, bar_moves: false, added: 0 };
        match self.id {
            "caliper-inch-25-inside" => Manner { course: Course::Leftward, ..common },
            "height-gauge-inch"
            | "height-gauge-metric"
            | "gear-tooth-inch reads=height"
            | "gear-tooth-metric reads=height" => Manner { course: Course::Upward, ..common },
            "depth-gauge-inch" | "depth-gauge-metric" => Manner { bar_moves: true, ..common },
            "caliper-metric-50-inside" => Manner { added: 500, ..common },
            _ => common,
        }
    }
}

/// The description of an instrument.
pub fn known(id: &str) -> &'static Known {
    KNOWN.iter().find(|known| known.id == id).expect("every shipped instrument is described here")
}
