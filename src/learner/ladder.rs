//! How sure each step of an instrument is, and when it is due again: a ladder of days.
//!
//! A step climbs by a clean run when it was due, stays at one miss, and falls to the first rung at two or at a misread seen
//! twice. What practice there was between two rungs is no spacing, so it lifts nothing.

use super::calendar::Day;
use super::facet::{Facet, facet_of, facets};
use super::gates::Target;
use super::known::Known;
use super::summary::{DayTally, Kept};
use crate::instrument::Instrument;

/// Days after which each rung is due again.
pub const DUE_AFTER: [i32; 6] = [0, 1, 3, 7, 21, 60];
/// Readings that make a run.
const RUN: u32 = 6;

/// A step of an instrument as it stands.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// Which.
    pub facet: Facet,
    /// Its rung, from 0 to 5.
    pub level: u8,
    /// When it is due.
    pub due: Day,
    /// How sure it is that it is known.
    pub known: Known,
    /// When it was last missed, how often on that day, and as what, where that has a name.
    pub missed: Option<Missed>,
}

/// Misses of a step on one day.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Missed {
    /// The day.
    pub day: Day,
    /// How often.
    pub times: u32,
    /// The misread seen most.
    pub slip: Option<String>,
}

/// The steps of an instrument that has been read.
pub fn steps(instrument: &Instrument, kept: &Kept, target: Target) -> Vec<Step> {
    facets(instrument).into_iter().filter_map(|facet| step(instrument, kept, target, facet)).collect()
}

fn step(instrument: &Instrument, kept: &Kept, target: Target, facet: Facet) -> Option<Step> {
    let mut rung = Rung { level: 0, due: kept.days.front()?.day };
    let mut run = Run::default();
    let mut missed = None;
    for tally in &kept.days {
        let slips = slips_in(tally, instrument, facet);
        let times: u32 = slips.iter().map(|(_, times)| times).sum();
        if times > 0 {
            let slip = slips.iter().filter(|(slip, _)| !slip.is_empty()).max_by_key(|(_, times)| *times);
            let slip = slip.map(|(slip, _)| (*slip).to_owned());
            missed = Some(Missed { day: tally.day, times, slip });
        }
        run.readings += if facet == Facet::Zero { tally.zeroed } else { tally.answered };
        run.missed += times;
        run.named |= slips.iter().any(|(slip, times)| !slip.is_empty() && *times >= 2);
        run.slow |= tally.median_ms().is_none_or(|ms| Target(milli(ms)).0 > target.0);
        if run.readings >= RUN {
            rung = rung.after(tally.day, &run);
            run = Run::default();
        }
    }
    Some(Step { facet, level: rung.level, due: rung.due, known: known(instrument, kept, facet), missed })
}

fn milli(ms: u64) -> f64 {
    f64::from(u32::try_from(ms).unwrap_or(u32::MAX)) / 1000.0
}

/// What was missed of a step on a day, by misread.
fn slips_in<'a>(tally: &'a DayTally, instrument: &Instrument, facet: Facet) -> Vec<(&'a str, u32)> {
    let of_step = |slip: &str| {
        let step = if slip.is_empty() { Facet::Reading } else { facet_of(slip, instrument) };
        // The whole reading is missed whatever was missed in it.
        facet == Facet::Reading || step == facet
    };
    tally
        .slips
        .iter()
        .filter(|(slip, _)| of_step(slip))
        .map(|(slip, times)| (slip.as_str(), *times))
        .collect()
}

fn known(instrument: &Instrument, kept: &Kept, facet: Facet) -> Known {
    kept.latest.iter().filter(|answer| facet != Facet::Zero || answer.zero).fold(
        Known::default(),
        |known, answer| {
            let missed = answer.slip.as_deref().map_or(Facet::Reading, |slip| facet_of(slip, instrument));
            match answer.right {
                true => known.right(),
                false if facet == Facet::Reading || missed == facet => known.wrong(),
                // Another step went wrong; what this one did is not told.
                false => known,
            }
        },
    )
}

/// Readings since the last rung was decided on.
#[derive(Default)]
struct Run {
    readings: u32,
    missed: u32,
    named: bool,
    slow: bool,
}

struct Rung {
    level: u8,
    due: Day,
}

