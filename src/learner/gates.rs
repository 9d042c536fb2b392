//! Whether readings on an instrument can be relied on: right, without gross slips, repeating, quick, steady, and nothing known to
//! go wrong still happening. Computed from the latest answers.
//!
//! Numbers are common practice; they are to be tuned when answers of real apprentices are known.

use super::chance::{Slips, middle, passes, share_below, spread};
use super::facet::{Facet, Grade, facet_of, grade, line_worth};
use super::progress::{Interval, Score, Z_95};
use super::repair::found;
use super::summary::{Answer, Kept, PAIRS};
use crate::exact::Exact;
use crate::instrument::{Form, Instrument, Tenths};
use serde::{Deserialize, Serialize};

/// How many of the latest answers are judged.
pub const WINDOW: u32 = 40;
/// On how many days they must have been given.
pub const SPREAD_DAYS: u32 = 3;
/// Pairs of the latest twenty that must agree.
const AGREEING: u32 = 18;
/// Right answers of one kind of view before its times are judged.
const TIMED: usize = 10;
/// How far the times may be spread, as standard deviation of their logarithms; and up to where it is nearly good.
const STEADY: f64 = 0.40;
const NEARLY: f64 = 0.50;
/// How far two readings of the same setting may differ, in lines, on the root of the mean square within pairs.
const WITHIN: f64 = 0.3;
/// Pairs further apart than this many lines are a slip, counted as such and not here.
const APART: f64 = 5.0;
/// Right answers in a row that make good a lapse.
const MADE_GOOD: usize = 20;
/// The glass takes its time: so much more is allowed with it.
const WITH_GLASS: f64 = 1.5;

/// How a gate stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Standing {
    /// Passed.
    Met,
    /// Nearly.
    Nearly,
    /// Too little is known yet.
    Open,
    /// Not passed.
    Short,
}

/// The gates of one instrument.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Gates {
    /// Enough right of the latest.
    pub right: Right,
    /// No gross slip among them.
    pub gross: Gross,
    /// The same setting read the same again.
    pub repeats: Repeats,
    /// In time; open until the answers are right.
    pub quick: Quick,
    /// Times evenly spread.
    pub steady: Steady,
    /// Nothing known still happens.
    pub clear: Clear,
    /// The worst of all.
    pub standing: Standing,
}

/// The first gate.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Right {
    /// How it stands.
    pub standing: Standing,
    /// Of the latest answers.
    pub score: Score,
    /// Its 95 % Wilson interval.
    pub interval: Option<Interval>,
    /// How many of [`WINDOW`] are wanted.
    pub wanted: u32,
    /// On how many days they were given.
    pub days: u32,
}

/// The gate against scrap.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Gross {
    /// How it stands.
    pub standing: Standing,
    /// Gross slips among the latest answers.
    pub gross: u32,
    /// Fine ones.
    pub fine: u32,
}

/// Agreement on the same setting.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Repeats {
    /// How it stands.
    pub standing: Standing,
    /// Pairs, at most twenty.
    pub pairs: u32,
    /// Pairs read the same.
    pub agree: u32,
    /// The standard deviation within pairs, in lines; none without a pair.
    pub within: Option<f64>,
}

/// Times against the target.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Quick {
    /// How it stands.
    pub standing: Standing,
    /// The target in seconds.
    pub target: f64,
    /// Of readings without the glass.
    pub bare: Option<Times>,
    /// Of readings with it, which may take half as long again.
    pub glass: Option<Times>,
}

/// Times of right answers in seconds.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Times {
    /// The median.
    pub median: f64,
    /// What nine in ten stay under.
    pub ninth: f64,
    /// How many.
    pub count: usize,
}

/// The spread of the times.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Steady {
    /// How it stands.
    pub standing: Standing,
    /// The standard deviation of the logarithms.
    pub spread: Option<f64>,
}

/// What still happens.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Clear {
    /// How it stands.
    pub standing: Standing,
    /// The misread named last that has not been repaired.
    pub still: Option<String>,
    /// A lapse that has not been made good: the step missed twice in a row.
    pub lapse: Option<Facet>,
}

/// The time a right reading may take.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Target(pub f64);

