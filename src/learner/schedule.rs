//! What to practise today, and why: a round as data. The day is an argument.
//!
//! Six in ten readings are of steps that are due, the weakest first; a quarter tell most about what else may go wrong; the rest
//! are whole readings, some of them of a setting read before, to see whether it is read the same. Steps alternate. A long round
//! has a question of another kind after every sixth reading.

mod others;

use super::calendar::Day;
use super::facet::{Facet, facet_of};
use super::gates::{Standing, Target, gates};
use super::ladder::{Missed, Step, steps};
use super::repair::{Found, found, suspected};
use super::summary::{Kept, PAIRS, Summary};
use crate::drill::Kind;
use crate::instrument::Instrument;
use others::with_others;
use serde::{Deserialize, Serialize};
use std::collections::VecDeque;

/// Readings of the round at the start of a shift: about two minutes.
pub const SHORT: u32 = 10;
/// Readings of a round later in the day.
pub const LONG: u32 = 24;
/// A pause of so many days calls for a refresher.
pub const LONG_PAUSE: i32 = 30;
/// How many steps share a round at the most.
const STEPS: usize = 6;
/// How many instruments a refresher goes through at the most.
const REFRESHED: usize = 5;
/// A step missed today is weak until it is as sure as this again.
const SURE: f64 = 0.95;
/// Whole readings are for instruments whose whole reading stands higher than this, if there are any.
const HIGH: u8 = 3;
/// How many answers lie before a setting is shown again.
const APART: u32 = 8;

/// What a reading is chosen for.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Aim {
    /// A step, where it matters; where a misread is known, where that one would go wrong.
    Step {
        /// The step.
        facet: Facet,
        /// The misread's id.
        slip: Option<String>,
    },
    /// Where most misreads would show, first of all those that explain a wrong answer of late.
    Telling {
        /// Their ids.
        among: Vec<String>,
    },
    /// For the repair of a misread: where it gives a wrong answer, and now and then where it does no harm.
    Repair {
        /// The misread's id.
        slip: String,
    },
    /// Any reading.
    Whole,
    /// A question of another kind, of the level that is proposed.
    Task {
        /// The kind.
        kind: Kind,
    },
    /// A setting that was read before.
    Again {
        /// The seed of the run it was in.
        seed: u64,
        /// Its number there.
        number: u32,
    },
}

/// One reading of a round.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Item {
    /// The instrument's id.
    pub instrument: String,
    /// What it is chosen for.
    pub aim: Aim,
}

/// A round.
#[derive(Clone, Debug, PartialEq)]
pub struct Round {
    /// Its readings in order.
    pub items: Vec<Item>,
    /// Why these.
    pub why: Why,
}

/// Why a round is what it is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Why {
    /// A step was missed lately.
    Missed {
        /// The instrument's id.
        instrument: String,
        /// The step.
        facet: Facet,
        /// As what, how often.
        missed: Missed,
        /// So many days ago.
        ago: i32,
    },
    /// A misread was named, and is asked about again.
    Named {
        /// The instrument's id.
        instrument: String,
        /// The misread's id.
        slip: &'static str,
        /// So many days ago.
        ago: i32,
    },
    /// Steps are due.
    Due {
        /// The instrument's id of the first.
        instrument: String,
        /// The first of them.
        facet: Facet,
        /// How many there are.
        steps: usize,
    },
    /// Nothing was read for so many days.
    Pause(i32),
    /// Nothing is due, but it is not known yet whether readings are uniform.
    Proof,
}

/// What there is to do today.
#[derive(Clone, Debug, PartialEq)]
pub enum Today {
    /// Nothing has been read yet.
    Fresh,
    /// A round.
    Round(Round),
    /// Nothing is due before this day.
    Rest(Day),
}

struct Tool<'a> {
    instrument: &'a Instrument,
    kept: &'a Kept,
    steps: Vec<Step>,
    found: Vec<Found>,
}

