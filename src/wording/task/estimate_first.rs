//! Estimate first. What is told of the guess must not give the reading away, which is asked next.

use super::line_worth::unit_word;
use crate::drill::record::Verdict;
use crate::drill::task::{About, Given, Marked, Part, Wanted};
use crate::instrument::Form;

/// The question.
pub(super) fn asked(part: &Part, about: About) -> Vec<String> {
    let tool = &part.tool;
    let unit = unit_word(tool);
    vec![match about {
        About::Past { vernier } => format!(
            "Look at the {} alone: how far does the 0 of the {} stand past the line before it, about, in {unit}?",
            scale_before(part, vernier),
            tool.stages[vernier].name
        ),
        About::Size => format!("About how much is it, in {unit}? A glance will do; no fine lines counted."),
    }]
}

fn scale_before(part: &Part, stage: usize) -> &str {
    let before = part.tool.stages[..stage].iter().rev().find(|stage| !matches!(stage.form, Form::Fixed(_)));
    before.map_or("scale", |stage| stage.name.as_str())
}

/// One sentence on the guess.
pub(super) fn told(marked: &Marked) -> String {
    match marked.verdict {
        Verdict::Right | Verdict::RightValue => "Near enough. Now read it.".to_owned(),
        Verdict::Misread => {
            let name = marked.slips.first().map_or("something else", |found| found.misread.name);
            format!("Not near enough ({name}). Look again as you read it.")
        }
        Verdict::Other => "Not near enough. Look again as you read it.".to_owned(),
        Verdict::Skipped => "Passed over. Now read it.".to_owned(),
    }
}

/// To which side it was off, and what the guess is for.
pub(super) fn why(part: &Part, about: About, given: &Given) -> Vec<String> {
    let (Wanted::Figure(figure), Given::Typed(typed)) = (&part.wanted, given) else { return Vec::new() };
    let [low, high] = figure.accepted;
    let mut lines = Vec::new();
    if typed.value < low {
        lines.push("It is more than that.".to_owned());
    } else if typed.value > high {
        lines.push("It is less than that.".to_owned());
    }
    match about {
        About::Past { vernier } => lines.push(format!(
            "A third of the way past is a third along the {}: that is where to look for lines that meet.",
            part.tool.stages[vernier].name
        )),
        About::Size => {
            lines.push(
                "A reading that does not agree with the glance has a line or a turn too many or too few."
                    .to_owned(),
            );
        }
    }
    lines
}