impl Target {
    /// What an instructor set, else what is usual for such a tool: 15 s with thimble and vernier, 12 s with a vernier, else 10 s.
    pub fn of(instrument: &Instrument) -> Self {
        if let Some(Tenths(tenths)) = instrument.target {
            return Self(f64::from(tenths) / 10.0);
        }
        let has = |wanted: fn(&Form) -> bool| instrument.stages.iter().any(|stage| wanted(&stage.form));
        let vernier = has(|form| matches!(form, Form::Vernier(_)));
        let thimble = has(|form| matches!(form, Form::Drum(_)));
        Self(match (vernier, thimble) {
            (true, true) => 15.0,
            (true, false) => 12.0,
            (false, _) => 10.0,
        })
    }
}

/// The milliseconds that a right reading may take.
pub fn allowed_ms(target: Target, glass: bool) -> u64 {
    let seconds = if glass { target.0 * WITH_GLASS } else { target.0 };
    u64::try_from(std::time::Duration::from_secs_f64(seconds).as_millis()).unwrap_or(u64::MAX)
}

/// How many right of [`WINDOW`] are wanted: two may be wrong, four where a vernier is read, none of them grossly.
pub fn wanted(instrument: &Instrument) -> u32 {
    let vernier = instrument.stages.iter().any(|stage| matches!(stage.form, Form::Vernier(_)));
    if vernier { 36 } else { 38 }
}

/// The chance that someone who slips grossly, and someone who is a line off, once in so many readings, passes both gates of
/// accuracy: the two risks of the rule.
pub fn risks(instrument: &Instrument, once_in: u32) -> (f64, f64) {
    let rate = 1.0 / f64::from(once_in.max(1));
    let through = |gross, fine| passes(Slips { gross, fine }, wanted(instrument), WINDOW);
    (through(rate, 0.0), through(0.0, rate))
}

/// The gates, from what is kept of the answers on an instrument.
pub fn gates(instrument: &Instrument, kept: &Kept, target: Target) -> Gates {
    let window = usize::try_from(WINDOW).unwrap_or(usize::MAX);
    let latest: Vec<&Answer> = kept.latest.iter().skip(kept.latest.len().saturating_sub(window)).collect();
    let (right, gross) = (right(instrument, &latest), gross(instrument, &latest));
    let repeats = repeats(instrument, kept);
    let times = [false, true].map(|glass| {
        let timed = latest.iter().filter(|answer| answer.right && answer.glass == glass);
        timed.map(|answer| seconds(answer.took_ms)).collect::<Vec<f64>>()
    });
    // Time never counts before the answers are right.
    let accurate = right.standing == Standing::Met && gross.standing == Standing::Met;
    let quick = quick(&times, target, accurate);
    let steady = steady(&times, accurate);
    let clear = clear(instrument, kept, &latest);
    let all =
        [right.standing, gross.standing, repeats.standing, quick.standing, steady.standing, clear.standing];
    let standing = all.into_iter().max().unwrap_or(Standing::Open);
    Gates { right, gross, repeats, quick, steady, clear, standing }
}

fn right(instrument: &Instrument, latest: &[&Answer]) -> Right {
    let mut score = Score::default();
    for answer in latest {
        score.add(answer.right);
    }
    let mut days: Vec<_> = latest.iter().filter_map(|answer| answer.day).collect();
    days.sort_unstable();
    days.dedup();
    let (days, wanted) = (count(days.len()), wanted(instrument));
    let wrong = score.answered - score.right;
    let standing = if wrong > WINDOW - wanted {
        Standing::Short
    } else if score.answered < WINDOW || days < SPREAD_DAYS {
        Standing::Open
    } else {
        Standing::Met
    };
    Right { standing, score, interval: score.wilson(Z_95), wanted, days }
}

fn gross(instrument: &Instrument, latest: &[&Answer]) -> Gross {
    let graded =
        |wanted: Grade| count(latest.iter().filter(|a| grade(a, instrument) == Some(wanted)).count());
    let (gross, fine) = (graded(Grade::Gross), graded(Grade::Fine));
    let standing = if gross > 0 {
        Standing::Short
    } else if count(latest.len()) < WINDOW {
        Standing::Open
    } else {
        Standing::Met
    };
    Gross { standing, gross, fine }
}

