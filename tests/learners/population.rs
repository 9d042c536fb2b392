//! Populations: every misread equally often, correct readers, and those who apply a misread four times in five.

use super::fault::{self, Fault};
use super::learner::{Learner, Luck};
use super::table::{Outcome, Tally};
use super::{seen, stream};
use std::thread;

/// Who is played.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Who {
    /// Each holds a misread and always applies it.
    Always,
    /// Each holds a misread and applies it four times in five.
    FourInFive,
    /// All read correctly.
    Correct,
}

/// The faults that the program lists for a tool, and the ids it gives those that answer alike there.
pub struct Known {
    pub faults: Vec<&'static Fault>,
    listed: Vec<String>,
}

impl Known {
    pub fn of(tool: &str) -> Self {
        let listed = stream::listed(tool);
        let faults: Vec<_> =
            fault::ALL.iter().filter(|fault| listed.iter().any(|id| id == fault.id)).collect();
        Self { faults, listed }
    }

    /// Listed without a formula here: they are not played.
    pub fn without_formula(&self) -> Vec<&str> {
        let listed = self.listed.iter().map(String::as_str);
        listed.filter(|id| self.faults.iter().all(|fault| fault.id != *id)).collect()
    }

    /// The ids under which a fault may be named: its own, and those of faults that answer alike wherever the tool stands.
    pub fn accepted(&self, tool: &str, fault: &Fault) -> Vec<String> {
        let everywhere = seen::everywhere(tool);
        let alike =
            |other: &&&Fault| everywhere.iter().all(|seen| (other.answers)(seen) == (fault.answers)(seen));
        self.faults.iter().filter(alike).map(|fault| fault.id.to_owned()).collect()
    }
}

/// Plays so many learners at the real program, two at a time.
pub fn play(tool: &str, choose: &str, who: Who, count: usize, first_seed: u64) -> Tally {
    let known = Known::of(tool);
    let accepted: Vec<Vec<String>> = known.faults.iter().map(|fault| known.accepted(tool, fault)).collect();
    let one = |n: usize| -> (usize, Outcome) {
        let which = n % known.faults.len();
        let seed = first_seed + u64::try_from(n).expect("few");
        let mut learner = Learner {
            holds: (who != Who::Correct).then(|| known.faults[which]),
            applies: if who == Who::FourInFive { 80 } else { 100 },
            slips: 5,
            others: &known.faults,
            luck: Luck(seed.wrapping_mul(0x2545_f491_4f6c_dd1d)),
        };
        (which, stream::play(tool, choose, seed, &mut learner))
    };
    let half = |odd: usize| (0..count).filter(|n| n % 2 == odd).map(one).collect::<Vec<_>>();
    let both = thread::scope(|scope| {
        let other = scope.spawn(|| half(1));
        let mut all = half(0);
        all.extend(other.join().expect("played to the end"));
        all
    });
    let mut tally = Tally::default();
    for (which, outcome) in &both {
        match who {
            Who::Correct => tally.add("reads-correctly", &["reads-correctly".to_owned()], outcome),
            Who::Always | Who::FourInFive => tally.add(known.faults[*which].id, &accepted[*which], outcome),
        }
    }
    tally
}
