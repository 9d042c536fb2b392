//! The stream of questions of other kinds: one JSON object a line, in and out.

use super::{Picture, Sitting, read};
use crate::cli::args::Ask;
use crate::cli::exit::Halt;
use crate::cli::input::{Line, Lines};
use crate::cli::out::{self, Out};
use crate::drill::task::{Part, Wanted};
use crate::drill::{Kind, Seed};
use crate::instrument::Instrument;
use crate::reading::misread;
use crate::session::{Programme, Stand};
use crate::wording;
use crate::wording::{bench, command as say, task};
use serde::{Deserialize, Serialize};
use std::collections::BTreeSet;

/// What goes out.
#[derive(Serialize)]
#[serde(rename_all = "lowercase")]
enum Message<'a> {
    Linefall(HeadOut),
    Question(Box<QuestionOut<'a>>),
    Picture(PictureOut),
    Mark(MarkOut<'a>),
    Again { id: &'a str, why: String },
    Error { line: u64, why: String },
    Summary { complete: bool, asked: u32, right: u32, diagnosis: () },
}

#[derive(Serialize)]
struct HeadOut {
    stream: u32,
    seed: u64,
    choose: &'static str,
    count: u32,
    kinds: Vec<KindOut>,
    misreads: Vec<Named>,
}

#[derive(Serialize)]
struct KindOut {
    kind: &'static str,
    name: &'static str,
}

#[derive(Serialize)]
struct Named {
    id: &'static str,
    name: &'static str,
}

#[derive(Serialize)]
struct QuestionOut<'a> {
    id: &'a str,
    n: u32,
    kind: &'static str,
    part: [usize; 2],
    instrument: &'a str,
    revision: &'a str,
    asks: &'static str,
    prompt: String,
    given: Vec<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    sketch: Option<SketchOut>,
    unit: &'static str,
    least_count: String,
    pictures: Vec<PictureOut>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    choices: Vec<ChoiceOut>,
    #[serde(skip_serializing_if = "Option::is_none")]
    set: Option<SetOut>,
    #[serde(skip_serializing_if = "Option::is_none")]
    reveal: Option<RevealOut>,
}

/// Base, blade and work, where the part's angle is asked for.
#[derive(Serialize)]
struct SketchOut {
    text: [&'static str; 5],
    description: &'static str,
}

#[derive(Serialize)]
struct ChoiceOut {
    n: usize,
    text: String,
}

/// Which size is to be set, and the finest move. Where the tool stands is for the eye.
#[derive(Serialize)]
struct SetOut {
    to: String,
    fine: String,
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
struct RevealOut {
    expected: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    choice: Option<usize>,
}

#[derive(Serialize)]
struct MarkOut<'a> {
    id: &'a str,
    kind: &'static str,
    right: bool,
    verdict: &'static str,
    answer: String,
    expected: String,
    misreads: Vec<&'static str>,
    told: String,
    why: Vec<String>,
}

/// What comes in.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Input {
    id: String,
    answer: Option<String>,
    choose: Option<usize>,
    #[serde(rename = "move")]
    by: Option<String>,
    lock: Option<bool>,
    loosen: Option<bool>,
    done: Option<bool>,
    lens: Option<i64>,
    /// Over which of the pictures, from 1.
    picture: Option<usize>,
    skip: Option<bool>,
}

/// What is to be done with the part that is up.
enum Order {
    Answer(String),
    Choose(usize),
    Hand(String),
    Lens(usize, i64),
    Skip,
}

/// Runs the stream to its end.
pub(super) fn run(
    sitting: &mut Sitting<'_>,
    instruments: &[&Instrument],
    seed: Seed,
    (args, programme): (&Ask, &Programme),
    lines: &mut Lines,
    out: &mut Out,
) -> Result<(), Halt> {
    send(out, &Message::Linefall(head(instruments, seed, args, programme)))?;
    loop {
        let pictures = sitting.pose()?;
        let id = id(seed, sitting.tour.number(), sitting.tour.bench().which().0);
        send(out, &Message::Question(Box::new(question(sitting, &id, &pictures, args.reveal))))?;
        while !sitting.tour.is_told() {
            let Some(line) = read(lines)? else {
                return send(out, &summary(sitting, false));
            };
            match order(&line, &id, sitting.tour.bench().part()) {
                Err(why) => send(out, &Message::Error { line: lines.number(), why })?,
                Ok(order) => obey(sitting, &id, order, lines.number(), out)?,
            }
        }
        if !sitting.tour.advance() {
            return send(out, &summary(sitting, true));
        }
    }
}

fn send(out: &mut Out, message: &Message<'_>) -> Result<(), Halt> {
    out.line(&out::json(message))?;
    out.flush()
}

fn obey(sitting: &mut Sitting<'_>, id: &str, order: Order, line: u64, out: &mut Out) -> Result<(), Halt> {
    let hand = matches!(order, Order::Hand(_));
    match order {
        Order::Lens(place, at) => {
            let sights = sitting.tour.bench().sights();
            let lines = sights.get(place).and_then(|sight| sight.tool.vernier_lines());
            if let Some(lines) = lines.filter(|lines| !lines.contains(&at)) {
                let why = say::no_vernier_line(*lines.start(), *lines.end());
                return send(out, &Message::Error { line, why });
            }
            return match sitting.slide(place, at)? {
                Some(picture) => send(out, &Message::Picture(picture_out(sitting, &picture))),
                None => send(out, &Message::Error { line, why: say::NO_GLASS.to_owned() }),
            };
        }
        Order::Answer(text) | Order::Hand(text) => sitting.answer(text)?,
        Order::Choose(place) => sitting.choose(place)?,
        Order::Skip => sitting.skip()?,
    }
    match sitting.tour.bench().stand() {
        Stand::Asking { again: Some(again) } | Stand::Locked { again: Some(again) } => {
            send(out, &Message::Again { id, why: again.to_string() })
        }
        Stand::Told(_) => send(out, &Message::Mark(mark(sitting, id))),
        Stand::Asking { again: None } | Stand::Locked { again: None } if hand => {
            for picture in sitting.work()? {
                send(out, &Message::Picture(picture_out(sitting, &picture)))?;
            }
            Ok(())
        }
        Stand::Asking { again: None } | Stand::Locked { again: None } => Ok(()),
    }
}

/// Opaque: it depends on the seed, the number and the part alone.
fn id(seed: Seed, number: u32, part: usize) -> String {
    let mut material = seed.0.to_le_bytes().to_vec();
    material.extend(number.to_le_bytes());
    material.extend(part.to_le_bytes());
    let hash = blake3::hash(&material).to_hex();
    format!("t{}", &hash[..8])
}

fn order(line: &Line, open: &str, part: &Part) -> Result<Order, String> {
    let text = match line {
        Line::Text(text) => text,
        Line::TooLong => return Err("the line is too long".to_owned()),
        Line::NoText => return Err("the line is not UTF-8".to_owned()),
    };
    let input: Input = serde_json::from_str(text).map_err(|fault| format!("no such message: {fault}"))?;
    if input.id != open {
        return Err(format!("the question that is open is {open}"));
    }
    let word =
        |given: Option<bool>, word: &str| given.filter(|yes| *yes).map(|_| Order::Hand(word.to_owned()));
    let place = input.picture.unwrap_or(1).saturating_sub(1);
    let orders = [
        input.answer.map(Order::Answer),
        input.choose.map(Order::Choose),
        input.by.map(Order::Hand),
        word(input.lock, "lock"),
        word(input.loosen, "loosen"),
        word(input.done, "done"),
        input.lens.map(|at| Order::Lens(place, at)),
        input.skip.filter(|yes| *yes).map(|_| Order::Skip),
    ];
    let mut given = orders.into_iter().flatten();
    let (Some(order), None) = (given.next(), given.next()) else { return Err(bench::ONE_ORDER.to_owned()) };
    match (order, &part.wanted) {
        (Order::Answer(text), Wanted::Choice(choice)) => {
            numbered(text.trim().parse().ok(), choice.options.len())
        }
        (Order::Choose(number), Wanted::Choice(choice)) => numbered(Some(number), choice.options.len()),
        (Order::Choose(_), _) => Err(bench::NO_CHOICE.to_owned()),
        (Order::Answer(text), Wanted::Setting(_)) => Ok(Order::Hand(text)),
        (Order::Hand(_), Wanted::Reading | Wanted::Figure(_) | Wanted::Choice(_)) => {
            Err(bench::NOT_SET.to_owned())
        }
        (order, _) => Ok(order),
    }
}

fn numbered(number: Option<usize>, count: usize) -> Result<Order, String> {
    let place = number.filter(|number| (1..=count).contains(number));
    place.map(|number| Order::Choose(number - 1)).ok_or_else(|| bench::number_wanted(count))
}

fn head(instruments: &[&Instrument], seed: Seed, args: &Ask, programme: &Programme) -> HeadOut {
    let asked: BTreeSet<Kind> = instruments.iter().flat_map(|tool| programme.kinds(tool)).collect();
    let happens = |one: &&misread::Misread| instruments.iter().any(|instrument| one.happens_on(instrument));
    HeadOut {
        stream: 1,
        seed: seed.0,
        choose: args.choose.word(),
        count: args.count,
        kinds: asked.iter().map(|kind| KindOut { kind: kind.word(), name: task::name(*kind) }).collect(),
        misreads: misread::ALL
            .into_iter()
            .filter(happens)
            .map(|one| Named { id: one.id, name: one.name })
            .collect(),
    }
}

fn question<'a>(
    sitting: &'a Sitting<'_>,
    id: &'a str,
    pictures: &[Picture],
    reveal: bool,
) -> QuestionOut<'a> {
    let bench = sitting.tour.bench();
    let part = bench.part();
    let (tool, asks) = (&part.tool, part.question.asks);
    let (which, parts) = bench.which();
    let mut given = task::asked(part);
    // What is given stands before the question; a size to be set is the question.
    let prompt = match &part.wanted {
        Wanted::Setting(_) if !given.is_empty() => given.remove(0),
        _ => given.pop().unwrap_or_default(),
    };
    let sketched = matches!(part.wanted, Wanted::Reading);
    let offered = task::offered(part).into_iter().enumerate();
    QuestionOut {
        id,
        n: sitting.tour.number(),
        kind: part.kind.word(),
        part: [which, parts],
        instrument: &tool.id,
        revision: &tool.revision.0,
        asks: match &part.wanted {
            Wanted::Reading => asks.shown_word(),
            Wanted::Figure(_) => "figure",
            Wanted::Choice(_) => "choice",
            Wanted::Setting(_) => "setting",
        },
        prompt,
        given,
        sketch: wording::sketch(asks)
            .zip(wording::sketched(asks))
            .filter(|_| sketched)
            .map(|(text, description)| SketchOut { text: *text, description }),
        unit: match &part.wanted {
            Wanted::Figure(figure) => figure.unit.symbol(),
            _ => tool.unit.symbol(),
        },
        least_count: tool.spell_least_count(),
        pictures: pictures.iter().map(|picture| picture_out(sitting, picture)).collect(),
        choices: offered.map(|(n, text)| ChoiceOut { n: n + 1, text }).collect(),
        set: match &part.wanted {
            Wanted::Setting(wanted) => Some(SetOut {
                to: tool.notation.spell(part.size(wanted)),
                fine: tool.spell(tool.travel().fine),
            }),
            _ => None,
        },
        reveal: reveal.then(|| RevealOut {
            expected: expected(part),
            choice: match &part.wanted {
                Wanted::Choice(choice) => Some(choice.right + 1),
                _ => None,
            },
        }),
    }
}

