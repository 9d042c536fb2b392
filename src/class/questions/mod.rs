//! Which questions of a set bite: how hard each is, whether it tells good readers from poor ones, what is answered to it.
//!
//! Where everybody had the same paper (a set with a seed, the same questions at the same places), each question is looked at by
//! itself. Otherwise questions are drawn, and those are taken together that have something in common ([`Family`]): a half line
//! that shows, a thimble near its 0, a zero that is off.
//!
//! Each learner's first sitting counts; whoever sits it again has seen it. Only sittings that were done count for a whole paper.

mod family;
mod wrong;

pub use family::{Family, Feature};
pub use wrong::{Wrong, WrongAnswer};

use super::items::{Analysis, ENOUGH, analysis, correlation, fisher};
use super::record::middle;
use super::sitting::{End, Sitting};
use crate::drill::Kind;
use crate::drill::record::Attempt;
use crate::instrument::Catalogue;
use crate::learner::progress::{Interval, Score, Z_95};
use serde::Serialize;
use std::collections::{BTreeMap, BTreeSet};

/// Fewer right than this share: hard.
const HARD: f64 = 0.30;
/// More right than this share: nobody learns from it.
const EASY: f64 = 0.95;
/// A correlation with the rest below this: it hardly tells good readers from poor ones.
const TELLS: f64 = 0.15;
/// The same unexplained answer from so many people.
const SAME_ANSWER: u32 = 3;
/// A median so many times that of the set is slow.
const SLOW: u64 = 2;

/// The questions of a set, as its sittings have it.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Questions {
    /// The drill set's id.
    pub set: String,
    /// The hash of the text that most had; sittings over another text are left out.
    pub revision: String,
    /// Whether all had the same questions.
    pub paper: Paper,
    /// How many people are counted.
    pub people: usize,
    /// Sittings that were left out: a second try, another text, not done.
    pub left_out: usize,
    /// Fewer than twenty: what is said of how well a question tells is too uncertain to act on.
    pub too_few: bool,
    /// The mean score, its spread, how far a score can be trusted; of one paper for all.
    pub whole: Option<Whole>,
    /// The median time of right answers, in milliseconds.
    pub median_ms: Option<u64>,
    /// One a question, or one a family.
    pub lines: Vec<Line>,
}

/// Whether all had the same questions.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Paper {
    /// They had.
    Same,
    /// Everybody had others.
    Drawn,
}

/// The paper as a whole.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Whole {
    /// Questions.
    pub questions: usize,
    /// The mean score.
    pub mean: f64,
    /// The standard deviation of the scores.
    pub spread: f64,
    /// The reliability of Kuder and Richardson (formula 20).
    pub kr20: Option<f64>,
    /// The standard error of measurement, in questions.
    pub error: Option<f64>,
}

/// A question, or a family of them.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Line {
    /// What it is.
    pub about: About,
    /// Answers, and right ones.
    pub score: Score,
    /// The 95 % Wilson interval of the share right.
    pub interval: Option<Interval>,
    /// The correlation with the score of all other questions.
    pub with_rest: Option<f64>,
    /// Its 95 % interval.
    pub with_rest_interval: Option<Interval>,
    /// The share right among the best less that among the poorest 27 %; of one paper for all.
    pub upper_lower: Option<f64>,
    /// The median time of right answers, in milliseconds.
    pub median_ms: Option<u64>,
    /// What was answered wrong.
    pub wrong: Wrong,
    /// What to look at.
    pub flags: Vec<Flag>,
}

/// What a line is about.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum About {
    /// One question.
    Question {
        /// Its place on the paper, from 1.
        place: u32,
        /// Its instrument's id.
        instrument: String,
        /// Its kind.
        kind: Kind,
        /// The answer that is wanted, of all its parts.
        expected: Vec<String>,
    },
    /// What has something in common.
    Family(Family),
}

/// Something to look at.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Flag {
    /// Good readers miss it more than poor ones: the question may be at fault.
    Backwards,
    /// It hardly tells good readers from poor ones.
    HardlyTells,
    /// Fewer than three in ten have it right.
    Hard,
    /// Nearly all have it right.
    Easy,
    /// It takes twice the time of the others.
    Slow,
    /// Three or more gave the same answer, and no known misread gives it.
    Unexplained,
}

/// One question as somebody answered it.
struct Asked<'a> {
    place: u32,
    right: bool,
    took_ms: u64,
    parts: Vec<&'a Attempt>,
    /// What is to be said about where the tool stood; looked up where questions were drawn.
    features: BTreeSet<Feature>,
}

