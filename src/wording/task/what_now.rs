//! The zero and what now, in words.

use crate::drill::task::{Action, Closed, Part, SetBy, Story, Used, Whose};
use crate::exact::Quanta;
use crate::instrument::Instrument;

/// What is told beside the closed tool, and the question.
pub(super) fn asked(part: &Part, story: Story) -> Vec<String> {
    let closed = if part.tool.low == Quanta::ZERO { "closed" } else { "put on its standard" };
    let first = match story.closed {
        Closed::First => format!("It is {closed} for the first time today."),
        Closed::Again => format!("Wiped and {closed} again, then once more: each time it stands like this."),
        Closed::AsItCame => format!("First {closed} as it came to hand; then wiped and {closed} again."),
        Closed::Twice => format!("Wiped and {closed}; then wiped and {closed} again."),
    };
    let whose = match (story.whose, story.used) {
        (Whose::Own, Used::NotYet) => "It is your own; nothing has been measured with it yet.",
        (Whose::Own, Used::MidCheck) => "It is your own; half of the parts have been measured with it.",
        (Whose::Borrowed, Used::NotYet) => "It is somebody else's; nothing has been measured with it yet.",
        (Whose::Borrowed, Used::MidCheck) => {
            "It is somebody else's; half of the parts have been measured with it."
        }
    };
    vec![first, whose.to_owned(), "What now?".to_owned()]
}

/// An action in words.
pub(super) fn offer(action: Action, tool: &Instrument) -> String {
    let closed = if tool.low == Quanta::ZERO { "close it again" } else { "try the standard again" };
    match action {
        Action::Measure => "go on and measure".to_owned(),
        Action::Wipe => format!("wipe it and {closed}"),
        Action::Reset => "reset it and re-check".to_owned(),
        Action::Allow => "allow for it in every reading".to_owned(),
        Action::Tag => "tag it and hand it in".to_owned(),
    }
}

/// Why that is done.
pub(super) fn why(part: &Part, story: Story, action: Action) -> Vec<String> {
    let closed = if part.tool.low == Quanta::ZERO { "closed" } else { "on its standard" };
    let set_by = SetBy::of(&part.tool);
    let mut lines = vec![match action {
        Action::Measure if matches!(story.closed, Closed::AsItCame) => {
            "Nought stands on nought now: what was off before was dirt. Measure.".to_owned()
        }
        Action::Measure => format!("It is right {closed}: nought stands on nought. Measure."),
        Action::Wipe => {
            "It is off, but it has not been wiped. Dirt looks like a zero error: wipe the faces first, before anything else."
                .to_owned()
        }
        Action::Reset | Action::Allow => "It is clean, and off by the same each time: a zero error.".to_owned(),
        Action::Tag => "It is clean, and does not stand the same twice. What changes cannot be allowed for.".to_owned(),
    }];
    let then = match (action, set_by) {
        (Action::Reset, SetBy::Bezel) => {
            "Loosen the bezel, turn its 0 under the hand, lock it; then close it again to see that it holds."
        }
        (Action::Reset, _) => {
            "Turn the sleeve with its spanner until it is right; then close it again to see that it holds."
        }
        (Action::Allow, SetBy::Nothing) => {
            "Nothing on it can be set at the bench: the error comes off every reading."
        }
        (Action::Allow, _) if story.used == Used::MidCheck => {
            "Reset now, it would not agree with what has been measured already: allow for it to the end, then see to it."
        }
        (Action::Allow, _) => "It is not yours to set: the error comes off every reading; tell the owner.",
        (Action::Tag, _) => "Tag it, so that nobody else measures with it, and say so at the tool crib.",
        (Action::Measure | Action::Wipe, _) => "",
    };
    if !then.is_empty() {
        lines.push(then.to_owned());
    }
    if matches!(action, Action::Reset | Action::Allow | Action::Tag) {
        lines.push(
            "The shop's calibration procedure comes first: it says who may set a tool, and what is recorded."
                .to_owned(),
        );
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drill::task::{Asked, Wanted, task};
    use crate::drill::{Kind, Seed};
    use crate::instrument::Catalogue;

    /// The error is for the eye: no figure is told before the answer, nor after it, since the reading may follow.
    #[test]
    fn no_figure_is_told() {
        let catalogue = Catalogue::new(Vec::new());
        for tool in catalogue.all() {
            for task in (1..=40).filter_map(|number| task(Kind::WhatNow, tool, Seed(4), number)) {
                let part = &task.parts[0];
                let (Asked::WhatNow(story), Wanted::Choice(choice)) = (&part.asked, &part.wanted) else {
                    panic!("what now")
                };
                let mut lines = asked(part, *story);
                lines.extend(why(part, *story, Action::ALL[choice.right]));
                for line in lines.iter().filter(|line| !line.contains("its 0 under the hand")) {
                    assert!(!line.contains(|c: char| c.is_ascii_digit()), "{line}");
                }
            }
        }
    }

    /// Each of the five is said in its own words, and none twice.
    #[test]
    fn the_actions_differ() {
        let catalogue = Catalogue::new(Vec::new());
        for id in ["micrometer-metric", "inside-micrometer-metric"] {
            let tool = catalogue.get(id).expect("shipped");
            let mut said = Action::ALL.map(|action| offer(action, tool)).to_vec();
            said.sort();
            said.dedup();
            assert_eq!(said.len(), 5, "{id}");
        }
    }
}
