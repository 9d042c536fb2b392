//! The same played without the program around it, for trying out: thousands of learners in seconds.

use super::learner::Learner;
use super::seen::{Seen, figure, tool};
use super::table::Outcome;
use linefall::drill::{Draw, Question, Seed};
use linefall::exact::parse_answer;
use linefall::instrument::{Instrument, Variant};
use linefall::learner::diagnosis::{Heard, Inquiry, Pool, Prior, Status, Suspects};
use linefall::reading::Asks;

pub struct Inside<'a> {
    pub instrument: &'a Instrument,
    pub suspects: Suspects,
    pub pool: Pool,
}

impl<'a> Inside<'a> {
    pub fn new(instrument: &'a Instrument) -> Self {
        let suspects = Suspects::of(instrument);
        let pool = Pool::new(instrument, &suspects, Seed(1));
        Self { instrument, suspects, pool }
    }

    pub fn telling(&mut self, learner: &mut Learner<'_>, seed: u64) -> Outcome {
        let mut inquiry = Inquiry::among(self.suspects.clone(), &Prior::shipped());
        let mut n = 0;
        loop {
            n += 1;
            self.pool.renew(&self.suspects);
            let mut chance = Draw::keyed("trial", self.instrument, Seed(seed), n);
            let number = self.pool.choose(&inquiry, &mut chance);
            let question = self.pool.take(number);
            if let Some(outcome) = self.hear(&mut inquiry, &question, learner) {
                return outcome;
            }
        }
    }

    pub fn plain(&mut self, learner: &mut Learner<'_>, seed: u64) -> Outcome {
        let mut inquiry = Inquiry::among(self.suspects.clone(), &Prior::shipped());
        let mut n = 0;
        loop {
            n += 1;
            let question = linefall::drill::question(self.instrument, Seed(seed), n);
            if let Some(outcome) = self.hear(&mut inquiry, &question, learner) {
                return outcome;
            }
        }
    }

    fn hear(&self, inquiry: &mut Inquiry, question: &Question, learner: &mut Learner<'_>) -> Option<Outcome> {
        let fitted = self.instrument.fitted(&Variant::default());
        let text = learner.answer(&seen(&fitted, question));
        let typed = parse_answer(&text, fitted.unit).expect("a number");
        let right = typed.value == question.expected(&fitted);
        let heard = if right { Heard::Right } else { Heard::Wrong(typed.value) };
        inquiry.hear(question, &fitted, heard);
        let diagnosis = inquiry.diagnosis();
        (diagnosis.status != Status::Open).then(|| Outcome {
            status: diagnosis.status.word().to_owned(),
            leading: diagnosis.id.to_owned(),
            asked: diagnosis.asked,
        })
    }
}

pub fn seen(instrument: &Instrument, question: &Question) -> Seen {
    let mut seen = Seen { tool: tool(&instrument.id), ..Seen::default() };
    for step in &question.reading.steps {
        let value = figure(&instrument.spell(step.value));
        match instrument.stages[step.stage].name.as_str() {
            "sleeve" | "main scale" => seen.coarse = value,
            "thimble" => seen.thimble = value,
            "vernier" => seen.vernier = value,
            _ => {}
        }
    }
    seen.zero = figure(&instrument.spell(question.zero_error));
    seen.corrected = question.asks == Asks::Corrected;
    seen
}
