//! Which vernier lines are in line.

use crate::exact::Quanta;
use crate::instrument::{Runs, Vernier};

/// The numbers of the vernier lines that stand exactly in line with a division of the scale they are read against, when the
/// vernier's zero stands at `zero` and that scale is divided every `division`.
///
/// On the least-count lattice there is exactly one, but first and last together at zero; off it there is none.
pub fn coincident_lines(vernier: &Vernier, zero: Quanta, division: Quanta) -> Vec<i64> {
    let towards = match vernier.runs {
        Runs::Forward => 1,
        Runs::Backward => -1,
    };
    (0..=vernier.parts)
        .filter(|line| (zero + vernier.part * (line * towards)).is_multiple_of(division))
        .collect()
}

/// The same on the other half of a double vernier, whose lines stand on the other side of its zero.
pub fn coincident_lines_opposite(vernier: &Vernier, zero: Quanta, division: Quanta) -> Vec<i64> {
    let opposite = match vernier.runs {
        Runs::Forward => Runs::Backward,
        Runs::Backward => Runs::Forward,
    };
    coincident_lines(&Vernier { runs: opposite, ..vernier.clone() }, zero, division)
}

/// The line to read: the coinciding one (the first when first and last coincide), or the one that misses least.
pub(super) fn line_taken(vernier: &Vernier, zero: Quanta, division: Quanta) -> i64 {
    coincident_lines(vernier, zero, division).first().copied().unwrap_or_else(|| {
        let left = zero.left_of(division);
        (left + left + vernier.least_count).passed(vernier.least_count + vernier.least_count)
    })
}
