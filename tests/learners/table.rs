//! What came of it, counted.

use std::collections::BTreeMap;

/// A tool, and how many questions 95 of 100 may need at most.
pub struct Ceiling {
    pub id: &'static str,
    /// Until a misread is named.
    pub named_by: u32,
    /// Until a correct reader is cleared.
    pub cleared_by: u32,
}

/// The tools that are played.
pub const TOOLS: [Ceiling; 3] = [
    Ceiling { id: "micrometer-metric", named_by: 6, cleared_by: 10 },
    Ceiling { id: "caliper-inch-25", named_by: 4, cleared_by: 10 },
    Ceiling { id: "micrometer-inch-tenths", named_by: 5, cleared_by: 11 },
];

/// What came of one learner.
#[derive(Clone, Debug)]
pub struct Outcome {
    pub status: String,
    pub leading: String,
    /// What was named beside it.
    pub also: Option<String>,
    pub asked: u32,
}

/// Outcomes of a population.
#[derive(Default)]
pub struct Tally {
    asked: Vec<u32>,
    /// For each that is held, how many learners and how many questions.
    pub by_held: BTreeMap<String, (u32, u32)>,
    wrongly: u32,
    undecided: u32,
    /// Named with a second one beside.
    pub both: u32,
    /// What was said of which, where it was wrong.
    pub wrong: BTreeMap<(String, String), u32>,
}

impl Tally {
    /// Counts an outcome of someone who holds `held` (`reads-correctly` for nothing).
    pub fn add(&mut self, held: &str, accepted: &[String], outcome: &Outcome) {
        self.asked.push(outcome.asked);
        let (learners, questions) = self.by_held.entry(held.to_owned()).or_default();
        *learners += 1;
        *questions += outcome.asked;
        let right = accepted.contains(&outcome.leading)
            && outcome.also.as_ref().is_none_or(|also| accepted.contains(also));
        self.both += u32::from(outcome.also.is_some());
        match outcome.status.as_str() {
            "named" | "reads-correctly" if right => {}
            "undecided" | "open" => self.undecided += 1,
            _ => self.wrongly += 1,
        }
        if !(right && matches!(outcome.status.as_str(), "named" | "reads-correctly")) {
            let also = outcome.also.as_deref().unwrap_or_default();
            let said = format!("{} {} {also}", outcome.status, outcome.leading).trim_end().to_owned();
            *self.wrong.entry((held.to_owned(), said)).or_default() += 1;
        }
    }

    pub fn count(&self) -> u32 {
        u32::try_from(self.asked.len()).expect("few")
    }

    /// The number of questions that this share of the learners did not need more than.
    pub fn percentile(&self, percent: usize) -> u32 {
        let mut asked = self.asked.clone();
        asked.sort_unstable();
        let at = (asked.len() * percent).div_ceil(100).max(1) - 1;
        asked[at]
    }

    pub fn mean(&self) -> f64 {
        f64::from(self.asked.iter().sum::<u32>()) / f64::from(self.count())
    }

    /// Named as something that is not held, or cleared with something held.
    pub fn wrongly(&self) -> u32 {
        self.wrongly
    }

    pub fn undecided(&self) -> u32 {
        self.undecided
    }

    /// A count as a share with its 95 % Wilson interval, in percent.
    pub fn share(&self, count: u32) -> String {
        let (low, high) = wilson(count, self.count());
        format!(
            "{:.2} % ({:.2}-{:.2})",
            100.0 * f64::from(count) / f64::from(self.count()),
            100.0 * low,
            100.0 * high
        )
    }
}

/// The 95 % Wilson score interval of a share.
pub fn wilson(count: u32, of: u32) -> (f64, f64) {
    let (n, z) = (f64::from(of), 1.959_964_f64);
    let p = f64::from(count) / n;
    let centre = p + z * z / (2.0 * n);
    let half = z * (p * (1.0 - p) / n + z * z / (4.0 * n * n)).sqrt();
    let widen = 1.0 + z * z / n;
    (((centre - half) / widen).max(0.0), ((centre + half) / widen).min(1.0))
}