/// The right answer, as it would be typed or as it is listed.
fn expected(part: &Part) -> String {
    match &part.wanted {
        Wanted::Reading => part.tool.notation.spell(part.question.expected(&part.tool)),
        Wanted::Figure(figure) => figure.notation.spell(figure.expected),
        Wanted::Choice(choice) => task::offered(part).swap_remove(choice.right),
        Wanted::Setting(setting) => part.tool.spell(setting.to),
    }
}

fn picture_out(sitting: &Sitting<'_>, picture: &Picture) -> PictureOut {
    let look = &sitting.frame.look;
    PictureOut {
        role: picture.role.word(),
        cols: picture.size.cols,
        rows: picture.size.rows,
        lines: look.lines.word(),
        lens: picture.drawing.glass,
        text: look.rows(&picture.drawing.grid),
        description: picture.sentences.join("\n"),
    }
}

fn mark<'a>(sitting: &Sitting<'_>, id: &'a str) -> MarkOut<'a> {
    let part = sitting.tour.bench().part();
    let Stand::Told(told) = sitting.tour.bench().stand() else { unreachable!("it was answered just now") };
    MarkOut {
        id,
        kind: part.kind.word(),
        right: told.marked.verdict.is_right(),
        verdict: told.marked.verdict.word(),
        answer: part.given_word(&told.given),
        expected: expected(part),
        misreads: told.marked.slips.iter().map(|found| found.misread.id).collect(),
        told: task::told(part, &told.marked),
        why: task::why(part, &told.given, &told.marked),
    }
}

fn summary(sitting: &Sitting<'_>, complete: bool) -> Message<'static> {
    let (right, answered, skipped) = sitting.tour.score();
    Message::Summary { complete, asked: answered + skipped, right, diagnosis: () }
}
