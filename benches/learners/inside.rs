//! The same without the program around it, for trying out: thousands of learners in seconds.

use super::learner::Learner;
use super::population::{self, Known, Who};
use super::seen::{Seen, figure, tool};
use super::table::{Outcome, Tally};
use linefall::drill::{Draw, Question, Seed};
use linefall::exact::parse_answer;
use linefall::instrument::{Catalogue, Instrument, Variant};
use linefall::learner::diagnosis::{Heard, Inquiry, Pool, Prior, Status, Suspects};
use linefall::reading::Asks;

/// Plays so many learners.
pub fn play(id: &str, choose: &str, who: Who, count: usize, first_seed: u64) -> Tally {
    let catalogue = Catalogue::new(Vec::new());
    let mut inside = Inside::new(catalogue.get(id).expect("shipped"));
    let known = Known::of(id);
    let mut tally = Tally::default();
    for n in 0..count {
        let seed = first_seed + u64::try_from(n).expect("few");
        let mut learner = population::learner(&known, who, n, seed);
        let outcome = match choose {
            "telling" => inside.telling(&mut learner, seed),
            _ => inside.plain(&mut learner, seed),
        };
        population::count_in(&mut tally, &known, id, who, n, &outcome);
    }
    tally
}

struct Inside<'a> {
    instrument: &'a Instrument,
    suspects: Suspects,
    pool: Pool,
}

impl<'a> Inside<'a> {
    fn new(instrument: &'a Instrument) -> Self {
        let suspects = Suspects::of(instrument);
        let pool = Pool::new(instrument, &suspects, Seed(1));
        Self { instrument, suspects, pool }
    }

    fn telling(&mut self, learner: &mut Learner<'_>, seed: u64) -> Outcome {
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

    fn plain(&mut self, learner: &mut Learner<'_>, seed: u64) -> Outcome {
        let mut inquiry = Inquiry::among(self.suspects.clone(), &Prior::shipped()).patient();
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
            also: diagnosis.also.map(str::to_owned),
            asked: diagnosis.asked,
        })
    }
}

fn seen(instrument: &Instrument, question: &Question) -> Seen {
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
