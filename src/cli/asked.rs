//! `--kind` and `--level`: what is asked, where it is not plain readings.

use crate::drill::{Kind, Level};
use crate::session::Programme;
use clap::builder::{PossibleValuesParser, TypedValueParser};
use clap::{Args, ValueEnum};

/// What is asked, where it is not plain readings.
#[derive(Clone, Debug, Args)]
pub struct Asked {
    /// Questions of these kinds in turn, in place of readings
    #[arg(long, value_name = "KIND", value_delimiter = ',', value_parser = kind())]
    pub kind: Vec<Kind>,
    /// The questions of a level: one step, whole readings, pairs, traps, decisions
    #[arg(long, value_name = "1-5", value_parser = level, conflicts_with = "kind")]
    pub level: Option<Level>,
}

impl Asked {
    /// What that comes to; none for plain readings.
    pub fn programme(&self) -> Option<Programme> {
        let kinds = || (!self.kind.is_empty()).then(|| Programme::Kinds(self.kind.clone()));
        self.level.map(Programme::Level).or_else(kinds)
    }
}

/// A level by its number or its word.
fn level(text: &str) -> Result<Level, String> {
    let numbered =
        text.parse::<usize>().ok().and_then(|number| Level::ALL.get(number.checked_sub(1)?).copied());
    numbered.or_else(|| Level::from_word(text)).ok_or_else(|| {
        let words: Vec<&str> = Level::ALL.iter().map(|level| level.word()).collect();
        format!("give 1 to {}, or one of {}", words.len(), words.join(", "))
    })
}

fn kind() -> impl TypedValueParser<Value = Kind> {
    PossibleValuesParser::new(Kind::ALL.iter().map(|kind| kind.word()))
        .map(|word| Kind::from_word(&word).expect("one of the words listed"))
}

/// How `ask` chooses the next question.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum Choose {
    /// As the seed has it
    Plain,
    /// Those whose answers tell most about how someone reads; the end is when that is known
    Telling,
}

impl Choose {
    /// The word of the option.
    pub fn word(self) -> &'static str {
        match self {
            Self::Plain => "plain",
            Self::Telling => "telling",
        }
    }
}
