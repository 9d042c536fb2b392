//! What is said while somebody moves a tool and watches its reading build up.

use crate::drill::{Guess, Guessed};
use crate::exact::Quanta;
use crate::instrument::{Body, Dial, Form, Grows, Heading, Instrument, Moves, Takes, Turns};
use crate::reading::Stand;

/// Nothing of a walk is recorded.
pub const NOT_RECORDED: &str = "nothing here is recorded";
/// A walk is not opened over a question.
pub const NOT_WHILE_ASKED: &str = "answer first, or pass it over with s; then w turns this very tool";
/// All has been guessed.
pub const GUESSED_ALL: &str = "Enter sets it elsewhere.";

/// What is moved and which way the reading grows by it.
pub fn moves(tool: &Instrument) -> String {
    let grows = tool.travel().grows;
    let name = |stage: usize| tool.stages.get(stage).map_or("", |stage| stage.name.as_str());
    let side = match grows {
        Heading::Left | Heading::Anticlockwise => "to the left",
        Heading::Right | Heading::Clockwise => "to the right",
        Heading::Up => "up",
    };
    let dial = tool.stages.iter().find_map(|stage| match &stage.form {
        Form::Dial(dial) => Some(dial),
        Form::Line(_) | Form::Drum(_) | Form::Vernier(_) | Form::Fixed(_) => None,
    });
    if let Some(dial) = dial {
        return round(tool, dial);
    }
    let thimble = tool.stages.iter().find(|stage| matches!(stage.form, Form::Drum(_)));
    if let Some(thimble) = thimble {
        let thimble = &thimble.name;
        return match tool.grows {
            Grows::Uncovering => {
                format!("Turn the {thimble} back, {side}: it uncovers lines, and the reading grows.")
            }
            Grows::Covering => {
                format!("Turn the {thimble} in, {side}: it covers lines, and the reading grows.")
            }
        };
    }
    let vernier = tool.stages.iter().position(|stage| matches!(stage.form, Form::Vernier(_)));
    match (vernier, tool.moves) {
        (Some(vernier), Moves::MainScale) => {
            let bar = name(vernier.saturating_sub(1));
            format!("Push the {bar} out past the {}: the reading grows.", name(vernier))
        }
        (Some(vernier), Moves::Finer) => format!("Slide the {} {side}: the reading grows.", name(vernier)),
        (None, _) if tool.is_both_ways() => {
            format!("Turn its zero {side}, away from the index line: the reading grows.")
        }
        (None, _) => format!("The work reaches further {side} along the {}: the reading grows.", name(0)),
    }
}

fn round(tool: &Instrument, dial: &Dial) -> String {
    if dial.body == Body::Collar {
        let takes = match dial.takes {
            Some(Takes::Diameter) => "; they count the diameter",
            Some(Takes::Radius) => "; they count the radius",
            None => "",
        };
        return format!("Turn the wheel on: higher lines reach the index line{takes}.");
    }
    let turn = tool.spell_with_unit(dial.turn());
    let way = if tool.travel().grows == Heading::Clockwise { "clockwise" } else { "against the clock" };
    match dial.turns {
        Turns::Bar => format!("Open the jaw: the hand goes {way}, once round in {turn}."),
        Turns::Counter | Turns::Uncounted => {
            format!("Press the tip in: the hand goes {way}, once round in {turn}.")
        }
    }
}

/// One line of what builds up: in words, what it adds, and the sum so far.
pub struct Row {
    /// A sign beside it: right, wrong, neither.
    pub sign: &'static str,
    /// In words.
    pub words: String,
    /// What it adds.
    pub value: String,
    /// The sum so far.
    pub sum: String,
}

