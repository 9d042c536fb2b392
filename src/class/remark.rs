//! Marking returned work again. Every answer is marked from scratch: the paper is dealt again, the answer as it was typed is
//! marked on it, and what the file says of the mark is only compared. Times, and how it was shown, cannot be known again.

use super::returned::Returned;
use super::sitting::{Entry, Sitting};
use crate::drill::record::Attempt;
use crate::drill::set::{Allowed, DrillSet, FIXED_GENERATOR, Item, Posed, deal};
use crate::drill::task::{Given, Part, TASK_GENERATOR, Wanted};
use crate::drill::{GENERATOR, Kind, Seed};
use crate::exact::parse_answer;
use crate::instrument::{Catalogue, Instrument};
use std::collections::BTreeSet;
use thiserror::Error;

/// A sitting marked again.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Remarked {
    /// The sitting, its marks our own. Answers that could not be marked are left out.
    pub sitting: Sitting,
    /// What is not as the file has it.
    pub differences: Vec<Difference>,
}

/// Something that is not as the file has it.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Difference {
    /// The question's place on the paper.
    pub place: u32,
    /// The part of it.
    pub part: u32,
    /// What.
    pub what: Differs,
}

/// What is not as the file has it.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Error)]
pub enum Differs {
    /// The paper has no such question, or it no such part.
    #[error("the paper has no such question")]
    NotOnThePaper,
    /// It was answered before in the same file.
    #[error("it was answered before")]
    AnsweredTwice,
    /// The instrument is not there: one of the instructor's own that is missing.
    #[error("the instrument \"{0}\" is not here: copy its file into your own instruments")]
    NoInstrument(String),
    /// The instrument is there in another form than it was answered on.
    #[error("the instrument \"{0}\" is another version here than it was answered on")]
    OtherInstrument(String),
    /// It is another question than the paper has there: this stands otherwise.
    #[error("it is another question than the paper has there ({0})")]
    OtherQuestion(&'static str),
    /// What was answered is no answer to it.
    #[error("what was typed is no answer to it")]
    NoAnswer,
    /// The file has another mark.
    #[error("the file has another mark than the answer gets")]
    OtherMark,
    /// The glass was used where the set forbids it.
    #[error("the glass was used, and the exercise forbids it")]
    Glass,
}

impl Differs {
    /// Whether the answer is left out for it.
    pub fn leaves_out(&self) -> bool {
        !matches!(self, Self::OtherMark | Self::Glass)
    }
}

/// Marks a sitting over a set again. The set is the one of its card.
pub fn remark(returned: Returned, set: &DrillSet, catalogue: &Catalogue) -> Remarked {
    let paper = deal(set, catalogue, Seed(returned.header.seed));
    remark_on(&paper, returned, set, catalogue)
}

/// The same on a paper that was dealt before.
pub fn remark_on(paper: &[Item], mut returned: Returned, set: &DrillSet, catalogue: &Catalogue) -> Remarked {
    let mut differences = Vec::new();
    let mut answered = BTreeSet::new();
    let mut entries = Vec::with_capacity(returned.entries.len());
    let mut parts: Option<(u32, Vec<Part>)> = None;
    for entry in std::mem::take(&mut returned.entries) {
        let mut differs = |what| differences.push(Difference { place: entry.place, part: entry.part, what });
        if !answered.insert((entry.place, entry.part)) {
            differs(Differs::AnsweredTwice);
            continue;
        }
        let item = usize::try_from(entry.place).ok().and_then(|place| paper.get(place.checked_sub(1)?));
        let Some(item) = item else {
            differs(Differs::NotOnThePaper);
            continue;
        };
        let Some(instrument) = catalogue.get(&item.instrument) else {
            differs(Differs::NoInstrument(item.instrument.clone()));
            continue;
        };
        if parts.as_ref().is_none_or(|(place, _)| *place != entry.place) {
            let task = item.task_on(instrument);
            parts = Some((entry.place, task.map(|task| task.parts).unwrap_or_default()));
        }
        let of_task = parts.as_ref().map(|(_, parts)| parts.as_slice()).unwrap_or_default();
        let part = usize::try_from(entry.part).ok().and_then(|part| of_task.get(part.checked_sub(1)?));
        let Some(part) = part else {
            differs(Differs::NotOnThePaper);
            continue;
        };
        match marked(item, part, instrument, entry.attempt) {
            Err(what) => differs(what),
            Ok((attempt, same)) => {
                if !same {
                    differs(Differs::OtherMark);
                }
                if attempt.glass && set.glass == Allowed::No {
                    differs(Differs::Glass);
                }
                entries.push(Entry { place: entry.place, part: entry.part, attempt });
            }
        }
    }
    let sitting = Sitting { entries, ..returned.claimed_but_answers() };
    Remarked { sitting, differences }
}

/// The attempt with our own mark, and whether the file has the same, if it answers this part of the paper.
fn marked(
    item: &Item,
    part: &Part,
    instrument: &Instrument,
    claimed: Attempt,
) -> Result<(Attempt, bool), Differs> {
    if claimed.instrument != item.instrument {
        return Err(Differs::OtherQuestion("instrument"));
    }
    if claimed.revision != instrument.revision.0 {
        return Err(Differs::OtherInstrument(item.instrument.clone()));
    }
    let (tool, question) = (&part.tool, &part.question);
    let (generator, number) = match item.posed {
        Posed::Drawn { number, .. } if item.kind == Kind::Read => (GENERATOR, number),
        Posed::Drawn { number, .. } => (TASK_GENERATOR, number),
        Posed::Given { .. } => (FIXED_GENERATOR, item.place),
    };
    let checks = [
        ("generator", claimed.generator == generator),
        ("seed", claimed.seed == item.seed().0),
        ("number", claimed.number == number),
        ("kind", claimed.kind == part.kind),
        ("what is asked", claimed.asks == question.asks),
        ("setting", claimed.setting == tool.spell_with_unit(question.setting)),
        ("zero error", claimed.zero_error == tool.spell_with_unit(question.zero_error)),
        ("variant", claimed.variant == tool.record_word(&question.variant)),
        ("conditions", claimed.conditions == question.conditions.word(tool)),
        ("what is given", claimed.given == part.asked.given(part)),
    ];
    if let Some((what, _)) = checks.into_iter().find(|(_, same)| !same) {
        return Err(Differs::OtherQuestion(what));
    }
    let given = given(part, &claimed.answer).ok_or(Differs::NoAnswer)?;
    let marked = part.mark(&given);
    let expected = part.expected_word();
    let misreads: Vec<String> = marked.slips.iter().map(|found| found.misread.id.to_owned()).collect();
    let same =
        (claimed.verdict, &claimed.expected, &claimed.misreads) == (marked.verdict, &expected, &misreads);
    Ok((Attempt { expected, verdict: marked.verdict, misreads, ..claimed }, same))
}

/// What a record's answer says; an empty one was passed over.
fn given(part: &Part, answer: &str) -> Option<Given> {
    if answer.is_empty() {
        return Some(Given::Skipped);
    }
    match &part.wanted {
        Wanted::Reading | Wanted::Figure(_) => part.typed(answer).ok().map(Given::Typed),
        Wanted::Choice(choice) => {
            let says = |place: &usize| part.given_word(&Given::Chosen(*place)) == answer;
            (0..choice.options.len()).find(says).map(Given::Chosen)
        }
        Wanted::Setting(_) => {
            let left = parse_answer(answer, part.tool.unit).ok()?;
            part.tool.lattice.at(left.value).map(Given::Left)
        }
    }
}

/// The record of an answer to a part of a paper, as it is marked here. For whoever writes one without a screen.
pub fn answered(item: &Item, part: &Part, instrument: &Instrument, said: Attempt) -> Option<Attempt> {
    let (tool, question) = (&part.tool, &part.question);
    let given = given(part, &said.answer)?;
    let marked = part.mark(&given);
    let (generator, number) = match item.posed {
        Posed::Drawn { number, .. } if item.kind == Kind::Read => (GENERATOR, number),
        Posed::Drawn { number, .. } => (TASK_GENERATOR, number),
        Posed::Given { .. } => (FIXED_GENERATOR, item.place),
    };
    Some(Attempt {
        instrument: instrument.id.clone(),
        revision: instrument.revision.0.clone(),
        generator,
        seed: item.seed().0,
        number,
        variant: tool.record_word(&question.variant),
        conditions: question.conditions.word(tool),
        kind: part.kind,
        given: part.asked.given(part),
        asks: question.asks,
        setting: tool.spell_with_unit(question.setting),
        zero_error: tool.spell_with_unit(question.zero_error),
        expected: part.expected_word(),
        verdict: marked.verdict,
        misreads: marked.slips.iter().map(|found| found.misread.id.to_owned()).collect(),
        ..said
    })
}