/// The analysis of a set; none where nothing of it came back.
pub fn questions(set: &str, sittings: &[Sitting], catalogue: &Catalogue) -> Option<Questions> {
    let of_set: Vec<&Sitting> = sittings.iter().filter(|sitting| sitting.set == set).collect();
    let revision = most_frequent(&of_set)?;
    let mut first: BTreeMap<&str, &Sitting> = BTreeMap::new();
    for sitting in of_set.iter().filter(|sitting| sitting.revision == revision) {
        let before = first.entry(&sitting.learner).or_insert(sitting);
        if (sitting.nth, &sitting.begun, &sitting.id) < (before.nth, &before.begun, &before.id) {
            *before = sitting;
        }
    }
    let mut all: Vec<(bool, Vec<Asked<'_>>)> =
        first.values().map(|sitting| (sitting.end == End::Done, asked(sitting))).collect();
    all.retain(|(_, asked)| !asked.is_empty());
    let of_done = |all: &[(bool, Vec<Asked<'_>>)]| {
        is_same(&all.iter().filter(|(done, _)| *done).map(|(_, asked)| asked).collect::<Vec<_>>())
    };
    let paper = if of_done(&all) { Paper::Same } else { Paper::Drawn };
    if paper == Paper::Drawn {
        for asked in all.iter_mut().flat_map(|(_, asked)| asked) {
            asked.features =
                asked.parts.first().map(|part| family::features(part, catalogue)).unwrap_or_default();
        }
    }
    let counted: Vec<&Vec<Asked<'_>>> =
        all.iter().filter(|(done, _)| *done || paper == Paper::Drawn).map(|(_, asked)| asked).collect();
    if counted.is_empty() {
        return None;
    }
    let times = |asked: &mut dyn Iterator<Item = &Asked<'_>>| {
        middle(asked.filter(|asked| asked.right).map(|asked| asked.took_ms).collect())
    };
    let median_ms = times(&mut counted.iter().copied().flatten());
    let too_few = counted.len() < ENOUGH;
    let mut whole = None;
    let mut lines: Vec<Line> = match paper {
        Paper::Same => {
            let rows: Vec<Vec<bool>> =
                counted.iter().map(|asked| asked.iter().map(|one| one.right).collect()).collect();
            let found = analysis(&rows)?;
            whole = Some(Whole::of(&found));
            found
                .items
                .iter()
                .enumerate()
                .map(|(at, item)| one_question(&counted, at, item, catalogue))
                .collect()
        }
        Paper::Drawn => {
            family::all(&counted).into_iter().map(|family| of_family(&counted, family, catalogue)).collect()
        }
    };
    for line in &mut lines {
        line.flag(median_ms, too_few);
    }
    Some(Questions {
        set: set.to_owned(),
        revision: revision.to_owned(),
        paper,
        people: counted.len(),
        left_out: of_set.len() - counted.len(),
        too_few,
        whole,
        median_ms,
        lines,
    })
}

fn most_frequent<'a>(sittings: &[&'a Sitting]) -> Option<&'a str> {
    let mut counts: BTreeMap<&str, u32> = BTreeMap::new();
    for sitting in sittings {
        *counts.entry(&sitting.revision).or_default() += 1;
    }
    counts.into_iter().max_by_key(|(_, count)| *count).map(|(revision, _)| revision)
}

/// The questions of a sitting in the order of their places.
fn asked(sitting: &Sitting) -> Vec<Asked<'_>> {
    let mut all: BTreeMap<u32, BTreeMap<u32, &Attempt>> = BTreeMap::new();
    for entry in &sitting.entries {
        all.entry(entry.place).or_default().entry(entry.part).or_insert(&entry.attempt);
    }
    all.into_iter()
        .map(|(place, parts)| {
            let parts: Vec<&Attempt> = parts.into_values().collect();
            let whole = sitting.lacks.iter().all(|lack| lack.place != place);
            let right = whole && parts.iter().all(|attempt| attempt.verdict.is_right());
            let took_ms = parts.iter().map(|attempt| attempt.took_ms).fold(0, u64::saturating_add);
            Asked { place, right, took_ms, parts, features: BTreeSet::new() }
        })
        .collect()
}

/// Whether all had the same questions at the same places, and more than one person says so.
fn is_same(papers: &[&Vec<Asked<'_>>]) -> bool {
    let Some((first, others)) = papers.split_first() else { return false };
    let same = |one: &Asked<'_>, other: &Asked<'_>| {
        one.place == other.place
            && one.parts.len() == other.parts.len()
            && one.parts.iter().zip(&other.parts).all(|(one, other)| is_one(one, other))
    };
    let alike = |paper: &&Vec<Asked<'_>>| {
        paper.len() == first.len() && paper.iter().zip(first.iter()).all(|(one, other)| same(one, other))
    };
    !first.is_empty() && !others.is_empty() && others.iter().all(alike)
}

