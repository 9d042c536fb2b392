//! Chances: what so many right of so many say, and what a rule lets through.

use super::progress::Interval;

/// The chance of exactly `right` of `of` when each is right with `accuracy`.
pub fn exactly(right: u32, of: u32, accuracy: f64) -> f64 {
    if right > of {
        return 0.0;
    }
    if accuracy <= 0.0 || accuracy >= 1.0 {
        let sure = if accuracy <= 0.0 { 0 } else { of };
        return f64::from(u8::from(right == sure));
    }
    let (p, q) = (accuracy.ln(), (1.0 - accuracy).ln());
    let ways: f64 = (1..=right).map(|n| (f64::from(of - right + n) / f64::from(n)).ln()).sum();
    (ways + f64::from(right) * p + f64::from(of - right) * q).exp()
}

/// The chance of `least` or more of `of` when each is right with `accuracy`.
pub fn at_least(least: u32, of: u32, accuracy: f64) -> f64 {
    if least > of || accuracy <= 0.0 || accuracy >= 1.0 {
        return f64::from(u8::from(least == 0 || (accuracy >= 1.0 && least <= of)));
    }
    let odds = accuracy / (1.0 - accuracy);
    // From the likeliest one up and down: where it begins at an end, the first chance may be too small for a number.
    let likeliest = (0..=of).find(|right| odds * f64::from(of - right) <= f64::from(right + 1)).unwrap_or(of);
    let start = likeliest.clamp(least, of);
    let at_start = exactly(start, of, accuracy);
    let (mut sum, mut one) = (at_start, at_start);
    for right in start..of {
        one *= odds * f64::from(of - right) / f64::from(right + 1);
        sum += one;
    }
    one = at_start;
    for right in (least..start).rev() {
        one *= f64::from(right + 1) / (odds * f64::from(of - right));
        sum += one;
    }
    sum.min(1.0)
}

/// The exact interval of Clopper and Pearson for the share right, `outside` being what is left out at both ends together.
pub fn exact_interval(right: u32, of: u32, outside: f64) -> Option<Interval> {
    if of == 0 || right > of {
        return None;
    }
    let tail = outside / 2.0;
    // The chance of so many or more grows with the accuracy, that of so many or fewer falls.
    let low = if right == 0 { 0.0 } else { root(|p| at_least(right, of, p) - tail) };
    let high = if right == of { 1.0 } else { root(|p| tail - (1.0 - at_least(right + 1, of, p))) };
    Some(Interval { low, high })
}

/// Where a function that grows from 0 to 1 passes nought.
fn root(grows: impl Fn(f64) -> f64) -> f64 {
    let (mut low, mut high) = (0.0_f64, 1.0_f64);
    for _ in 0..60 {
        let middle = low.midpoint(high);
        if grows(middle) < 0.0 {
            low = middle;
        } else {
            high = middle;
        }
    }
    low.midpoint(high)
}

/// How often a reader makes slips of the two kinds, each a share of all readings.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Slips {
    /// A turn, a half line, a whole inch: scrap.
    pub gross: f64,
    /// A line.
    pub fine: f64,
}

/// The chance that such a reader has no gross slip and `least` right in `of` readings.
pub fn passes(slips: Slips, least: u32, of: u32) -> f64 {
    let clean = 1.0 - slips.gross;
    if clean <= 0.0 {
        return 0.0;
    }
    clean.powf(f64::from(of)) * at_least(least, of, 1.0 - slips.fine / clean)
}

/// The middle of some numbers, halfway between the two middle ones; `None` of none.
pub fn middle(numbers: &[f64]) -> Option<f64> {
    share_below(numbers, 0.5)
}

/// The number that this share of all lies below, between neighbours in proportion; `None` of none.
pub fn share_below(numbers: &[f64], share: f64) -> Option<f64> {
    let mut sorted = numbers.to_vec();
    sorted.sort_by(f64::total_cmp);
    let last = sorted.len().checked_sub(1)?;
    let mut place = share.clamp(0.0, 1.0) * f64::from(u32::try_from(last).ok()?);
    let mut below = 0;
    while place >= 1.0 && below < last {
        place -= 1.0;
        below += 1;
    }
    let next = sorted[(below + 1).min(last)];
    Some(sorted[below] + place * (next - sorted[below]))
}

