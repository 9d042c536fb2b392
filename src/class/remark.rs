//! Marking returned work again. Every answer is marked from scratch: the paper is dealt again, the answer as it was typed is
//! marked on it, and what the file says of the mark is only compared. Times, and how it was shown, cannot be known again.

use super::returned::Returned;
use super::sitting::{End, Entry, Lack, Lacks, Sitting};
use super::text::is_obeyed;
use super::verdict::{Outcome, judge_with};
use crate::drill::record::Attempt;
use crate::drill::set::{Allowed, DrillSet, FIXED_GENERATOR, Item, Posed, deal};
use crate::drill::task::{Given, Part, TASK_GENERATOR, Wanted};
use crate::drill::{GENERATOR, Kind};
use crate::exact::parse_answer;
use crate::instrument::{Catalogue, Instrument};
use crate::learner::plan::Plan;
use std::collections::{BTreeMap, BTreeSet};
use thiserror::Error;

/// A sitting marked again.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Remarked {
    /// The sitting, its marks our own. Answers that could not be marked are left out and
    /// stand among what it lacks.
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
    /// It was answered after a later one.
    #[error("it was answered after a later question")]
    OutOfOrder,
    /// A check goes on to a later question without it.
    #[error("it was left out, and later questions were answered")]
    Gap,
    /// A part of it was not answered.
    #[error("a part of it was not answered")]
    PartsMissing,
    /// It was answered after the check was decided.
    #[error("it was answered after the check was decided")]
    AfterTheEnd,
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
    /// Whether nobody can say here what the answer was worth: another instrument than it was given on, or none.
    fn is_of_another_time(&self) -> bool {
        matches!(self, Self::NoInstrument(_) | Self::OtherInstrument(_))
    }

    /// Whether the answer is left out for it.
    pub fn leaves_out(&self) -> bool {
        !matches!(self, Self::OtherMark | Self::Glass | Self::OutOfOrder | Self::Gap | Self::PartsMissing)
    }
}

/// Marks a sitting over a set again. The set is the one of its card.
pub fn remark(returned: Returned, set: &DrillSet, catalogue: &Catalogue) -> Remarked {
    let paper = deal(set, catalogue, returned.header.seed());
    remark_on(&paper, returned, set, catalogue)
}

/// The same on a paper that was dealt before.
pub fn remark_on(paper: &[Item], mut returned: Returned, set: &DrillSet, catalogue: &Catalogue) -> Remarked {
    let mut marking = Marking::new(paper, set, catalogue);
    for entry in std::mem::take(&mut returned.entries) {
        let (place, part) = (entry.place, entry.part);
        if let Err(what) = marking.take(entry) {
            marking.differs(place, part, what);
        }
    }
    marking.close(&returned)
}

/// A paper being marked.
struct Marking<'a> {
    paper: &'a [Item],
    set: &'a DrillSet,
    catalogue: &'a Catalogue,
    entries: Vec<Entry>,
    differences: Vec<Difference>,
    lacks: BTreeMap<u32, Lacks>,
    /// What was answered so far, whether it could be marked or not.
    answered: BTreeSet<(u32, u32)>,
    /// How many parts a question has.
    of_parts: BTreeMap<u32, usize>,
    /// The parts of the question that was marked last.
    parts: Option<(u32, Vec<Part>)>,
}

impl<'a> Marking<'a> {
    fn new(paper: &'a [Item], set: &'a DrillSet, catalogue: &'a Catalogue) -> Self {
        Self {
            paper,
            set,
            catalogue,
            entries: Vec::new(),
            differences: Vec::new(),
            lacks: BTreeMap::new(),
            answered: BTreeSet::new(),
            of_parts: BTreeMap::new(),
            parts: None,
        }
    }

    fn differs(&mut self, place: u32, part: u32, what: Differs) {
        self.differences.push(Difference { place, part, what });
    }

