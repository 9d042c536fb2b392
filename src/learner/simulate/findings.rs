//! What many courses come to, with how sure that is.

use super::course::{Aims, Course, What};
use crate::learner::progress::{Interval, Score, Z_95};
use serde::Serialize;

/// What many courses come to.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Findings {
    /// Apprentices.
    pub learners: u32,
    /// Days they were followed.
    pub days: u32,
    /// Week by week.
    pub weeks: Vec<Week>,
    /// Readings on a day that somebody was there.
    pub readings_a_day: Middle,
    /// Instruments read uniformly by the last day, of all.
    pub uniform: Part,
    /// The working week, counted in days from 1, on which that was said first; the others count as never.
    pub days_until_uniform: Middle,
    /// Readings on the instrument until then.
    pub readings_until_uniform: Middle,
    /// Of those first said to be uniform: with a misread held that evening.
    pub wrongly_uniform: Part,
    /// Misreads held at first that were named.
    pub named: Part,
    /// Misreads named that were not held, a hundred readings of an instrument.
    pub named_wrongly: Rate,
    /// Readings on the instrument until a misread was named.
    pub readings_until_named: Middle,
    /// Misreads that came back overnight, of those given up.
    pub came_back: u32,
    /// Given up, all times counted.
    pub given_up: u32,
    /// Of those that came back: showed in an answer within a day of work after it, of those that had one.
    pub seen_next_day: Part,
    /// Showed within a week.
    pub seen_in_a_week: Part,
    /// What the questions were chosen for, as shares.
    pub chosen_for: Vec<(&'static str, f64)>,
    /// Gates not met on the last evening, by instrument and learner: right, gross, repeats, quick, steady, clear.
    pub gates_short: Vec<(&'static str, f64)>,
}

/// A count of something in readings.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Rate {
    /// How often.
    pub count: u32,
    /// In a hundred readings.
    pub in_hundred: f64,
}

/// A week.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Week {
    /// Right answers of all.
    pub right: Part,
    /// Gross slips of all.
    pub gross: Part,
    /// Evenings and instruments on which a misread was held, of all. What was asked has no part in it.
    pub held: Part,
}

/// So many of so many, with the 95 % Wilson interval.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Part {
    /// How many.
    pub count: u32,
    /// Of how many.
    pub of: u32,
    /// The interval of the share.
    pub interval: Option<Interval>,
}

/// The middle of some numbers, and what nine in ten stay under. Those that were never reached count as more than any.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Middle {
    /// The median; none where it was never reached.
    pub median: Option<u32>,
    /// The 95 % interval of the median, from the order of the numbers.
    pub interval: [Option<u32>; 2],
    /// What nine in ten stay under.
    pub ninth: Option<u32>,
}

const GATES: [&str; 6] = ["right", "gross", "repeats", "quick", "steady", "clear"];
const WEEK: usize = 7;

impl Part {
    fn new(count: u32, of: u32) -> Self {
        Self { count, of, interval: Score { answered: of, right: count }.wilson(Z_95) }
    }

    fn of(marks: impl IntoIterator<Item = bool>) -> Self {
        let (mut count, mut of) = (0, 0);
        for mark in marks {
            (count, of) = (count + u32::from(mark), of + 1);
        }
        Self::new(count, of)
    }

    /// As a share; nought of none.
    pub fn share(&self) -> f64 {
        if self.of == 0 { 0.0 } else { f64::from(self.count) / f64::from(self.of) }
    }
}

impl Middle {
    /// Of numbers, none for never.
    fn of(numbers: impl IntoIterator<Item = Option<u32>>) -> Self {
        let mut all: Vec<Option<u32>> = numbers.into_iter().collect();
        all.sort_by_key(|number| number.unwrap_or(u32::MAX));
        let n = f64::from(u32::try_from(all.len()).unwrap_or(u32::MAX));
        // The order statistics that the median lies between, by the normal limit of the binomial with one half.
        let half = Z_95 * n.sqrt() / 2.0;
        let at = |place: f64| {
            let place = (0..all.len()).take_while(|at| count(*at) + 1.0 <= place).count();
            all.get(place.min(all.len().saturating_sub(1))).copied().flatten()
        };
        Self {
            median: at(n / 2.0),
            interval: [at((n / 2.0 - half).max(0.0)), at(n / 2.0 + half)],
            ninth: at(n * 0.9),
        }
    }
}

fn count(n: usize) -> f64 {
    f64::from(u32::try_from(n).unwrap_or(u32::MAX))
}

