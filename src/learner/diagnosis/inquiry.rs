//! An inquiry: question by question until a misread is named, or cleared, or it is given up.

use super::belief::{Belief, Hypothesis};
use super::both;
use super::prior::Prior;
use super::suspects::{Predicted, Suspects};
use crate::drill::Question;
use crate::exact::Exact;
use crate::instrument::Instrument;

/// What it takes to be sure.
pub const SURE: f64 = 0.95;
/// Wrong answers that a misread must have predicted before it is named.
pub const CONFIRMED: u32 = 2;
/// Right answers where a misread would have been wrong before it counts as covered.
pub const COVERED: u32 = 3;
/// Wrong answers that no misread predicts before something unlisted is named.
pub const UNEXPLAINED: u32 = 3;
/// So probable that two are held that nothing unlisted is named.
const LIKELY: f64 = 0.5;
/// Questions after which an inquiry that chooses them is given up.
pub const MOST: u32 = 15;

/// How an inquiry stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Status {
    /// Not known yet.
    Open,
    /// A misread was found.
    Named,
    /// Reads correctly, and every misread was given its chance.
    ReadsCorrectly,
    /// Something is read wrong in a way that is not listed.
    Unlisted,
    /// Given up.
    Undecided,
}

impl Status {
    /// The word used in streams.
    pub fn word(self) -> &'static str {
        match self {
            Self::Open => "open",
            Self::Named => "named",
            Self::ReadsCorrectly => "reads-correctly",
            Self::Unlisted => "unlisted",
            Self::Undecided => "undecided",
        }
    }
}

/// What is believed of a learner.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Diagnosis {
    /// The most probable explanation.
    pub leading: Hypothesis,
    /// The id of its misread, or `reads-correctly`, or `unlisted`.
    pub id: &'static str,
    /// The id of a misread that is held as well, on another step.
    pub also: Option<&'static str>,
    /// The id of the next most probable one.
    pub second: &'static str,
    /// How probable the leading one is.
    pub probability: f64,
    /// How the inquiry stands.
    pub status: Status,
    /// How many questions were put.
    pub asked: u32,
}

/// What was answered.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Heard {
    /// The right reading, however it was written.
    Right,
    /// Another reading.
    Wrong(Exact),
    /// Passed over.
    Skipped,
}

/// An inquiry on one instrument: a function of what was asked and answered, in order.
#[derive(Clone)]
pub struct Inquiry {
    suspects: Suspects,
    belief: Belief,
    /// For each suspect, how often it predicted a wrong answer.
    predicted: Vec<u32>,
    /// For each suspect, how often the right answer was given where it would be wrong.
    contradicted: Vec<u32>,
    /// Wrong answers that no suspect predicts.
    unexplained: u32,
    asked: u32,
    /// Questions after which it is given up; none where they are not chosen and come as they come.
    most: Option<u32>,
    /// What was answered, and what each would have.
    heard: Vec<(Predicted, Exact)>,
    /// The first diagnosis that was not open.
    settled: Option<Diagnosis>,
}

impl Inquiry {
    /// An inquiry on an instrument, nothing asked yet.
    pub fn new(instrument: &Instrument, prior: &Prior) -> Self {
        Self::among(Suspects::of(instrument), prior)
    }

    /// An inquiry among suspects that are known already.
    pub fn among(suspects: Suspects, prior: &Prior) -> Self {
        let belief = Belief::before(&suspects, prior);
        let none = vec![0; suspects.count()];
        Self {
            suspects,
            belief,
            predicted: none.clone(),
            contradicted: none,
            unexplained: 0,
            asked: 0,
            most: Some(MOST),
            heard: Vec::new(),
            settled: None,
        }
    }

    /// The same never given up: for questions that come as they come, where a misread may have few chances to show.
    #[must_use]
    pub fn patient(self) -> Self {
        Self { most: None, ..self }
    }

    /// The suspects.
    pub fn suspects(&self) -> &Suspects {
        &self.suspects
    }

    /// What is believed now.
    pub fn belief(&self) -> &Belief {
        &self.belief
    }