/// Whether both were asked the same.
fn is_one(one: &Attempt, other: &Attempt) -> bool {
    let put = |of: &'_ Attempt| (of.kind, of.asks, of.number, of.seed, of.generator);
    let stood = |of: &Attempt| {
        [&of.instrument, &of.setting, &of.zero_error, &of.variant, &of.conditions, &of.given, &of.expected]
            .map(Clone::clone)
    };
    put(one) == put(other) && stood(one) == stood(other)
}

impl Questions {
    /// Whether all are on one instrument.
    pub fn has_one_tool(&self) -> bool {
        let mut tools = self.lines.iter().map(|line| line.about.instrument());
        let first = tools.next();
        tools.all(|tool| Some(tool) == first)
    }
}

impl About {
    /// Its instrument's id.
    pub fn instrument(&self) -> &str {
        match self {
            Self::Question { instrument, .. } => instrument,
            Self::Family(family) => &family.instrument,
        }
    }
}

impl Whole {
    fn of(found: &Analysis) -> Self {
        Self {
            questions: found.items.len(),
            mean: found.mean,
            spread: found.spread,
            kr20: found.kr20,
            error: found.error,
        }
    }
}

fn one_question(
    papers: &[&Vec<Asked<'_>>],
    at: usize,
    item: &super::items::Item,
    catalogue: &Catalogue,
) -> Line {
    let asked: Vec<&Asked<'_>> = papers.iter().map(|paper| &paper[at]).collect();
    let first = asked[0];
    let (kind, instrument) =
        first.parts.first().map(|attempt| (attempt.kind, attempt.instrument.clone())).unwrap_or_default();
    let expected = first.parts.iter().map(|attempt| attempt.expected.clone()).collect();
    Line {
        about: About::Question { place: first.place, instrument, kind, expected },
        score: item.score,
        interval: item.interval,
        with_rest: item.with_rest,
        with_rest_interval: item.with_rest_interval,
        upper_lower: item.upper_lower,
        median_ms: middle(asked.iter().filter(|one| one.right).map(|one| one.took_ms).collect()),
        wrong: Wrong::of(asked.iter().enumerate().map(|(n, one)| (n, *one)), wrong::By::Answer, catalogue),
        flags: Vec::new(),
    }
}

fn of_family(papers: &[&Vec<Asked<'_>>], family: Family, catalogue: &Catalogue) -> Line {
    let is_in = |asked: &Asked<'_>| family.holds(asked);
    let mut score = Score::default();
    let (mut shares, mut rests) = (Vec::new(), Vec::new());
    let mut own: Vec<(usize, &Asked<'_>)> = Vec::new();
    for (person, paper) in papers.iter().enumerate() {
        let (mut mine, mut rest) = (Score::default(), Score::default());
        for asked in *paper {
            if is_in(asked) {
                mine.add(asked.right);
                score.add(asked.right);
                own.push((person, asked));
            } else {
                rest.add(asked.right);
            }
        }
        if let (Some(mine), Some(rest)) = (mine.share(), rest.share()) {
            shares.push(mine);
            rests.push(rest);
        }
    }
    let with_rest = correlation(&shares, &rests);
    Line {
        score,
        interval: score.wilson(Z_95),
        with_rest,
        with_rest_interval: with_rest.and_then(|r| fisher(r, shares.len())),
        upper_lower: None,
        median_ms: middle(own.iter().filter(|(_, one)| one.right).map(|(_, one)| one.took_ms).collect()),
        wrong: Wrong::of(own.into_iter(), wrong::By::Off, catalogue),
        flags: Vec::new(),
        about: About::Family(family),
    }
}

impl Line {
    /// Of too few people only what stands without statistics is flagged.
    fn flag(&mut self, median_ms: Option<u64>, too_few: bool) {
        let mut flags = BTreeSet::new();
        if !too_few {
            match self.with_rest {
                Some(r) if r < 0.0 => drop(flags.insert(Flag::Backwards)),
                Some(r) if r < TELLS => drop(flags.insert(Flag::HardlyTells)),
                _ => {}
            }
            match self.score.share() {
                Some(share) if share < HARD => drop(flags.insert(Flag::Hard)),
                Some(share) if share > EASY => drop(flags.insert(Flag::Easy)),
                _ => {}
            }
        }
        if self.median_ms.zip(median_ms).is_some_and(|(own, of_all)| own > SLOW * of_all) {
            flags.insert(Flag::Slow);
        }
        if self.wrong.answers.iter().any(|answer| answer.misreads.is_empty() && answer.people >= SAME_ANSWER)
        {
            flags.insert(Flag::Unexplained);
        }
        self.flags = flags.into_iter().collect();
    }
}

#[cfg(test)]
mod tests;