impl Findings {
    /// What these courses come to; they are of the same length.
    pub fn of(courses: &[Course]) -> Self {
        let days = courses.iter().map(|course| course.days.len()).max().unwrap_or(0);
        let firsts: Vec<Option<First>> = courses.iter().flat_map(uniform_first).collect();
        let named: Vec<Option<u32>> = courses.iter().flat_map(named_after).collect();
        let events = || courses.iter().flat_map(|course| &course.events);
        let counted =
            |what: What| u32::try_from(events().filter(|event| event.what == what).count()).unwrap_or(0);
        let readings: u32 = courses.iter().map(|course| length(&course.attempts)).sum();
        let wrongly = counted(What::NamedWrongly);
        let returns: Vec<Return> = courses.iter().flat_map(returns).collect();
        Self {
            learners: length(courses),
            days: u32::try_from(days).unwrap_or(u32::MAX),
            weeks: (0..days.div_ceil(WEEK)).map(|week| of_week(courses, week)).collect(),
            readings_a_day: Middle::of(
                courses
                    .iter()
                    .flat_map(|course| &course.days)
                    .filter(|day| day.there)
                    .map(|day| Some(day.answered)),
            ),
            uniform: Part::of(firsts.iter().map(Option::is_some)),
            days_until_uniform: Middle::of(firsts.iter().map(|first| first.as_ref().map(|first| first.day))),
            readings_until_uniform: Middle::of(
                firsts.iter().map(|first| first.as_ref().map(|first| first.readings)),
            ),
            wrongly_uniform: Part::of(firsts.iter().flatten().map(|first| first.holding)),
            named: Part::of(named.iter().map(Option::is_some)),
            named_wrongly: Rate {
                count: wrongly,
                in_hundred: 100.0 * f64::from(wrongly) / f64::from(readings.max(1)),
            },
            readings_until_named: Middle::of(named),
            came_back: counted(What::CameBack),
            given_up: counted(What::GivenUp),
            seen_next_day: Part::of(returns.iter().filter_map(|back| back.next_day)),
            seen_in_a_week: Part::of(returns.iter().filter_map(|back| back.week)),
            chosen_for: chosen_for(courses.iter().map(|course| course.aims)),
            gates_short: gates_short(courses),
        }
    }
}

fn length<T>(all: &[T]) -> u32 {
    u32::try_from(all.len()).unwrap_or(u32::MAX)
}

fn of_week(courses: &[Course], week: usize) -> Week {
    let days = || courses.iter().flat_map(move |course| course.days.iter().skip(week * WEEK).take(WEEK));
    let answered = days().map(|day| day.answered).sum();
    Week {
        right: Part::new(days().map(|day| day.right).sum(), answered),
        gross: Part::new(days().map(|day| day.gross).sum(), answered),
        held: Part::of(days().flat_map(|day| &day.stood).map(|stood| stood.holding)),
    }
}

struct First {
    day: u32,
    readings: u32,
    holding: bool,
}

/// For each instrument of a course the evening on which it was first uniform.
fn uniform_first(course: &Course) -> Vec<Option<First>> {
    let instruments = course.days.first().map_or(0, |day| day.stood.len());
    let first = |place: usize| {
        let mut evenings = course.days.iter().zip(1..).map(|(day, n)| (&day.stood[place], n));
        let (stood, day) = evenings.find(|(stood, _)| stood.uniform)?;
        Some(First { day, readings: stood.readings, holding: stood.holding })
    };
    (0..instruments).map(first).collect()
}

/// For each misread that ever showed: the readings after which it was named.
fn named_after(course: &Course) -> Vec<Option<u32>> {
    let mut shown: Vec<(usize, usize)> = Vec::new();
    for event in course.events.iter().filter(|event| event.what == What::Showed) {
        if !shown.contains(&(event.instrument, event.which)) {
            shown.push((event.instrument, event.which));
        }
    }
    let first = |(instrument, which): (usize, usize)| {
        let mut named = course.events.iter().filter(|event| event.what == What::Named);
        let found = named.find(|event| event.instrument == instrument && event.which == which);
        found.map(|event| event.readings)
    };
    shown.into_iter().map(first).collect()
}

/// What came of a misread that came back. None where the course ended before that could be seen.
struct Return {
    next_day: Option<bool>,
    week: Option<bool>,
}

fn returns(course: &Course) -> Vec<Return> {
    let one = |(n, back): (usize, &super::course::Event)| {
        let later = &course.events[n..];
        let same = |event: &&super::course::Event| {
            event.instrument == back.instrument && event.which == back.which && event.what == What::Showed
        };
        let showed = later.iter().find(same).map(|event| event.day);
        let worked = course.days.iter().zip(0_u32..).filter(|(day, n)| *n >= back.day && day.there);
        let next = worked.map(|(_, n)| n).next();
        let week = back.day + 7;
        let over = usize::try_from(week).is_ok_and(|week| week <= course.days.len());
        Return {
            next_day: next.map(|next| showed.is_some_and(|day| day <= next)),
            week: over.then(|| showed.is_some_and(|day| day < week)),
        }
    };
    let back = course.events.iter().enumerate().filter(|(_, event)| event.what == What::CameBack);
    back.map(one).collect()
}

fn chosen_for(all: impl Iterator<Item = Aims>) -> Vec<(&'static str, f64)> {
    let mut sums =
        ["steps", "telling", "repair", "whole", "read before", "came back"].map(|name| (name, 0_u32));
    for aims in all {
        let counts = [aims.steps, aims.telling, aims.repair, aims.whole, aims.again, aims.came_back];
        for ((_, sum), count) in sums.iter_mut().zip(counts) {
            *sum += count;
        }
    }
    let all: u32 = sums.iter().map(|(_, count)| count).sum();
    sums.map(|(name, count)| (name, f64::from(count) / f64::from(all.max(1)))).into()
}

fn gates_short(courses: &[Course]) -> Vec<(&'static str, f64)> {
    let last = || courses.iter().filter_map(|course| course.days.last()).flat_map(|day| &day.stood);
    let all = last().count();
    let short = |n: usize| count(last().filter(|stood| stood.short[n]).count()) / count(all.max(1));
    GATES.iter().enumerate().map(|(n, name)| (*name, short(n))).collect()
}
