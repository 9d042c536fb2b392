//! The zero seen first, then what now: measure, wipe and close again, reset and re-check, allow for it, or tag it. Where the tool
//! is used after that, it is read.
//!
//! Drawn: the action, each that can be right on the tool equally often; what was done before, among what leads to it; whose the
//! tool is and whether it is in use, among what leads to it; the error, one to four least counts either way, and where it does not
//! repeat a second one, at least three from it.

use super::{Asked, Choice, Offered, Part, Says, Wanted, in_good_order};
use crate::drill::draw::Draw;
use crate::drill::generate::Seed;
use crate::drill::{Kind, Question, Role};
use crate::exact::Quanta;
use crate::instrument::{Form, Instrument, Zero};
use crate::reading::Asks;

/// What is done with a tool whose zero has been seen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Action {
    /// It is right: it is used.
    Measure,
    /// It is wiped and closed again.
    Wipe,
    /// Its sleeve or bezel is set, and it is closed again.
    Reset,
    /// The error is taken off what it reads.
    Allow,
    /// It is tagged and not used.
    Tag,
}

impl Action {
    /// Every one, in the order in which they are offered.
    pub const ALL: [Self; 5] = [Self::Measure, Self::Wipe, Self::Reset, Self::Allow, Self::Tag];

    /// The word that stands in a record.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Measure => "measure",
            Self::Wipe => "wipe",
            Self::Reset => "reset",
            Self::Allow => "allow",
            Self::Tag => "tag",
        }
    }

    /// The one that a word means.
    pub fn from_word(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|action| action.word() == word)
    }
}

/// What is told beside the closed tool.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Story {
    /// How it came to stand like this.
    pub closed: Closed,
    /// Whose it is.
    pub whose: Whose,
    /// Whether anything has been measured with it.
    pub used: Used,
}

/// How often it has been closed, and wiped.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Closed {
    /// For the first time.
    First,
    /// Wiped and closed again, and again: each time it stands as it is seen.
    Again,
    /// Two pictures: as it came to hand, then wiped and closed again.
    AsItCame,
    /// Two pictures: wiped and closed, both times.
    Twice,
}

/// Whose tool it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Whose {
    /// One's own.
    Own,
    /// Somebody else's.
    Borrowed,
}

/// Whether the tool is in use.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Used {
    /// Nothing has been measured with it.
    NotYet,
    /// In the middle of a check.
    MidCheck,
}

/// What of a tool is set when its zero is off.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SetBy {
    /// The sleeve, with its spanner.
    Sleeve,
    /// The bezel of its dial.
    Bezel,
    /// Nothing that is set at the bench.
    Nothing,
}

impl SetBy {
    /// How the zero of a tool is set.
    pub fn of(tool: &Instrument) -> Self {
        let has = |is: fn(&Form) -> bool| tool.stages.iter().any(|stage| is(&stage.form));
        if has(|form| matches!(form, Form::Drum(_))) {
            Self::Sleeve
        } else if has(|form| matches!(form, Form::Dial(_))) {
            Self::Bezel
        } else {
            Self::Nothing
        }
    }
}

impl Story {
    /// What is to be done with a tool that closed with these errors, one a picture.
    pub fn action(self, set_by: SetBy, errors: &[Quanta]) -> Action {
        let last = errors.last().copied().unwrap_or_default();
        let repeats = errors.iter().all(|error| *error == last);
        match self.closed {
            Closed::Twice if !repeats => Action::Tag,
            _ if last == Quanta::ZERO => Action::Measure,
            Closed::First => Action::Wipe,
            _ if set_by != SetBy::Nothing && self.whose == Whose::Own && self.used == Used::NotYet => {
                Action::Reset
            }
            _ => Action::Allow,
        }
    }

    /// As it stands in a record.
    pub(super) fn word(self) -> String {
        let closed = match self.closed {
            Closed::First => "first time closed",
            Closed::Again => "wiped, the same each time",
            Closed::AsItCame => "as it came, then wiped",
            Closed::Twice => "wiped both times",
        };
        let whose = if self.whose == Whose::Own { "own" } else { "borrowed" };
        let used = if self.used == Used::NotYet { "not used yet" } else { "in use" };
        format!("{closed}; {whose}; {used}")
    }
}

