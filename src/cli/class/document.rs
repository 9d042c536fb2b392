//! The class record as JSON.

use crate::class::practical::Sheet;
use crate::class::questions::Questions;
use crate::class::record::{Back, Class, Common, Given, Member, Tool, Try, Week};
use crate::class::room::Room;
use crate::cli::exit::Halt;
use crate::cli::out::{self, Out};
use crate::learner::progress::{Interval, Score, Z_95};
use crate::wording::class as say;
use serde::Serialize;

/// The form of the document.
const FORM: u32 = 1;

#[derive(Serialize)]
struct ClassOut<'a> {
    linefall_class: u32,
    /// Nobody in it is real.
    invented: bool,
    learners: Vec<LearnerOut<'a>>,
    given: Vec<GivenOut<'a>>,
    common: &'a [Common],
}

#[derive(Serialize)]
struct LearnerOut<'a> {
    code: &'a str,
    name: Option<&'a str>,
    group: Option<&'a str>,
    not_on_roster: bool,
    instruments: Vec<ToolOut<'a>>,
    weeks: Vec<WeekOut>,
}

#[derive(Serialize)]
struct ToolOut<'a> {
    instrument: &'a str,
    score: Score,
    latest: Score,
    interval: Option<Interval>,
    gross: u32,
    fine: u32,
    repeats: Score,
    median_ms: Option<u64>,
    standing: crate::learner::gates::Standing,
    steps: &'a [crate::class::record::Missed],
    misreads: &'a [crate::learner::progress::MisreadCount],
    likely: Option<&'a str>,
    still: Option<&'a str>,
    put_right: &'a [String],
    weeks: Vec<WeekOut>,
    last: Option<String>,
    measuring_steel: Option<&'a Sheet>,
}

#[derive(Serialize)]
struct WeekOut {
    monday: String,
    #[serde(flatten)]
    score: Score,
}

#[derive(Serialize)]
struct GivenOut<'a> {
    #[serde(flatten)]
    issued: &'a crate::class::record::Issued,
    stands: Vec<StandOut<'a>>,
}

#[derive(Serialize)]
struct StandOut<'a> {
    learner: &'a str,
    back: Back,
    tries: Vec<TryOut<'a>>,
}

#[derive(Serialize)]
struct TryOut<'a> {
    #[serde(flatten)]
    one: &'a Try,
    interval: Option<Interval>,
}

#[derive(Serialize)]
struct QuestionsOut<'a> {
    linefall_questions: u32,
    invented: bool,
    #[serde(flatten)]
    questions: &'a Questions,
}

pub(super) fn class(room: &Room, out: &mut Out) -> Result<(), Halt> {
    let learners = room.class.members.iter().map(|member| learner_out(room, member)).collect();
    write(room, &room.class, learners, out)
}

pub(super) fn learner(room: &Room, member: &Member, out: &mut Out) -> Result<(), Halt> {
    let class = &room.class;
    let only = Class {
        members: vec![member.clone()],
        instruments: class.instruments.clone(),
        given: class
            .given
            .iter()
            .map(|given| {
                let own = given.stands.iter().filter(|stand| stand.learner == member.person.code);
                Given { issued: given.issued.clone(), stands: own.cloned().collect() }
            })
            .filter(|given| !given.stands.is_empty())
            .collect(),
        common: Vec::new(),
    };
    write(room, &only, vec![learner_out(room, member)], out)
}

fn write(room: &Room, class: &Class, learners: Vec<LearnerOut<'_>>, out: &mut Out) -> Result<(), Halt> {
    let given = class.given.iter().map(given_out).collect();
    out.line(&out::json(&ClassOut {
        linefall_class: FORM,
        invented: room.invented,
        learners,
        given,
        common: &class.common,
    }))
}

pub(super) fn questions(room: &Room, found: &Questions, out: &mut Out) -> Result<(), Halt> {
    let (linefall_questions, invented) = (FORM, room.invented);
    out.line(&out::json(&QuestionsOut { linefall_questions, invented, questions: found }))
}

fn learner_out<'a>(room: &'a Room, member: &'a Member) -> LearnerOut<'a> {
    let person = &member.person;
    let tools = member.row.iter().flat_map(|row| &row.tools);
    LearnerOut {
        code: &person.code,
        name: person.name.as_deref(),
        group: person.group.as_deref(),
        not_on_roster: member.not_on_roster,
        instruments: tools.map(|tool| tool_out(tool, room.steel(&person.code, &tool.instrument))).collect(),
        weeks: weeks(member.row.as_ref().map_or(&[], |row| &row.weeks)),
    }
}

fn tool_out<'a>(tool: &'a Tool, steel: Option<&'a Sheet>) -> ToolOut<'a> {
    ToolOut {
        instrument: &tool.instrument,
        score: tool.score,
        latest: tool.lately,
        interval: tool.lately.wilson(Z_95),
        gross: tool.gross,
        fine: tool.fine,
        repeats: tool.repeats,
        median_ms: tool.median_ms,
        standing: tool.standing,
        steps: &tool.steps,
        misreads: &tool.misreads,
        likely: tool.leading.as_deref(),
        still: tool.live.as_deref(),
        put_right: &tool.gone,
        weeks: weeks(&tool.weeks),
        last: tool.last.map(say::date),
        measuring_steel: steel,
    }
}

fn weeks(of: &[Week]) -> Vec<WeekOut> {
    of.iter().map(|week| WeekOut { monday: say::date(week.monday), score: week.score }).collect()
}

fn given_out(given: &Given) -> GivenOut<'_> {
    let stands = given.stands.iter().map(|stand| StandOut {
        learner: &stand.learner,
        back: stand.back,
        tries: stand.tries.iter().map(|one| TryOut { one, interval: one.brief.score.wilson(Z_95) }).collect(),
    });
    GivenOut { issued: &given.issued, stands: stands.collect() }
}
