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

impl Choose {
    /// An inquiry that is given up only where the questions are chosen for it.
    fn inquiry(self, instrument: &Instrument) -> Inquiry {
        let inquiry = Inquiry::new(instrument, &Prior::shipped());
        match self {
            Self::Plain => inquiry.patient(),
            Self::Telling => inquiry,
        }
    }
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
        let choose = self.choose;
        self.inquiry.get_or_insert_with(|| choose.inquiry(instrument))
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
        let choose = self.choose;
        let inquiry = self.inquiry.get_or_insert_with(|| choose.inquiry(instrument));
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

#[cfg(test)]
mod tests {
    use super::super::practice::{Effect, Phase, Practice, Shown, Step};
    use super::*;
    use crate::drill::record::View;
    use crate::instrument::Catalogue;
    use crate::reading::misread;
    use std::time::Duration;

    /// The record alone gives the diagnosis again that the run came to, whichever way its questions were chosen.
    #[test]
    fn the_record_comes_to_the_same() {
        let catalogue = Catalogue::new(Vec::new());
        let held = misread::named("line-early").expect("a misread");
        for (id, choose) in [
            ("micrometer-metric", Choose::Telling),
            ("depth-micrometer-inch", Choose::Telling),
            ("caliper-inch-25", Choose::Plain),
        ] {
            let instrument = catalogue.get(id).expect("shipped");
            let mut run = Practice::new(instrument, "me", Seed(5)).watched(instrument, choose);
            let mut attempts = Vec::new();
            for _ in 0..12 {
                while matches!(run.phase(), Phase::Before(_)) {
                    run.step(instrument, Step::Seen);
                }
                let tool = run.tool();
                let case = run.question().case(tool);
                let wrong = held.wrong(&case).first().map(|wrong| wrong.answer);
                let text = tool.notation.spell(wrong.unwrap_or_else(|| case.expected()));
                let shown = Shown { view: View::Flat, lines: "ascii", cols: 80, rows: 24, glass: false };
                let second = Duration::from_secs(1);
                let step = Step::Answer { text, took: second, at: String::new(), shown };
                for Effect::Save(attempt) in run.step(instrument, step) {
                    attempts.push(*attempt);
                }
                run.step(instrument, Step::Next);
            }
            assert_eq!(attempts.len(), 12);
            let again = Inquiry::over(instrument, &Prior::shipped(), &attempts);
            assert_eq!(Some(again.diagnosis()), run.diagnosis(), "{id}");
            assert!(again.asked() == 12 && run.diagnosis().is_some_and(|found| found.asked >= 2), "{id}");
        }
    }
}
