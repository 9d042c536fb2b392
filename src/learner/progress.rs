//! How a learner is getting on: a pure function of the attempts, in the order they were made.
//!
//! A skipped question is no answer. An answer right in value is right. Order is the order of the slice (the store's sequence),
//! never that of the clock.

use super::summary::{Answer, Kept, Summary};
use crate::drill::Kind;
use crate::drill::record::Attempt;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// The normal deviate of a two-sided 95 % interval.
pub const Z_95: f64 = 1.959_963_984_540_054;
/// How many of the latest answers the misreads are counted over, and the times.
pub const LATEST: usize = 40;
/// How many answers make a block.
pub const BLOCK: usize = 10;

/// All of a learner's progress.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Progress {
    /// One entry an instrument, in the order they were first met.
    pub instruments: Vec<InstrumentProgress>,
    /// One entry a day with answers, in the order of the calendar.
    pub days: Vec<Day>,
    /// Answers whose record bears no date; they stand in no day.
    pub undated: u32,
}

/// Progress on one instrument.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct InstrumentProgress {
    /// The instrument's id.
    pub instrument: String,
    /// How many answers were given, and how many were right.
    pub score: Score,
    /// Questions passed over.
    pub skipped: u32,
    /// The 95 % Wilson interval of the share right; `None` without an answer.
    pub interval: Option<Interval>,
    /// The median time of the right ones among the last [`LATEST`] answers, in milliseconds; `None` without one.
    pub median_ms: Option<u64>,
    /// Misreads among the last [`LATEST`] answers, the most frequent first.
    pub misreads: Vec<MisreadCount>,
    /// When the last attempt was recorded (UTC, RFC 3339, as the record has it).
    pub last_at: String,
    /// The score of each run of [`BLOCK`] answers; the last block may hold fewer.
    pub blocks: Vec<Score>,
    /// The score of each other kind of question.
    #[serde(rename = "kinds")]
    pub others: BTreeMap<Kind, Score>,
}

impl InstrumentProgress {
    /// The score of a kind of question.
    pub fn score_of(&self, kind: Kind) -> Score {
        match kind {
            Kind::Read => self.score,
            other => self.others.get(&other).copied().unwrap_or_default(),
        }
    }
}

/// So many right of so many.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Score {
    /// Answers given.
    pub answered: u32,
    /// Those that were right.
    pub right: u32,
}

/// A range of shares, from 0 to 1.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Interval {
    /// Lower limit.
    pub low: f64,
    /// Upper limit.
    pub high: f64,
}

/// How often a misread happened.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct MisreadCount {
    /// The misread's id.
    pub id: String,
    /// In how many answers.
    pub count: u32,
}

/// The answers of one UTC day.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Day {
    /// The date: `2026-03-09`.
    pub date: String,
    /// The answers.
    pub score: Score,
}

impl Score {
    /// Counts one more.
    pub fn add(&mut self, right: bool) {
        self.answered += 1;
        self.right += u32::from(right);
    }

    /// The share right, from 0 to 1; `None` without an answer.
    pub fn share(self) -> Option<f64> {
        (self.answered > 0).then(|| f64::from(self.right) / f64::from(self.answered))
    }

    /// The Wilson score interval of the share right at the normal deviate `z` (two-sided 95 %: [`Z_95`]); `None` without an
    /// answer.
    pub fn wilson(self, z: f64) -> Option<Interval> {
        let share = self.share()?;
        let n = f64::from(self.answered);
        let widen = 1.0 + z * z / n;
        let centre = (share + z * z / (2.0 * n)) / widen;
        let half = z * (share * (1.0 - share) / n + z * z / (4.0 * n * n)).sqrt() / widen;
        // At the ends the limit is the end itself; the formula leaves a rest of rounding there.
        let low = if self.right == 0 { 0.0 } else { (centre - half).max(0.0) };
        let high = if self.right == self.answered { 1.0 } else { (centre + half).min(1.0) };
        Some(Interval { low, high })
    }
}

/// What the attempts of one learner say, all instruments.
pub fn progress(attempts: &[Attempt]) -> Progress {
    of_summary(&Summary::of(attempts))
}

/// The same from what is kept of them.
pub fn of_summary(summary: &Summary) -> Progress {
    Progress {
        instruments: summary.instruments.iter().map(of_instrument).collect(),
        days: summary.days.iter().map(|(date, score)| Day { date: date.clone(), score: *score }).collect(),
        undated: summary.undated,
    }
}

fn of_instrument(kept: &Kept) -> InstrumentProgress {
    let window = kept.latest.len().saturating_sub(LATEST);
    let latest: Vec<&Answer> = kept.latest.iter().skip(window).collect();
    InstrumentProgress {
        instrument: kept.instrument.clone(),
        score: kept.score,
        skipped: kept.skipped,
        interval: kept.score.wilson(Z_95),
        median_ms: median(latest.iter().filter(|answer| answer.right).map(|answer| answer.took_ms).collect()),
        misreads: latest_misreads(&latest),
        last_at: kept.last_at.clone(),
        blocks: kept.all_blocks().collect(),
        others: kept.others.clone(),
    }
}

