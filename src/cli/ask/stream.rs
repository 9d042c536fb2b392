//! The stream of questions at a bench: one JSON object a line, in and out.

use super::asker::Asker;
use super::message::{
    ChoiceOut, HeadOut, Input, KindOut, MarkOut, Message, Named, OutcomeOut, PictureOut, QuestionOut,
    RevealOut, SetOut, SketchOut,
};
use super::{Picture, read};
use crate::cli::args::Choose;
use crate::cli::exit::Halt;
use crate::cli::input::{Line, Lines};
use crate::cli::out::{self, Out};
use crate::drill::task::{Part, Wanted};
use crate::drill::{Kind, Seed};
use crate::instrument::Instrument;
use crate::reading::misread;
use crate::session::{Bench, Stand};
use crate::wording;
use crate::wording::{bench, command as say, task};
use std::collections::BTreeSet;

/// What is to be done with the part that is up.
enum Order {
    Answer(String),
    Choose(usize),
    Hand(String),
    Lens(usize, i64),
    Skip,
}

/// What a stream starts from.
pub(super) struct Stream {
    pub(super) seed: Seed,
    /// The right answers go out beside the questions.
    pub(super) reveal: bool,
    pub(super) head: HeadOut,
}

/// Runs the stream until nothing is left to ask; false where it ended earlier.
pub(super) fn run(
    asker: &mut impl Asker,
    stream: Stream,
    lines: &mut Lines,
    out: &mut Out,
) -> Result<bool, Halt> {
    let Stream { seed, reveal, head } = stream;
    send(out, &Message::Linefall(head))?;
    loop {
        let pictures = asker.pose()?;
        let id = id(seed, asker.which().0, asker.bench().which().0);
        send(out, &Message::Question(Box::new(question(asker, &id, &pictures, reveal))))?;
        while !asker.is_told() {
            let line = read(lines)?;
            if asker.is_time_up() {
                return Ok(false);
            }
            let Some(line) = line else {
                return Ok(false);
            };
            match order(&line, &id, asker.bench().part()) {
                Err(why) => send(out, &Message::Error { line: lines.number(), why })?,
                Ok(order) => obey(asker, &id, order, lines.number(), out)?,
            }
        }
        if !asker.advance() {
            return Ok(true);
        }
    }
}

/// The mark of a part that was answered earlier.
pub(super) fn told(seed: Seed, number: u32, bench: &Bench, out: &mut Out) -> Result<(), Halt> {
    let id = id(seed, number, bench.which().0);
    send(out, &Message::Mark(mark(bench, &id)))
}

/// The last message.
pub(super) fn end(
    asker: &impl Asker,
    complete: bool,
    outcome: Option<OutcomeOut>,
    out: &mut Out,
) -> Result<(), Halt> {
    let (right, answered, skipped) = asker.score();
    send(out, &Message::Summary { complete, asked: answered + skipped, right, diagnosis: (), outcome })
}

fn send(out: &mut Out, message: &Message<'_>) -> Result<(), Halt> {
    out.line(&out::json(message))?;
    out.flush()
}

fn obey(asker: &mut impl Asker, id: &str, order: Order, line: u64, out: &mut Out) -> Result<(), Halt> {
    let hand = matches!(order, Order::Hand(_));
    match order {
        Order::Lens(place, at) => {
            let sights = asker.bench().sights();
            let lines = sights.get(place).and_then(|sight| sight.tool.vernier_lines());
            if let Some(lines) = lines.filter(|lines| !lines.contains(&at)) {
                let why = say::no_vernier_line(*lines.start(), *lines.end());
                return send(out, &Message::Error { line, why });
            }
            return match asker.slide(place, at)? {
                Some(picture) => send(out, &Message::Picture(picture_out(asker, &picture))),
                None => send(out, &Message::Error { line, why: say::NO_GLASS.to_owned() }),
            };
        }
        Order::Answer(text) | Order::Hand(text) => asker.answer(text)?,
        Order::Choose(place) => asker.choose(place)?,
        Order::Skip => asker.skip()?,
    }
    match asker.bench().stand() {
        Stand::Asking { again: Some(again) } | Stand::Locked { again: Some(again) } => {
            send(out, &Message::Again { id, why: again.to_string() })
        }
        Stand::Told(_) if asker.is_silent() => send(out, &Message::Taken { id }),
        Stand::Told(_) => send(out, &Message::Mark(mark(asker.bench(), id))),
        Stand::Asking { again: None } | Stand::Locked { again: None } if hand => {
            for picture in asker.work()? {
                send(out, &Message::Picture(picture_out(asker, &picture)))?;
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

/// What the stream says first.
pub(super) fn head(instruments: &[&Instrument], seed: Seed, count: u32, asked: &BTreeSet<Kind>) -> HeadOut {
    let happens = |one: &&misread::Misread| instruments.iter().any(|instrument| one.happens_on(instrument));
    HeadOut {
        stream: 1,
        seed: seed.0,
        choose: Choose::Plain.word(),
        count,
        set: None,
        kinds: asked.iter().map(|kind| KindOut { kind: kind.word(), name: task::name(*kind) }).collect(),
        misreads: misread::ALL
            .into_iter()
            .filter(happens)
            .map(|one| Named { id: one.id, name: one.name })
            .collect(),
    }
}

fn question<'a>(asker: &'a impl Asker, id: &'a str, pictures: &[Picture], reveal: bool) -> QuestionOut<'a> {
    let bench = asker.bench();
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
        n: asker.which().0,
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
        pictures: pictures.iter().map(|picture| picture_out(asker, picture)).collect(),
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

fn picture_out(asker: &impl Asker, picture: &Picture) -> PictureOut {
    let look = &asker.easel().frame.look;
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

fn mark<'a>(bench: &Bench, id: &'a str) -> MarkOut<'a> {
    let part = bench.part();
    let Stand::Told(told) = bench.stand() else { unreachable!("it was answered just now") };
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
