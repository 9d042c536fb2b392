//! A job card in place of a set.

use super::args::Common;
use super::exit::{Exit, Halt};
use super::out;
use super::progress::USUAL_LEARNER;
use crate::class::card::Card;
use crate::class::text::is_code;
use crate::diag::SourceText;
use crate::drill::set::{self, DrillSet};
use crate::instrument::Catalogue;
use crate::store::{self, round};
use crate::wording::exercise as say;
use std::path::Path;

/// A job card that is to be worked on.
pub struct Given {
    /// The card.
    pub card: Card,
    /// Its set.
    pub set: DrillSet,
    /// Who works on it.
    pub learner: String,
}

/// True where a name is that of a card's file.
pub fn is_card(name: &str) -> bool {
    Path::new(name).extension().is_some_and(|ending| ending == "card")
}

/// Reads a card, and keeps a copy of it; the shared folder it lies in is remembered.
pub fn given(common: &Common, catalogue: &Catalogue, name: &str) -> Result<Given, Halt> {
    let path = Path::new(name);
    let shown = out::clean_name(name);
    let bytes = round::read_card(path)?;
    let findings = |why: String| Halt::Said { exit: Exit::Findings, why: format!("{shown}: {why}") };
    let card = Card::read(&bytes)
        .map_err(|faults| findings(faults.iter().map(ToString::to_string).collect::<Vec<_>>().join("; ")))?;
    let source = SourceText::new(name, card.text.clone());
    let set = set::read(&source, catalogue).map_err(|faults| findings(say::card_set(faults.len())))?;
    if !card.gives(&set) {
        return Err(findings(say::CARD_OTHER_SET.to_owned()));
    }
    let learner = learner(common, &card)?;
    if common.private {
        return Err(Halt::usage(say::CARD_PRIVATE));
    }
    round::take_card(&store::data_dir(common.data_dir.clone())?, path, &card, &bytes)?;
    Ok(Given { card, set, learner })
}

/// Who works on it: who is named, or the only one it is for.
fn learner(common: &Common, card: &Card) -> Result<String, Halt> {
    let learner = match (&common.learner, &card.learners[..]) {
        (Some(named), _) => named.clone(),
        (None, [only]) => only.clone(),
        (None, _) => return Err(Halt::usage(say::card_whose(&card.learners))),
    };
    if learner == USUAL_LEARNER || !is_code(&learner) {
        return Err(Halt::usage(say::card_code(&learner)));
    }
    if !card.is_for(&learner) {
        return Err(Halt::usage(say::card_not_for(&learner, &card.learners)));
    }
    Ok(learner)
}
