//! What is asked and told in questions of every kind.

use super::{explain, prompt};
use crate::drill::Kind;
use crate::drill::record::Verdict;
use crate::drill::task::{Asked, Given, Marked, Part, Says, Wanted};

/// What a kind is called in lists.
pub fn name(kind: Kind) -> &'static str {
    match kind {
        Kind::Read => "read it",
        Kind::OneStep => "one step only",
    }
}

/// One sentence on a kind, for lists.
pub fn about(kind: Kind) -> &'static str {
    match kind {
        Kind::Read => "The whole reading.",
        Kind::OneStep => "What one scale alone says, the others left out.",
    }
}

/// The question of a part; more than one line where something is given beside the picture.
pub fn asked(part: &Part) -> Vec<String> {
    match &part.asked {
        Asked::Reading => vec![prompt(&part.tool, part.question.asks)],
        Asked::Step { stage } => {
            vec![format!("What does the {} alone say?", part.tool.stages[*stage].name)]
        }
    }
}

/// The answers offered, in order.
pub fn offered(part: &Part) -> Vec<String> {
    let Wanted::Choice(choice) = &part.wanted else { return Vec::new() };
    let says = |says: &Says| match says {
        Says::Value(value) => part.tool.notation.spell(*value),
        Says::Word(word) => (*word).to_owned(),
    };
    choice.options.iter().map(|option| says(&option.says)).collect()
}

/// One sentence on an answer; the right one is in it.
pub fn told(part: &Part, marked: &Marked) -> String {
    let right = right(part);
    match marked.verdict {
        Verdict::Right => format!("Right: {right}."),
        Verdict::RightValue => format!("Right value; write it {right}."),
        Verdict::Misread => {
            let name = marked.slips.first().map_or("another reading", |found| found.misread.name);
            format!("Not that: {name}. It is {right}.")
        }
        Verdict::Other => format!("Not that. It is {right}."),
        Verdict::Skipped => format!("Passed over. It is {right}."),
    }
}

/// The right answer in words.
fn right(part: &Part) -> String {
    match &part.wanted {
        Wanted::Choice(choice) => offered(part).swap_remove(choice.right),
        Wanted::Reading | Wanted::Figure(_) | Wanted::Setting(_) => part.expected_word(),
    }
}

/// Why, line by line: what was done wrong first, then how it is.
pub fn why(part: &Part, _given: &Given, marked: &Marked) -> Vec<String> {
    let mut lines: Vec<String> =
        marked.slips.first().map(|found| found.wrong.did.clone()).into_iter().collect();
    let shares = crate::reading::shares(&part.tool, &part.question.reading);
    let line = |share: &crate::reading::Share| {
        format!("{:<44} {:>10}", explain::share(&part.tool, share), part.tool.spell(share.value))
    };
    match &part.asked {
        Asked::Reading => {
            lines.extend(shares.iter().map(line));
            let question = &part.question;
            lines.push(explain::sum(
                &part.tool,
                &question.reading,
                &shares,
                question.zero_error,
                question.asks,
            ));
        }
        Asked::Step { stage } => {
            lines.extend(shares.iter().filter(|share| share.stage == *stage).map(line));
        }
    }
    lines
}