struct Due<'a> {
    tool: &'a Tool<'a>,
    step: &'a Step,
    missed: Option<&'a Missed>,
    /// A misread of this step that was named and is to be asked about again.
    probe: Option<&'a Found>,
}

impl Due<'_> {
    fn item(&self) -> Item {
        let probed = self.probe.map(|found| found.id.to_owned());
        let slip = probed.or_else(|| self.missed?.slip.clone());
        Item { instrument: self.tool.instrument.id.clone(), aim: Aim::Step { facet: self.step.facet, slip } }
    }
}

/// What to practise on a day, of the instruments there are.
pub fn today(summary: &Summary, instruments: &[&Instrument], day: Day) -> Today {
    let tools: Vec<Tool<'_>> = instruments
        .iter()
        .filter_map(|instrument| {
            let kept = summary.on(&instrument.id)?;
            let steps = steps(instrument, kept, Target::of(instrument));
            let found = found(instrument, kept);
            (!steps.is_empty()).then_some(Tool { instrument, kept, steps, found })
        })
        .collect();
    let Some(last) = tools.iter().filter_map(|tool| tool.kept.days.back()).map(|tally| tally.day).max()
    else {
        return Today::Fresh;
    };
    let pause = last.until(day);
    if pause >= LONG_PAUSE {
        return Today::Round(Round { items: refresher(&tools, summary, day), why: Why::Pause(pause) });
    }
    let mut due = due(&tools, last, day);
    let Some(first) = due.first() else {
        let proof = if pause > 0 { proof(&tools, summary, day) } else { Vec::new() };
        if !proof.is_empty() {
            return Today::Round(Round { items: proof, why: Why::Proof });
        }
        let steps = tools.iter().flat_map(|tool| &tool.steps).map(|step| step.due);
        let probes = tools.iter().flat_map(|tool| &tool.found).filter_map(Found::due);
        let next = steps.chain(probes).min();
        return Today::Rest(next.unwrap_or(day));
    };
    let (instrument, facet) = (first.tool.instrument.id.clone(), first.step.facet);
    let why = match (first.missed, first.probe) {
        (Some(missed), _) => {
            Why::Missed { instrument, facet, missed: missed.clone(), ago: missed.day.until(day) }
        }
        (None, Some(Found { id, on: Some(on), .. })) => {
            Why::Named { instrument, slip: id, ago: on.until(day) }
        }
        _ => Why::Due { instrument, facet, steps: due.len() },
    };
    due.truncate(STEPS);
    let length = if pause > 0 { SHORT } else { LONG };
    let mut items = compose(&tools, &due, summary, day, length);
    if length == LONG {
        items = with_others(items, &tools, day);
    }
    Today::Round(Round { items, why })
}

/// Where nothing is due but the gates of some instruments are not all met: settings read before and new ones in turn, so that
/// it comes out whether they are read the same. Who reads well would else wait for weeks for what proves it.
fn proof(tools: &[Tool<'_>], summary: &Summary, day: Day) -> Vec<Item> {
    let met = |tool: &Tool<'_>| {
        gates(tool.instrument, tool.kept, Target::of(tool.instrument)).standing == Standing::Met
    };
    let open: Vec<&Tool<'_>> = tools.iter().filter(|tool| !met(tool)).collect();
    let of_these = |item: &Item| open.iter().any(|tool| tool.instrument.id == item.instrument);
    let mut again = seen_before(tools, summary, day).into_iter().filter(of_these);
    let new = open.iter().cycle().zip(0..SHORT);
    new.map(|(tool, n)| again.next().filter(|_| n % 3 != 2).unwrap_or_else(|| item(tool, Aim::Whole)))
        .collect()
}