/// The spread of some numbers about their own means, group by group: the standard deviation, or `None` where fewer than two
/// are left to judge by.
pub fn spread(groups: &[Vec<f64>]) -> Option<f64> {
    let (mut squares, mut freedom) = (0.0, 0_u32);
    for group in groups.iter().filter(|group| group.len() > 1) {
        let count = u32::try_from(group.len()).ok()?;
        let mean = group.iter().sum::<f64>() / f64::from(count);
        squares += group.iter().map(|number| (number - mean).powi(2)).sum::<f64>();
        freedom += count - 1;
    }
    (freedom > 0).then(|| (squares / f64::from(freedom)).sqrt())
}

#[cfg(test)]
mod tests {
    use super::*;
    use statrs::distribution::{Beta, Binomial, ContinuousCDF, Discrete, DiscreteCDF};

    /// Source: NIST/SEMATECH e-Handbook of Statistical Methods, section 7.2.4.1: 4 of 20, exact 90 % limits 0.071354 and
    /// 0.401029 (its root finder was loose: the upper limit is 0.4010281).
    #[test]
    fn exact_interval_of_the_handbook() {
        let found = exact_interval(4, 20, 0.10).expect("answers");
        assert!((found.low - 0.071_354).abs() < 2e-6, "{found:?}");
        assert!((found.high - 0.401_029).abs() < 2e-6, "{found:?}");
    }

    /// Source: R. G. Newcombe, Statistics in Medicine 17 (1998), Table I, method 5 (Clopper-Pearson), 95 %; from memory, and
    /// recomputed to four decimals.
    #[test]
    fn exact_intervals_of_newcombes_table() {
        for (right, of, low, high) in [
            (81, 263, 0.2527, 0.3676),
            (15, 148, 0.0578, 0.1617),
            (0, 20, 0.0000, 0.1684),
            (1, 29, 0.0009, 0.1776),
        ] {
            let found = exact_interval(right, of, 0.05).expect("answers");
            assert!((found.low - low).abs() <= 0.000_05, "{right}/{of}: {found:?}");
            assert!((found.high - high).abs() <= 0.000_05, "{right}/{of}: {found:?}");
        }
        // All of 30: the one-sided 95 % lower limit is 0.05 to the power of 1/30.
        let all = exact_interval(30, 30, 0.10).expect("answers");
        assert!((all.low - 0.05_f64.powf(1.0 / 30.0)).abs() < 1e-12 && all.high > 0.999_999, "{all:?}");
        assert_eq!(exact_interval(0, 0, 0.05), None);
    }

    /// Source: NIST/SEMATECH e-Handbook, section 6.2.3.2: the plan of 52 items, at most 3 bad; the chance of acceptance at bad
    /// shares of 0.01 to 0.06, to three decimals (0.04 and 0.05 are exactly 0.8460 and 0.7383: a unit of the last place off).
    #[test]
    fn acceptance_of_the_handbooks_plan() {
        for (bad, accepted) in
            [(0.01, 0.998), (0.02, 0.980), (0.03, 0.930), (0.04, 0.845), (0.05, 0.739), (0.06, 0.620)]
        {
            let found = at_least(49, 52, 1.0 - bad);
            assert!((found - accepted).abs() < 1.1e-3, "{bad}: {found}");
        }
    }

    /// Source: section C3 of the project's notes on measurement (computed there with another program): the chance to pass a
    /// fixed-length check at a true accuracy, to four decimals.
    #[test]
    fn operating_characteristics() {
        for (of, least, chances) in [
            (10, 9, [0.0107, 0.1493, 0.3758, 0.7361, 0.9139, 0.9838]),
            (20, 19, [0.0000, 0.0076, 0.0692, 0.3917, 0.7358, 0.9401]),
            (30, 28, [0.0000, 0.0021, 0.0442, 0.4114, 0.8122, 0.9783]),
            (40, 38, [0.0000, 0.0001, 0.0079, 0.2228, 0.6767, 0.9543]),
            (100, 95, [0.0000, 0.0000, 0.0000, 0.0576, 0.6160, 0.9845]),
        ] {
            for (accuracy, chance) in [0.50, 0.70, 0.80, 0.90, 0.95, 0.98].into_iter().zip(chances) {
                let found = at_least(least, of, accuracy);
                assert!((found - chance).abs() <= 0.000_05, "{least}/{of} at {accuracy}: {found}");
            }
        }
    }

