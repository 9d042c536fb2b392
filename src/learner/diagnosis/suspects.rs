//! Which misreads can be told on an instrument at all, and what each answers to a question.

use crate::drill::{Candidate, Question, Seed};
use crate::exact::{Exact, Notation};
use crate::instrument::{Instrument, Variant};
use crate::reading::misread::{self, Part};
use crate::reading::{Case, Misread};
use std::collections::BTreeSet;

/// How many candidates are looked at to find out which misreads happen on an instrument, and which are alike there.
const SAMPLE: u32 = 600;
/// The same for a few misreads that are known to have happened; progress waits for it.
const SMALL_SAMPLE: u32 = 120;
/// Any seed does; it is always the same one, so that a diagnosis depends on the answers alone.
const SAMPLE_SEED: Seed = Seed(0);

/// The misreads that happen on an instrument. Those that answer alike wherever it stands are one suspect.
#[derive(Clone)]
pub struct Suspects {
    all: Vec<Suspect>,
    /// How many misreads were not looked at.
    aside: usize,
}

/// One misread, or several that answer alike on this instrument.
#[derive(Clone)]
pub struct Suspect {
    /// The most particular of them: what is reported.
    pub misread: &'static Misread,
    /// The others.
    pub alike: Vec<&'static Misread>,
    /// Of several answers that the misread may lead to, the places of those that are left to a more particular one, which always
    /// gives the same.
    left_out: Vec<usize>,
}

/// What every suspect answers to one question.
#[derive(Clone, Debug, PartialEq)]
pub struct Predicted {
    /// The right answer.
    pub right: Exact,
    /// One line of the finest scale.
    pub line: Exact,
    /// What one in the last decimal is worth, where readings are decimals.
    pub digit: Option<Exact>,
    /// For each suspect its wrong answers; none where it reads right.
    pub answers: Vec<Vec<Exact>>,
    /// For each suspect the part of the reading that it does wrong; none for a slip over the whole figure.
    pub parts: Vec<Option<Part>>,
}

impl Predicted {
    /// The wrong answers of someone who holds both, where both make a difference, each in a step of its own.
    pub(super) fn together(&self, one: usize, other: usize) -> Vec<Exact> {
        match (self.parts[one], self.parts[other]) {
            (Some(a), Some(b)) if a != b => {
                let sum = |a: &Exact, b: &Exact| *a + *b - self.right;
                let all =
                    self.answers[one].iter().flat_map(|a| self.answers[other].iter().map(move |b| sum(a, b)));
                all.filter(|answer| *answer != self.right).collect()
            }
            _ => Vec::new(),
        }
    }
}

impl Suspects {
    /// The suspects of an instrument.
    pub fn of(instrument: &Instrument) -> Self {
        Self::picked(instrument, |_| true)
    }

    /// The suspects among the misreads of these ids; the others are left aside, and weigh what they weighed before the first
    /// answer.
    pub fn among(instrument: &Instrument, ids: &BTreeSet<&str>) -> Self {
        Self::picked(instrument, |misread| ids.contains(misread.id))
    }