/// The steps to be worked on: those of a misread that is asked about again, then those missed on the last day of practice,
/// the worst first, then those due, the lowest first.
fn due<'a>(tools: &'a [Tool<'a>], last: Day, day: Day) -> Vec<Due<'a>> {
    let mut all: Vec<Due<'a>> = tools
        .iter()
        .flat_map(|tool| tool.steps.iter().map(move |step| (tool, step)))
        .filter_map(|(tool, step)| {
            let lately = step.missed.as_ref().filter(|missed| missed.day == last);
            let missed = lately.filter(|_| last < day || step.known.0 < SURE);
            let is_probe = |found: &&Found| {
                facet_of(found.id, tool.instrument) == step.facet && found.due().is_some_and(|due| due <= day)
            };
            let probe = tool.found.iter().rev().find(is_probe);
            let is_due = missed.is_some() || probe.is_some() || step.due <= day;
            is_due.then_some(Due { tool, step, missed, probe })
        })
        .collect();
    // The whole reading comes after the steps that it is made of.
    all.sort_by_key(|due| {
        let times = due.missed.map_or(0, |missed| missed.times);
        let whole = due.step.facet == Facet::Reading;
        (
            due.probe.is_none(),
            due.missed.is_none(),
            whole,
            std::cmp::Reverse(times),
            due.step.level,
            due.step.due,
        )
    });
    all
}

/// Parts of a round of so many readings: telling, whole; the rest are steps.
fn parts(length: u32) -> (u32, u32) {
    ((length + 2) / 4, (length * 3 + 10) / 20)
}

fn compose(tools: &[Tool<'_>], due: &[Due<'_>], summary: &Summary, day: Day, length: u32) -> Vec<Item> {
    let (telling, whole) = parts(length);
    let mut rest: VecDeque<(Item, u8)> = VecDeque::new();
    let level = |tool: &Tool<'_>| {
        tool.steps.iter().find(|step| step.facet == Facet::Reading).map_or(0, |step| step.level)
    };
    // What is least known is asked about most.
    let mut unsure: Vec<&Tool<'_>> = tools.iter().collect();
    unsure.sort_by(|a, b| least_known(a).total_cmp(&least_known(b)));
    let asked_about = unsure.iter().cycle().take(usize::try_from(telling).unwrap_or(0));
    rest.extend(asked_about.map(|tool| (item(tool, telling_on(tool)), level(tool))));
    let high: Vec<&Tool<'_>> = tools.iter().filter(|tool| level(tool) > HIGH).collect();
    let among = if high.is_empty() { unsure } else { high };
    let mut again = seen_before(tools, summary, day).into_iter();
    let paired = tools.iter().all(|tool| tool.kept.pairs.len() >= PAIRS);
    for (n, tool) in (0..whole).zip(among.iter().cycle()) {
        // Every other one is a setting read before, and all of them until there are enough pairs.
        let one = again.next().filter(|_| !paired || n % 2 == 0);
        rest.push_back((one.unwrap_or_else(|| item(tool, Aim::Whole)), level(tool)));
    }
    let steps = usize::try_from(length - telling - whole).unwrap_or(0);
    let mut wanted: VecDeque<(Item, u8)> =
        due.iter().cycle().take(steps).map(|due| (due.item(), due.step.level)).collect();
    alternate(&mut wanted, &mut rest)
}

/// The steps in order, the rest spread evenly among them; nothing twice in a row where there is something else.
fn alternate(wanted: &mut VecDeque<(Item, u8)>, rest: &mut VecDeque<(Item, u8)>) -> Vec<Item> {
    let mut all: Vec<(Item, u8)> = Vec::new();
    let every = (wanted.len() / (rest.len() + 1)).max(1);
    let mut since = 0;
    while !wanted.is_empty() || !rest.is_empty() {
        let turn_of_rest = since >= every && !rest.is_empty();
        let (from, other) =
            if turn_of_rest { (&mut *rest, &mut *wanted) } else { (&mut *wanted, &mut *rest) };
        let differs = |(one, _): &(Item, u8)| all.last().is_none_or(|(last, _)| !same_step(last, one));
        let place = from.iter().position(differs).map(|place| from.remove(place));
        let other = || other.iter().position(differs).map(|place| other.remove(place));
        let taken = place.or_else(other).flatten().or_else(|| from.pop_front()).or_else(|| rest.pop_front());
        let Some((mut item, level)) = taken else { continue };
        // Steps that have climbed never come twice in a row: there a whole reading is read.
        let twice =
            all.last().is_some_and(|(last, before)| same_step(last, &item) && *before >= 2 && level >= 2);
        if twice {
            item.aim = Aim::Whole;
        }
        since = if matches!(item.aim, Aim::Step { .. }) { since + 1 } else { 0 };
        all.push((item, level));
    }
    all.into_iter().map(|(item, _)| item).collect()
}

