//! The stream: one JSON object a line, in and out. Same seed and same input give the same bytes.

use super::{Picture, Sitting, read};
use crate::cli::args::Ask;
use crate::cli::exit::Halt;
use crate::cli::input::{Line, Lines};
use crate::cli::out::{self, Out};
use crate::drill::{Question, Seed};
use crate::instrument::Instrument;
use crate::learner::diagnosis::{Diagnosis, Suspects};
use crate::reading::misread;
use crate::session::Phase;
use crate::wording;
use crate::wording::command as say;
use serde::{Deserialize, Serialize};

/// What goes out.
#[derive(Serialize)]
#[serde(rename_all = "lowercase")]
enum Message<'a> {
    Linefall(HeadOut<'a>),
    Question(QuestionOut<'a>),
    Picture(PictureOut),
    Mark(MarkOut<'a>),
    Again { id: &'a str, why: String },
    Error { line: u64, why: String },
    Summary { complete: bool, asked: u32, right: u32, diagnosis: Option<DiagnosisOut> },
}

#[derive(Serialize)]
struct HeadOut<'a> {
    stream: u32,
    seed: u64,
    choose: &'static str,
    count: u32,
    misreads: Vec<Named<'a>>,
}

#[derive(Serialize)]
struct Named<'a> {
    id: &'a str,
    name: &'a str,
}

#[derive(Serialize)]
struct QuestionOut<'a> {
    id: &'a str,
    n: u32,
    instrument: &'a str,
    revision: &'a str,
    asks: &'static str,
    prompt: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    sketch: Option<SketchOut>,
    unit: &'static str,
    least_count: String,
    pictures: Vec<PictureOut>,
    #[serde(skip_serializing_if = "Option::is_none")]
    reveal: Option<RevealOut<'a>>,
}

/// Base, blade and work, where the part's angle is asked for.
#[derive(Serialize)]
struct SketchOut {
    text: [&'static str; 5],
    description: &'static str,
}

#[derive(Serialize)]
struct PictureOut {
    role: &'static str,
    cols: u16,
    rows: u16,
    lines: &'static str,
    lens: Option<i64>,
    text: Vec<String>,
    description: String,
}

#[derive(Serialize)]
struct RevealOut<'a> {
    reading: String,
    zero_error: String,
    #[serde(skip_serializing_if = "String::is_empty")]
    variant: String,
    #[serde(skip_serializing_if = "String::is_empty")]
    conditions: String,
    corrected: String,
    expected: String,
    steps: Vec<StepOut<'a>>,
}

#[derive(Serialize)]
struct StepOut<'a> {
    stage: &'a str,
    value: String,
}

#[derive(Serialize)]
struct MarkOut<'a> {
    id: &'a str,
    right: bool,
    verdict: &'static str,
    expected: String,
    reading: String,
    zero_error: String,
    #[serde(skip_serializing_if = "String::is_empty")]
    variant: String,
    #[serde(skip_serializing_if = "String::is_empty")]
    conditions: String,
    accepted: [String; 2],
    misreads: Vec<&'static str>,
    steps: Vec<StepOut<'a>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    advice: Option<&'static str>,
    diagnosis: Option<DiagnosisOut>,
}

#[derive(Serialize)]
struct DiagnosisOut {
    leading: &'static str,
    /// What is held as well, on another step.
    #[serde(skip_serializing_if = "Option::is_none")]
    also: Option<&'static str>,
    probability: f64,
    status: &'static str,
    asked: u32,
}

/// What comes in.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Input {
    id: String,
    answer: Option<String>,
    lens: Option<i64>,
    skip: Option<bool>,
}

/// What is to be done with the question that is up.
enum Order {
    Answer(String),
    Lens(i64),
    Skip,
}

/// Runs the stream to its end.
pub(super) fn run(
    sitting: &mut Sitting<'_>,
    instruments: &[&Instrument],
    seed: Seed,
    args: &Ask,
    lines: &mut Lines,
    out: &mut Out,
) -> Result<(), Halt> {
    send(out, &Message::Linefall(head(instruments, sitting.round.suspects(), seed, args)))?;
    loop {
        let id = id(seed, sitting.round.number());
        let pictures = sitting.pose()?;
        send(out, &Message::Question(question(sitting, &id, &pictures, args.reveal)))?;
        while sitting.round.answered().is_none() {
            let Some(line) = read(lines)? else {
                return send(out, &summary(sitting, false));
            };
            match order(&line, &id) {
                Err(why) => send(out, &Message::Error { line: lines.number(), why })?,
                Ok(order) => obey(sitting, &id, order, lines.number(), out)?,
            }
        }
        if !sitting.round.advance() {
            return send(out, &summary(sitting, true));
        }
    }
}

fn send(out: &mut Out, message: &Message<'_>) -> Result<(), Halt> {
    out.line(&out::json(message))?;
    out.flush()
}

fn obey(sitting: &mut Sitting<'_>, id: &str, order: Order, line: u64, out: &mut Out) -> Result<(), Halt> {
    match order {
        Order::Lens(at) => {
            let lines = sitting.round.instrument().vernier_lines();
            if let Some(lines) = lines.filter(|lines| !lines.contains(&at)) {
                let why = say::no_vernier_line(*lines.start(), *lines.end());
                return send(out, &Message::Error { line, why });
            }
            return match sitting.slide(at)? {
                Some(picture) => send(out, &Message::Picture(picture_out(sitting, &picture))),
                None => send(out, &Message::Error { line, why: say::NO_GLASS.to_owned() }),
            };
        }
        Order::Answer(text) => sitting.answer(text)?,
        Order::Skip => sitting.skip()?,
    }
    match sitting.round.phase() {
        Phase::Asking { again: Some(nonsense) } => {
            send(out, &Message::Again { id, why: nonsense.to_string() })
        }
        Phase::Answered(_) => send(out, &Message::Mark(mark(sitting, id))),
        Phase::Asking { again: None } | Phase::Before(_) => Ok(()),
    }
}

