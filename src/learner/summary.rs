//! All that is needed of a history, however long: counts, the latest answers of each instrument, and its latest days.
//!
//! A summary is built answer by answer in the order of the record, and is the same whether built at once or taken up again
//! later. It may be kept beside the record to save reading it, and thrown away at any time.

use super::calendar::Day;
use super::progress::{BLOCK, Score, date_of};
use crate::drill::record::Attempt;
use crate::drill::{GENERATOR, Kind, Put};
use crate::exact::{Exact, parse_answer};
use serde::{Deserialize, Serialize};
use std::collections::{BTreeMap, VecDeque};

/// The form of a summary; one of another form is built anew. To be raised whenever what is kept, or how it is counted, changes.
pub const SUMMARY_FORM: u32 = 4;
/// How many of an instrument's latest answers are kept.
pub const KEPT: usize = 160;
/// How many of its latest days.
const DAYS: usize = 60;
/// How many pairs of readings of the same setting.
pub const PAIRS: usize = 20;
/// How many answers lie between two of the same setting, or a day, before they count as a pair.
const APART: u32 = 8;
/// How many answers to questions of another kind.
const LATELY: usize = 20;
/// How many times of a day are kept for its median.
const TIMES: usize = 200;

/// What a learner's history comes to.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Summary {
    /// Answers, on all instruments.
    pub answers: u32,
    /// Answers whose record bears no date.
    pub undated: u32,
    /// The answers of each day.
    pub days: BTreeMap<String, Score>,
    /// In the order they were first met.
    pub instruments: Vec<Kept>,
}

/// What is kept of the answers on one instrument.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Kept {
    /// The instrument's id.
    pub instrument: String,
    /// All answers.
    pub score: Score,
    /// Questions passed over.
    pub skipped: u32,
    /// When the last attempt was recorded.
    pub last_at: String,
    /// How many were right of each whole block of answers, one hexadecimal digit a block.
    pub blocks: String,
    /// The block begun.
    pub begun: Score,
    /// The latest answers, the oldest first.
    pub latest: VecDeque<Answer>,
    /// How far the two answers of each of the latest pairs lie apart; none where that could not be told.
    pub pairs: VecDeque<Option<Off>>,
    /// The latest days with answers, in the order of the calendar.
    pub days: VecDeque<DayTally>,
    /// Answers to questions of other kinds; none of them counts as a reading.
    pub others: BTreeMap<Kind, Score>,
    /// Of each of those kinds whether the latest answers were right, the oldest first.
    pub lately: BTreeMap<Kind, VecDeque<bool>>,
}

/// A difference of two values, as a fraction in base units.
pub type Off = (i64, i64);

/// An answer, as far as anything is computed from it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Answer {
    /// Its place among all answers of the learner, from 1.
    #[serde(rename = "n")]
    pub nth: u32,
    /// Its day.
    #[serde(rename = "d", default, skip_serializing_if = "Option::is_none")]
    pub day: Option<Day>,
    /// Tells settings apart.
    #[serde(rename = "k")]
    pub key: u64,
    /// From picture to answer, in milliseconds.
    #[serde(rename = "t")]
    pub took_ms: u64,
    /// Read with the glass.
    #[serde(rename = "g")]
    pub glass: bool,
    /// The zero had to be allowed for.
    #[serde(rename = "z")]
    pub zero: bool,
    /// Right in value.
    #[serde(rename = "r")]
    pub right: bool,
    /// The run's seed and the question's number, where the question can be put again from them.
    #[serde(rename = "q", default, skip_serializing_if = "Option::is_none")]
    pub posed: Option<(u64, u32)>,
    /// The misread that most particularly explains a wrong answer.
    #[serde(rename = "s", default, skip_serializing_if = "Option::is_none")]
    pub slip: Option<String>,
    /// The others that explain it.
    #[serde(rename = "m", default, skip_serializing_if = "Vec::is_empty")]
    pub others: Vec<String>,
    /// What was put.
    #[serde(rename = "p")]
    pub put: Put,
    /// How far a wrong answer was off.
    #[serde(rename = "o", default, skip_serializing_if = "Option::is_none")]
    pub off: Option<Off>,
}

/// The answers of one day on one instrument.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct DayTally {
    /// The day.
    pub day: Day,
    /// Answers.
    pub answered: u32,
    /// Answers where the zero had to be allowed for.
    pub zeroed: u32,
    /// Times of right answers; only the median is left of a day that is over.
    pub times: Vec<u64>,
    /// Wrong answers by the misread that explains them; without a name, by an empty one.
    pub slips: BTreeMap<String, u32>,
}