fn same_step(one: &Item, other: &Item) -> bool {
    match (&one.aim, &other.aim) {
        (Aim::Step { facet: one_facet, .. }, Aim::Step { facet, .. }) => {
            one_facet == facet && one.instrument == other.instrument
        }
        _ => false,
    }
}

fn telling_on(tool: &Tool<'_>) -> Aim {
    Aim::Telling { among: suspected(tool.kept) }
}

fn item(tool: &Tool<'_>, aim: Aim) -> Item {
    Item { instrument: tool.instrument.id.clone(), aim }
}

fn least_known(tool: &Tool<'_>) -> f64 {
    tool.steps.iter().map(|step| step.known.0).fold(1.0, f64::min)
}

/// Settings read rightly before and long enough ago, of instruments whose repeats are still short first.
fn seen_before(tools: &[Tool<'_>], summary: &Summary, day: Day) -> Vec<Item> {
    let mut tools: Vec<&Tool<'_>> = tools.iter().collect();
    tools.sort_by_key(|tool| tool.kept.pairs.len().min(PAIRS));
    let of = |tool: &Tool<'_>| -> Vec<Item> {
        let latest = &tool.kept.latest;
        let once = latest.iter().enumerate().filter(|(n, answer)| {
            let long_ago = summary.answers - answer.nth >= APART || answer.day.is_some_and(|seen| seen < day);
            answer.right
                && long_ago
                && latest.iter().enumerate().all(|(m, other)| m == *n || other.key != answer.key)
        });
        once.filter_map(|(_, answer)| answer.posed)
            .map(|(seed, number)| item(tool, Aim::Again { seed, number }))
            .collect()
    };
    let lists: Vec<Vec<Item>> = tools.into_iter().map(of).collect();
    let longest = lists.iter().map(Vec::len).max().unwrap_or(0);
    (0..longest).flat_map(|n| lists.iter().filter_map(move |list| list.get(n).cloned())).collect()
}