    #[test]
    #[allow(clippy::float_cmp)]
    fn agrees_with_statrs() {
        for of in [1_u32, 2, 7, 20, 40, 50, 263] {
            for accuracy in [0.01, 0.5, 0.8, 0.95, 0.98, 0.999] {
                let other = Binomial::new(accuracy, u64::from(of)).expect("a distribution");
                for right in 0..=of {
                    let at = u64::from(right);
                    assert!((exactly(right, of, accuracy) - other.pmf(at)).abs() < 1e-11, "{right}/{of}");
                    let tail = if right == 0 { 1.0 } else { other.sf(at - 1) };
                    assert!((at_least(right, of, accuracy) - tail).abs() < 1e-11, "{right}/{of} {accuracy}");
                }
            }
            for right in 0..=of {
                let found = exact_interval(right, of, 0.05).expect("answers");
                let (x, n) = (f64::from(right), f64::from(of));
                if right > 0 {
                    let low = Beta::new(x, n - x + 1.0).expect("a distribution").inverse_cdf(0.025);
                    assert!((found.low - low).abs() < 1e-9, "{right}/{of} {found:?} {low}");
                }
                if right < of {
                    let high = Beta::new(x + 1.0, n - x).expect("a distribution").inverse_cdf(0.975);
                    assert!((found.high - high).abs() < 1e-9, "{right}/{of} {found:?} {high}");
                }
            }
        }
        assert_eq!((exactly(0, 5, 0.0), exactly(5, 5, 1.0), exactly(6, 5, 0.5)), (1.0, 1.0, 0.0));
    }

    /// Two kinds of slips against a count of every outcome.
    #[test]
    fn two_kinds_of_slips() {
        let slips = Slips { gross: 0.05, fine: 0.10 };
        // Three readings, at least two right, none gross: three right, or one fine of three.
        let (right, fine) = (0.85_f64, 0.10);
        let counted = right.powi(3) + 3.0 * right.powi(2) * fine;
        assert!((passes(slips, 2, 3) - counted).abs() < 1e-12);
        // Without gross slips it is the plain rule.
        let tired = Slips { gross: 0.0, fine: 0.05 };
        assert!((passes(tired, 38, 40) - at_least(38, 40, 0.95)).abs() < 1e-12);
        let reckless = Slips { gross: 1.0, fine: 0.0 };
        assert!(passes(reckless, 38, 40) < 1e-12);
    }

    #[test]
    fn middles_and_spreads() {
        let near = |a: Option<f64>, b: f64| a.is_some_and(|a| (a - b).abs() < 1e-12);
        assert_eq!(middle(&[]), None);
        assert!(
            near(middle(&[3.0]), 3.0)
                && near(middle(&[9.0, 1.0, 4.0]), 4.0)
                && near(middle(&[1.0, 2.0]), 1.5)
        );
        assert!(near(share_below(&[0.0, 1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 7.0, 8.0, 9.0, 10.0], 0.9), 9.0));
        assert!(near(share_below(&[1.0, 2.0], 1.0), 2.0));
        assert_eq!(spread(&[vec![1.0], vec![]]), None);
        // Source: NIST StRD univariate, NumAcc1 (10000001, 10000003, 10000002): the certified standard deviation is 1.
        assert!(near(spread(&[vec![10_000_001.0, 10_000_003.0, 10_000_002.0]]), 1.0));
        // Source: NIST/SEMATECH e-Handbook, section 2.4.4, the same pooling of wafers: sums of squares over degrees of freedom.
        assert!(near(spread(&[vec![1.0, 3.0], vec![10.0, 14.0]]), 5.0_f64.sqrt()));
    }
}
