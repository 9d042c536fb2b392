//! What is said about drill sets. On a screen they are exercises, those with a pass rule checks.

use super::counted;
use crate::drill::set::{Allowed, DrillSet, Order, Pass};
use crate::drill::{Conditions, Lock, Settings};
use crate::exact::Quanta;
use crate::instrument::Instrument;

/// When it is passed, in few words; nothing for an exercise.
pub fn pass(set: &DrillSet) -> Option<String> {
    Some(match set.pass? {
        Pass::Right(right) => format!("{right} right to pass"),
        Pass::Sequential { .. } => "ends when clear".to_owned(),
    })
}

/// How many questions there are.
pub fn count(set: &DrillSet) -> String {
    match set.pass {
        Some(Pass::Sequential { least, .. }) if least < set.count => {
            format!("{least} to {} questions", set.count)
        }
        _ => counted(set.count, "question", "questions"),
    }
}

/// A time in seconds, as the file spells it.
pub fn time(seconds: u32) -> String {
    match seconds {
        _ if seconds.is_multiple_of(3600) => format!("{} h", seconds / 3600),
        _ if seconds.is_multiple_of(60) => format!("{} min", seconds / 60),
        _ => format!("{seconds} s"),
    }
}

/// All of it in one bracket: `20 questions, 18 right to pass, 20 min`.
pub fn in_short(set: &DrillSet) -> String {
    let parts = [Some(count(set)), pass(set), set.time.map(time)];
    parts.into_iter().flatten().collect::<Vec<_>>().join(", ")
}

/// Which paper is shown.
pub fn paper_of(seed: u64, fixed: bool) -> String {
    if fixed {
        format!("The paper that everybody gets, of seed {seed}.")
    } else {
        format!("The paper of seed {seed}; every learner gets another one.")
    }
}

/// A question has another part, which is not shown because it would give away the first.
pub const FOLLOWS: &str = "Then one question more, which follows from it.";

/// Where the tool stands.
pub fn stands(reading: &str) -> String {
    format!("it stands at {reading}")
}

/// What is out of order with a tool.
pub fn out_of_order(conditions: &Conditions, tool: &Instrument) -> Vec<String> {
    let mut said = Vec::new();
    match conditions.settings {
        Settings::AsDefined => {}
        Settings::Between(_) => said.push("between its lines".to_owned()),
        Settings::Estimated => said.push("last digit judged".to_owned()),
    }
    if conditions.lead != Quanta::ZERO {
        let [way, by] = if conditions.lead > Quanta::ZERO {
            ["early", &tool.spell_with_unit(conditions.lead)]
        } else {
            ["late", &tool.spell_with_unit(-conditions.lead)]
        };
        said.push(format!("edge shows lines {way}, by {by}"));
    }
    if conditions.worn.is_some() {
        said.push("figures worn away".to_owned());
    }
    if conditions.lock == Lock::Loose {
        said.push("lock loose".to_owned());
    }
    said
}

/// A text in lines of at most so many characters, for lists.
pub fn wrapped(text: &str) -> Vec<String> {
    const WIDE: usize = 76;
    let mut lines: Vec<String> = Vec::new();
    for word in text.split_whitespace() {
        match lines.last_mut() {
            Some(line) if line.chars().count() + 1 + word.chars().count() <= WIDE => {
                line.push(' ');
                line.push_str(word);
            }
            _ => lines.push(word.to_owned()),
        }
    }
    lines
}

/// What the closed tool shows.
pub fn zero_off(error: &str) -> String {
    format!("closed it shows {error}")
}

/// What a paper holds, of so many questions.
pub fn paper_holds(all: usize, off: usize, near: usize, odd: usize) -> Vec<String> {
    vec![
        format!("Of {all} questions"),
        format!("{off:>5} with the zero off"),
        format!("{near:>5} near a line"),
        format!(
            "{odd:>5} with something to look out for: an edge, a start, worn figures, a lock, between lines"
        ),
    ]
}

/// What somebody who writes a set should know about it, though it is no fault.
pub fn notes(set: &DrillSet) -> Vec<&'static str> {
    let mut notes = Vec::new();
    if set.glass == Allowed::No {
        notes.push("the glass is forbidden: a tool that is not whole in a window is not asked there");
    }
    if set.seed.is_some() && set.pass.is_some() {
        notes.push("everybody gets the same paper: neighbours can copy it");
    }
    if set.order == Order::Blocked && set.pass.is_some() {
        notes.push("one block after the other: each question says what the next one is like");
    }
    notes
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drill::set::Shelf;
    use crate::exact::parse_answer;
    use crate::instrument::Catalogue;

    #[test]
    fn what_is_out_of_order_is_said_in_words() {
        let catalogue = Catalogue::new(Vec::new());
        let tool = catalogue.get("micrometer-metric").expect("shipped");
        let at = |text: &str| {
            let value = parse_answer(text, tool.unit).expect("a reading").value;
            tool.lattice.at(value).expect("on the lines")
        };
        let good = Conditions::default();
        assert!(out_of_order(&good, tool).is_empty());
        let late = Conditions { lead: at("-0.02"), lock: Lock::Loose, ..good };
        assert_eq!(out_of_order(&late, tool), ["edge shows lines late, by 0.02 mm", "lock loose"]);
    }

    #[test]
    fn long_texts_are_wrapped_between_words() {
        let lines = wrapped(&"word ".repeat(40));
        assert_eq!(lines.len(), 3);
        assert!(lines.iter().all(|line| line.chars().count() <= 76 && !line.ends_with(' ')));
        assert_eq!(lines.join(" "), "word ".repeat(40).trim());
    }

    #[test]
    fn a_set_in_short() {
        let shelf = Shelf::new(Vec::new(), &Catalogue::new(Vec::new()));
        let short = |id: &str| in_short(shelf.get(id).expect("shipped"));
        assert_eq!(short("first-rule"), "12 questions");
        assert_eq!(short("final-check"), "30 questions, 28 right to pass, 30 min");
        assert_eq!(short("running-check"), "10 to 60 questions, ends when clear");
        assert_eq!([90, 600, 7200].map(time), ["90 s", "10 min", "2 h"]);
    }
}
