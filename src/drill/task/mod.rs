//! Questions of every kind beside a plain reading: what is shown, what is asked, how it is answered, and the mark.
//!
//! A [`Task`] has parts that are answered one after the other. Each part says which pictures are seen with it, what is asked
//! (data: the sentences stand in `wording`) and what is wanted. One kind a file: a function that makes a task of a seed.
//! The versioned generator is [`task`]: same kind, instrument, seed and number, same task, in every release; a kind's sampling
//! is never edited, only followed by another version.

mod by_heart;
mod callouts;
mod cannot_come;
mod drawing;
mod estimate_first;
mod given;
mod in_or_out;
mod kind;
mod line_worth;
mod mark;
mod one_step;
mod other_mans_slip;
mod pair;
mod same_again;
mod set_it;
mod shop_speech;
mod slip;
mod what_now;
mod worth_slips;

pub use by_heart::{INCH, Sum, Turned};
pub use cannot_come::Impossible;
pub use drawing::{Because, Callout, Decision, Drawing, Feature, Taken};
pub use estimate_first::About;
pub use kind::Kind;
pub use line_worth::{Engraving, Worth};
pub use mark::{Given, Marked};
pub use other_mans_slip::{AGREE, DISAGREE, Writer};
pub use pair::{PLACES, Trap};
pub use shop_speech::Manner;
pub use what_now::{Action, Closed, SetBy, Story, Used, Whose};

use super::conditions::Settings;
use super::draw::Draw;
use super::generate::Seed;
use super::mark::Found;
use super::question::Question;
use super::sight::Sight;
use super::{question_1, two_sets};
use crate::exact::{Exact, Notation, Quanta, Typed, Unit};
use crate::instrument::{Instrument, Variant};

/// The version of the generator that [`task`] is. The hundreds say which generator a record's number means.
pub const TASK_GENERATOR: u32 = 201;

/// A question of some kind.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Task {
    /// The kind.
    pub kind: Kind,
    /// Its number in the run, from 1.
    pub number: u32,
    /// What is answered, one after the other. Never empty.
    pub parts: Vec<Part>,
}

/// One thing to answer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Part {
    /// What it counts as in the record: a whole reading is [`Kind::Read`] in whatever task it stands.
    pub kind: Kind,
    /// The tool standing where it stands, and for a reading what is asked of it. The record is made of it.
    pub question: Question,
    /// The tool as it lies there: with what is fitted to it, under the conditions.
    pub tool: Instrument,
    /// What is seen with it: nothing, one picture, or two to be compared.
    pub pictures: Vec<Sight>,
    /// The vernier line over which the glass is opened from the first, as `Instrument::vernier_lines` numbers them.
    pub glass: Option<i64>,
    /// What is asked.
    pub asked: Asked,
    /// What is wanted.
    pub wanted: Wanted,
}

/// What is asked, for `wording` to spell.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Asked {
    /// The whole reading, as in practice.
    Reading,
    /// What one stage alone shows.
    Step {
        /// The stage.
        stage: usize,
    },
    /// What one line of a scale is worth, or more than one.
    Worth {
        /// What of it.
        worth: Worth,
        /// Whether the tool says so.
        engraving: Engraving,
    },
    /// The whole reading, of a setting that came before.
    Again {
        /// In which task of the run.
        of: u32,
        /// What was answered there, once that is known.
        answered: Option<Typed>,
    },
    /// About where it is.
    About {
        /// What is estimated.
        about: About,
    },
    /// Which of two pictures shows a size.
    WhichIs {
        /// The one that does.
        named: usize,
        /// What they show.
        readings: [Exact; 2],
    },
    /// The whole reading of the other of two pictures.
    TheOther {
        /// Which.
        place: usize,
        /// What separates the two.
        trap: Trap,
    },
    /// Whether a colleague's figure is right.
    Agree {
        /// What was written.
        wrote: Exact,
    },
    /// What was done by somebody who wrote a wrong figure.
    Done {
        /// What was written.
        wrote: Exact,
        /// By whom.
        whose: Writer,
    },
    /// Which entry cannot come from the tool.
    CannotCome {
        /// What is the matter with it.
        why: Impossible,
    },
    /// To set it to a size: the [`Setting`] less the zero error.
    Size,
    /// What is done with the closed tool that is seen.
    WhatNow(Story),
    /// What is done with the part, held against its drawing.
    InOrOut(Box<Drawing>),
    /// A sum without a picture.
    ByHeart(Sum),
    /// The figures of what is said.
    Heard {
        /// How it is said.
        manner: Manner,
        /// The value, in the tool's unit.
        value: Exact,
    },
    /// How a figure is said, or what the tool reads if there is a picture.
    SaidHow {
        /// How everything offered is said.
        manner: Manner,
        /// The value, in the tool's unit.
        value: Exact,
    },
}

