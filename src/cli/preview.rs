//! `linefall preview`: the questions of a drill set, without answers and with them.

use super::args::Common;
use super::ask::any_seed;
use super::exit::{Exit, Halt};
use super::out::{self, Out};
use super::shelf;
use crate::drill::set::{DrillSet, Item, deal};
use crate::drill::task::{Given, Part, Wanted};
use crate::drill::{Seed, Task, trap};
use crate::exact::Quanta;
use crate::instrument::Catalogue;
use crate::wording::{set as say, task as words};
use clap::Args;
use serde::Serialize;

/// `preview`.
#[derive(Debug, Args)]
pub struct Options {
    /// Which exercise or check
    pub set: String,
    /// With the answers, step by step
    #[arg(long)]
    pub answers: bool,
    /// The same seed gives the same paper
    #[arg(long, value_name = "N")]
    pub seed: Option<u64>,
    /// As JSON
    #[arg(long)]
    pub json: bool,
}

#[derive(Serialize)]
struct PaperOut<'a> {
    set: &'a str,
    title: &'a str,
    revision: &'a str,
    seed: u64,
    /// Everybody gets this paper.
    fixed: bool,
    items: Vec<ItemOut<'a>>,
}

#[derive(Serialize)]
struct ItemOut<'a> {
    place: u32,
    instrument: &'a str,
    title: &'a str,
    kind: &'static str,
    /// How many parts it has. Those after the first would give away its answer, and are shown with the answers only.
    of_parts: usize,
    parts: Vec<PartOut>,
}

#[derive(Serialize)]
struct PartOut {
    asked: Vec<String>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    choices: Vec<String>,
    #[serde(flatten)]
    answer: Option<AnswerOut>,
}

#[derive(Serialize)]
struct AnswerOut {
    answer: String,
    steps: Vec<String>,
    stands: String,
    zero_error: String,
    #[serde(skip_serializing_if = "String::is_empty")]
    variant: String,
    #[serde(skip_serializing_if = "String::is_empty")]
    conditions: String,
}

/// Shows the paper of a set.
pub fn run(common: &Common, args: &Options, out: &mut Out) -> Result<Exit, Halt> {
    let catalogue = shelf::catalogue(common);
    let sets = shelf::sets(common, &catalogue);
    let set = shelf::set(&sets, &args.set)?;
    let seed = match (set.seed, args.seed) {
        (Some(seed), _) => seed,
        (None, Some(seed)) => Seed(seed),
        (None, None) => Seed(any_seed()?),
    };
    let paper: Vec<(Item, Task)> = deal(set, &catalogue, seed)
        .into_iter()
        .filter_map(|item| {
            let task = item.task(&catalogue)?;
            Some((item, task))
        })
        .collect();
    if args.json {
        out.line(&out::json(&paper_out(set, seed, &paper, &catalogue, args.answers)))?;
        return Ok(Exit::Fine);
    }
    out.line(&out::clean_name(&format!("{}: {} ({})", set.id, set.title, say::in_short(set))))?;
    out.line(&say::paper_of(seed.0, set.seed.is_some()))?;
    for (item, task) in &paper {
        out.line("")?;
        out.line(&format!("{:>3}  {}: {}", item.place, item.instrument, words::name(item.kind)))?;
        // What follows from an answer would give it away.
        let shown = if args.answers { &task.parts[..] } else { &task.parts[..1] };
        for part in shown {
            show(part, args.answers, out)?;
        }
        if shown.len() < task.parts.len() {
            out.line(&format!("     {}", say::FOLLOWS))?;
        }
    }
    if args.answers {
        out.line("")?;
        out.lines(summary(&paper))?;
    }
    Ok(Exit::Fine)
}

/// One part: what is asked, what is offered, and perhaps how it is.
fn show(part: &Part, answers: bool, out: &mut Out) -> Result<(), Halt> {
    out.lines(words::asked(part).iter().map(|line| format!("     {}", out::clean_name(line))))?;
    let offered = words::offered(part).into_iter().enumerate();
    out.lines(offered.map(|(n, says)| format!("     {:>3}  {}", n + 1, out::clean_name(&says))))?;
    if answers {
        let answer = answer(part);
        out.line(&out::clean_name(&format!("     = {}", answer.answer)))?;
        let off = part.question.zero_error != Quanta::ZERO;
        let said_by_answer = matches!(part.wanted, Wanted::Reading) && !off;
        let mut seen = Vec::new();
        if !part.pictures.is_empty() && !said_by_answer {
            seen.push(say::stands(&answer.stands));
        }
        if off {
            seen.push(say::zero_off(&answer.zero_error));
        }
        seen.extend(say::out_of_order(&part.question.conditions, &part.tool));
        seen.extend(Some(answer.variant).filter(|word| !word.is_empty()));
        let seen = seen.join("; ");
        if !seen.is_empty() {
            out.line(&out::clean_name(&format!("       ({seen})")))?;
        }
        out.lines(answer.steps.iter().map(|line| format!("       {}", out::clean_name(line))))?;
    }
    Ok(())
}

fn answer(part: &Part) -> AnswerOut {
    let (tool, question) = (&part.tool, &part.question);
    let given = Given::Skipped;
    AnswerOut {
        answer: words::right(part),
        steps: words::why(part, &given, &part.mark(&given)),
        stands: tool.spell_with_unit(question.setting),
        zero_error: tool.spell_with_unit(question.zero_error),
        variant: question.variant.word(),
        conditions: question.conditions.word(tool),
    }
}

fn paper_out<'a>(
    set: &'a DrillSet,
    seed: Seed,
    paper: &'a [(Item, Task)],
    catalogue: &'a Catalogue,
    answers: bool,
) -> PaperOut<'a> {
    let part = |part: &Part| PartOut {
        asked: words::asked(part),
        choices: words::offered(part),
        answer: answers.then(|| answer(part)),
    };
    let items = paper.iter().map(|(item, task)| ItemOut {
        place: item.place,
        instrument: &item.instrument,
        title: catalogue.title(&item.instrument).unwrap_or(&item.instrument),
        kind: item.kind.word(),
        of_parts: task.parts.len(),
        parts: task.parts.iter().take(if answers { usize::MAX } else { 1 }).map(part).collect(),
    });
    PaperOut {
        set: &set.id,
        title: &set.title,
        revision: &set.revision,
        seed: seed.0,
        fixed: set.seed.is_some(),
        items: items.collect(),
    }
}

/// What an instructor looks for in a paper: how often what comes up.
fn summary(paper: &[(Item, Task)]) -> Vec<String> {
    let readings: Vec<&Part> = paper.iter().filter_map(|(_, task)| task.parts.first()).collect();
    let count = |is: &dyn Fn(&Part) -> bool| readings.iter().filter(|part| is(part)).count();
    say::paper_holds(
        paper.len(),
        count(&|part| part.question.zero_error != Quanta::ZERO),
        count(&|part| !part.pictures.is_empty() && trap::is_trap(&part.question, &part.tool)),
        count(&|part| !part.question.conditions.word(&part.tool).is_empty()),
    )
}