pub(super) fn parts(instrument: &Instrument, seed: Seed, number: u32, draw: &mut Draw) -> Option<Vec<Part>> {
    let work = in_good_order(instrument, seed, number, draw);
    let tool = work.tool(instrument);
    if tool.zero == Zero::None {
        return None;
    }
    let set_by = SetBy::of(&tool);
    let possible: Vec<Action> = Action::ALL
        .into_iter()
        .filter(|action| set_by != SetBy::Nothing || *action != Action::Reset)
        .collect();
    let action = draw.one_of(&possible);
    let closed = match action {
        Action::Measure => draw.one_of(&[Closed::First, Closed::Again, Closed::AsItCame, Closed::Twice]),
        Action::Wipe => Closed::First,
        Action::Reset | Action::Allow => draw.one_of(&[Closed::Again, Closed::AsItCame, Closed::Twice]),
        Action::Tag => Closed::Twice,
    };
    let error = off(draw, &tool);
    let errors = match (closed, action) {
        (Closed::First | Closed::Again, Action::Measure) => vec![Quanta::ZERO],
        (Closed::First | Closed::Again, _) => vec![error],
        (Closed::AsItCame, Action::Measure) => vec![error, Quanta::ZERO],
        (Closed::Twice, Action::Measure) => vec![Quanta::ZERO; 2],
        (Closed::Twice, Action::Tag) => vec![error, another(draw, &tool, error)],
        (Closed::AsItCame | Closed::Twice, _) => vec![error; 2],
    };
    let all = [
        (Whose::Own, Used::NotYet),
        (Whose::Own, Used::MidCheck),
        (Whose::Borrowed, Used::NotYet),
        (Whose::Borrowed, Used::MidCheck),
    ];
    let stories = all.map(|(whose, used)| Story { closed, whose, used });
    let fitting: Vec<Story> =
        stories.into_iter().filter(|story| story.action(set_by, &errors) == action).collect();
    let story = draw.one_of(&fitting);
    let mut parts = vec![seen(instrument, &work, &errors, story, action)];
    match action {
        Action::Measure | Action::Reset => parts.push(read_with(instrument, &work, Quanta::ZERO)),
        Action::Allow => parts.push(read_with(instrument, &work, error)),
        Action::Wipe | Action::Tag => {}
    }
    Some(parts)
}

/// One to four least counts either way.
fn off(draw: &mut Draw, tool: &Instrument) -> Quanta {
    let size = tool.least_count * (i64::from(draw.below(4)) + 1);
    if draw.below(2) == 0 { size } else { -size }
}

/// Another error, too far from the first for the hand that closed it: three least counts at least.
fn another(draw: &mut Draw, tool: &Instrument, first: Quanta) -> Quanta {
    let all = (-4..=4).map(|count| tool.least_count * count);
    let far =
        all.filter(|error| (*error - first).0.abs() >= (tool.least_count * 3).0 && *error != Quanta::ZERO);
    draw.one_of(&far.collect::<Vec<_>>())
}

/// The closed tool, and what now.
fn seen(instrument: &Instrument, work: &Question, errors: &[Quanta], story: Story, action: Action) -> Part {
    let tool = work.tool(instrument);
    let error = errors.last().copied().unwrap_or_default();
    let question = Question::new(&tool, work.number, tool.low + error, error, work.variant.clone())
        .under(&tool, work.conditions.clone())
        .asking(Asks::ZeroError);
    let pictures =
        errors.iter().map(|error| question.sight(&tool, Role::Closed, tool.low + *error)).collect();
    let offer = |action: Action| Offered { says: Says::Word(action.word()), slip: None };
    let right = Action::ALL.iter().position(|one| *one == action).expect("it is one of them");
    let choice = Choice { options: Action::ALL.map(offer).to_vec(), right };
    let (asked, wanted) = (Asked::WhatNow(story), Wanted::Choice(choice));
    Part { kind: Kind::WhatNow, question, tool, pictures, glass: None, asked, wanted }
}