    fn item(&self, place: u32) -> Option<&'a Item> {
        self.paper.get(usize::try_from(place.checked_sub(1)?).ok()?)
    }

    /// Marks an answer; otherwise says why it is left out.
    fn take(&mut self, entry: Entry) -> Result<(), Differs> {
        let (place, part) = (entry.place, entry.part);
        let item = self.item(place).ok_or(Differs::NotOnThePaper)?;
        if self.answered.contains(&(place, part)) {
            return Err(Differs::AnsweredTwice);
        }
        let instrument = self.catalogue.get(&item.instrument);
        if self.parts.as_ref().is_none_or(|(of, _)| *of != place) {
            let task = instrument.and_then(|instrument| item.task_on(instrument));
            let parts = task.map(|task| task.parts).unwrap_or_default();
            self.of_parts.insert(place, parts.len());
            self.parts = Some((place, parts));
        }
        let before = self.answered.last().copied();
        let Some(instrument) = instrument else {
            self.answered.insert((place, part));
            self.lacks.insert(place, Lacks::Mark);
            return Err(Differs::NoInstrument(item.instrument.clone()));
        };
        let of_task = self.parts.as_ref().map(|(_, parts)| parts.as_slice()).unwrap_or_default();
        let asked = usize::try_from(part).ok().and_then(|part| of_task.get(part.checked_sub(1)?));
        let marked = marked(item, asked.ok_or(Differs::NotOnThePaper)?, instrument, entry.attempt);
        self.answered.insert((place, part));
        if before > Some((place, part)) {
            self.differs(place, part, Differs::OutOfOrder);
        }
        let (attempt, same) = marked.inspect_err(|what| {
            let lacks = if what.is_of_another_time() { Lacks::Mark } else { Lacks::Sense };
            // That it cannot be marked is said of the question as a whole.
            if self.lacks.get(&place) != Some(&Lacks::Mark) {
                self.lacks.insert(place, lacks);
            }
        })?;
        if !same {
            self.differs(place, part, Differs::OtherMark);
        }
        if attempt.glass && self.set.glass == Allowed::No {
            self.differs(place, part, Differs::Glass);
        }
        self.entries.push(Entry { place, part, attempt });
        Ok(())
    }

    /// What a check leaves out is not right: who keeps only what went well has not passed. In an exercise a question is passed by
    /// where there is no room for its picture.
    fn close(mut self, returned: &Returned) -> Remarked {
        if self.set.pass.is_some() {
            let last = self.answered.last().map_or(0, |(place, _)| *place);
            for place in 1..last {
                if self.answered.range((place, 0)..(place + 1, 0)).next().is_none() {
                    self.differs(place, 1, Differs::Gap);
                    self.lacks.insert(place, Lacks::Answer);
                }
            }
        }
        self.parts_missing(returned.end);
        if let Some(span) = returned.span().and_then(|span| u64::try_from(span).ok()) {
            // No answer took longer than the whole; whole seconds are a second short at the most.
            let longest = span.saturating_add(1).saturating_mul(1_000);
            self.entries
                .iter_mut()
                .for_each(|entry| entry.attempt.took_ms = entry.attempt.took_ms.min(longest));
        }
        self.entries.sort_by_key(|entry| (entry.place, entry.part));
        let mut lacks: Vec<Lack> = Vec::new();
        for (place, what) in &self.lacks {
            let instrument = self.item(*place).map(|item| item.instrument.clone()).unwrap_or_default();
            lacks.push(Lack { place: *place, instrument, what: *what });
        }
        self.stop(&mut lacks);
        let sitting = Sitting { entries: self.entries, lacks, ..returned.claimed_but_answers() };
        Remarked { sitting, differences: self.differences }
    }

    /// A question short of a part is not right. That it is the last one of a sitting that broke off in it needs no saying.
    fn parts_missing(&mut self, end: End) {
        let last = self.answered.last().map_or(0, |(place, _)| *place);
        let short = |(place, parts): (&u32, &usize)| {
            let answered = self.answered.range((*place, 0)..(*place + 1, 0)).count();
            (answered < *parts).then_some(*place)
        };
        let short: Vec<u32> = self.of_parts.iter().filter_map(short).collect();
        for place in short {
            if self.answered.range((place, 0)..(place + 1, 0)).next().is_none() {
                // There is nothing of it: that is another thing to say.
                continue;
            }
            if place != last || end == End::Done {
                self.differs(place, 1, Differs::PartsMissing);
            }
            self.lacks.entry(place).or_insert(Lacks::Part);
        }
    }

    /// Leaves out what comes after the check was decided.
    fn stop(&mut self, lacks: &mut Vec<Lack>) {
        let Some(pass) = &self.set.pass else { return };
        let plan = Plan::of(pass, self.set.count);
        let judged = judge_with(Some(&plan), End::Open, (&self.entries, lacks), self.catalogue);
        if judged.outcome == Outcome::Open {
            // Not decided, or not to be decided here: nothing comes after it.
            return;
        }
        let Some(last) = judged.questions.last().map(|question| question.place) else { return };
        let after: Vec<(u32, u32)> = self.entries.iter().map(|entry| (entry.place, entry.part)).collect();
        for (place, part) in after.into_iter().filter(|(place, _)| *place > last) {
            self.differs(place, part, Differs::AfterTheEnd);
        }
        self.entries.retain(|entry| entry.place <= last);
        lacks.retain(|lack| lack.place <= last);
    }
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
    // What was put down without its mark says nothing of these.
    let silent = ["seed", "number", "setting", "zero error", "variant", "conditions"];
    let said = |what: &str| !(claimed.is_unmarked() && silent.contains(&what));
    if let Some((what, _)) = checks.into_iter().find(|(what, same)| !same && said(what)) {
        return Err(Differs::OtherQuestion(what));
    }
    if claimed.answer.len() > ANSWER || claimed.answer.chars().any(is_obeyed) {
        return Err(Differs::NoAnswer);
    }
    if !LINES.contains(&claimed.lines.as_str()) {
        return Err(Differs::OtherQuestion("how it was drawn"));
    }
    let given = given(part, &claimed.answer).ok_or(Differs::NoAnswer)?;
    let marked = part.mark(&given);
    let expected = part.expected_word();
    let misreads: Vec<String> = marked.slips.iter().map(|found| found.misread.id.to_owned()).collect();
    let same = claimed.is_unmarked()
        || (claimed.verdict, &claimed.expected, &claimed.misreads) == (marked.verdict, &expected, &misreads);
    let attempt = Attempt {
        seed: item.seed().0,
        number,
        variant: tool.record_word(&question.variant),
        conditions: question.conditions.word(tool),
        setting: tool.spell_with_unit(question.setting),
        zero_error: tool.spell_with_unit(question.zero_error),
        expected,
        verdict: marked.verdict,
        misreads,
        ..claimed
    };
    Ok((attempt, same))
}

/// The longest answer that is looked at, in bytes.
const ANSWER: usize = 128;
/// How lines are drawn.
const LINES: [&str; 4] = ["thin", "bars", "cell", "ascii"];

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

#[cfg(test)]
mod tests;