/// Whole readings in turn on the instruments read last, some of them telling.
fn refresher(tools: &[Tool<'_>], summary: &Summary, day: Day) -> Vec<Item> {
    let mut tools: Vec<&Tool<'_>> = tools.iter().collect();
    tools.sort_by_key(|tool| std::cmp::Reverse(tool.kept.latest.back().map(|answer| answer.nth)));
    tools.truncate(REFRESHED);
    let again: VecDeque<Item> = tools
        .iter()
        .filter_map(|tool| {
            let (steps, found) = (Vec::new(), Vec::new());
            let one = Tool { instrument: tool.instrument, kept: tool.kept, steps, found };
            seen_before(&[one], summary, day).into_iter().next()
        })
        .collect();
    let is_whole = |n: u32| n.is_multiple_of(2);
    let mut all: Vec<Item> = (0..SHORT)
        .zip(tools.iter().cycle())
        .map(|(n, tool)| {
            let whole = is_whole(n / u32::try_from(tools.len()).unwrap_or(1));
            item(tool, if whole { Aim::Whole } else { telling_on(tool) })
        })
        .collect();
    // The last ones are settings read before the pause.
    let (keep, again) = (all.len().saturating_sub(2), again.into_iter().take(2));
    all.truncate(keep);
    all.extend(again);
    all
}

#[cfg(test)]
mod tests {
    use super::super::testing::{at, reading, slip};
    use super::*;
    use crate::drill::Level;
    use crate::drill::record::{Attempt, Verdict};
    use crate::instrument::Catalogue;

    fn on(date: &str, instrument: &str, count: u32, misses: u32) -> Vec<Attempt> {
        (0..count)
            .map(|n| {
                let right = reading(instrument, n, Verdict::Right);
                let read = if n < misses { slip("half-line-missed", right) } else { right };
                at(&format!("{date}T07:30:00Z"), read)
            })
            .collect()
    }

    fn plan(attempts: &[Attempt], date: &str) -> Today {
        let catalogue = Catalogue::new(Vec::new());
        let all: Vec<&Instrument> = catalogue.all().collect();
        today(&Summary::of(attempts), &all, Day::of(date).expect("a date"))
    }

    fn round(attempts: &[Attempt], date: &str) -> Round {
        match plan(attempts, date) {
            Today::Round(round) => round,
            other => panic!("no round: {other:?}"),
        }
    }

    #[test]
    fn nothing_before_the_first_reading() {
        assert_eq!(plan(&[], "2026-03-09"), Today::Fresh);
    }

    #[test]
    fn yesterdays_weak_step_comes_first() {
        let attempts = on("2026-03-09", "micrometer-metric", 10, 2);
        let round = round(&attempts, "2026-03-10");
        let Why::Missed { instrument, facet, missed, ago } = &round.why else { panic!("{:?}", round.why) };
        assert_eq!(
            (instrument.as_str(), *facet, missed.times, *ago),
            ("micrometer-metric", Facet::Halves, 2, 1)
        );
        assert_eq!(round.items.len(), 10);
        let slip = Some("half-line-missed".to_owned());
        assert_eq!(round.items[0].aim, Aim::Step { facet: Facet::Halves, slip });
    }

    /// Ten half lines and more on the day it is named, all that is due done since: the ladder alone would wait longer.
    #[test]
    fn what_was_named_is_asked_about_on_the_next_day_and_a_week_later() {
        let half = |date: &str, missed: u32, count: u32| -> Vec<Attempt> {
            (0..count)
                .map(|n| {
                    let right =
                        at(&format!("{date}T07:30:00Z"), reading("micrometer-metric", n, Verdict::Right));
                    let setting = format!("{n}.70 mm");
                    let right =
                        Attempt { answer: format!("{n}.70"), expected: setting.clone(), setting, ..right };
                    let wrong =
                        Attempt { answer: format!("{n}.20"), ..slip("half-line-missed", right.clone()) };
                    if n < missed { wrong } else { right }
                })
                .collect()
        };
        let named = |attempts: &[Attempt], date: &str| match plan(attempts, date) {
            Today::Round(Round { why: Why::Named { slip, ago, .. }, .. }) => Some((slip, ago)),
            _ => None,
        };
        let first = |attempts: &[Attempt], date: &str| match plan(attempts, date) {
            Today::Round(round) => Some(round.items[0].aim.clone()),
            Today::Fresh | Today::Rest(_) => None,
        };
        let asked = Aim::Step { facet: Facet::Halves, slip: Some("half-line-missed".to_owned()) };
        let mut attempts = half("2026-03-09", 2, 10);
        assert_eq!(first(&attempts, "2026-03-10"), Some(asked.clone()));
        attempts.extend(half("2026-03-10", 0, 10));
        assert_eq!(named(&attempts, "2026-03-15"), None);
        assert_eq!(named(&attempts, "2026-03-16"), Some(("half-line-missed", 7)));
        assert_eq!(first(&attempts, "2026-03-16"), Some(asked));
        attempts.extend(half("2026-03-16", 0, 10));
        assert_eq!(named(&attempts, "2026-03-30"), None);
    }

    #[test]
    fn a_round_is_made_up_as_it_should_be() {
        let mut attempts = on("2026-03-09", "micrometer-metric", 30, 0);
        attempts.extend(on("2026-03-09", "caliper-metric-50", 30, 3));
        for (date, length, steps, telling) in [("2026-03-09", 28, 14, 6), ("2026-03-10", 10, 5, 3)] {
            let round = round(&attempts, date);
            assert_eq!(round.items.len(), length, "{date}");
            let count =
                |wanted: fn(&Aim) -> bool| round.items.iter().filter(|item| wanted(&item.aim)).count();
            assert_eq!(count(|aim| matches!(aim, Aim::Step { .. })), steps, "{date} {:#?}", round.items);
            assert_eq!(count(|aim| matches!(aim, Aim::Telling { .. })), telling, "{date}");
            assert!(count(|aim| matches!(aim, Aim::Again { .. })) > 0, "{date} {:?}", round.items);
            let twice = round.items.windows(2).filter(|pair| same_step(&pair[0], &pair[1])).count();
            assert_eq!(twice, 0, "{date} {:#?}", round.items);
        }
    }

    /// A beginner is asked for single steps, who reads whole for pairs; the kind that was never answered comes first.
    #[test]
    fn a_long_round_has_other_kinds_between() {
        let tasks = |right: u32, wrong: u32| -> Vec<(usize, String, Kind)> {
            let mut attempts = on("2026-03-09", "micrometer-metric", right, 0);
            attempts.extend(on("2026-03-09", "micrometer-metric", wrong, wrong));
            let items = round(&attempts, "2026-03-09").items.into_iter().enumerate();
            let task = |(n, item): (usize, Item)| match item.aim {
                Aim::Task { kind } => Some((n, item.instrument, kind)),
                _ => None,
            };
            items.filter_map(task).collect()
        };
        let beginner = tasks(2, 8);
        assert_eq!(beginner.iter().map(|(n, ..)| *n).collect::<Vec<_>>(), [6, 13, 20, 27]);
        assert!(
            beginner
                .iter()
                .all(|(_, id, kind)| { id == "micrometer-metric" && Level::of(*kind) == Level::OneStep })
        );
        let kinds: Vec<Kind> = beginner.iter().map(|(_, _, kind)| *kind).collect();
        assert!(kinds.contains(&Kind::OneStep) && kinds.contains(&Kind::LineWorth), "{kinds:?}");
        let reader = tasks(30, 1);
        assert!(
            !reader.is_empty() && reader.iter().all(|(_, _, kind)| Level::of(*kind) == Level::Pairs),
            "{reader:?}"
        );
    }

    #[test]
    fn a_long_pause_calls_for_a_refresher() {
        let mut attempts = on("2026-01-09", "micrometer-metric", 10, 2);
        attempts.extend(on("2026-01-09", "caliper-metric-50", 10, 0));
        let round = round(&attempts, "2026-03-10");
        assert_eq!(round.why, Why::Pause(60));
        assert_eq!(round.items.len(), 10);
        for id in ["micrometer-metric", "caliper-metric-50"] {
            assert!(
                round.items.iter().filter(|item| item.instrument == id).count() >= 4,
                "{:?}",
                round.items
            );
        }
    }

    /// On the days between two rungs, until the gates are met.
    #[test]
    fn what_is_read_well_but_not_proved_is_read_again() {
        let attempts = on("2026-03-09", "rule-metric", 10, 0);
        let round = round(&[attempts, on("2026-03-10", "rule-metric", 10, 0)].concat(), "2026-03-11");
        assert_eq!((&round.why, round.items.len()), (&Why::Proof, 10));
    }

    #[test]
    fn what_is_read_well_rests() {
        let attempts = on("2026-03-09", "rule-metric", 10, 0);
        let Today::Rest(next) = plan(&attempts, "2026-03-09") else {
            panic!("{:?}", plan(&attempts, "2026-03-09"))
        };
        assert_eq!(Some(next), Day::of("2026-03-10"));
    }
}
