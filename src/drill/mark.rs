//! Marking an answer.

use super::record::Verdict;
use crate::exact::{Exact, Notation, Typed, TypedForm};
use crate::instrument::Nought;
use crate::reading::{Case, Misread, Wrong, misread};
use std::cmp::Ordering;

/// What became of an answer.
#[derive(Clone)]
pub struct Mark {
    /// The verdict.
    pub verdict: Verdict,
    /// The right answer.
    pub expected: Exact,
    /// From where to where an answer is right.
    pub accepted: [Exact; 2],
    /// How a right value should have been written, where it was written otherwise.
    pub note: Option<NotationNote>,
    /// The misreads that give this answer, the most particular first.
    pub misreads: Vec<Found>,
}

/// A misread that gives the answer typed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Found {
    /// Which.
    pub misread: &'static Misread,
    /// What was done.
    pub wrong: Wrong,
}

/// What is to be said about the way a right value was written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NotationNote {
    /// Fewer digits than the tool gives.
    DigitsMissing,
    /// More digits than the tool can give.
    DigitsTooMany,
    /// A fraction where the tool reads in decimals.
    FractionOnDecimals,
    /// A fraction not in lowest terms.
    NotLowestTerms,
    /// A decimal where the tool reads in fractions.
    DecimalOnFractions,
    /// A decimal of a degree where the tool reads in minutes.
    DecimalOnAngles,
}

impl Mark {
    /// The mark of a question that was passed over.
    pub fn skipped(case: &Case<'_>) -> Self {
        let (expected, accepted) = (case.expected(), case.accepted());
        Self { verdict: Verdict::Skipped, expected, accepted, note: None, misreads: Vec::new() }
    }
}

/// Marks a typed answer.
pub fn mark(case: &Case<'_>, typed: &Typed) -> Mark {
    let (expected, accepted) = (case.expected(), case.accepted());
    if case.accepts(typed.value) {
        let note = note(case.instrument.notation, expected, accepted, typed.form);
        let note = note.filter(|note| !(*note == NotationNote::DigitsMissing && may_end_early(case, typed)));
        let verdict = if note.is_some() { Verdict::RightValue } else { Verdict::Right };
        return Mark { verdict, expected, accepted, note, misreads: Vec::new() };
    }
    let misreads: Vec<Found> = misread::ALL
        .into_iter()
        .filter_map(|misread| {
            let gives = |wrong: &Wrong| {
                // Who reads one scale wrong judges the last digit no better than others do.
                if misread.is_exact() {
                    wrong.answer == typed.value
                } else {
                    case.near(wrong.answer, typed.value)
                }
            };
            let mut wrongs = misread.wrong(case);
            wrongs.sort_by_key(|wrong| wrong.answer != typed.value);
            let wrong = wrongs.into_iter().find(gives)?;
            Some(Found { misread, wrong })
        })
        .collect();
    let verdict = if misreads.is_empty() { Verdict::Other } else { Verdict::Misread };
    Mark { verdict, expected, accepted, note: None, misreads }
}

/// An estimated nought need not be written, unless the definition wants it.
fn may_end_early(case: &Case<'_>, typed: &Typed) -> bool {
    let tool = case.instrument;
    let optional = tool.is_estimated() && tool.estimate.is_some_and(|digit| digit.nought == Nought::Optional);
    let lines = tool.value(tool.least_count).decimal_places();
    optional && matches!(typed.form, TypedForm::Decimal { places } if Some(places) == lines)
}

/// What is to be said about the way a value within `accepted` was written, where `notation` is how it is written.
pub(super) fn note(
    notation: Notation,
    expected: Exact,
    accepted: [Exact; 2],
    form: TypedForm,
) -> Option<NotationNote> {
    match (notation, form) {
        (Notation::Decimal { places: wanted }, TypedForm::Decimal { places }) => {
            // Half of a reading has a digit more; of a product, any number of them is near enough.
            let most = expected.decimal_places().unwrap_or(wanted).max(wanted);
            let least = if accepted == [expected; 2] { most } else { wanted };
            match (places.cmp(&least), places.cmp(&most)) {
                (Ordering::Less, _) => Some(NotationNote::DigitsMissing),
                (_, Ordering::Greater) => Some(NotationNote::DigitsTooMany),
                _ => None,
            }
        }
        (Notation::Decimal { .. }, TypedForm::Fraction { .. }) => Some(NotationNote::FractionOnDecimals),
        (Notation::Fraction, TypedForm::Fraction { lowest: false }) => Some(NotationNote::NotLowestTerms),
        (Notation::Fraction, TypedForm::Decimal { places }) => {
            let whole = expected.to_whole().is_some() && places == 0;
            (!whole).then_some(NotationNote::DecimalOnFractions)
        }
        (Notation::Angle, TypedForm::Decimal { places }) => {
            (places > 0).then_some(NotationNote::DecimalOnAngles)
        }
        (Notation::Angle, TypedForm::Fraction { .. }) => Some(NotationNote::DecimalOnAngles),
        (_, TypedForm::Angle | TypedForm::Speech)
        | (Notation::Fraction, TypedForm::Fraction { lowest: true }) => None,
    }
}
