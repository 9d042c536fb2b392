//! `linefall simulate`: what the program does with a class of apprentices made up. For contributors; not listed.

use super::args::Common;
use super::exit::{Exit, Halt};
use super::out::{self, Out};
use super::progress::USUAL_LEARNER;
use super::shelf;
use crate::drill::Seed;
use crate::instrument::Catalogue;
use crate::learner::calendar::Day;
use crate::learner::simulate::{Class, Course, Findings, Nature, Policy, play};
use crate::store::Store;
use crate::wording::simulate as say;
use clap::{Args, ValueEnum};
use serde::Serialize;
use std::path::{Path, PathBuf};
use std::thread;

/// `simulate`.
#[derive(Debug, Args)]
pub struct Options {
    /// How many apprentices
    #[arg(long, value_name = "N", default_value_t = 100, value_parser = clap::value_parser!(u32).range(1..=100_000))]
    pub learners: u32,
    /// How many days, from a Monday on
    #[arg(long, value_name = "D", default_value_t = 28, value_parser = clap::value_parser!(u32).range(1..=1_000))]
    pub days: u32,
    /// What they learn on
    #[arg(
        long,
        value_name = "ID,ID",
        value_delimiter = ',',
        default_value = "micrometer-metric,caliper-metric-50,micrometer-inch"
    )]
    pub instruments: Vec<String>,
    /// The same seed gives the same apprentices
    #[arg(long, value_name = "S", default_value_t = 1)]
    pub seed: u64,
    /// What they are made of
    #[arg(long, default_value = "usual")]
    pub nature: WhichNature,
    /// As JSON
    #[arg(long)]
    pub json: bool,
    /// Write the days of the first of them, the last one yesterday, as a record into this folder
    #[arg(long, value_name = "DIR")]
    pub into: Option<PathBuf>,
}

/// What apprentices are made of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum WhichNature {
    /// As most are taken to be
    Usual,
    /// Reads well already
    Master,
    /// Never gives up what is held
    Stubborn,
}

#[derive(Serialize)]
struct ReportOut<'a> {
    learners: u32,
    days: u32,
    seed: u64,
    instruments: &'a [String],
    policies: Vec<PolicyOut<'a>>,
}

#[derive(Serialize)]
struct PolicyOut<'a> {
    policy: &'static str,
    findings: &'a Findings,
}

/// A Monday; which one makes no difference.
const MONDAY: Day = Day(20_520 + 1);

/// Plays, and says what came of it.
pub fn run(common: &Common, args: &Options, out: &mut Out) -> Result<Exit, Halt> {
    let catalogue = Catalogue::new(Vec::new());
    for id in &args.instruments {
        shelf::find(&catalogue, id)?;
    }
    if let Some(dir) = &args.into {
        return record(common, args, &catalogue, dir, out);
    }
    let all = everybody(args, &catalogue);
    let policies = ["shipped", "random", "blocked"];
    let found: Vec<Findings> = all.iter().map(|courses| Findings::of(courses)).collect();
    if args.json {
        let policies =
            policies.iter().zip(&found).map(|(policy, findings)| PolicyOut { policy, findings }).collect();
        let (learners, days, seed, instruments) = (args.learners, args.days, args.seed, &args.instruments);
        out.line(&out::json(&ReportOut { learners, days, seed, instruments, policies }))?;
        return Ok(Exit::Fine);
    }
    out.lines(say::head(args.learners, args.days, &args.instruments, args.seed))?;
    for (policy, findings) in policies.iter().zip(&found) {
        out.lines(say::findings(policy, findings))?;
    }
    Ok(Exit::Fine)
}

fn nature(which: WhichNature) -> Nature {
    match which {
        WhichNature::Usual => Nature::usual(),
        WhichNature::Master => Nature::master(),
        WhichNature::Stubborn => Nature::stubborn(),
    }
}

/// The courses of each policy; the two others give as many readings on each day as the shipped one did.
fn everybody(args: &Options, catalogue: &Catalogue) -> [Vec<Course>; 3] {
    let ids: Vec<&str> = args.instruments.iter().map(String::as_str).collect();
    let class = Class::new(catalogue, &ids).expect("the instruments were looked up");
    let nature = nature(args.nature);
    let one = |n: u32| {
        let seed = Seed(args.seed.wrapping_mul(1_000_000).wrapping_add(u64::from(n)));
        let play = |policy: Policy<'_>| play(&class, &nature, policy, MONDAY, args.days, seed);
        let shipped = play(Policy::Shipped);
        let dose: Vec<u32> = shipped.days.iter().map(|day| day.answered).collect();
        let (random, blocked) = (play(Policy::Random(&dose)), play(Policy::Blocked(&dose)));
        [shipped, random, blocked]
    };
    let threads = thread::available_parallelism().map_or(1, std::num::NonZero::get);
    let mut all = [Vec::new(), Vec::new(), Vec::new()];
    thread::scope(|scope| {
        let share = |first: usize| {
            let one = &one;
            scope.spawn(move || (0..args.learners).skip(first).step_by(threads).map(one).collect::<Vec<_>>())
        };
        for handle in (0..threads).map(share).collect::<Vec<_>>() {
            for courses in handle.join().expect("nobody stops in the middle") {
                for (policy, course) in all.iter_mut().zip(courses) {
                    policy.push(course);
                }
            }
        }
    });
    all
}

/// Writes the course of the first apprentice as a record whose last day was yesterday.
fn record(
    common: &Common,
    args: &Options,
    catalogue: &Catalogue,
    dir: &Path,
    out: &mut Out,
) -> Result<Exit, Halt> {
    let ids: Vec<&str> = args.instruments.iter().map(String::as_str).collect();
    let class = Class::new(catalogue, &ids).expect("the instruments were looked up");
    let now = jiff::Timestamp::now().to_string();
    let today = Day::of(&now).expect("the clock gives a date");
    let first = today.after(-i32::try_from(args.days).unwrap_or(i32::MAX));
    let seed = Seed(args.seed.wrapping_mul(1_000_000));
    let course = play(&class, &nature(args.nature), Policy::Shipped, first, args.days, seed);
    let learner = common.learner.as_deref().unwrap_or(USUAL_LEARNER);
    let store = Store::open(dir)?.store;
    for attempt in &course.attempts {
        let mut attempt = attempt.clone();
        learner.clone_into(&mut attempt.learner);
        store.append(&attempt)?;
    }
    let dir = out::clean_name(&dir.to_string_lossy());
    out.line(&say::written(course.attempts.len(), args.days, learner, &dir))?;
    Ok(Exit::Fine)
}
