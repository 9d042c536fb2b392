//! Wrong ways of reading, each as a formula on what the scales show. Nothing of this is taken from the program: the formulas are
//! those that a foreman would write down, common practice where shops differ.

use super::seen::{Figure, Seen};

/// A wrong way of reading.
pub struct Fault {
    /// Its id in the listing.
    pub id: &'static str,
    /// The answers it may lead to, each as often; the right one where it makes no difference.
    pub answers: fn(&Seen) -> Vec<Figure>,
}

/// One that takes something else for the sleeve or main scale.
fn coarse(seen: &Seen, taken: Figure) -> Vec<Figure> {
    if taken < 0 { vec![seen.right()] } else { vec![seen.size_of(seen.reading() - seen.coarse + taken)] }
}

fn thimble(seen: &Seen, line: impl Fn(i64, i64) -> Option<i64>) -> Vec<Figure> {
    let Some((worth, lines)) = seen.tool.thimble else { return vec![seen.right()] };
    let k = seen.thimble / worth;
    let taken = line(k, lines).unwrap_or(k) * worth;
    vec![seen.size_of(seen.reading() - seen.thimble + taken)]
}

fn vernier(seen: &Seen, line: impl Fn(i64, i64) -> Option<i64>) -> Vec<Figure> {
    let Some((worth, parts, _)) = seen.tool.vernier else { return vec![seen.right()] };
    let k = seen.vernier / worth;
    let taken = line(k, parts).unwrap_or(k) * worth;
    vec![seen.size_of(seen.reading() - seen.vernier + taken)]
}

/// Every thimble line counted as so much.
fn thimble_worth(seen: &Seen, taken: Figure) -> Vec<Figure> {
    let Some((worth, _)) = seen.tool.thimble else { return vec![seen.right()] };
    vec![seen.size_of(seen.reading() - seen.thimble + seen.thimble / worth * taken)]
}

/// Every figure of an inch scale that counts tenths counted as so much.
fn figure_worth(seen: &Seen, taken: Figure) -> Vec<Figure> {
    if seen.tool.figured != 100_000 {
        return vec![seen.right()];
    }
    // The whole inches of a caliper stand in figures of their own.
    let tenths = seen.coarse % 1_000_000 / 100_000;
    coarse(seen, seen.coarse - tenths * 100_000 + tenths * taken)
}

/// `times / over`, rounded half up to a multiple of `to`.
fn rounded(times: Figure, over: i64, to: Figure) -> Figure {
    (2 * times + over * to).div_euclid(2 * over * to) * to
}

/// What stands above the sleeve's or main scale's line, and what a whole division is.
fn above(seen: &Seen) -> (Figure, Figure) {
    (seen.thimble + seen.vernier, seen.tool.division)
}

/// Main scale read where the lines meet: the line of the scale that vernier line k is in line with.
fn met(seen: &Seen) -> Option<(Figure, Figure)> {
    let (worth, parts, over) = seen.tool.vernier?;
    let below = if seen.tool.thimble.is_some() { seen.thimble } else { seen.coarse };
    let division = worth * parts;
    let k = seen.vernier / worth;
    // From the vernier's zero on, k parts of `over` divisions in `parts`.
    Some((below, below + seen.vernier + k * division * over / parts))
}

