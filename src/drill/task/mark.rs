//! Marking what was answered.

use super::{About, Asked, Choice, Decision, Engraving, Figure, PLACES, Part, Says, Setting, Wanted, slip};
use crate::drill::mark::{Found, NotationNote, mark, note};
use crate::drill::record::Verdict;
use crate::exact::{Exact, Nonsense, Notation, Quanta, Typed, TypedForm, parse_answer};
use crate::reading::{Case, Misread, misread, pose, read};

/// What was answered.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Given {
    /// A figure.
    Typed(Typed),
    /// One of the answers offered, by its place.
    Chosen(usize),
    /// The tool, left standing here.
    Left(Quanta),
    /// Nothing: it was passed over.
    Skipped,
}

/// What became of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Marked {
    /// The verdict.
    pub verdict: Verdict,
    /// How a right value should have been written, where it was written otherwise.
    pub note: Option<NotationNote>,
    /// The misreads that lead to this answer, the most particular first.
    pub slips: Vec<Found>,
}

impl Marked {
    fn plain(verdict: Verdict) -> Self {
        Self { verdict, note: None, slips: Vec::new() }
    }

    fn wrong(slips: Vec<Found>) -> Self {
        let verdict = if slips.is_empty() { Verdict::Other } else { Verdict::Misread };
        Self { verdict, note: None, slips }
    }
}

impl Part {
    /// The mark of an answer.
    pub fn mark(&self, given: &Given) -> Marked {
        match (&self.wanted, given) {
            (Wanted::Reading, Given::Typed(typed)) => {
                let mark = mark(&self.question.case(&self.tool), typed);
                Marked { verdict: mark.verdict, note: mark.note, slips: mark.misreads }
            }
            (Wanted::Figure(figure), Given::Typed(typed)) => {
                let mut marked = figure.mark(typed);
                // Without a reading there are no digits that a tool gives.
                let loose = matches!(self.asked, Asked::Worth { .. } | Asked::About { .. });
                let beside = self.pictures.is_empty() && marked.note != Some(NotationNote::NotLowestTerms);
                if loose || beside {
                    marked.note = None;
                    marked.verdict = if marked.verdict.is_right() { Verdict::Right } else { marked.verdict };
                }
                marked
            }
            (Wanted::Choice(choice), Given::Chosen(place)) => choice.mark(*place, self),
            (Wanted::Setting(setting), Given::Left(at)) => self.mark_setting(setting, *at),
            _ => Marked::plain(Verdict::Skipped),
        }
    }

    /// What a text that was typed says. Where a figure is to be written another way, writing it as it was given is no answer.
    pub fn typed(&self, text: &str) -> Result<Typed, Nonsense> {
        let unit = match &self.wanted {
            Wanted::Figure(figure) => figure.unit,
            Wanted::Reading | Wanted::Choice(_) | Wanted::Setting(_) => self.tool.unit,
        };
        let typed = parse_answer(text, unit)?;
        match (&self.asked, &self.wanted) {
            (Asked::ByHeart(_), Wanted::Figure(figure)) => figure.written(typed),
            (Asked::Heard { .. }, _) if typed.form == TypedForm::Speech => Err(Nonsense::DecimalWanted),
            _ => Ok(typed),
        }
    }

    /// Where the tool was left: right on the size, or where a misread would put it.
    fn mark_setting(&self, setting: &Setting, at: Quanta) -> Marked {
        if at == setting.to {
            return Marked::plain(Verdict::Right);
        }
        Marked::wrong(self.slips_to(at, self.size(setting)))
    }

    /// The size a tool is set to: what it is to read, less the zero error.
    pub fn size(&self, setting: &Setting) -> Exact {
        self.tool.value(setting.to - self.question.zero_error)
    }

    /// The misreads by which the tool, standing at `at`, is taken to read `value`.
    pub(super) fn slips_to(&self, at: Quanta, value: Exact) -> Vec<Found> {
        let pose = pose(&self.tool, at, self.question.conditions.lead);
        let reading = read(&self.tool, &pose);
        let here = Case { pose: &pose, reading: &reading, ..self.question.case(&self.tool) };
        let found = |misread: &'static Misread| {
            let wrong = misread.wrong(&here).into_iter().find(|wrong| wrong.answer == value)?;
            Some(Found { misread, wrong })
        };
        misread::ALL.into_iter().filter_map(found).collect()
    }

    /// The answer as it stands in a record.
    pub fn given_word(&self, given: &Given) -> String {
        match given {
            Given::Typed(typed) => typed.text.clone(),
            Given::Chosen(place) => match &self.wanted {
                Wanted::Choice(choice) => {
                    choice.options.get(*place).map_or_else(String::new, |o| self.says(&o.says))
                }
                _ => String::new(),
            },
            Given::Left(at) => self.tool.spell(*at),
            Given::Skipped => String::new(),
        }
    }

    /// The right answer as it stands in a record, with its unit if it is a figure.
    pub fn expected_word(&self) -> String {
        match &self.wanted {
            Wanted::Reading => {
                let expected = self.question.expected(&self.tool);
                self.tool.notation.spell_with_unit(expected, self.tool.unit)
            }
            Wanted::Figure(figure) => figure.notation.spell_with_unit(figure.expected, figure.unit),
            Wanted::Choice(choice) => self.says(&choice.options[choice.right].says),
            Wanted::Setting(setting) => self.tool.spell_with_unit(setting.to),
        }
    }

    /// All that can be chosen, in order.
    fn offered_words(&self) -> String {
        let Wanted::Choice(choice) = &self.wanted else { return String::new() };
        let words: Vec<String> = choice.options.iter().map(|option| self.says(&option.says)).collect();
        words.join(", ")
    }

    fn says(&self, says: &Says) -> String {
        match says {
            Says::Value(value) => self.tool.notation.spell(*value),
            Says::Word(word) => (*word).to_owned(),
        }
    }

    /// The wrong readings of one stage alone that have a name.
    pub(super) fn slips_of_stage(&self, stage: usize, right: Exact) -> Vec<Found> {
        let case = self.question.case(&self.tool);
        let whole = case.expected();
        let mut all = Vec::new();
        for misread in misread::ALL {
            let here = misread.wrong(&case).into_iter().filter(|wrong| wrong.stage == Some(stage));
            all.extend(here.map(|mut wrong| {
                wrong.answer = wrong.answer - whole + right;
                Found { misread, wrong }
            }));
        }
        all
    }
}