fn repeats(instrument: &Instrument, kept: &Kept) -> Repeats {
    let line = instrument.value(line_worth(instrument)) - instrument.value(crate::exact::Quanta::ZERO);
    let apart: Vec<Option<f64>> = kept
        .pairs
        .iter()
        .map(|pair| {
            pair.map(|(over, under)| in_lines(Exact::ratio(i128::from(over), i128::from(under)), line))
        })
        .collect();
    let agree = count(apart.iter().filter(|apart| apart.is_some_and(|lines| lines == 0.0)).count());
    let pairs = count(apart.len());
    let near: Vec<f64> = apart.iter().flatten().copied().filter(|lines| lines.abs() <= APART).collect();
    let within = (!near.is_empty()).then(|| {
        let squares: f64 = near.iter().map(|lines| lines * lines).sum();
        (squares / (2.0 * f64::from(count(near.len())))).sqrt()
    });
    let disagree = pairs - agree;
    let wide = within.is_some_and(|within| within > WITHIN);
    let all = count(PAIRS);
    let standing = if disagree > all - AGREEING || (pairs == all && wide) {
        Standing::Short
    } else if pairs < all {
        Standing::Open
    } else {
        Standing::Met
    };
    Repeats { standing, pairs, agree, within }
}

fn in_lines(value: Exact, line: Exact) -> f64 {
    let lines = value.over(line);
    let part = |n: i128| i32::try_from(n).map_or(f64::MAX, f64::from);
    part(lines.numerator()) / part(lines.denominator())
}

fn quick(times: &[Vec<f64>; 2], target: Target, accurate: bool) -> Quick {
    let [bare, glass] = times.each_ref().map(|times| {
        let logs: Vec<f64> = times.iter().map(|time| time.ln()).collect();
        let (median, ninth) = (middle(&logs)?.exp(), share_below(&logs, 0.9)?.exp());
        Some(Times { median, ninth, count: times.len() })
    });
    let judged =
        [(bare, target.0), (glass, target.0 * WITH_GLASS)].into_iter().filter_map(|(times, target)| {
            times.filter(|times| times.count >= TIMED).map(|times| (times, target))
        });
    let standings: Vec<Standing> = judged
        .map(|(times, target)| {
            let in_time = times.median <= target && times.ninth <= 2.0 * target;
            if in_time { Standing::Met } else { Standing::Short }
        })
        .collect();
    let standing = standings.into_iter().max().filter(|_| accurate).unwrap_or(Standing::Open);
    Quick { standing, target: target.0, bare, glass }
}

fn steady(times: &[Vec<f64>; 2], accurate: bool) -> Steady {
    let logs = times.each_ref().map(|times| times.iter().map(|time| time.ln()).collect::<Vec<f64>>());
    let enough = times.iter().any(|times| times.len() >= TIMED);
    let spread = spread(&logs).filter(|_| enough);
    let standing = match spread.filter(|_| accurate) {
        None => Standing::Open,
        Some(spread) if spread <= STEADY => Standing::Met,
        Some(spread) if spread <= NEARLY => Standing::Nearly,
        Some(_) => Standing::Short,
    };
    Steady { standing, spread }
}

fn clear(instrument: &Instrument, kept: &Kept, latest: &[&Answer]) -> Clear {
    let all: Vec<&Answer> = kept.latest.iter().collect();
    // What was made good by a clean run happens no longer.
    let clean = all.iter().rev().take_while(|answer| answer.right).count();
    let open = clean < MADE_GOOD;
    let found = if open { found(instrument, kept) } else { Vec::new() };
    let last_of_it = |n: usize| found[n + 1..].iter().all(|later| later.id != found[n].id);
    let still = (0..found.len()).rev().find(|n| !found[*n].is_clear && last_of_it(*n)).map(|n| found[n].id);
    let lapse = if open { lapse(instrument, &all) } else { None };
    let standing = if still.is_some() || lapse.is_some() {
        Standing::Short
    } else if count(latest.len()) < WINDOW || !found.is_empty() {
        // What was repaired is made good by a clean run.
        Standing::Open
    } else {
        Standing::Met
    };
    Clear { standing, still: still.map(str::to_owned), lapse }
}

