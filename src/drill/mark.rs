//! Marking an answer.

use super::record::Verdict;
use crate::exact::{Exact, Notation, Typed, TypedForm};
use crate::reading::{Case, Misread, Wrong, misread};
use std::cmp::Ordering;

/// What became of an answer.
#[derive(Clone)]
pub struct Mark {
    /// The verdict.
    pub verdict: Verdict,
    /// The right answer.
    pub expected: Exact,
    /// How a right value should have been written, where it was written otherwise.
    pub note: Option<NotationNote>,
    /// The misreads that give this answer, the most particular first.
    pub misreads: Vec<Found>,
}

/// A misread that gives the answer typed.
#[derive(Clone)]
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

/// Marks a typed answer.
pub fn mark(case: &Case<'_>, typed: &Typed) -> Mark {
    let expected = case.expected();
    if case.accepts(typed.value) {
        let note = note(case, expected, typed.form);
        let verdict = if note.is_some() { Verdict::RightValue } else { Verdict::Right };
        return Mark { verdict, expected, note, misreads: Vec::new() };
    }
    let misreads: Vec<Found> = misread::ALL
        .into_iter()
        .filter_map(|misread| {
            let wrong = misread.wrong(case).into_iter().find(|wrong| case.near(wrong.answer, typed.value))?;
            Some(Found { misread, wrong })
        })
        .collect();
    let verdict = if misreads.is_empty() { Verdict::Other } else { Verdict::Misread };
    Mark { verdict, expected, note: None, misreads }
}

fn note(case: &Case<'_>, expected: Exact, form: TypedForm) -> Option<NotationNote> {
    match (case.instrument.notation, form) {
        (Notation::Decimal { places: wanted }, TypedForm::Decimal { places }) => {
            // Half of a reading has a digit more; of a product, any number of them is near enough.
            let most = expected.decimal_places().unwrap_or(wanted).max(wanted);
            let least = if case.accepted() == [expected; 2] { most } else { wanted };
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
