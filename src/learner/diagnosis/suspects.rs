//! Which misreads can be told on an instrument at all, and what each answers to a question.

use crate::drill::{Candidate, Question, Seed};
use crate::exact::{Exact, Notation};
use crate::instrument::{Instrument, Variant};
use crate::reading::{Case, Misread, misread};

/// How many candidates are looked at to find out which misreads happen on an instrument, and which are alike there.
const SAMPLE: u32 = 600;
/// Any seed does; it is always the same one, so that a diagnosis depends on the answers alone.
const SAMPLE_SEED: Seed = Seed(0);

/// The misreads that happen on an instrument. Those that answer alike wherever it stands are one suspect.
#[derive(Clone)]
pub struct Suspects {
    all: Vec<Suspect>,
}

/// One misread, or several that answer alike on this instrument.
#[derive(Clone)]
pub struct Suspect {
    /// The most particular of them: what is reported.
    pub misread: &'static Misread,
    /// The others.
    pub alike: Vec<&'static Misread>,
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
}

impl Suspects {
    /// The suspects of an instrument.
    pub fn of(instrument: &Instrument) -> Self {
        let mut tools = Tools::of(instrument);
        let mut seen: Vec<(Suspect, Vec<Vec<Exact>>)> = Vec::new();
        let questions: Vec<(Question, usize)> =
            (1..=SAMPLE).map(|number| tools.candidate(SAMPLE_SEED, number)).collect();
        let cases: Vec<(Case<'_>, Exact)> = questions
            .iter()
            .map(|(question, tool)| question.case(tools.get(*tool)))
            .map(|case| (case, case.expected()))
            .collect();
        for misread in misread::ALL.into_iter().filter(|misread| may_happen(misread, &tools)) {
            let answers: Vec<Vec<Exact>> =
                cases.iter().map(|(case, right)| wrong(misread, case, *right)).collect();
            if answers.iter().all(Vec::is_empty) {
                continue;
            }
            match seen.iter_mut().find(|(_, others)| *others == answers) {
                Some((suspect, _)) => suspect.alike.push(misread),
                None => seen.push((Suspect { misread, alike: Vec::new() }, answers)),
            }
        }
        Self { all: seen.into_iter().map(|(suspect, _)| suspect).collect() }
    }

    /// How many there are.
    pub fn count(&self) -> usize {
        self.all.len()
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
            answers: self.all.iter().map(|suspect| wrong(suspect.misread, &case, right)).collect(),
        }
    }
}

impl Suspect {
    /// True for the misread of this id, and for those that are alike.
    pub fn is(&self, id: &str) -> bool {
        self.misread.id == id || self.alike.iter().any(|misread| misread.id == id)
    }
}

/// [`Misread::wrong`], each answer once, and the right one not worked out again for every misread.
fn wrong(misread: &Misread, case: &Case<'_>, right: Exact) -> Vec<Exact> {
    let mut answers: Vec<Exact> = Vec::new();
    for wrong in (misread.answers)(case) {
        if wrong.answer != right && !answers.contains(&wrong.answer) {
            answers.push(wrong.answer);
        }
    }
    answers
}

fn may_happen(misread: &Misread, tools: &Tools) -> bool {
    misread.happens_on(&tools.base)
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
