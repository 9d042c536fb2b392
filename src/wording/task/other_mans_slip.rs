//! The other man's figure.

use super::prompt;
use crate::drill::record::Verdict;
use crate::drill::task::{AGREE, Marked, Part, Writer};
use crate::exact::Exact;
use crate::reading::misread;

fn written(part: &Part, wrote: Exact) -> String {
    part.tool.notation.spell_with_unit(wrote, part.tool.unit)
}

/// Do you agree?
pub(super) fn agree(part: &Part, wrote: Exact) -> Vec<String> {
    vec![
        format!("A colleague was asked: {}", prompt(&part.tool, part.question.asks)),
        format!("He wrote {}. Do you agree?", written(part, wrote)),
    ]
}

/// What was done?
pub(super) fn done(part: &Part, wrote: Exact, whose: Writer) -> Vec<String> {
    let wrote = written(part, wrote);
    let right = part.tool.notation.spell_with_unit(part.question.expected(&part.tool), part.tool.unit);
    vec![match whose {
        Writer::TheSame => format!("He wrote {wrote}, and it is {right}. What did he do?"),
        Writer::Another => format!("It is {right}. Another man wrote {wrote}. What did he do?"),
    }]
}

/// What an answer says.
pub(super) fn says(word: &str) -> String {
    match (word, misread::named(word)) {
        (AGREE, _) => "I agree".to_owned(),
        (_, Some(slip)) => slip.name.to_owned(),
        (_, None) => "I do not agree".to_owned(),
    }
}

/// One sentence on an answer to whether one agrees.
pub(super) fn told_agree(part: &Part, wrote: Exact, marked: &Marked) -> String {
    let expected = part.question.expected(&part.tool);
    let right = part.tool.notation.spell_with_unit(expected, part.tool.unit);
    let it_is = if wrote == expected {
        format!("he wrote {right}, and so it is.")
    } else {
        format!("he wrote {}, and it is {right}.", written(part, wrote))
    };
    match marked.verdict {
        Verdict::Right | Verdict::RightValue => format!("Right: {it_is}"),
        Verdict::Misread | Verdict::Other => format!("Not so: {it_is}"),
        Verdict::Skipped => format!("Passed over: {it_is}"),
    }
}

/// What was done, and what helps against it.
pub(super) fn why_done(part: &Part, wrote: Exact) -> Vec<String> {
    let expected = part.expected_word();
    misread::named(&expected).map_or_else(Vec::new, |slip| {
        vec![format!("{}: that gives {}.", capital(slip.name), written(part, wrote)), slip.cure.to_owned()]
    })
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