impl Rung {
    fn after(self, day: Day, run: &Run) -> Self {
        let top = u8::try_from(DUE_AFTER.len() - 1).unwrap_or(u8::MAX);
        let level = if run.named || run.missed >= 2 {
            self.level.min(1)
        } else if run.missed == 1 || run.slow || day < self.due {
            self.level
        } else {
            (self.level + 1).min(top)
        };
        // A clean run before its time leaves the day as it was.
        if level == self.level && run.missed == 0 && !run.slow && day < self.due {
            return self;
        }
        Self { level, due: day.after(DUE_AFTER[usize::from(level)]) }
    }
}

#[cfg(test)]
mod tests {
    use super::super::summary::Summary;
    use super::super::testing::{at, reading, slip, took};
    use super::*;
    use crate::drill::record::{Attempt, Verdict};
    use crate::instrument::Catalogue;

    const ID: &str = "micrometer-metric";

    /// Ten readings a day on days of March 2026, the first `misses` of them half lines missed.
    fn climbed(days: &[(u32, u32)]) -> Step {
        let all: Vec<Attempt> = days
            .iter()
            .flat_map(|(day, misses)| {
                (0..10_u32).map(move |n| {
                    let reading = reading(ID, day * 10 + n, Verdict::Right);
                    let reading = if n < *misses { slip("half-line-missed", reading) } else { reading };
                    at(&format!("2026-03-{day:02}T07:30:00Z"), reading)
                })
            })
            .collect();
        step_of(&all, Facet::Halves)
    }

    fn step_of(all: &[Attempt], facet: Facet) -> Step {
        let catalogue = Catalogue::new(Vec::new());
        let tool = catalogue.get(ID).expect("shipped");
        let summary = Summary::of(all);
        let all = steps(tool, summary.on(ID).expect("read"), Target::of(tool));
        all.into_iter().find(|step| step.facet == facet).expect("a step of it")
    }

    fn march(day: i32) -> Day {
        Day::of("2026-03-01").expect("a date").after(day - 1)
    }

    #[test]
    fn a_clean_run_when_due_climbs_one_rung() {
        let days = [1, 2, 5, 12];
        for (n, level) in (1..=4).zip(1_u8..) {
            let clean: Vec<_> = days[..n].iter().map(|day| (*day, 0)).collect();
            let step = climbed(&clean);
            assert_eq!(step.level, level, "{clean:?}");
            let last = i32::try_from(days[n - 1]).expect("a day");
            assert_eq!(step.due, march(last).after(DUE_AFTER[usize::from(level)]), "{clean:?}");
        }
        assert!(climbed(&[(1, 0), (2, 0)]).known > Known(0.95));
    }

    #[test]
    fn practice_before_its_time_lifts_nothing() {
        let step = climbed(&[(1, 0), (2, 0), (3, 0), (4, 0)]);
        assert_eq!((step.level, step.due), (2, march(5)));
    }

    #[test]
    fn one_miss_stays_two_fall() {
        let one = climbed(&[(1, 0), (2, 0), (5, 1)]);
        assert_eq!((one.level, one.due), (2, march(8)));
        let two = climbed(&[(1, 0), (2, 0), (5, 2)]);
        assert_eq!((two.level, two.due), (1, march(6)));
        let missed = two.missed.expect("missed");
        assert_eq!(
            (missed.day, missed.times, missed.slip.as_deref()),
            (march(5), 2, Some("half-line-missed"))
        );
        // Other steps are none the worse, the whole reading is.
        let all: Vec<Attempt> = (0..10)
            .map(|n| {
                let right = reading(ID, n, Verdict::Right);
                if n < 2 { slip("half-line-missed", right) } else { right }
            })
            .collect();
        assert_eq!(step_of(&all, Facet::Thimble).level, 1);
        assert_eq!(
            (step_of(&all, Facet::Reading).level, step_of(&all, Facet::Reading).missed.is_some()),
            (0, true)
        );
    }

    #[test]
    fn slow_is_not_clean() {
        let slow: Vec<Attempt> = (0..10).map(|n| took(11_000, reading(ID, n, Verdict::Right))).collect();
        assert_eq!(step_of(&slow, Facet::Halves).level, 0);
    }

    #[test]
    fn readings_gather_to_a_run() {
        let few = |day: u32| {
            (0..3).map(move |n| at(&format!("2026-03-{day:02}T07:30:00Z"), reading(ID, n, Verdict::Right)))
        };
        let all: Vec<Attempt> = few(1).chain(few(2)).collect();
        assert_eq!(step_of(&all[..3], Facet::Halves).level, 0);
        assert_eq!(step_of(&all, Facet::Halves).level, 1);
    }
}