impl Summary {
    /// The summary of attempts in the order they were made.
    pub fn of<'a>(attempts: impl IntoIterator<Item = &'a Attempt>) -> Self {
        let mut summary = Self::default();
        for attempt in attempts {
            summary.add(attempt);
        }
        summary
    }

    /// Takes the next attempt in.
    pub fn add(&mut self, attempt: &Attempt) {
        if attempt.verdict.is_answer() && attempt.kind == Kind::Read {
            self.answers += 1;
            let right = attempt.verdict.is_right();
            match date_of(&attempt.at) {
                Some(date) => match self.days.get_mut(date) {
                    Some(day) => day.add(right),
                    None => self.days.entry(date.to_owned()).or_default().add(right),
                },
                None => self.undated += 1,
            }
        }
        let nth = self.answers;
        let known = self.instruments.iter().position(|kept| kept.instrument == attempt.instrument);
        let place = known.unwrap_or(self.instruments.len());
        if known.is_none() {
            self.instruments.push(Kept { instrument: attempt.instrument.clone(), ..Kept::default() });
        }
        match attempt.kind {
            Kind::Read => self.instruments[place].add(attempt, nth),
            other if attempt.verdict.is_answer() => {
                let right = attempt.verdict.is_right();
                let kept = &mut self.instruments[place];
                kept.others.entry(other).or_default().add(right);
                keep(kept.lately.entry(other).or_default(), right, LATELY);
            }
            _ => {}
        }
    }

    /// What is kept of an instrument.
    pub fn on(&self, instrument: &str) -> Option<&Kept> {
        self.instruments.iter().find(|kept| kept.instrument == instrument)
    }
}

impl Kept {
    fn add(&mut self, attempt: &Attempt, nth: u32) {
        self.last_at.clone_from(&attempt.at);
        if !attempt.verdict.is_answer() {
            self.skipped += 1;
            return;
        }
        let answer = Answer::of(attempt, nth);
        self.score.add(answer.right);
        self.begun.add(answer.right);
        if usize::try_from(self.begun.answered).is_ok_and(|answered| answered == BLOCK) {
            self.blocks.extend(char::from_digit(self.begun.right, 16));
            self.begun = Score::default();
        }
        if let Some(before) = self.latest.iter().rev().find(|before| before.key == answer.key)
            && answer.is_apart(before)
        {
            keep(&mut self.pairs, answer.apart(before), PAIRS);
        }
        self.count_day(&answer);
        keep(&mut self.latest, answer, KEPT);
    }

    fn count_day(&mut self, answer: &Answer) {
        let Some(day) = answer.day else { return };
        let place = self.days.iter().rposition(|tally| tally.day == day).unwrap_or_else(|| {
            if let Some(over) = self.days.back_mut() {
                over.times = over.median_ms().into_iter().collect();
            }
            let place = self.days.iter().rposition(|tally| tally.day < day).map_or(0, |before| before + 1);
            self.days.insert(place, DayTally::new(day));
            place
        });
        self.days[place].add(answer);
        if self.days.len() > DAYS {
            self.days.pop_front();
        }
    }

    /// The score of each block of [`BLOCK`] answers; the last may hold fewer.
    pub fn all_blocks(&self) -> impl Iterator<Item = Score> {
        let answered = u32::try_from(BLOCK).unwrap_or(u32::MAX);
        let whole = self.blocks.chars().filter_map(|digit| digit.to_digit(16));
        whole
            .map(move |right| Score { answered, right })
            .chain((self.begun.answered > 0).then_some(self.begun))
    }
}

fn keep<T>(all: &mut VecDeque<T>, one: T, most: usize) {
    all.push_back(one);
    if all.len() > most {
        all.pop_front();
    }
}

impl Answer {
    pub(super) fn of(attempt: &Attempt, nth: u32) -> Self {
        let right = attempt.verdict.is_right();
        let nought = attempt.zero_error.bytes().all(|byte| !matches!(byte, b'1'..=b'9'));
        let mut slips = attempt.misreads.iter().filter(|_| !right).cloned();
        Self {
            nth,
            day: Day::of(&attempt.at),
            key: key([attempt.asks.word(), &attempt.setting, &attempt.zero_error]),
            took_ms: attempt.took_ms,
            glass: attempt.glass,
            zero: !nought,
            right,
            posed: (attempt.generator == GENERATOR).then_some((attempt.seed, attempt.number)),
            slip: slips.next(),
            others: slips.collect(),
            put: Put::of(attempt),
            off: if right { None } else { off(attempt) },
        }
    }

    /// The misreads that explain it, the most particular first.
    pub fn slips(&self) -> impl Iterator<Item = &str> {
        self.slip.iter().chain(&self.others).map(String::as_str)
    }

    /// How far off it was: nought for a right one; none where that cannot be told.
    pub fn off(&self) -> Option<Exact> {
        if self.right {
            return Some(Exact::ZERO);
        }
        self.off.map(|(over, under)| Exact::ratio(i128::from(over), i128::from(under)))
    }

