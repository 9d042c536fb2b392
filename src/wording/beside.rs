//! What was done beside what is right, in two columns.

use super::explain::share;
use crate::exact::{Exact, Quanta};
use crate::instrument::Instrument;
use crate::reading::{Beside, Row, What};

/// Above the two columns.
pub fn heading() -> String {
    columns("", "", "right", "you read", "")
}

/// A step both ways. `up` is the one that is being looked at. The replaced one has a sign in front and a word behind.
pub fn row(instrument: &Instrument, row: &Row, up: bool) -> String {
    let spell = |value: Option<Exact>, none: &str| {
        value.map_or_else(|| none.to_owned(), |value| instrument.notation.spell(value))
    };
    let (sign, word) = if row.is_replaced() { ("x", "this step") } else { ("", "") };
    let sign = format!("{sign:<1}{}", if up { ">" } else { "" });
    columns(&sign, &label(instrument, row), &spell(row.right, "none"), &spell(row.done, "left out"), word)
}

/// The replaced step in a sentence, for those who hear it.
pub fn sentence(instrument: &Instrument, one: &Row) -> String {
    let spell = |value: Exact| instrument.notation.spell(value);
    let right = one
        .right
        .map_or_else(|| "nothing is counted there".to_owned(), |value| format!("right is {}", spell(value)));
    let done =
        one.done.map_or_else(|| "it was left out".to_owned(), |value| format!("you read {}", spell(value)));
    format!("This step: {}; {right}, {done}.", label(instrument, one))
}

/// Below the columns: what each comes to.
pub fn sums(instrument: &Instrument, both: &Beside) -> String {
    let spell = |value| instrument.notation.spell_with_unit(value, instrument.unit);
    columns("", "comes to", &spell(both.right), &spell(both.done), "")
}

fn label(instrument: &Instrument, row: &Row) -> String {
    match &row.what {
        What::Share(one) => share(instrument, one),
        What::Stage(stage) => format!("{} in all", instrument.stages[*stage].name),
        What::Zero if instrument.low == Quanta::ZERO => "less what it reads closed".to_owned(),
        What::Zero => "less the zero error".to_owned(),
        What::SetUp(_) => "the part's angle".to_owned(),
        What::Figure => "the figure written down".to_owned(),
    }
}

fn columns(sign: &str, label: &str, right: &str, done: &str, word: &str) -> String {
    format!("{sign:<2} {label:<41}{right:>11}{done:>12}  {word}").trim_end().to_owned()
}
