//! A tour of the bench: so many tasks, on one instrument or on several in turn.

use super::bench::{Act, Bench, Stand};
use super::practice::Effect;
use super::programme::Programme;
use crate::drill::{Seed, Verdict};
use crate::instrument::Instrument;

/// A tour. Each instrument has its own run of the seed's tasks, so that a record of it can be posed again.
#[derive(Clone)]
pub struct Tour<'a> {
    stations: Vec<(&'a Instrument, Bench)>,
    count: u32,
    number: u32,
    right: u32,
    answered: u32,
    skipped: u32,
}

impl<'a> Tour<'a> {
    /// A tour of `count` tasks, its first one posed; none where no kind makes sense on any of the instruments.
    pub fn new(
        instruments: &[&'a Instrument],
        learner: &str,
        programme: &Programme,
        seed: Seed,
        count: u32,
    ) -> Option<Self> {
        let station = |instrument: &&'a Instrument| {
            let bench = programme.bench(instrument, learner, seed, 1)?;
            Some((*instrument, bench))
        };
        let stations: Vec<_> = instruments.iter().filter_map(station).collect();
        if stations.is_empty() {
            return None;
        }
        Some(Self { stations, count, number: 1, right: 0, answered: 0, skipped: 0 })
    }

    /// The bench that is up.
    pub fn bench(&self) -> &Bench {
        &self.stations[self.station()].1
    }

    /// The task's number in the tour, from 1.
    pub fn number(&self) -> u32 {
        self.number
    }

    /// How many there are.
    pub fn count(&self) -> u32 {
        self.count
    }

    /// So far right, answered, and passed over.
    pub fn score(&self) -> (u32, u32, u32) {
        (self.right, self.answered, self.skipped)
    }

    /// True once the part that is up is answered.
    pub fn is_told(&self) -> bool {
        matches!(self.bench().stand(), Stand::Told(_))
    }

    /// Carries an act out; [`Tour::advance`] is what goes on.
    pub fn act(&mut self, act: Act) -> Vec<Effect> {
        let open = !self.is_told();
        let effects = self.take(act);
        let told = match self.bench().stand() {
            Stand::Told(told) if open => Some(told.marked.verdict),
            _ => None,
        };
        match told {
            Some(Verdict::Skipped) => self.skipped += 1,
            Some(verdict) => {
                self.answered += 1;
                self.right += u32::from(verdict.is_right());
            }
            None => {}
        }
        effects
    }

    /// Poses the next part, or the next task; false when there is none left, or this one is still open.
    pub fn advance(&mut self) -> bool {
        if !self.is_told() {
            return false;
        }
        let (part, parts) = self.bench().which();
        if part < parts {
            self.take(Act::Next);
            return true;
        }
        if self.number >= self.count {
            return false;
        }
        self.number += 1;
        // The first time round, a run's first task is up already.
        if self.is_told() {
            self.take(Act::Next);
        }
        true
    }

    /// Passes the task that is up over, without a trace.
    pub fn pass_over(&mut self) {
        let station = self.station();
        let (instrument, bench) = &mut self.stations[station];
        bench.pass_over(instrument);
    }

    fn take(&mut self, act: Act) -> Vec<Effect> {
        let station = self.station();
        let (instrument, bench) = &mut self.stations[station];
        bench.act(instrument, act)
    }

    fn station(&self) -> usize {
        let stations = u32::try_from(self.stations.len()).expect("fewer instruments than tasks");
        usize::try_from((self.number - 1) % stations).expect("the place of an instrument")
    }
}

#[cfg(test)]
mod tests {
    use super::super::bench::Noted;
    use super::super::practice::Shown;
    use super::*;
    use crate::drill::Kind;
    use crate::drill::record::View;
    use crate::instrument::Catalogue;
    use std::time::Duration;

    #[test]
    fn instruments_take_turns_part_by_part() {
        let catalogue = Catalogue::new(Vec::new());
        let tools: Vec<_> = ["micrometer-metric", "rule-metric", "caliper-inch-25"]
            .iter()
            .filter_map(|id| catalogue.get(id))
            .collect();
        let mut tour = Tour::new(&tools, "me", &Programme::Kinds(vec![Kind::OneStep]), Seed(3), 3)
            .expect("it makes sense on two");
        let mut met = Vec::new();
        loop {
            met.push((tour.bench().part().tool.id.clone(), tour.bench().task().number));
            assert!(!tour.advance(), "an open question stays");
            let shown = Shown { view: View::Flat, lines: "ascii", cols: 80, rows: 24, glass: false };
            let noted = Noted { took: Duration::from_secs(1), at: String::new(), shown };
            assert_eq!(tour.act(Act::Skip(noted)).len(), 1);
            if !tour.advance() {
                break;
            }
        }
        let met: Vec<_> = met.iter().map(|(id, n)| (id.as_str(), *n)).collect();
        // A rule is read in one step: there is no such question on it.
        assert_eq!(met, [("micrometer-metric", 1), ("caliper-inch-25", 1), ("micrometer-metric", 2)]);
        assert_eq!(tour.score(), (0, 0, 3));
    }
}
