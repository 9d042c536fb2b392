//! Rules and pairs of scales, as the robot is told about them.

use super::kinds::{
    Disc, Divided, Figures, Halves, Kind, Known, Sliding, lines, millimetres, plain, wrapped,
};

/// A scale in inches: large figures every inch, small ones every tenth, 0 again at the inch.
const fn inches(division: i64, end: i64, tiers: &'static [i64]) -> Divided {
    Divided { division, end, tiers, figures: Figures { worth: 100, wrap: Some(1000), large: Some(1000) } }
}

/// Degrees figured every ten, to 90 and back to 0, to either side.
fn to_ninety_and_back(degrees: i64) -> Option<i64> {
    let size = degrees.abs();
    (size % 10 == 0).then_some(if size > 90 { 180 - size } else { size })
}

/// 60 45 30 15 0 15 30 45 60 on lines of five minutes.
fn quarters(line: i64) -> Option<i64> {
    (line % 3 == 0).then_some(line.abs() * 5)
}

pub const BEVEL_PROTRACTOR: Known = Known {
    id: "bevel-protractor",
    quantum: (5, 1),
    range: (0, 1080),
    interval: 120,
    can_be_off: false,
    kind: Kind::Disc(Disc {
        division: 12,
        lines: -130..131,
        figure: to_ninety_and_back,
        tiers: &[10, 5],
        places: -1080..1081,
        vernier: Some(Halves { part: 23, lines: -12..13, figure: quarters, tiers: &[3], half: 1 }),
    }),
};

pub const PROTRACTOR_HEAD: Known = Known {
    id: "protractor-head",
    quantum: (60, 1),
    range: (0, 90),
    interval: 10,
    can_be_off: false,
    kind: Kind::Disc(Disc {
        division: 1,
        lines: -120..121,
        figure: to_ninety_and_back,
        tiers: &[10, 5],
        places: -90..91,
        vernier: None,
    }),
};

pub const RULE_INCH_100: Known = Known {
    id: "rule-inch-100",
    quantum: (1, 100),
    range: (0, 600),
    interval: 10,
    can_be_off: false,
    kind: Kind::Rule(Divided {
        division: 1,
        end: 600,
        tiers: &[50, 10, 5],
        figures: Figures { worth: 10, wrap: Some(100), large: Some(100) },
    }),
};

pub const CALIPER_INCH_25_INSIDE: Known = Known {
    id: "caliper-inch-25-inside",
    quantum: (1, 1000),
    range: (250, 6000),
    interval: 100,
    can_be_off: true,
    kind: Kind::Pair(inches(25, 6600, &[1000, 100]), Sliding { part: 24, lines: lines(25, &[5], plain(1)) }),
};

pub const CALIPER_INCH_50: Known = Known {
    id: "caliper-inch-50",
    quantum: (1, 1000),
    range: (0, 6000),
    interval: 100,
    can_be_off: true,
    kind: Kind::Pair(inches(50, 8450, &[1000, 100]), Sliding { part: 49, lines: lines(50, &[5], plain(1)) }),
};

pub const CALIPER_INCH_128: Known = Known {
    id: "caliper-inch-128",
    quantum: (1, 128),
    range: (0, 768),
    interval: 128,
    can_be_off: true,
    kind: Kind::Pair(
        Divided { division: 8, end: 824, tiers: &[128, 64, 32, 16], figures: plain(128) },
        Sliding { part: 7, lines: lines(8, &[4], plain(1)) },
    ),
};

pub const CALIPER_METRIC_10: Known = Known {
    id: "caliper-metric-10",
    quantum: (1, 10),
    range: (0, 1500),
    interval: 100,
    can_be_off: true,
    kind: Kind::Pair(millimetres(10, 159, &[100, 50]), Sliding { part: 9, lines: lines(10, &[5], plain(1)) }),
};

pub const CALIPER_METRIC_20_LONG: Known = Known {
    id: "caliper-metric-20-long",
    quantum: (1, 20),
    range: (0, 3000),
    interval: 200,
    can_be_off: true,
    kind: Kind::Pair(
        millimetres(20, 189, &[200, 100]),
        Sliding { part: 39, lines: lines(20, &[2], plain(2)) },
    ),
};

pub const CALIPER_METRIC_50_INSIDE: Known = Known {
    id: "caliper-metric-50-inside",
    quantum: (1, 50),
    range: (500, 7500),
    interval: 500,
    can_be_off: true,
    kind: Kind::Pair(
        millimetres(50, 189, &[500, 250]),
        Sliding { part: 49, lines: lines(50, &[5], wrapped(5, 50)) },
    ),
};

pub const HEIGHT_GAUGE_INCH: Known = Known {
    id: "height-gauge-inch",
    quantum: (1, 1000),
    range: (0, 12_000),
    interval: 100,
    can_be_off: true,
    kind: Kind::Pair(
        inches(25, 12_600, &[1000, 100]),
        Sliding { part: 24, lines: lines(25, &[5], plain(1)) },
    ),
};

pub const HEIGHT_GAUGE_METRIC: Known = Known {
    id: "height-gauge-metric",
    quantum: (1, 50),
    range: (0, 15_000),
    interval: 500,
    can_be_off: true,
    kind: Kind::Pair(
        millimetres(50, 349, &[500, 250]),
        Sliding { part: 49, lines: lines(50, &[5], wrapped(5, 50)) },
    ),
};

pub const DEPTH_GAUGE_INCH: Known = Known {
    id: "depth-gauge-inch",
    quantum: (1, 1000),
    range: (0, 6000),
    interval: 100,
    can_be_off: true,
    kind: Kind::Pair(inches(25, 6600, &[1000, 100]), Sliding { part: 24, lines: lines(25, &[5], plain(1)) }),
};

pub const DEPTH_GAUGE_METRIC: Known = Known {
    id: "depth-gauge-metric",
    quantum: (1, 50),
    range: (0, 7500),
    interval: 500,
    can_be_off: true,
    kind: Kind::Pair(
        millimetres(50, 199, &[500, 250]),
        Sliding { part: 49, lines: lines(50, &[5], wrapped(5, 50)) },
    ),
};