    fn picked(instrument: &Instrument, is_wanted: impl Fn(&Misread) -> bool) -> Self {
        let base = &instrument.fitted(&Variant::default());
        let happen = || misread::ALL.into_iter().filter(move |misread| misread.happens_on(base));
        let wanted: Vec<&'static Misread> = happen().filter(|misread| is_wanted(misread)).collect();
        let aside = happen().count() - wanted.len();
        // One alone need not be told from others.
        if let (&[misread], true) = (&wanted[..], aside > 0) {
            return Self { all: vec![Suspect { misread, alike: Vec::new(), left_out: Vec::new() }], aside };
        }
        let mut tools = Tools::of(instrument);
        let mut seen: Vec<(Suspect, Vec<Vec<Exact>>)> = Vec::new();
        let questions: Vec<(Question, usize)> = (1..=if aside > 0 { SMALL_SAMPLE } else { SAMPLE })
            .map(|number| tools.candidate(SAMPLE_SEED, number))
            .collect();
        let cases: Vec<(Case<'_>, Exact)> = questions
            .iter()
            .map(|(question, tool)| question.case(tools.get(*tool)))
            .map(|case| (case, case.expected()))
            .collect();
        for misread in wanted {
            let raw: Vec<Vec<Exact>> = cases.iter().map(|(case, _)| raw(misread, case)).collect();
            let left_out = left_out(&raw, &cases, &seen);
            let answers: Vec<Vec<Exact>> =
                raw.iter().zip(&cases).map(|(raw, (_, right))| wrong(raw, &left_out, *right)).collect();
            if aside == 0 && answers.iter().all(Vec::is_empty) {
                continue;
            }
            match seen.iter_mut().find(|(_, others)| *others == answers) {
                Some((suspect, _)) => suspect.alike.push(misread),
                None => seen.push((Suspect { misread, alike: Vec::new(), left_out }, answers)),
            }
        }
        Self { all: seen.into_iter().map(|(suspect, _)| suspect).collect(), aside }
    }

    /// How many there are.
    pub fn count(&self) -> usize {
        self.all.len()
    }

    /// How many misreads were left aside.
    pub(super) fn aside(&self) -> usize {
        self.aside
    }

    /// All of them, the more particular first.
    pub fn all(&self) -> &[Suspect] {
        &self.all
    }

    /// What each answers to a question. The tool is the one of the question, with what is fitted to it.
    pub fn predict(&self, question: &Question, tool: &Instrument) -> Predicted {
        let case = question.case(tool);
        let right = case.expected();
        Predicted {
            right,
            line: tool.value(tool.least_count),
            digit: match tool.notation {
                Notation::Decimal { places } => {
                    Some(Exact::ratio(1, (0..places).fold(1, |product, _| product * 10)))
                }
                Notation::Fraction | Notation::Angle => None,
            },
            answers: self
                .all
                .iter()
                .map(|suspect| wrong(&raw(suspect.misread, &case), &suspect.left_out, right))
                .collect(),
            parts: self.all.iter().map(|suspect| suspect.part(&case)).collect(),
        }
    }
}

impl Suspect {
    fn part(&self, case: &Case<'_>) -> Option<Part> {
        let answers = (self.misread.answers)(case);
        answers.first().and_then(|wrong| self.misread.part(case, wrong))
    }

    /// True for the misread of this id, and for those that are alike.
    pub fn is(&self, id: &str) -> bool {
        self.misread.id == id || self.alike.iter().any(|misread| misread.id == id)
    }
}

/// The answers of a misread as it gives them, the right one among them where it makes no difference.
fn raw(misread: &Misread, case: &Case<'_>) -> Vec<Exact> {
    (misread.answers)(case).into_iter().map(|wrong| wrong.answer).collect()
}

/// The wrong ones among them, each once.
fn wrong(raw: &[Exact], left_out: &[usize], right: Exact) -> Vec<Exact> {
    let mut answers: Vec<Exact> = Vec::new();
    for (_, answer) in raw.iter().enumerate().filter(|(place, _)| !left_out.contains(place)) {
        if *answer != right && !answers.contains(answer) {
            answers.push(*answer);
        }
    }
    answers
}

/// The places of answers that an earlier suspect gives as well whenever either makes a difference.
fn left_out(
    raw: &[Vec<Exact>],
    cases: &[(Case<'_>, Exact)],
    earlier: &[(Suspect, Vec<Vec<Exact>>)],
) -> Vec<usize> {
    let most = raw.iter().map(Vec::len).max().unwrap_or(0);
    if most < 2 {
        return Vec::new();
    }
    let given = |place: usize, answers: &[Vec<Exact>]| {
        raw.iter().zip(cases).zip(answers).all(|((raw, (_, right)), answers)| {
            match raw.get(place).filter(|answer| *answer != right) {
                Some(answer) => answers.contains(answer),
                None => answers.is_empty(),
            }
        })
    };
    (0..most).filter(|place| earlier.iter().any(|(_, answers)| given(*place, answers))).collect()
}

/// An instrument with every combination of lengths that has come up.
#[derive(Clone)]
pub(super) struct Tools {
    base: Instrument,
    fitted: Vec<(Variant, Instrument)>,
}

impl Tools {
    pub(super) fn of(instrument: &Instrument) -> Self {
        Self { base: instrument.fitted(&Variant::default()), fitted: Vec::new() }
    }

    /// A candidate made out, and which tool it is read on.
    pub(super) fn candidate(&mut self, seed: Seed, number: u32) -> (Question, usize) {
        let candidate = Candidate::drawn(&self.base, seed, number);
        let known = self.fitted.iter().position(|(variant, _)| *variant == candidate.variant);
        let tool = known.unwrap_or_else(|| {
            let tool = self.base.fitted(&candidate.variant);
            self.fitted.push((candidate.variant.clone(), tool));
            self.fitted.len() - 1
        });
        (candidate.question(&self.fitted[tool].1), tool)
    }

    pub(super) fn get(&self, tool: usize) -> &Instrument {
        &self.fitted[tool].1
    }
}