/// What is wanted for an answer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Wanted {
    /// The answer to the part's question, typed, marked as in practice.
    Reading,
    /// A figure, typed.
    Figure(Figure),
    /// One of several.
    Choice(Choice),
    /// The tool, set by hand.
    Setting(Setting),
}

/// A figure that is typed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Figure {
    /// Its unit.
    pub unit: Unit,
    /// How it is written.
    pub notation: Notation,
    /// The right one.
    pub expected: Exact,
    /// From where to where it is right.
    pub accepted: [Exact; 2],
    /// Wrong ones that have a name.
    pub slips: Vec<Found>,
}

/// A choice among several answers.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Choice {
    /// What can be chosen, as it is listed.
    pub options: Vec<Offered>,
    /// The right one.
    pub right: usize,
}

/// One of the answers to choose from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Offered {
    /// What it says.
    pub says: Says,
    /// The misread it comes from, if it is a reading.
    pub slip: Option<&'static str>,
}

/// What an offered answer says.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Says {
    /// A value, in the tool's unit.
    Value(Exact),
    /// A word of the kind's own list; it stands in the record, and `wording` has a sentence for it.
    Word(&'static str),
}

/// A tool to be set to a size.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Setting {
    /// Where it stands at first.
    pub from: Quanta,
    /// Where it is to stand.
    pub to: Quanta,
    /// How far it is moved by locking it the first time, to be seen when it is looked at again.
    pub creeps: Quanta,
}

/// Task `number` (from 1) of a kind, of the run of `seed` on an instrument; none where the kind makes no sense on it.
pub fn task(kind: Kind, instrument: &Instrument, seed: Seed, number: u32) -> Option<Task> {
    task_in_turn(kind, instrument, seed, number, 1)
}

/// The same in a run where so many kinds take turns: what comes again is then of a task of the same turn.
pub fn task_in_turn(
    kind: Kind,
    instrument: &Instrument,
    seed: Seed,
    number: u32,
    kinds: u32,
) -> Option<Task> {
    let mut draw = Draw::keyed(&format!("linefall task 1 {kind}"), instrument, seed, number);
    let parts = match kind {
        Kind::Read => vec![Part::reading(instrument, super::question(instrument, seed, number))],
        Kind::OneStep => one_step::parts(instrument, seed, number, &mut draw)?,
        Kind::LineWorth => line_worth::parts(instrument, seed, number, &mut draw)?,
        Kind::SameAgain => same_again::parts(instrument, seed, number, kinds),
        Kind::EstimateFirst => estimate_first::parts(instrument, seed, number)?,
        Kind::Pair => pair::parts(instrument, seed, number, &mut draw)?,
        Kind::OtherMansSlip => other_mans_slip::parts(instrument, seed, number, &mut draw)?,
        Kind::CannotCome => cannot_come::parts(instrument, seed, number, &mut draw)?,
        Kind::SetIt => set_it::parts(instrument, seed, number, &mut draw),
        Kind::WhatNow => what_now::parts(instrument, seed, number, &mut draw)?,
        Kind::InOrOut => in_or_out::parts(instrument, seed, number, &mut draw)?,
        Kind::ByHeart => by_heart::parts(instrument, number, &mut draw),
        Kind::ShopSpeech => shop_speech::parts(instrument, seed, number, &mut draw)?,
    };
    Some(Task { kind, number, parts })
}

/// A question on a tool in good order, on its lines, whatever of its forms are usual: size, zero error and what is fitted.
fn in_good_order(instrument: &Instrument, seed: Seed, number: u32, draw: &mut Draw) -> Question {
    let first = instrument.fitted(&Variant::default());
    if first.other.is_some() {
        return two_sets::question(&first, draw, number);
    }
    question_1(instrument, seed, number)
}