/// The reading that follows, the tool closing at `error`.
fn read_with(instrument: &Instrument, work: &Question, error: Quanta) -> Part {
    let tool = work.tool(instrument);
    let size = work.setting - work.zero_error;
    let setting = (size + error).max(tool.low).min(tool.high);
    let question = Question::new(&tool, work.number, setting, error, work.variant.clone())
        .under(&tool, work.conditions.clone());
    Part::reading(instrument, question)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drill::record::Verdict;
    use crate::drill::task::{Given, Task, task};
    use crate::instrument::Catalogue;
    use std::collections::BTreeMap;

    fn tasks(tool: &Instrument) -> impl Iterator<Item = Task> + use<'_> {
        (1..=150).filter_map(|number| task(Kind::WhatNow, tool, Seed(5), number))
    }

    fn story(part: &Part) -> Story {
        match &part.asked {
            Asked::WhatNow(story) => *story,
            other => panic!("{other:?}"),
        }
    }

    fn right(part: &Part) -> Action {
        let Wanted::Choice(choice) = &part.wanted else { panic!("a choice") };
        Action::ALL[choice.right]
    }

    /// What the closed pictures read, by the scales.
    fn errors(part: &Part) -> Vec<Quanta> {
        let read = |sight: &crate::drill::Sight| crate::reading::read(&sight.tool, &sight.pose).total;
        part.pictures.iter().map(|sight| read(sight) - sight.tool.low).collect()
    }

    #[test]
    fn the_right_action_follows_from_what_is_seen_and_told() {
        for tool in Catalogue::new(Vec::new()).all() {
            for task in tasks(tool) {
                let part = &task.parts[0];
                let action = story(part).action(SetBy::of(&part.tool), &errors(part));
                assert_eq!(action, right(part), "{} {}", tool.id, task.number);
                for place in 0..Action::ALL.len() {
                    let verdict = part.mark(&Given::Chosen(place)).verdict;
                    assert_eq!(verdict == Verdict::Right, Action::ALL[place] == action);
                }
                let follows = matches!(action, Action::Measure | Action::Reset | Action::Allow);
                assert_eq!(task.parts.len(), 1 + usize::from(follows));
                if let Some(work) = task.parts.get(1) {
                    assert_eq!(work.kind, Kind::Read);
                    let left = if action == Action::Allow { errors(part)[0] } else { Quanta::ZERO };
                    assert_eq!(work.question.zero_error, left, "{}", tool.id);
                }
            }
        }
    }

    /// Wipe first, then set what can be set, else allow for it, else tag it: the order a toolroom works in (common practice).
    #[test]
    fn the_order_of_the_toolroom() {
        let story = |closed, whose, used| Story { closed, whose, used };
        let (own, fresh) = (Whose::Own, Used::NotYet);
        let (off, right) = ([Quanta(2)], [Quanta(0)]);
        let cases = [
            (story(Closed::First, own, fresh), SetBy::Sleeve, &off[..], Action::Wipe),
            (story(Closed::First, Whose::Borrowed, Used::MidCheck), SetBy::Nothing, &off, Action::Wipe),
            (story(Closed::First, own, fresh), SetBy::Sleeve, &right, Action::Measure),
            (story(Closed::Again, own, fresh), SetBy::Sleeve, &off, Action::Reset),
            (story(Closed::Again, own, fresh), SetBy::Bezel, &off, Action::Reset),
            (story(Closed::Again, own, fresh), SetBy::Nothing, &off, Action::Allow),
            (story(Closed::Again, Whose::Borrowed, fresh), SetBy::Sleeve, &off, Action::Allow),
            (story(Closed::Again, own, Used::MidCheck), SetBy::Sleeve, &off, Action::Allow),
            (story(Closed::AsItCame, own, fresh), SetBy::Nothing, &[Quanta(3), Quanta(0)], Action::Measure),
            (story(Closed::Twice, own, fresh), SetBy::Sleeve, &[Quanta(3), Quanta(-1)], Action::Tag),
        ];
        for (story, set_by, errors, action) in cases {
            assert_eq!(story.action(set_by, errors), action, "{story:?} {set_by:?} {errors:?}");
        }
    }

    #[test]
    fn guessing_does_not_pay() {
        let catalogue = Catalogue::new(Vec::new());
        for (id, actions) in [("micrometer-metric", 5), ("caliper-inch-25", 4), ("dial-caliper-metric", 5)] {
            let mut count = BTreeMap::new();
            for task in tasks(catalogue.get(id).expect("shipped")) {
                *count.entry(right(&task.parts[0]).word()).or_insert(0) += 1;
            }
            assert_eq!(count.len(), actions, "{id}");
            for (action, times) in count {
                assert!(times <= 150 * 3 / (2 * actions), "{id}: {action} {times} times");
            }
        }
        assert!(
            tasks(catalogue.get("rule-metric").expect("shipped")).next().is_none(),
            "a rule has no zero to see"
        );
    }
}
