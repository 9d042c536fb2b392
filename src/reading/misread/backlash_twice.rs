//! The slack of a handwheel is taken off once too often.

use super::{Asks, Case, Misread, On, Wrong};
use crate::exact::Quanta;
use crate::reading::{Change, Turned};

/// The slack is taken off where it cancels, or twice.
pub static BACKLASH_TWICE: Misread = Misread {
    id: "backlash-twice",
    name: "backlash taken off once too often",
    formula: "right answer - slack",
    cure: "Last move the same way as before: the slack is taken up both times and cancels. Last move back: take it off once.",
    on: &[On::Collar],
    answers,
};

fn answers(case: &Case<'_>) -> Vec<Wrong> {
    let slack = case.change.slack;
    if slack == Quanta::ZERO || !matches!(case.asks, Asks::Diameter | Asks::Travel) {
        return Vec::new();
    }
    let did = match case.change.turned {
        Turned::Back => format!("You took the slack of {} off twice.", case.worth(slack)),
        Turned::On | Turned::OnAgain => format!(
            "You took the slack of {} off, but both lines were come up to from the same side: it cancels.",
            case.worth(slack)
        ),
    };
    // As if the collar had turned that much less.
    let start = match case.change.turned {
        Turned::Back => case.change.start.unwrap_or_default() - slack,
        Turned::On | Turned::OnAgain => case.change.start.unwrap_or_default() + slack,
    };
    let answer = case.resting_on(Change { start: Some(start), ..case.change });
    vec![Wrong { answer, stage: None, did }]
}
