//! Watching a run: what the answers say, and the question that tells most next.

use crate::drill::{Draw, GENERATOR, Question, Seed, TELLING_GENERATOR};
use crate::instrument::Instrument;
use crate::learner::diagnosis::{Diagnosis, Heard, Inquiry, Pool, Prior, Suspects};

/// How the next question is chosen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Choose {
    /// As the seed has it.
    Plain,
    /// The one whose answer tells most about how someone reads.
    Telling,
}

/// An inquiry beside a run on one instrument. It is begun when it is first wanted: a round of many instruments starts at once.
#[derive(Clone)]
pub(super) struct Watch {
    seed: Seed,
    choose: Choose,
    inquiry: Option<Inquiry>,
    pool: Option<Pool>,
    chosen: u32,
}

impl Watch {
    pub(super) fn new(seed: Seed, choose: Choose) -> Self {
        Self { seed, choose, inquiry: None, pool: None, chosen: 0 }
    }

    /// Begins the inquiry now.
    pub(super) fn begin(&mut self, instrument: &Instrument) -> &mut Inquiry {
        self.inquiry.get_or_insert_with(|| Inquiry::new(instrument, &Prior::shipped()))
    }

    /// Who is suspected, once it is begun.
    pub(super) fn suspects(&self) -> Option<&Suspects> {
        self.inquiry.as_ref().map(Inquiry::suspects)
    }

    pub(super) fn generator(&self) -> u32 {
        match self.choose {
            Choose::Plain => GENERATOR,
            Choose::Telling => TELLING_GENERATOR,
        }
    }

    /// How many questions were answered or passed over.
    pub(super) fn heard(&self) -> u32 {
        self.inquiry.as_ref().map_or(0, Inquiry::asked)
    }

    /// What the answers say, once it is begun.
    pub(super) fn diagnosis(&self) -> Option<Diagnosis> {
        self.inquiry.as_ref().map(Inquiry::diagnosis)
    }

    pub(super) fn hear(
        &mut self,
        instrument: &Instrument,
        question: &Question,
        tool: &Instrument,
        heard: Heard,
    ) {
        self.begin(instrument).hear(question, tool, heard);
    }

    /// The next question, where this chooses it.
    pub(super) fn choose(&mut self, instrument: &Instrument) -> Option<Question> {
        if self.choose == Choose::Plain {
            return None;
        }
        let inquiry = self.inquiry.get_or_insert_with(|| Inquiry::new(instrument, &Prior::shipped()));
        match &mut self.pool {
            Some(pool) => pool.renew(inquiry.suspects()),
            None => self.pool = Some(Pool::new(instrument, inquiry.suspects(), self.seed)),
        }
        self.chosen += 1;
        let mut chance = Draw::keyed("linefall choice 1", instrument, self.seed, self.chosen);
        let pool = self.pool.as_mut()?;
        let number = pool.choose(inquiry, &mut chance);
        Some(pool.take(number))
    }
}