/// Opaque: it depends on the seed and the number alone.
fn id(seed: Seed, number: u32) -> String {
    let mut material = seed.0.to_le_bytes().to_vec();
    material.extend(number.to_le_bytes());
    let hash = blake3::hash(&material).to_hex();
    format!("q{}", &hash[..8])
}

fn order(line: &Line, open: &str) -> Result<Order, String> {
    let text = match line {
        Line::Text(text) => text,
        Line::TooLong => return Err("the line is too long".to_owned()),
        Line::NoText => return Err("the line is not UTF-8".to_owned()),
    };
    let input: Input = serde_json::from_str(text).map_err(|fault| format!("no such message: {fault}"))?;
    if input.id != open {
        return Err(format!("the question that is open is {open}"));
    }
    match (input.answer, input.lens, input.skip) {
        (Some(answer), None, None) => Ok(Order::Answer(answer)),
        (None, Some(line), None) => Ok(Order::Lens(line)),
        (None, None, Some(true)) => Ok(Order::Skip),
        _ => Err("give one of \"answer\", \"lens\" and \"skip\":true beside the id".to_owned()),
    }
}

fn head<'a>(instruments: &[&Instrument], suspects: Option<&Suspects>, seed: Seed, args: &Ask) -> HeadOut<'a> {
    let happens = |one: &&misread::Misread| instruments.iter().any(|instrument| one.happens_on(instrument));
    // On one instrument those that its questions can show; a frame that starts at 0 cannot be forgotten.
    let shows = |one: &&misread::Misread| {
        suspects.is_none_or(|suspects| suspects.all().iter().any(|suspect| suspect.is(one.id)))
    };
    let misreads = misread::ALL.into_iter().filter(happens).filter(shows);
    HeadOut {
        stream: 1,
        seed: seed.0,
        choose: args.choose.word(),
        count: args.count(),
        misreads: misreads.map(|one| Named { id: one.id, name: one.name }).collect(),
    }
}

fn question<'a>(
    sitting: &'a Sitting<'_>,
    id: &'a str,
    pictures: &[Picture],
    reveal: bool,
) -> QuestionOut<'a> {
    let instrument = sitting.round.instrument();
    let question = sitting.round.question();
    QuestionOut {
        id,
        n: sitting.round.number(),
        instrument: &instrument.id,
        revision: &instrument.revision.0,
        asks: question.asks.shown_word(),
        prompt: wording::prompt(instrument, question.asks),
        sketch: wording::sketch(question.asks)
            .zip(wording::sketched(question.asks))
            .map(|(text, description)| SketchOut { text: *text, description }),
        unit: instrument.unit.symbol(),
        least_count: instrument.spell_least_count(),
        pictures: pictures.iter().map(|picture| picture_out(sitting, picture)).collect(),
        reveal: reveal.then(|| RevealOut {
            reading: instrument.spell(question.reading.total),
            zero_error: instrument.spell(question.zero_error),
            variant: question.variant.word(),
            conditions: question.conditions.word(instrument),
            corrected: instrument.spell(question.reading.total - question.zero_error),
            expected: instrument.notation.spell(question.expected(instrument)),
            steps: steps(instrument, question),
        }),
    }
}

fn picture_out(sitting: &Sitting<'_>, picture: &Picture) -> PictureOut {
    let frame = &sitting.frame;
    PictureOut {
        role: picture.role.word(),
        cols: picture.size.cols,
        rows: picture.size.rows,
        lines: frame.look.lines.word(),
        lens: picture.drawing.glass,
        text: frame.look.rows(&picture.drawing.grid),
        description: picture.sentences.join("\n"),
    }
}

fn steps<'a>(instrument: &'a Instrument, question: &Question) -> Vec<StepOut<'a>> {
    let steps = question.reading.steps.iter();
    steps
        .map(|step| StepOut {
            stage: &instrument.stages[step.stage].name,
            value: instrument.spell(step.value),
        })
        .collect()
}

fn mark<'a>(sitting: &'a Sitting<'_>, id: &'a str) -> MarkOut<'a> {
    let instrument = sitting.round.instrument();
    let question = sitting.round.question();
    let mark = &sitting.round.answered().expect("it was answered just now").mark;
    let spell = |value| instrument.notation.spell(value);
    MarkOut {
        id,
        right: mark.verdict.is_right(),
        verdict: mark.verdict.word(),
        expected: spell(mark.expected),
        reading: instrument.spell(question.reading.total),
        zero_error: instrument.spell(question.zero_error),
        variant: question.variant.word(),
        conditions: question.conditions.word(instrument),
        accepted: mark.accepted.map(spell),
        misreads: mark.misreads.iter().map(|found| found.misread.id).collect(),
        steps: steps(instrument, question),
        advice: wording::advice(&question.conditions),
        diagnosis: sitting.round.diagnosis().map(diagnosis),
    }
}

fn diagnosis(found: Diagnosis) -> DiagnosisOut {
    DiagnosisOut {
        leading: found.id,
        also: found.also,
        // Four places are plenty, and the same on every machine.
        probability: (found.probability * 10_000.0).round() / 10_000.0,
        status: found.status.word(),
        asked: found.asked,
    }
}

fn summary(sitting: &Sitting<'_>, complete: bool) -> Message<'static> {
    let (right, answered, skipped) = sitting.round.score();
    let diagnosis = sitting.round.outcome().map(diagnosis);
    Message::Summary { complete, asked: answered + skipped, right, diagnosis }
}