    /// Far enough from an earlier one not to be remembered.
    fn is_apart(&self, before: &Self) -> bool {
        self.nth - before.nth >= APART || before.day.zip(self.day).is_some_and(|(before, day)| before < day)
    }

    fn apart(&self, before: &Self) -> Option<Off> {
        fraction(self.off()? - before.off()?)
    }

    #[cfg(test)]
    pub(super) fn wrong_by(off: Exact, slip: Option<&str>) -> Self {
        Self {
            nth: 1,
            day: None,
            key: 0,
            took_ms: 0,
            glass: false,
            zero: false,
            right: false,
            posed: None,
            slip: slip.map(str::to_owned),
            others: Vec::new(),
            put: Put::default(),
            off: fraction(off),
        }
    }
}

fn off(attempt: &Attempt) -> Option<Off> {
    let expected = attempt.expected_quantity().ok()?;
    let typed = parse_answer(&attempt.answer, expected.unit).ok()?;
    fraction(typed.value - expected.value)
}

fn fraction(value: Exact) -> Option<Off> {
    Some((i64::try_from(value.numerator()).ok()?, i64::try_from(value.denominator()).ok()?))
}

/// FNV-1a of the texts; it stays the same in every release.
fn key(texts: [&str; 3]) -> u64 {
    let bytes = texts.iter().flat_map(|text| text.bytes().chain([0]));
    bytes.fold(0xcbf2_9ce4_8422_2325, |hash, byte| (hash ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3))
}

impl DayTally {
    fn new(day: Day) -> Self {
        Self { day, answered: 0, zeroed: 0, times: Vec::new(), slips: BTreeMap::new() }
    }

    fn add(&mut self, answer: &Answer) {
        self.answered += 1;
        self.zeroed += u32::from(answer.zero);
        if answer.right {
            if self.times.len() < TIMES {
                self.times.push(answer.took_ms);
            }
            return;
        }
        let slip = answer.slip.as_deref().unwrap_or("");
        match self.slips.get_mut(slip) {
            Some(count) => *count += 1,
            None => drop(self.slips.insert(slip.to_owned(), 1)),
        }
    }

    /// The median time of right answers.
    pub fn median_ms(&self) -> Option<u64> {
        super::progress::median(self.times.clone())
    }
}

#[cfg(test)]
mod tests {
    use super::super::testing::{at, reading};
    use super::*;
    use crate::drill::record::Verdict;

    /// Whatever the point at which it was kept, taken up again it comes to the same.
    #[test]
    fn taken_up_again_it_is_the_same() {
        let all: Vec<Attempt> = (0..400_u32)
            .map(|n| {
                let verdict = if n % 7 == 3 { Verdict::Misread } else { Verdict::Right };
                let day = 1 + n / 30;
                at(&format!("2026-03-{day:02}T07:30:00Z"), reading("micrometer-metric", n % 50, verdict))
            })
            .collect();
        let whole = Summary::of(&all);
        for cut in [0, 1, 9, 10, 159, 160, 161, 399] {
            let kept = serde_json::to_string(&Summary::of(&all[..cut])).expect("JSON");
            let mut again: Summary = serde_json::from_str(&kept).expect("what was kept");
            for attempt in &all[cut..] {
                again.add(attempt);
            }
            assert_eq!(again, whole, "{cut}");
        }
    }

    #[test]
    fn pairs_lie_eight_answers_or_a_day_apart() {
        let twice = |between: u32, second: &str| {
            let mut all = vec![at("2026-03-09T07:30:00Z", reading("micrometer-metric", 1, Verdict::Right))];
            let others = 2..2 + between;
            all.extend(
                others.map(|n| at("2026-03-09T07:31:00Z", reading("micrometer-metric", n, Verdict::Right))),
            );
            all.push(at(second, reading("micrometer-metric", 1, Verdict::Other)));
            Summary::of(&all).instruments[0].pairs.clone()
        };
        assert_eq!(twice(6, "2026-03-09T07:40:00Z").len(), 0);
        assert_eq!(twice(7, "2026-03-09T07:40:00Z").len(), 1);
        assert_eq!(twice(0, "2026-03-10T07:40:00Z").len(), 1);
        // 0.02 too much the second time.
        assert_eq!(twice(7, "2026-03-09T07:40:00Z")[0], Some((1, 50)));
    }

    #[test]
    fn a_clock_set_back_loses_no_day() {
        let all = ["2026-03-10T08:00:00Z", "2026-03-09T08:00:00Z", "2026-03-10T09:00:00Z"];
        let all = all.map(|time| at(time, reading("micrometer-metric", 1, Verdict::Right)));
        let days: Vec<_> = Summary::of(&all).instruments[0].days.iter().map(|d| d.answered).collect();
        assert_eq!(days, [1, 2]);
    }
}
