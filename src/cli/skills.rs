//! `linefall skills-check`.

use super::args::{Common, Size, size};
use super::ask::paper::{self, Seat};
use super::exit::{Exit, Halt};
use super::out::{self, Out};
use super::progress::USUAL_LEARNER;
use super::start;
use super::{Next, card, shelf, terminal};
use crate::class::card::Card;
use crate::class::sitting::{End, Purpose};
use crate::class::verdict::Outcome;
use crate::drill::set::DrillSet;
use crate::instrument::Catalogue;
use crate::learner::chance::Slips;
use crate::learner::plan::Plan;
use crate::scene::View;
use crate::session::{Begin, Exercise};
use crate::store::{self, Store};
use crate::wording::doctor;
use crate::wording::exercise::{self as say, page, plans};
use clap::Args;
use serde::Serialize;
use std::path::{Path, PathBuf};
use std::time::Duration;

/// `skills-check`.
#[derive(Debug, Args)]
pub struct Options {
    /// Which set, or the file of a job card; the list of sets when left out
    pub set: Option<String>,
    /// What the pass rules let through, before one is chosen; with a set, its own rule
    #[arg(long)]
    pub plans: bool,
    /// The figures as JSON
    #[arg(long, requires = "plans")]
    pub json: bool,
    /// Write the page for the supervisor into this file at the end
    #[arg(long, value_name = "FILE", conflicts_with = "plans")]
    pub page: Option<PathBuf>,
    /// Cells across and down of a picture, line by line
    #[arg(long, value_name = "COLSxROWS", value_parser = size)]
    pub size: Option<Size>,
}

/// Shows the plans, or asks: full screen, line by line where there is none or `--plain` is given.
pub fn run(common: Common, args: &Options, out: &mut Out) -> Result<Next, Halt> {
    let catalogue = shelf::catalogue(&common);
    let sets = shelf::sets(&common, &catalogue);
    if let Some(name) = args.set.as_deref().filter(|name| card::is_card(name)) {
        let given = card::given(&common, &catalogue, name)?;
        if args.plans {
            return show_plans(Some(&given.set), args.json, out).map(Next::Done);
        }
        if by_lines(&common) {
            let (card, set) = (given.card, given.set);
            let common = Common { learner: Some(given.learner), ..common };
            return by_line(&common, args, (&set, Some(&card), &catalogue), out).map(Next::Done);
        }
        return start::job_card(common, catalogue, given, page_of(args)).map(Next::FullScreen);
    }
    let set = args.set.as_deref().map(|id| shelf::set(&sets, id)).transpose()?.cloned();
    if args.plans {
        return show_plans(set.as_ref(), args.json, out).map(Next::Done);
    }
    if let Some(set) = set.as_ref().filter(|set| set.pass.is_none()) {
        return Err(Halt::usage(say::no_check(&set.id)));
    }
    match (set, by_lines(&common)) {
        (Some(set), true) => by_line(&common, args, (&set, None, &catalogue), out).map(Next::Done),
        (None, true) => Err(Halt::usage(say::WHICH_SET)),
        (set, false) => {
            let begin = set.map_or(Begin::Sets, |set| Begin::Set(set.id));
            start::set(common, catalogue, page_of(args), begin).map(Next::FullScreen)
        }
    }
}

/// Whether it is asked line by line.
fn by_lines(common: &Common) -> bool {
    common.plain || terminal::terminal().term == "dumb" || !terminal::both_ends()
}

fn page_of(args: &Options) -> Option<String> {
    args.page.as_ref().map(|path| path.to_string_lossy().into_owned())
}

/// Asks line by line, and says what it comes to.
fn by_line(
    common: &Common,
    args: &Options,
    (asked, card, catalogue): (&DrillSet, Option<&Card>, &Catalogue),
    out: &mut Out,
) -> Result<Exit, Halt> {
    let store = if common.private { None } else { Some(open(common)?) };
    let seat = Seat {
        common,
        catalogue,
        learner: common.learner.clone().unwrap_or_else(|| USUAL_LEARNER.to_owned()),
        id: start::chance_id()?,
        card,
        store,
        size: args.size,
        view: View::Held,
    };
    let paper::Sat { exercise, began, unsaved, handed } = paper::sit(asked, seat, out)?;
    let trouble = |exit| if unsaved { Exit::Trouble } else { exit };
    if exercise.sitting().end == End::Open {
        return Ok(trouble(Exit::Fine));
    }
    let spent = exercise.spent(began.elapsed());
    told(&exercise, catalogue, out)?;
    if let Some(word) = handed {
        out.line(&out::clean_name(&word))?;
    }
    if let Some(path) = &args.page {
        write_page(&exercise, catalogue, (spent, path), out)?;
    }
    let failed = matches!(exercise.judged(catalogue).outcome, Outcome::NotYet(_));
    Ok(trouble(if failed { Exit::Findings } else { Exit::Fine }))
}

