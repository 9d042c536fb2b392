//! What was answered wrong, and which misread gives it.

use super::Asked;
use crate::drill::record::Attempt;
use crate::exact::{Exact, parse_answer};
use crate::instrument::Catalogue;
use crate::learner::progress::Score;
use serde::Serialize;
use std::collections::{BTreeMap, BTreeSet};

/// Wrong answers.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Wrong {
    /// Distinct ones, those of most people first.
    pub answers: Vec<WrongAnswer>,
    /// Wrong answers, and those of them that a misread gives (as `right`).
    pub explained: Score,
    /// Questions passed over.
    pub passed_over: u32,
}

/// One wrong answer.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct WrongAnswer {
    /// As it was written, or how far it was off: `+0.50 mm`.
    pub answer: String,
    /// How often it was given.
    pub times: u32,
    /// By how many people.
    pub people: u32,
    /// The misreads that give it, the most particular first.
    pub misreads: Vec<String>,
}

/// What makes two wrong answers the same.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum By {
    /// The answer itself: all were asked the same.
    Answer,
    /// The misread that gives it, else how far it was off.
    Off,
}

/// What wrong answers are told apart by: the part of the question, and what was said.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Key {
    Value(usize, i128, i128),
    Text(usize, String),
    Misread(String),
}

#[derive(Default)]
struct Group {
    spelt: BTreeMap<String, u32>,
    people: BTreeSet<usize>,
    times: u32,
    misreads: Vec<String>,
}

/// A longer answer is cut: nobody types one by mistake.
const LONGEST: usize = 40;

impl Wrong {
    /// Of questions, each with the number of the person who answered it.
    pub(super) fn of<'a>(
        asked: impl Iterator<Item = (usize, &'a Asked<'a>)>,
        by: By,
        catalogue: &Catalogue,
    ) -> Self {
        let mut wrong = Self::default();
        let mut groups: BTreeMap<Key, Group> = BTreeMap::new();
        for (person, asked) in asked {
            for (part, attempt) in asked.parts.iter().enumerate().filter(|(_, part)| !part.verdict.is_right())
            {
                if !attempt.verdict.is_answer() {
                    wrong.passed_over += 1;
                    continue;
                }
                wrong.explained.add(!attempt.misreads.is_empty());
                let (key, spelt) = key(part, attempt, by, catalogue);
                let group = groups.entry(key).or_default();
                *group.spelt.entry(spelt).or_default() += 1;
                group.people.insert(person);
                group.times += 1;
                for id in &attempt.misreads {
                    if by == By::Answer && !group.misreads.contains(id) {
                        group.misreads.push(id.clone());
                    }
                }
                if by == By::Off && group.misreads.is_empty() {
                    group.misreads.extend(attempt.misreads.first().cloned());
                }
            }
        }
        wrong.answers = groups.into_values().map(WrongAnswer::of).collect();
        wrong.answers.sort_by_key(|answer| std::cmp::Reverse((answer.people, answer.times)));
        wrong
    }
}

impl WrongAnswer {
    /// Written as most wrote it.
    fn of(group: Group) -> Self {
        let people = u32::try_from(group.people.len()).unwrap_or(u32::MAX);
        let spelt = group.spelt.into_iter().max_by_key(|(_, times)| *times);
        let answer = spelt.map(|(spelt, _)| spelt).unwrap_or_default();
        Self { answer, times: group.times, people, misreads: group.misreads }
    }
}

fn key(part: usize, attempt: &Attempt, by: By, catalogue: &Catalogue) -> (Key, String) {
    let typed: String = attempt.answer.trim().chars().take(LONGEST).collect();
    let expected = attempt.expected_quantity().ok();
    let value =
        expected.and_then(|expected| Some((expected, parse_answer(&typed, expected.unit).ok()?.value)));
    match (by, value) {
        (By::Off, _) if !attempt.misreads.is_empty() => {
            let id = attempt.misreads[0].clone();
            (Key::Misread(id.clone()), id)
        }
        (By::Answer, Some((_, value))) => (Key::Value(part, value.numerator(), value.denominator()), typed),
        (By::Off, Some((expected, value))) => {
            let off = value - expected.value;
            let spelt = catalogue.get(&attempt.instrument).map_or_else(
                || typed.clone(),
                |tool| {
                    let sign = if off < Exact::ZERO { '-' } else { '+' };
                    format!("{sign}{}", tool.notation.spell_with_unit(off.abs(), tool.unit))
                },
            );
            (Key::Value(0, off.numerator(), off.denominator()), spelt)
        }
        (_, None) => (Key::Text(part, typed.to_lowercase()), typed),
    }
}