/// The step last missed twice in a row since the last clean run.
fn lapse(instrument: &Instrument, all: &[&Answer]) -> Option<Facet> {
    let step =
        |answer: &Answer| answer.slip.as_deref().map_or(Facet::Reading, |slip| facet_of(slip, instrument));
    let mut clean = 0;
    for pair in all.windows(2).rev() {
        clean = if pair[1].right { clean + 1 } else { 0 };
        if clean >= MADE_GOOD {
            return None;
        }
        if !pair[0].right && !pair[1].right && step(pair[0]) == step(pair[1]) {
            return Some(step(pair[1]));
        }
    }
    None
}

fn seconds(ms: u64) -> f64 {
    // A reading takes a hundredth of a second at the least; its logarithm is wanted.
    f64::from(u32::try_from(ms.max(10)).unwrap_or(u32::MAX)) / 1000.0
}

fn count(n: usize) -> u32 {
    u32::try_from(n).unwrap_or(u32::MAX)
}

#[cfg(test)]
mod tests {
    use super::super::chance::at_least;
    use super::super::summary::Summary;
    use super::super::testing::{at, reading, slip, took};
    use super::*;
    use crate::drill::record::{Attempt, Verdict};
    use crate::instrument::Catalogue;

    const ID: &str = "micrometer-metric";

    fn judged(attempts: &[Attempt]) -> Gates {
        let catalogue = Catalogue::new(Vec::new());
        let tool = catalogue.get(ID).expect("shipped");
        gates(tool, Summary::of(attempts).on(ID).expect("read"), Target::of(tool))
    }

    /// Twenty settings on each of four days, all right: on the last two days those of the first two again.
    fn steady_reader() -> Vec<Attempt> {
        (0..80_u32)
            .map(|n| {
                let day = 2 + n / 20;
                let reading = took(6_000 + u64::from(n % 5) * 500, reading(ID, n % 40 * 7, Verdict::Right));
                at(&format!("2026-03-{day:02}T07:30:00Z"), reading)
            })
            .collect()
    }

    #[test]
    fn readings_that_repeat_pass_every_gate() {
        let mut all = steady_reader();
        // The window of forty lies on two days; one reading of the last is moved to a third.
        all[79].at = "2026-03-06T07:30:00Z".to_owned();
        let found = judged(&all);
        assert_eq!(found.standing, Standing::Met, "{found:#?}");
        assert_eq!((found.right.score.right, found.right.score.answered), (40, 40));
        assert_eq!((found.repeats.agree, found.repeats.pairs, found.repeats.within), (20, 20, Some(0.0)));
        assert!(found.quick.bare.is_some_and(|times| (times.median - 7.0).abs() < 1e-9), "{found:#?}");
    }

    #[test]
    fn one_gross_slip_is_enough_and_four_fine_ones_are_too_many() {
        let mut all = steady_reader();
        all[79].at = "2026-03-06T07:30:00Z".to_owned();
        let wrong = |attempt: &Attempt, answer: &str| Attempt {
            verdict: Verdict::Other,
            answer: answer.to_owned(),
            expected: "5.00 mm".to_owned(),
            ..attempt.clone()
        };
        let mut gross = all.clone();
        gross[50] = wrong(&gross[50], "5.50");
        let found = judged(&gross);
        assert_eq!((found.right.standing, found.gross.standing), (Standing::Met, Standing::Short));
        assert_eq!((found.gross.gross, found.gross.fine, found.standing), (1, 0, Standing::Short));
        // Time is not looked at before accuracy is there.
        assert_eq!((found.quick.standing, found.steady.standing), (Standing::Open, Standing::Open));
        let mut fine = all.clone();
        for n in [45, 50, 55, 60] {
            fine[n] = wrong(&fine[n], "5.01");
        }
        let found = judged(&fine);
        assert_eq!((found.right.standing, found.gross.gross, found.gross.fine), (Standing::Short, 0, 4));
    }