    /// Takes an answer in. The tool is the one of the question, with what is fitted to it.
    pub fn hear(&mut self, question: &Question, tool: &Instrument, heard: Heard) {
        let predicted = self.suspects.predict(question, tool);
        self.hear_predicted(&predicted, heard);
    }

    /// The same with what every suspect answers known already.
    pub fn hear_predicted(&mut self, predicted: &Predicted, heard: Heard) {
        self.asked += 1;
        let answer = match heard {
            Heard::Right => Some(predicted.right),
            Heard::Wrong(answer) => Some(answer),
            Heard::Skipped => None,
        };
        if let Some(answer) = answer {
            self.belief.hear(predicted, answer);
            self.count(predicted, answer);
            if self.settled.is_none() {
                self.heard.push((predicted.clone(), answer));
            }
        }
        if self.settled.is_none() {
            let now = self.now();
            self.settled = (now.status != Status::Open).then_some(now);
        }
    }

    /// The diagnosis: the first one that was not open is final.
    pub fn diagnosis(&self) -> Diagnosis {
        self.settled.unwrap_or_else(|| self.now())
    }

    /// Questions put so far.
    pub fn asked(&self) -> u32 {
        self.asked
    }

    /// True while a suspect has not been given its chance often enough.
    pub fn is_uncovered(&self, suspect: usize) -> bool {
        self.contradicted[suspect] < COVERED
    }

    fn count(&mut self, predicted: &Predicted, answer: Exact) {
        let mut explained = answer == predicted.right;
        for (n, answers) in predicted.answers.iter().enumerate() {
            if answers.contains(&answer) {
                self.predicted[n] += 1;
                explained = true;
            } else if !answers.is_empty() && answer == predicted.right {
                self.contradicted[n] += 1;
            }
        }
        self.unexplained += u32::from(!explained);
    }

    fn is_at_its_end(&self) -> bool {
        self.most.is_some_and(|most| self.asked >= most)
    }

    fn now(&self) -> Diagnosis {
        let ranked = self.belief.ranked();
        let (leading, probability) = ranked[0];
        let sure = probability >= SURE;
        let status = match leading {
            Hypothesis::Suspect(n) if sure && self.predicted[n] >= CONFIRMED => Status::Named,
            Hypothesis::Correct
                if sure && (0..self.suspects.count()).all(|suspect| !self.is_uncovered(suspect)) =>
            {
                Status::ReadsCorrectly
            }
            Hypothesis::Unlisted if sure && self.unexplained >= UNEXPLAINED => Status::Unlisted,
            _ if self.is_at_its_end() => Status::Undecided,
            _ => Status::Open,
        };
        let two = if status == Status::Named || self.unexplained == 0 {
            None
        } else {
            both::held(&self.heard, self.belief.evidence())
        };
        let status = match two {
            Some(two) if two.is_sure => return self.named(&two),
            // Two that have a name each are no unlisted one.
            Some(two) if status == Status::Unlisted && two.any >= LIKELY && !self.is_at_its_end() => {
                Status::Open
            }
            _ => status,
        };
        // There are two at least: reads correctly, and unlisted.
        let second = self.id(ranked[1].0);
        let also = None;
        Diagnosis { leading, id: self.id(leading), also, second, probability, status, asked: self.asked }
    }

    fn named(&self, two: &both::Held) -> Diagnosis {
        let leading = Hypothesis::Suspect(two.pair.0);
        let [id, second] = [two.pair.0, two.pair.1].map(|n| self.id(Hypothesis::Suspect(n)));
        let (probability, status) = (two.probability, Status::Named);
        Diagnosis { leading, id, also: Some(second), second, probability, status, asked: self.asked }
    }

    fn id(&self, hypothesis: Hypothesis) -> &'static str {
        match hypothesis {
            Hypothesis::Correct => "reads-correctly",
            Hypothesis::Suspect(n) => self.suspects.all()[n].misread.id,
            Hypothesis::Unlisted => "unlisted",
        }
    }
}
