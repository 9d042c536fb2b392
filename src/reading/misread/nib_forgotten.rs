//! The nibs are not added to what an outside scale shows between inside faces.

use super::{Case, Misread, On, Wrong};
use crate::exact::Quanta;

/// The width of the nibs is not added.
pub static NIB_FORGOTTEN: Misread = Misread {
    id: "nib-forgotten",
    name: "nibs not added",
    formula: "nibs = 0",
    cure: "Inside work read on the outside scale: say the width of the nibs first, then read on from there.",
    on: &[On::Nibs],
    answers,
};

fn answers(case: &Case<'_>) -> Vec<Wrong> {
    case.fixed()
        .filter(|(_, step)| super::are_nibs(case.stage_name(step)))
        .map(|(length, step)| {
            let did = format!("You gave what the scale shows; the nibs are {} wide.", case.worth(length));
            case.taking(step, Quanta::ZERO, did)
        })
        .collect()
}
