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
    /// Each holds two, on different steps, and always applies both.
    Two,
}

/// The step that a fault is made in; none for one over the whole figure.
fn step(id: &str) -> Option<&'static str> {
    let first = id.split('-').next()?;
    match first {
        "half" | "line" | "figures" | "figure" | "quarter" | "nearest"
            if !id.contains("label") && id != "line-before" =>
        {
            Some("sleeve")
        }
        // Read where the vernier's plate ends, it is the main scale that is read wrong.
        "vernier" if id == "vernier-end" => Some("sleeve"),
        "thimble" => Some("thimble"),
        "vernier" => Some("vernier"),
        "zero" => Some("zero"),
        _ => None,
    }
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

    /// What the learner of this number holds.
    pub fn held(&self, who: Who, n: usize) -> (Option<&'static Fault>, Option<&'static Fault>) {
        match who {
            Who::Correct => (None, None),
            Who::Always | Who::FourInFive => (Some(self.faults[n % self.faults.len()]), None),
            Who::Two => {
                let pairs = self.pairs();
                let (one, other) = pairs[n % pairs.len()];
                (Some(one), Some(other))
            }
        }
    }

    fn pairs(&self) -> Vec<(&'static Fault, &'static Fault)> {
        let all = self.faults.iter().enumerate();
        all.flat_map(|(n, one)| self.faults[n + 1..].iter().map(move |other| (*one, *other)))
            .filter(|(one, other)| step(one.id).zip(step(other.id)).is_some_and(|(a, b)| a != b))
            .collect()
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
    let one = |n: usize| -> (usize, Outcome) {
        let seed = first_seed + u64::try_from(n).expect("few");
        let mut learner = learner(&known, who, n, seed);
        (n, stream::play(tool, choose, seed, &mut learner))
    };
    let half = |odd: usize| (0..count).filter(|n| n % 2 == odd).map(one).collect::<Vec<_>>();
    let both = thread::scope(|scope| {
        let other = scope.spawn(|| half(1));
        let mut all = half(0);
        all.extend(other.join().expect("played to the end"));
        all
    });
    let mut tally = Tally::default();
    for (n, outcome) in &both {
        count_in(&mut tally, &known, tool, who, *n, outcome);
    }
    tally
}

/// The learner of a number.
pub fn learner(known: &Known, who: Who, n: usize, seed: u64) -> Learner<'_> {
    let (holds, also) = known.held(who, n);
    Learner {
        holds,
        also,
        applies: if who == Who::FourInFive { 80 } else { 100 },
        slips: 5,
        others: &known.faults,
        luck: Luck(seed.wrapping_mul(0x2545_f491_4f6c_dd1d)),
    }
}

/// Counts what came of the learner of a number.
pub fn count_in(tally: &mut Tally, known: &Known, tool: &str, who: Who, n: usize, outcome: &Outcome) {
    match known.held(who, n) {
        (Some(one), also) => {
            let mut accepted = known.accepted(tool, one);
            let mut held = one.id.to_owned();
            if let Some(also) = also {
                accepted.extend(known.accepted(tool, also));
                held = format!("{held} + {}", also.id);
            }
            tally.add(&held, &accepted, outcome);
        }
        _ => tally.add("reads-correctly", &["reads-correctly".to_owned()], outcome),
    }
}