/// What it comes to, and each question that was not right with its steps.
fn told(exercise: &Exercise, catalogue: &Catalogue, out: &mut Out) -> Result<(), Halt> {
    let (judged, sitting) = (exercise.judged(catalogue), exercise.sitting());
    out.line(&say::head(sitting.purpose, judged.outcome))?;
    out.lines(say::result(&judged, sitting, exercise.plan().as_ref()))?;
    out.lines(say::next(&judged))?;
    for (place, line) in page::wrong(&judged, &sitting.entries, catalogue) {
        out.line("")?;
        out.line(&out::clean_name(&format!("{place:>3}  {line}")))?;
        let wrong = sitting.entries.iter().filter(|entry| entry.place == place);
        for entry in wrong.filter(|entry| !entry.attempt.verdict.is_right()) {
            if let Some(bench) = exercise.look_back(catalogue, entry) {
                paper::explain(&bench, out)?;
            }
        }
    }
    out.line("")?;
    if sitting.purpose == Purpose::SelfTest {
        out.line(say::SELF_TEST)?;
    }
    out.line(say::LIMITS)
}

fn write_page(
    exercise: &Exercise,
    catalogue: &Catalogue,
    (spent, path): (Duration, &Path),
    out: &mut Out,
) -> Result<(), Halt> {
    let (judged, plan) = (exercise.judged(catalogue), exercise.plan());
    let lines = page::page(exercise.set(), exercise.sitting(), (&judged, plan.as_ref()), spent, catalogue);
    store::write_new(path, (lines.join("\n") + "\n").as_bytes())?;
    out.line(&say::written(&out::clean_name(&path.to_string_lossy())))
}

/// The store, which must take what is to be kept.
fn open(common: &Common) -> Result<Store, Halt> {
    let opened = Store::open(&store::data_dir(common.data_dir.clone())?)?;
    match opened.store.why_read_only() {
        Some(why) => Err(Halt::trouble(doctor::record(true, Some(why)))),
        None => Ok(opened.store),
    }
}

#[derive(Serialize)]
struct PlanOut {
    #[serde(flatten)]
    rule: RuleOut,
    accuracies: Vec<AccuracyOut>,
    two_rates: Vec<TwoRatesOut>,
}

#[derive(Serialize)]
#[serde(tag = "kind", rename_all = "kebab-case")]
enum RuleOut {
    Fixed { questions: u32, pass: u32 },
    Sequential { bad: f64, good: f64, lets_through: f64, turns_away: f64, least: u32, most: u32 },
}

#[derive(Serialize)]
struct AccuracyOut {
    accuracy: f64,
    passes: f64,
    mean_questions: f64,
    /// So many suffice in 95 of 100 checks.
    questions_95: u32,
}

#[derive(Serialize)]
struct TwoRatesOut {
    gross: f64,
    fine: f64,
    passes: f64,
}

fn show_plans(set: Option<&DrillSet>, json: bool, out: &mut Out) -> Result<Exit, Halt> {
    let own = set.map(|set| {
        let pass = set.pass.as_ref().ok_or_else(|| Halt::usage(say::no_check(&set.id)))?;
        Ok::<Plan, Halt>(Plan::of(pass, set.count))
    });
    let plans = match own.transpose()? {
        Some(own) => vec![own],
        None => plans::OFFERED.to_vec(),
    };
    if json {
        let all: Vec<PlanOut> = plans.iter().map(figures).collect();
        out.line(&out::json(&all))?;
        return Ok(Exit::Fine);
    }
    out.lines(plans::table(&plans))?;
    out.line("")?;
    out.lines(plans::HOW)?;
    Ok(Exit::Fine)
}

fn figures(plan: &Plan) -> PlanOut {
    let rule = match *plan {
        Plan::Fixed { of, pass } => RuleOut::Fixed { questions: of, pass },
        Plan::Sequential(test) => RuleOut::Sequential {
            bad: test.bad,
            good: test.good,
            lets_through: test.lets_through,
            turns_away: test.turns_away,
            least: test.least,
            most: test.most,
        },
    };
    let accuracies = plans::ACCURACIES.iter().map(|accuracy| {
        let of = plan.characteristic(*accuracy);
        AccuracyOut {
            accuracy: *accuracy,
            passes: of.passes,
            mean_questions: of.mean,
            questions_95: of.most_often,
        }
    });
    let pairs = plans::FINE.iter().flat_map(|fine| plans::GROSS.iter().map(|gross| (*gross, *fine)));
    let two_rates = pairs.map(|(gross, fine)| TwoRatesOut {
        gross,
        fine,
        passes: plan.passes_with(Slips { gross, fine }),
    });
    PlanOut { rule, accuracies: accuracies.collect(), two_rates: two_rates.collect() }
}