/// All of them.
pub const ALL: &[Fault] = &[
    Fault {
        id: "half-line-missed",
        answers: |seen| match seen.tool.whole {
            Some(whole) => coarse(seen, seen.coarse - seen.coarse % whole),
            None => vec![seen.right()],
        },
    },
    Fault {
        id: "half-line-added",
        answers: |seen| match seen.tool.whole {
            Some(whole) if seen.coarse % whole == 0 => coarse(seen, seen.coarse + seen.tool.division),
            _ => vec![seen.right()],
        },
    },
    Fault {
        id: "line-early",
        answers: |seen| {
            let (above, division) = above(seen);
            if above * 10 >= division * 9 { coarse(seen, seen.coarse + division) } else { vec![seen.right()] }
        },
    },
    Fault {
        id: "line-late",
        answers: |seen| {
            let (above, division) = above(seen);
            if above * 10 < division { coarse(seen, seen.coarse - division) } else { vec![seen.right()] }
        },
    },
    Fault {
        id: "line-missed",
        answers: |seen| coarse(seen, seen.coarse - seen.tool.whole.unwrap_or(seen.tool.division)),
    },
    Fault {
        id: "line-added",
        answers: |seen| coarse(seen, seen.coarse + seen.tool.whole.unwrap_or(seen.tool.division)),
    },
    Fault { id: "figures-only", answers: |seen| coarse(seen, seen.coarse - seen.coarse % seen.tool.figured) },
    Fault {
        id: "quarter-as-twenty",
        answers: |seen| match seen.tool.division {
            25_000 => {
                coarse(seen, seen.coarse - seen.coarse % 100_000 + seen.coarse % 100_000 / 25_000 * 20_000)
            }
            _ => vec![seen.right()],
        },
    },
    Fault {
        id: "quarter-as-ten",
        answers: |seen| match seen.tool.division {
            25_000 => {
                coarse(seen, seen.coarse - seen.coarse % 100_000 + seen.coarse % 100_000 / 25_000 * 10_000)
            }
            _ => vec![seen.right()],
        },
    },
    Fault { id: "thimble-backwards", answers: |seen| thimble(seen, |k, n| Some((n - k) % n)) },
    Fault { id: "thimble-ignored", answers: |seen| thimble(seen, |_, _| Some(0)) },
    Fault { id: "thimble-next-line", answers: |seen| thimble(seen, |k, _| Some(k + 1)) },
    Fault { id: "thimble-nearest-five", answers: |seen| thimble(seen, |k, _| Some((2 * k + 5) / 10 * 5)) },
    Fault { id: "thimble-digits-swapped", answers: |seen| thimble(seen, |k, _| Some(k % 10 * 10 + k / 10)) },
    Fault {
        id: "thimble-as-tenths",
        answers: |seen| thimble_worth(seen, if seen.tool.division == 500_000 { 100_000 } else { 100 }),
    },
    Fault { id: "thimble-as-thousandths", answers: |seen| thimble_worth(seen, 1_000) },
    Fault { id: "vernier-ignored", answers: |seen| vernier(seen, |_, _| Some(0)) },
    Fault { id: "vernier-backwards", answers: |seen| vernier(seen, |k, n| Some((n - k) % n)) },
    Fault { id: "vernier-next-line", answers: |seen| vernier(seen, |k, n| (k < n).then_some(k + 1)) },
    Fault {
        id: "line-before",
        answers: |seen| {
            let nothing_before =
                if seen.tool.vernier.is_some() { seen.vernier == 0 } else { seen.thimble == 0 };
            vec![if nothing_before { seen.right() } else { seen.right() - seen.least() }]
        },
    },
    Fault {
        id: "coincidence-number",
        answers: |seen| match met(seen) {
            Some((below, met)) => vec![seen.size_of(seen.reading() - below + met)],
            None => vec![seen.right()],
        },
    },
    Fault {
        id: "nearest-not-passed",
        answers: |seen| {
            let (above, division) = above(seen);
            if above * 2 > division { coarse(seen, seen.coarse + division) } else { vec![seen.right()] }
        },
    },
    Fault {
        id: "vernier-end",
        answers: |seen| match (seen.tool.thimble, seen.tool.vernier) {
            // The last line stands `over` divisions further on.
            (None, Some((_, _, over))) => {
                let end = seen.coarse + seen.vernier + seen.tool.division * over;
                coarse(seen, end - end % seen.tool.division)
            }
            _ => vec![seen.right()],
        },
    },
    Fault {
        id: "fixed-scale-number",
        answers: |seen| match (met(seen), seen.tool.vernier) {
            (Some((_, met)), Some((worth, parts, _))) => vernier(seen, |_, _| Some(met / (worth * parts))),
            _ => vec![seen.right()],
        },
    },
    Fault {
        id: "coincidence-alone",
        answers: |seen| match met(seen) {
            Some((below, met)) => vec![seen.size_of(seen.reading() - below - seen.vernier + met)],
            None => vec![seen.right()],
        },
    },
    Fault {
        id: "vernier-a-tenth",
        answers: |seen| vec![seen.size_of(seen.reading() - seen.vernier + seen.vernier / 10)],
    },
    Fault {
        id: "vernier-wrong-decimal",
        answers: |seen| vec![seen.size_of(seen.reading() + 9 * seen.vernier)],
    },
    Fault { id: "figure-as-inches", answers: |seen| figure_worth(seen, 1_000_000) },
    Fault { id: "figure-as-hundredths", answers: |seen| figure_worth(seen, 10_000) },
    Fault {
        id: "other-unit",
        // As a pocket calculator shows it, to three places in millimetres and four in inches.
        answers: |seen| {
            let right = seen.right();
            vec![if seen.tool.division == 500_000 {
                rounded(right * 10, 254, 100)
            } else {
                rounded(right * 254, 10, 1_000)
            }]
        },
    },
    Fault { id: "zero-ignored", answers: |seen| vec![seen.reading()] },
    Fault {
        id: "zero-wrong-sign",
        answers: |seen| vec![if seen.corrected { seen.reading() + seen.zero } else { seen.reading() }],
    },
    Fault { id: "decimal-slip", answers: |seen| vec![seen.right() * 10] },
];