    #[test]
    fn slow_or_uneven_times_are_short_and_the_glass_is_timed_apart() {
        let mut all = steady_reader();
        all[79].at = "2026-03-06T07:30:00Z".to_owned();
        let mut slow = all.clone();
        for attempt in &mut slow {
            attempt.took_ms = 11_000;
        }
        assert_eq!(judged(&slow).quick.standing, Standing::Short);
        for attempt in &mut slow {
            attempt.glass = true;
        }
        let found = judged(&slow);
        assert_eq!((found.quick.standing, found.quick.bare), (Standing::Met, None));
        let mut uneven = all;
        for attempt in uneven.iter_mut().step_by(2) {
            attempt.took_ms = 2_000;
        }
        let found = judged(&uneven);
        assert_eq!(found.steady.standing, Standing::Short, "{found:#?}");
    }

    #[test]
    fn what_was_seen_twice_still_happens_until_twenty_clean_readings() {
        let mut all = steady_reader();
        // 0.70 and 0.77, read as 0.20 and 0.27.
        for (n, answer) in [(50, "0.20"), (51, "0.27")] {
            all[n] = slip("half-line-missed", all[n].clone());
            answer.clone_into(&mut all[n].answer);
        }
        let found = judged(&all[..52]);
        assert_eq!(found.clear.still.as_deref(), Some("half-line-missed"));
        // Read rightly it is repaired, but only a clean run makes it good.
        let found = judged(&all[..71]);
        assert_eq!((found.clear.still, found.clear.lapse), (None, Some(Facet::Halves)));
        assert_eq!(judged(&all).clear.standing, Standing::Met);
        // The same name twice on answers that it does not give is no misread.
        let mut all = steady_reader();
        for n in [50, 51] {
            all[n] = slip("half-line-missed", all[n].clone());
        }
        assert_eq!(judged(&all[..52]).clear.still, None);
    }

    #[test]
    fn two_misses_of_a_step_in_a_row_are_a_lapse() {
        let mut all = steady_reader();
        for n in [70, 71] {
            all[n] = slip(if n == 70 { "half-line-missed" } else { "half-line-added" }, all[n].clone());
        }
        assert_eq!(judged(&all).clear.lapse, Some(Facet::Halves));
        all[71] = slip("thimble-backwards", all[71].clone());
        assert_eq!(judged(&all).clear.lapse, None);
    }

    #[test]
    fn repeats_that_differ_are_short_even_when_both_are_wrong_alike() {
        let mut all = steady_reader();
        // Both readings of one setting two hundredths too much: that repeats.
        for n in [5_u32, 45, 46, 47, 48] {
            let two_more = n % 40 * 7 + 2;
            let one = &mut all[usize::try_from(n).expect("few")];
            one.answer = format!("{}.{:02}", two_more / 100, two_more % 100);
            one.verdict = Verdict::Other;
        }
        // Twenty pairs are kept, those of the last day; the wrong ones of the day before no longer count.
        let found = judged(&all[..60]).repeats;
        assert_eq!((found.pairs, found.agree), (20, 17), "{found:?}");
        assert_eq!(found.standing, Standing::Short);
        // Three pairs two lines apart, of twenty: the root of 3 x 4 over 2 x 20.
        assert!(found.within.is_some_and(|within| (within - (12.0_f64 / 40.0).sqrt()).abs() < 1e-12));
    }

    /// The two risks of the rule at the two rates, against the plain binomial.
    #[test]
    fn both_risks() {
        let catalogue = Catalogue::new(Vec::new());
        let (gross, fine) = risks(catalogue.get(ID).expect("shipped"), 20);
        assert!((gross - 0.95_f64.powi(40)).abs() < 1e-12);
        assert!((fine - at_least(38, 40, 0.95)).abs() < 1e-12);
        // The published risk of 38 of 40 at 0.95, in which gross and fine are one.
        assert!((fine - 0.6767).abs() < 0.000_05);
        let (gross, fine) = risks(catalogue.get("caliper-inch-25").expect("shipped"), 20);
        assert!((gross - 0.95_f64.powi(40)).abs() < 1e-12 && fine > 0.94 && fine < 0.96, "{fine}");
    }
}
