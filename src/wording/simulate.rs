//! The report on apprentices that were played: for contributors, so in the words of the code.

use crate::learner::simulate::{Findings, Middle, Part};

/// The head of a report.
pub fn head(learners: u32, days: u32, instruments: &[String], seed: u64) -> Vec<String> {
    vec![
        format!(
            "{learners} apprentices, {days} days from a Monday, seed {seed}, on {}",
            instruments.join(", ")
        ),
        "What they are made of is partly assumed (learner/simulate/nature.rs): compare, do not quote."
            .to_owned(),
    ]
}

/// What a policy came to.
pub fn findings(policy: &str, found: &Findings) -> Vec<String> {
    let mut lines = vec![String::new(), policy.to_owned()];
    let mut line = |name: &str, text: String| lines.push(format!("  {name:34} {text}"));
    for (week, n) in found.weeks.iter().zip(1..) {
        line(
            &format!("week {n}: right; gross slips"),
            format!("{}; {}", part(&week.right), part(&week.gross)),
        );
        line("  held in the evening", part(&week.held));
    }
    line("readings on a working day", middle(&found.readings_a_day));
    line("uniform by the last day", part(&found.uniform));
    line("  on day", middle(&found.days_until_uniform));
    line("  after readings on the instrument", middle(&found.readings_until_uniform));
    line("  said while something was held", part(&found.wrongly_uniform));
    line("misreads that showed, named", part(&found.named));
    line("  after readings on the instrument", middle(&found.readings_until_named));
    line(
        "named, not held",
        format!("{} ({:.2} in 100 readings)", found.named_wrongly.count, found.named_wrongly.in_hundred),
    );
    line("given up; came back", format!("{}; {}", found.given_up, found.came_back));
    line("  showed on the next working day", part(&found.seen_next_day));
    line("  showed within a week", part(&found.seen_in_a_week));
    line("gates not met on the last evening", shares(&found.gates_short));
    if found.chosen_for.iter().any(|(_, share)| *share > 0.0) {
        line("chosen for", shares(&found.chosen_for));
    }
    lines
}

fn part(part: &Part) -> String {
    let interval = part.interval.map_or_else(String::new, |interval| {
        format!(" ({:.1} to {:.1})", 100.0 * interval.low, 100.0 * interval.high)
    });
    format!("{:.1} %{interval} of {}", 100.0 * part.share(), part.of)
}

fn middle(middle: &Middle) -> String {
    let number = |number: Option<u32>| number.map_or_else(|| "never".to_owned(), |n| n.to_string());
    let [low, high] = middle.interval;
    format!(
        "median {} ({} to {}), nine in ten by {}",
        number(middle.median),
        number(low),
        number(high),
        number(middle.ninth)
    )
}

fn shares(all: &[(&str, f64)]) -> String {
    all.iter().map(|(name, share)| format!("{name} {:.0} %", 100.0 * share)).collect::<Vec<_>>().join(", ")
}

/// A record was written.
pub fn written(answers: usize, days: u32, learner: &str, dir: &str) -> String {
    format!("{answers} answers of {days} days, the last of them yesterday, by {learner}, into {dir}")
}