/// What builds up: the shares of the stages that are open, each with the sum so far.
pub fn rows(stand: &Stand, open: usize, guesses: &[Guess]) -> Vec<Row> {
    let tool = &stand.tool;
    let mut sum = Quanta::ZERO;
    let mut rows = Vec::new();
    for (number, step) in stand.reading.steps.iter().enumerate().take(open) {
        let guess = guesses.get(number);
        let shares: Vec<_> = stand.shares.iter().filter(|share| share.stage == step.stage).collect();
        for (n, share) in shares.iter().enumerate() {
            sum += share.value;
            let last = n + 1 == shares.len();
            let said =
                guess.filter(|_| last).map(|guess| said(guess, &tool.spell(step.value))).unwrap_or_default();
            rows.push(Row {
                sign: guess.filter(|_| last).map_or(" ", sign),
                words: format!("{}{said}", super::share(tool, share)),
                value: tool.spell(share.value),
                sum: tool.spell(sum),
            });
        }
    }
    rows
}

fn sign(guess: &Guess) -> &'static str {
    match guess.verdict {
        Guessed::Right | Guessed::LineNumber | Guessed::Whole => "\u{2713}",
        Guessed::Wrong => "x",
        Guessed::Shown => "-",
    }
}

fn said(guess: &Guess, worth: &str) -> String {
    match guess.verdict {
        Guessed::Right | Guessed::Whole | Guessed::Shown => String::new(),
        Guessed::LineNumber => format!("  (the line is {}, worth {worth})", guess.typed),
        Guessed::Wrong => format!("  (not {}: {worth})", guess.typed),
    }
}

/// The whole.
pub fn total(stand: &Stand) -> String {
    format!("reads {}", stand.tool.spell_with_unit(stand.reading.total))
}

/// What is asked of one stage.
pub fn guess(stand: &Stand, stage: usize, first: bool) -> String {
    let name = &stand.tool.stages[stage].name;
    let alone = stand.reading.steps.len() == 1;
    match (alone, first) {
        (true, _) => format!("What does the {name} say? "),
        (false, true) => format!("What does the {name} alone say (or all together)? "),
        (false, false) => format!("What does the {name} add? "),
    }
}

/// What is fitted and how it is made, where that is not the usual: `halves above, rod 2 in`.
pub fn form(instrument: &Instrument, stand: &Stand) -> String {
    if stand.variant == instrument.plain() {
        return String::new();
    }
    let word = stand.variant.word();
    let mut parts: Vec<String> = Vec::new();
    for token in word.split_whitespace() {
        match (token.contains('='), parts.last_mut()) {
            (false, Some(part)) => {
                part.push(' ');
                part.push_str(token);
            }
            _ => parts.push(token.replace('=', " ")),
        }
    }
    parts.join(", ")
}

/// Which step of a lesson it is, and which point of that.
pub fn which((step, steps): (usize, usize), (point, points): (usize, usize)) -> String {
    if points > 1 {
        format!("step {step} of {steps}, {point}/{points}")
    } else {
        format!("step {step} of {steps}")
    }
}

/// A wrong answer to a question of a lesson.
pub fn not_yet(typed: &str) -> String {
    format!("x {typed}: not yet. Look again; s shows it.")
}

/// A right one.
pub fn answered(typed: &str) -> String {
    format!("\u{2713} {typed}.")
}

/// One that was shown.
pub fn answer_shown(right: &str) -> String {
    format!("- It is {right}.")
}

/// The end of a lesson.
pub const LESSON_ENDS: &str = "That was the lesson: now turn it yourself.";

/// No lesson for a family of one's own.
pub fn no_lesson(family: &str) -> String {
    let family: String = family.chars().filter(|c| c.is_ascii_alphanumeric() || *c == '-').collect();
    format!("there is no lesson for the family {family}")
}

/// A step of a lesson in lines.
pub fn step_head(step: usize, steps: usize, reading: &str) -> String {
    format!("Step {step} of {steps}: {reading}")
}

/// A question with its answer, in a lesson told line by line.
pub fn asked(question: &str, right: &str) -> String {
    format!("Question: {question} Answer: {right}.")
}

/// The caution of a lesson.
pub fn mind(caution: &str) -> String {
    format!("Mind: {caution}")
}
