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

/// What a sentence says of whoever reads, said of a colleague.
pub(super) fn by_him(did: &str) -> String {
    let word = |word: &str| match word {
        "You" => "He".to_owned(),
        "you" => "he".to_owned(),
        "Your" => "His".to_owned(),
        "your" => "his".to_owned(),
        other => other.to_owned(),
    };
    did.split(' ').map(word).collect::<Vec<_>>().join(" ")
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_he_did_is_said_of_him() {
        assert_eq!(by_him("You left the vernier out."), "He left the vernier out.");
        assert_eq!(
            by_him("Your figures are right; what you gave is not."),
            "His figures are right; what he gave is not."
        );
    }
}