/// The kinds that make sense on an instrument.
pub fn kinds(instrument: &Instrument) -> Vec<Kind> {
    let fits = |kind: &Kind| (1..=4).any(|number| task(*kind, instrument, Seed(1), number).is_some());
    Kind::ALL.iter().copied().filter(fits).collect()
}

/// The tool in good order, standing on its lines, its reading asked; where it stands and which variant it is are drawn as in
/// question `number`.
fn plain_reading(instrument: &Instrument, seed: Seed, number: u32) -> Question {
    let mut posed = super::question(instrument, seed, number);
    if posed.conditions.settings != Settings::AsDefined {
        // Between its lines: where it stood before it was moved there.
        posed = question_1(instrument, seed, number);
    }
    let tool = instrument.fitted(&posed.variant);
    Question::new(&tool, number, posed.setting, Quanta::ZERO, posed.variant)
}

impl Choice {
    /// A choice in an order by chance.
    fn shuffled(right: Offered, wrong: Vec<Offered>, draw: &mut Draw) -> Self {
        let mut all: Vec<(bool, Offered)> = wrong.into_iter().map(|option| (false, option)).collect();
        all.push((true, right));
        draw.shuffle(&mut all);
        let right = all.iter().position(|(right, _)| *right).expect("it was put in");
        Self { options: all.into_iter().map(|(_, option)| option).collect(), right }
    }
}

impl Part {
    /// A whole reading, its work shown; what comes before the work can be looked at again.
    pub fn reading(instrument: &Instrument, question: Question) -> Self {
        let tool = question.tool(instrument);
        let pictures = vec![question.measuring(&tool)];
        let (asked, wanted) = (Asked::Reading, Wanted::Reading);
        Self { kind: Kind::Read, question, tool, pictures, glass: None, asked, wanted }
    }

    /// What is seen before the part's own pictures, in order: the tool closed, where its zero error is to be allowed for.
    pub fn earlier(&self) -> Vec<Sight> {
        match self.asked {
            Asked::Reading
            | Asked::Again { .. }
            | Asked::Agree { .. }
            | Asked::TheOther { .. }
            | Asked::Size
            | Asked::InOrOut(_) => self.question.earlier(&self.tool),
            _ => Vec::new(),
        }
    }

    /// Nothing to be seen: the tool lies beside, at its lowest setting.
    fn beside(instrument: &Instrument, number: u32) -> Self {
        let variant = Variant::default();
        let tool = instrument.fitted(&variant);
        let question = Question::new(&tool, number, tool.low, Quanta::ZERO, variant);
        Self { pictures: Vec::new(), ..Self::reading(instrument, question) }
    }
}

#[cfg(test)]
pub(super) mod testing {
    use super::{Given, Part, Task, Wanted, task};
    use crate::drill::{Kind, Seed};
    use crate::exact::parse_answer;
    use crate::instrument::{Catalogue, Instrument};

    /// Tasks of a kind on every shipped instrument, so many of each.
    pub fn every(kind: Kind, count: u32) -> Vec<(Instrument, Task)> {
        let catalogue = Catalogue::new(Vec::new());
        let on = |tool: &Instrument| {
            let tool = tool.clone();
            let posed = move |number| Some((tool.clone(), task(kind, &tool, Seed(7), number)?));
            (1..=count).filter_map(posed).collect::<Vec<_>>()
        };
        catalogue.all().flat_map(on).collect()
    }

