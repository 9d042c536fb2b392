//! The table of contributors: thousands of learners at the real program, counted with their intervals.
//!
//!     cargo bench --bench learners                 4000 of each population, at the program (about half an hour)
//!     cargo bench --bench learners -- --each 500   fewer
//!     cargo bench --bench learners -- --telling    without the row of plain questions
//!     cargo bench --bench learners -- --inside     the same without the program around it, in a minute
#![allow(missing_docs, clippy::print_stdout)]

#[path = "../../tests/learners/fault.rs"]
mod fault;
mod inside;
#[path = "../../tests/learners/learner.rs"]
mod learner;
#[path = "../../tests/learners/population.rs"]
mod population;
#[path = "../../tests/learners/seen.rs"]
mod seen;
#[path = "../../tests/learners/stream.rs"]
#[allow(dead_code)]
mod stream;
#[path = "../../tests/learners/table.rs"]
mod table;

use population::{Known, Who};
use table::{TOOLS, Tally};

fn main() {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let after =
        |word: &str| arguments.iter().position(|one| one == word).and_then(|at| arguments.get(at + 1));
    let each = after("--each").and_then(|text| text.parse().ok()).unwrap_or(4000);
    let inside = arguments.iter().any(|word| word == "--inside");
    let only = after("--tool");
    for tool in TOOLS.iter().filter(|tool| only.is_none_or(|only| only == tool.id)) {
        let known = Known::of(tool.id);
        let ids: Vec<&str> = known.faults.iter().map(|fault| fault.id).collect();
        let (named_by, cleared_by) = (tool.named_by, tool.cleared_by);
        println!(
            "\n{} ({each} learners a row; wanted: median 2, 95th {named_by}, cleared {cleared_by})",
            tool.id
        );
        println!("  played: {}", ids.join(" "));
        println!("  listed, without a formula here: {}", known.without_formula().join(" "));
        let play = |choose: &str, who: Who, seed: u64| {
            if inside {
                inside::play(tool.id, choose, who, each, seed)
            } else {
                population::play(tool.id, choose, who, each, seed)
            }
        };
        let always = play("telling", Who::Always, 10_000_000);
        row("misreads", &always);
        let correct = play("telling", Who::Correct, 20_000_000);
        row("correct readers", &correct);
        let four_in_five = play("telling", Who::FourInFive, 30_000_000);
        row("four in five", &four_in_five);
        let two = play("telling", Who::Two, 40_000_000);
        row("two at once", &two);
        println!("    both named {}", two.share(two.both));
        if arguments.iter().any(|word| word == "--telling") {
            said(&[
                ("misreads", &always),
                ("correct", &correct),
                ("four in five", &four_in_five),
                ("two", &two),
            ]);
            continue;
        }
        let plain = play("plain", Who::Always, 10_000_000);
        row("misreads, plain", &plain);
        let correct_plain = play("plain", Who::Correct, 20_000_000);
        row("correct, plain", &correct_plain);
        println!("  mean questions plain / telling: {:.2}", plain.mean() / always.mean());
        println!("    of correct readers: {:.2}", correct_plain.mean() / correct.mean());
        let all = |misreads: &Tally, correct: &Tally| f64::midpoint(misreads.mean(), correct.mean());
        println!("    of both, equally common: {:.2}", all(&plain, &correct_plain) / all(&always, &correct));
        let mean = |(learners, questions): &(u32, u32)| f64::from(*questions) / f64::from(*learners);
        for (held, counts) in &always.by_held {
            println!("    {held:24} {:.2} telling, {:.2} plain", mean(counts), mean(&plain.by_held[held]));
        }
        said(&[("misreads", &always), ("correct", &correct), ("four in five", &four_in_five)]);
    }
}

/// What was said wrongly, and of whom.
fn said(tallies: &[(&str, &Tally)]) {
    for (who, tally) in tallies {
        for ((held, said), count) in &tally.wrong {
            println!("    {who}: {held} -> {said}: {count}");
        }
    }
}

fn row(who: &str, tally: &Tally) {
    println!(
        "  {who:16} median {}, 95th percentile {}, mean {:.2}; wrongly {}; undecided {}",
        tally.percentile(50),
        tally.percentile(95),
        tally.mean(),
        tally.share(tally.wrongly()),
        tally.share(tally.undecided()),
    );
}