impl Figure {
    /// The text, if it is written as wanted.
    fn written(&self, typed: Typed) -> Result<Typed, Nonsense> {
        match (self.notation, typed.form) {
            (Notation::Fraction, TypedForm::Fraction { .. })
            | (Notation::Decimal { .. }, TypedForm::Decimal { .. })
            | (Notation::Angle, TypedForm::Angle | TypedForm::Decimal { places: 0 }) => Ok(typed),
            (Notation::Fraction, _) => Err(Nonsense::FractionWanted),
            (Notation::Decimal { .. }, _) => Err(Nonsense::DecimalWanted),
            (Notation::Angle, _) => Err(Nonsense::AngleWanted),
        }
    }

    fn mark(&self, typed: &Typed) -> Marked {
        let [low, high] = self.accepted;
        if low <= typed.value && typed.value <= high {
            let note = note(self.notation, self.expected, self.accepted, typed.form);
            let verdict = if note.is_some() { Verdict::RightValue } else { Verdict::Right };
            return Marked { verdict, note, slips: Vec::new() };
        }
        // What is asked loosely is taken loosely: near a wrong figure is that wrong figure.
        let near = |wrong: Exact| {
            low - self.expected <= typed.value - wrong && typed.value - wrong <= high - self.expected
        };
        Marked::wrong(self.slips.iter().filter(|found| near(found.wrong.answer)).cloned().collect())
    }
}

impl Choice {
    fn mark(&self, place: usize, part: &Part) -> Marked {
        if place == self.right {
            return Marked::plain(Verdict::Right);
        }
        if let (Asked::InOrOut(drawing), Some(decision)) = (&part.asked, Decision::ALL.get(place)) {
            return Marked::wrong(part.slips_to_decision(drawing, *decision));
        }
        if let Asked::WhichIs { named, readings } = &part.asked {
            // The other picture was taken for this size: what was done is what reads it so.
            let at = part.tool.lattice.at(readings[1 - *named]);
            return Marked::wrong(at.map_or_else(Vec::new, |at| part.slips_to(at, readings[*named])));
        }
        let Some(option) = self.options.get(place) else { return Marked::plain(Verdict::Other) };
        if let (Some(id), Says::Value(value)) = (option.slip.filter(|id| slip::known(id)), &option.says) {
            return Marked::wrong(vec![slip::found(id, *value)]);
        }
        let Some(misread) = option.slip.and_then(misread::named) else {
            return Marked::plain(Verdict::Other);
        };
        // What a choice says is wrong in itself; where it is the reading of a misread, that one says what was done.
        let case = part.question.case(&part.tool);
        let wrong = misread.wrong(&case).into_iter().find(|wrong| match option.says {
            Says::Value(value) => wrong.answer == value,
            Says::Word(_) => true,
        });
        Marked::wrong(wrong.map(|wrong| Found { misread, wrong }).into_iter().collect())
    }
}

impl Asked {
    /// What was given beside the picture, as it stands in a record: enough to mark the answer again.
    pub fn given(&self, part: &Part) -> String {
        let spell = |value: &Exact| part.tool.notation.spell(*value);
        match self {
            Self::Reading => String::new(),
            Self::Step { stage } => format!("stage {}", stage + 1),
            Self::Worth { worth, engraving } => {
                let (what, stage) = (worth.word(), worth.stage() + 1);
                let gone = if *engraving == Engraving::Gone { ", not engraved" } else { "" };
                format!("{what} of stage {stage}{gone}")
            }
            Self::Again { of, .. } => format!("again number {of}"),
            Self::About { about: About::Past { vernier } } => format!("about, stage {}", vernier + 1),
            Self::About { about: About::Size } => "about".to_owned(),
            Self::WhichIs { named, readings: [first, second] } => {
                let which = spell(if *named == 0 { first } else { second });
                format!("{which}: first {}, second {}", spell(first), spell(second))
            }
            Self::TheOther { place, .. } => PLACES[*place].to_owned(),
            Self::Agree { wrote } => format!("written {}", spell(wrote)),
            Self::Done { wrote, .. } => format!("written {}: {}", spell(wrote), part.offered_words()),
            Self::CannotCome { .. } => part.offered_words(),
            Self::Size => {
                let Wanted::Setting(setting) = &part.wanted else { return String::new() };
                let size = part.tool.notation.spell_with_unit(part.size(setting), part.tool.unit);
                format!("size {size}")
            }
            Self::WhatNow(story) => story.word(),
            Self::InOrOut(drawing) => part.drawing_word(drawing),
            Self::ByHeart(sum) => sum.word(),
            Self::Heard { manner, value } => manner.record(*value, part.tool.unit),
            Self::SaidHow { manner, value } => {
                format!("which says {}", manner.record(*value, part.tool.unit))
            }
        }
    }
}