    /// The right answer to a part that is typed or chosen.
    pub fn right(part: &Part) -> Option<Given> {
        let typed = |text: &str, unit| Given::Typed(parse_answer(text, unit).expect("as it is written"));
        Some(match &part.wanted {
            Wanted::Reading => {
                let expected = part.question.expected(&part.tool);
                typed(&part.tool.notation.spell(expected), part.tool.unit)
            }
            Wanted::Figure(figure) => typed(&figure.notation.spell(figure.expected), figure.unit),
            Wanted::Choice(choice) => Given::Chosen(choice.right),
            Wanted::Setting(_) => return None,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::testing::{every, right};
    use super::*;
    use crate::drill::Verdict;
    use crate::exact::TypedForm;
    use crate::reading::Asks;
    use std::collections::BTreeMap;

    const NEW: [Kind; 6] = [
        Kind::LineWorth,
        Kind::SameAgain,
        Kind::EstimateFirst,
        Kind::Pair,
        Kind::OtherMansSlip,
        Kind::CannotCome,
    ];

    #[test]
    fn every_kind_is_posed_on_every_instrument() {
        let catalogue = crate::instrument::Catalogue::new(Vec::new());
        for tool in catalogue.all() {
            for kind in NEW {
                assert!(kinds(tool).contains(&kind), "{kind} on {}", tool.id);
            }
        }
    }

    #[test]
    fn what_is_right_is_right_and_nothing_else_offered_is() {
        for kind in NEW {
            for (tool, task) in every(kind, 8) {
                for part in &task.parts {
                    let given = right(part).expect("typed or chosen");
                    let marked = part.mark(&given);
                    assert_eq!(marked.verdict, Verdict::Right, "{kind} {} {}", tool.id, task.number);
                    assert!(!part.given_word(&given).is_empty());
                    match &part.wanted {
                        Wanted::Choice(choice) => {
                            for (n, option) in choice.options.iter().enumerate() {
                                let same = choice.options.iter().filter(|other| other.says == option.says);
                                assert_eq!(same.count(), 1, "{kind} {} {}", tool.id, task.number);
                                let verdict = part.mark(&Given::Chosen(n)).verdict;
                                assert_eq!(verdict.is_right(), n == choice.right, "{kind} {}", tool.id);
                            }
                        }
                        Wanted::Figure(figure) => {
                            for slip in &figure.slips {
                                let (text, form) = (String::new(), TypedForm::Angle);
                                let value = slip.wrong.answer;
                                let marked = part.mark(&Given::Typed(Typed { text, value, form }));
                                assert_eq!(marked.verdict, Verdict::Misread, "{kind} {}", tool.id);
                                let named = marked.slips.iter().any(|found| found.misread == slip.misread);
                                assert!(named, "{kind} {} {}", tool.id, slip.misread.id);
                            }
                        }
                        Wanted::Reading | Wanted::Setting(_) => {}
                    }
                }
            }
        }
    }

    /// Of n places each is the right one in a share of 1/n. Of 2,000 it is within 0.15 of that in all but one of 10,000 runs: a
    /// standard deviation of a quarter is 0.04 of it.
    #[test]
    fn the_place_of_the_right_answer_says_nothing() {
        for kind in [Kind::Pair, Kind::CannotCome] {
            let mut places: BTreeMap<usize, Vec<u32>> = BTreeMap::new();
            for (_, task) in every(kind, 60) {
                for part in &task.parts {
                    if let Wanted::Choice(choice) = &part.wanted {
                        let count = choice.options.len();
                        places.entry(count).or_insert_with(|| vec![0; count])[choice.right] += 1;
                    }
                }
            }
            for (count, right) in places {
                let all: u32 = right.iter().sum();
                assert!(all >= 2000, "{kind}: {all}");
                for places in &right {
                    let even = f64::from(all) / f64::from(u32::try_from(count).expect("a few"));
                    let share = f64::from(*places) / even;
                    assert!((0.85..1.15).contains(&share), "{kind}: {right:?}");
                }
            }
        }
    }

    /// A zero that is to be allowed for must have been seen, and so must what a change is counted from.
    #[test]
    fn what_is_counted_from_is_seen_before() {
        let mut count = 0;
        for kind in NEW {
            for (tool, task) in every(kind, 12) {
                let part = &task.parts[0];
                let allowed =
                    part.question.asks == Asks::Corrected && part.question.zero_error != Quanta::ZERO;
                let counted = part.question.conditions.change.start.is_some();
                let told = matches!(part.asked, Asked::Reading | Asked::Again { .. } | Asked::Agree { .. });
                if told && (allowed || counted) {
                    count += 1;
                    assert!(!part.earlier().is_empty(), "{kind} {} {}", tool.id, task.number);
                }
            }
        }
        assert!(count > 50, "{count}");
    }

    #[test]
    fn a_task_is_posed_the_same_again() {
        for kind in NEW {
            for (tool, task) in every(kind, 2) {
                assert_eq!(super::task(kind, &tool, Seed(7), task.number), Some(task));
            }
        }
    }
}
