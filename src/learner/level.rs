//! The level that is proposed to somebody on an instrument, from what was answered there.
//!
//! A level is behind when enough of its latest answers are right; whole readings that stand carry the steps they are made of.
//! The traps are behind when no gross slip is among the readings that the gates look at. The numbers are our own.

use super::facet::{Grade, grade};
use super::summary::Kept;
use crate::drill::{Kind, Level};
use crate::instrument::Instrument;

/// So many answers say something.
const ENOUGH: usize = 10;
/// More than this many in ten of them must be right.
const TENTHS: usize = 8;
/// The latest whole readings that count.
const WINDOW: usize = 20;
/// The latest readings among which no gross slip may be, for the traps to be behind.
const CLEAN: usize = 40;

/// The level to practise on: the lowest that is not behind, of those that the instrument has questions for.
pub fn proposed(kept: Option<&Kept>, instrument: &Instrument) -> Level {
    let behind = |level: Level| kept.is_some_and(|kept| is_behind(level, kept, instrument));
    let there = |level: &Level| !level.kinds(instrument).is_empty();
    let whole_stands = behind(Level::Whole);
    let open = |level: &Level| !(behind(*level) || *level == Level::OneStep && whole_stands);
    let levels = || Level::ALL.iter().copied().filter(there);
    levels().find(open).or_else(|| levels().next_back()).unwrap_or(Level::Whole)
}

fn is_behind(level: Level, kept: &Kept, instrument: &Instrument) -> bool {
    match level {
        Level::Whole => stands(kept.latest.iter().rev().take(WINDOW).map(|answer| answer.right)),
        Level::Traps => {
            let latest = || kept.latest.iter().rev().take(CLEAN);
            let gross = |answer| grade(answer, instrument) == Some(Grade::Gross);
            latest().count() == CLEAN && !latest().any(gross) && stands(latest().map(|answer| answer.right))
        }
        Level::OneStep | Level::Pairs | Level::Decisions => {
            let of_level = |kind: &Kind| *kind != Kind::Read && Level::of(*kind) == level;
            let lately = kept.lately.iter().filter(|(kind, _)| of_level(kind));
            stands(lately.flat_map(|(_, answers)| answers.iter().copied()))
        }
    }
}

fn stands(answers: impl Iterator<Item = bool>) -> bool {
    let (all, right) = answers.fold((0, 0), |(all, right), one| (all + 1, right + usize::from(one)));
    all >= ENOUGH && right * 10 > all * TENTHS
}

#[cfg(test)]
mod tests {
    use super::super::summary::Summary;
    use super::super::testing::{reading, slip};
    use super::*;
    use crate::drill::record::{Attempt, Verdict};
    use crate::instrument::Catalogue;

    const ID: &str = "micrometer-metric";

    fn level(attempts: &[Attempt]) -> Level {
        let catalogue = Catalogue::new(Vec::new());
        let tool = catalogue.get(ID).expect("shipped");
        proposed(Summary::of(attempts).on(ID), tool)
    }

    fn many(kind: Kind, right: u32, wrong: u32) -> Vec<Attempt> {
        let one = |n: u32| {
            let verdict = if n < wrong { Verdict::Other } else { Verdict::Right };
            Attempt { kind, ..reading(ID, n, verdict) }
        };
        (0..wrong + right).map(one).collect()
    }

    #[test]
    fn one_step_at_first_then_whole() {
        assert_eq!(level(&[]), Level::OneStep);
        assert_eq!(level(&many(Kind::OneStep, 9, 0)), Level::OneStep);
        // Eight in ten are not more than eight in ten.
        assert_eq!(level(&many(Kind::OneStep, 8, 2)), Level::OneStep);
        assert_eq!(level(&many(Kind::OneStep, 9, 1)), Level::Whole);
        // Twenty bad ones at first are forgotten.
        assert_eq!(level(&many(Kind::OneStep, 20, 20)), Level::Whole);
    }

    #[test]
    fn who_reads_whole_needs_no_steps() {
        assert!(level(&many(Kind::Read, 9, 1)) > Level::Whole);
        assert_eq!(level(&many(Kind::Read, 7, 3)), Level::OneStep);
    }

    #[test]
    fn a_gross_slip_keeps_the_traps_up() {
        let mut clean = many(Kind::Read, 40, 0);
        clean.extend(many(Kind::Pair, 10, 0));
        let traps_behind = level(&clean) > Level::Traps || Level::Decisions.kinds(tool()).is_empty();
        assert!(traps_behind, "{}", level(&clean));
        let mut gross = clean;
        let wrong = Attempt { answer: "9.99".to_owned(), ..reading(ID, 849, Verdict::Other) };
        gross.push(slip("line-added", wrong));
        assert!(level(&gross) <= Level::Traps, "{}", level(&gross));
    }

    fn tool() -> &'static Instrument {
        static CATALOGUE: std::sync::OnceLock<Catalogue> = std::sync::OnceLock::new();
        CATALOGUE.get_or_init(|| Catalogue::new(Vec::new())).get(ID).expect("shipped")
    }
}