/// What most particularly explains an answer counts, once an answer.
fn latest_misreads(answers: &[&Answer]) -> Vec<MisreadCount> {
    let mut counts: BTreeMap<&str, u32> = BTreeMap::new();
    for id in answers.iter().filter_map(|answer| answer.slip.as_deref()) {
        *counts.entry(id).or_default() += 1;
    }
    let mut counts: Vec<_> =
        counts.into_iter().map(|(id, count)| MisreadCount { id: id.to_owned(), count }).collect();
    // A stable sort: equal counts stay in the order of their ids.
    counts.sort_by_key(|misread| std::cmp::Reverse(misread.count));
    counts
}

/// The middle one, or the whole number halfway between the two middle ones (rounded down).
pub(super) fn median(mut times: Vec<u64>) -> Option<u64> {
    times.sort_unstable();
    let upper = *times.get(times.len() / 2)?;
    Some(if times.len() % 2 == 1 { upper } else { times[times.len() / 2 - 1].midpoint(upper) })
}

/// The date of an RFC 3339 time in UTC: its first ten characters, if they are a date.
pub fn date_of(at: &str) -> Option<&str> {
    let date = at.get(..10)?;
    let dated = date.bytes().enumerate().all(|(n, byte)| match n {
        4 | 7 => byte == b'-',
        _ => byte.is_ascii_digit(),
    });
    dated.then_some(date)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drill::record::{Asks, Verdict, View};

    fn attempt(instrument: &str, verdict: Verdict, took_ms: u64, misreads: &[&str]) -> Attempt {
        Attempt {
            learner: "me".to_owned(),
            at: "2026-03-09T07:30:00Z".to_owned(),
            instrument: instrument.to_owned(),
            revision: "5f1c".to_owned(),
            generator: 1,
            seed: 7,
            number: 1,
            variant: String::new(),
            conditions: String::new(),
            kind: Kind::Read,
            given: String::new(),
            asks: Asks::Reading,
            setting: "0.286 in".to_owned(),
            zero_error: "0 in".to_owned(),
            view: View::Flat,
            glass: false,
            lines: "thin".to_owned(),
            cols: 80,
            rows: 24,
            answer: "0.286".to_owned(),
            expected: "0.286 in".to_owned(),
            verdict,
            misreads: misreads.iter().map(|&id| id.to_owned()).collect(),
            took_ms,
        }
    }

    fn on(at: &str, verdict: Verdict) -> Attempt {
        Attempt { at: at.to_owned(), ..attempt("rule-metric", verdict, 1, &[]) }
    }

    /// The interval agrees with a published one of four decimals.
    fn agrees(right: u32, answered: u32, low: f64, high: f64) {
        let interval = Score { answered, right }.wilson(Z_95).expect("there are answers");
        assert!((interval.low - low).abs() <= 0.000_05, "{right}/{answered}: {interval:?}");
        assert!((interval.high - high).abs() <= 0.000_05, "{right}/{answered}: {interval:?}");
    }

    /// Source: R. G. Newcombe, "Two-sided confidence intervals for the single proportion: comparison of seven methods",
    /// Statistics in Medicine 17 (1998), Table I, method 3 (score, without continuity correction), 95 %.
    #[test]
    fn wilson_agrees_with_newcombes_table() {
        agrees(81, 263, 0.2553, 0.3662);
        agrees(15, 148, 0.0624, 0.1605);
        agrees(0, 20, 0.0000, 0.1611);
        agrees(1, 29, 0.0061, 0.1718);
    }

    /// Source: NIST/SEMATECH e-Handbook of Statistical Methods, section 7.2.4.1: 26 of 200, z = 1.645, the one-sided 95 % lower
    /// limit is 0.09577.
    #[test]
    fn wilson_agrees_with_the_nist_handbook() {
        let interval = Score { answered: 200, right: 26 }.wilson(1.645).expect("there are answers");
        assert!((interval.low - 0.095_77).abs() <= 0.000_005, "{interval:?}");
    }

    #[test]
    fn wilson_stays_between_its_ends() {
        assert_eq!(Score::default().wilson(Z_95), None);
        for answered in 1..=120 {
            for right in 0..=answered {
                let score = Score { answered, right };
                let (Some(share), Some(interval)) = (score.share(), score.wilson(Z_95)) else {
                    panic!("there are answers");
                };
                assert!(0.0 <= interval.low && interval.low <= share, "{score:?} {interval:?}");
                assert!(share <= interval.high && interval.high <= 1.0, "{score:?} {interval:?}");
                // Seen from the other side: wrong of all instead of right of all.
                let wrong = Score { answered, right: answered - right }.wilson(Z_95).expect("answers");
                assert!((wrong.low - (1.0 - interval.high)).abs() < 1e-12, "{score:?}");
            }
        }
    }

    #[test]
    fn nothing_yet() {
        assert_eq!(progress(&[]), Progress::default());
        let only_skipped = progress(&[attempt("rule-metric", Verdict::Skipped, 9, &[])]);
        let rule = &only_skipped.instruments[0];
        assert_eq!((rule.score, rule.skipped), (Score::default(), 1));
        assert_eq!((rule.interval, rule.median_ms), (None, None));
        assert!(rule.blocks.is_empty());
        assert!(only_skipped.days.is_empty());
    }

    #[test]
    fn counting_one_instrument_beside_another() {
        let of = progress(&[
            attempt("rule-metric", Verdict::Right, 3_000, &[]),
            attempt("caliper-metric-50", Verdict::Other, 1, &[]),
            attempt("rule-metric", Verdict::Skipped, 1, &[]),
            attempt("rule-metric", Verdict::RightValue, 6_001, &[]),
            attempt("rule-metric", Verdict::Misread, 1, &["next-line"]),
            attempt("rule-metric", Verdict::Right, 4_000, &[]),
            attempt("rule-metric", Verdict::Right, 9_000, &[]),
        ]);
        let ids: Vec<_> = of.instruments.iter().map(|i| i.instrument.as_str()).collect();
        assert_eq!(ids, ["rule-metric", "caliper-metric-50"]);
        let rule = &of.instruments[0];
        assert_eq!(rule.score, Score { answered: 5, right: 4 });
        assert_eq!(rule.score.share(), Some(0.8));
        assert_eq!(rule.skipped, 1);
        assert_eq!(rule.median_ms, Some(5_000));
        assert_eq!(rule.last_at, "2026-03-09T07:30:00Z");
        assert_eq!(of.instruments[1].median_ms, None);
        assert_eq!(of.days[0].score, Score { answered: 6, right: 4 });
    }

    #[test]
    fn medians() {
        assert_eq!(median(vec![]), None);
        assert_eq!(median(vec![5]), Some(5));
        assert_eq!(median(vec![9, 1, 5]), Some(5));
        assert_eq!(median(vec![u64::MAX, u64::MAX - 2]), Some(u64::MAX - 1));
    }

    #[test]
    fn blocks_of_ten() {
        let attempts: Vec<_> = (0..23)
            .map(|n| {
                let verdict = if n < 10 && n % 2 == 0 { Verdict::Other } else { Verdict::Right };
                attempt("rule-metric", verdict, 1, &[])
            })
            .collect();
        let blocks = &progress(&attempts).instruments[0].blocks;
        let pairs: Vec<_> = blocks.iter().map(|b| (b.right, b.answered)).collect();
        assert_eq!(pairs, [(5, 10), (10, 10), (3, 3)]);
    }

    #[test]
    fn only_the_latest_misreads_count() {
        let mut attempts = vec![attempt("rule-metric", Verdict::Misread, 1, &["old"]); 5];
        attempts.extend(vec![attempt("rule-metric", Verdict::Right, 1, &[]); 36]);
        attempts.push(attempt("rule-metric", Verdict::Misread, 1, &["b", "a", "b"]));
        attempts.push(attempt("rule-metric", Verdict::Skipped, 1, &[]));
        attempts.push(attempt("rule-metric", Verdict::Misread, 1, &["c"]));
        attempts.push(attempt("rule-metric", Verdict::Misread, 1, &["c"]));
        let misreads = progress(&attempts).instruments[0].misreads.clone();
        let pairs: Vec<_> = misreads.iter().map(|m| (m.id.as_str(), m.count)).collect();
        assert_eq!(pairs, [("c", 2), ("b", 1), ("old", 1)]);
    }

    #[test]
    fn days_follow_the_calendar_and_survive_a_wrong_clock() {
        let of = progress(&[
            on("2026-03-10T00:00:01Z", Verdict::Right),
            on("2026-03-09T23:59:59Z", Verdict::Other),
            on("2026-03-10T07:00:00Z", Verdict::Skipped),
            on("yesterday", Verdict::Right),
            on("1970-01-01T00:00:00Z", Verdict::Right),
        ]);
        let days: Vec<_> =
            of.days.iter().map(|d| (d.date.as_str(), d.score.right, d.score.answered)).collect();
        assert_eq!(days, [("1970-01-01", 1, 1), ("2026-03-09", 0, 1), ("2026-03-10", 1, 1)]);
        assert_eq!(of.undated, 1);
        assert_eq!(of.instruments[0].last_at, "1970-01-01T00:00:00Z");
        assert_eq!(date_of("2026-03-0\u{fc}"), None);
    }
}
