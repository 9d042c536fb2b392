//! `linefall care`.

use super::args::Common;
use super::exit::{Exit, Halt};
use super::out::{self, Out};
use super::shelf;
use crate::instrument::{CareCard, care_card};
use crate::wording;
use serde::Serialize;

#[derive(Serialize)]
struct CareOut<'a> {
    instrument: &'a str,
    title: &'a str,
    before: &'a [String],
    measure: &'a [String],
    storage: &'a [String],
    wear: &'a [String],
    cautions: &'a [String],
    source: &'a str,
}

/// Prints the care card of an instrument.
pub fn run(common: &Common, id: &str, json: bool, out: &mut Out) -> Result<Exit, Halt> {
    let catalogue = shelf::catalogue(common);
    let instrument = shelf::find(&catalogue, id)?;
    let Some(card) = care_card(&instrument.family) else {
        out::complain(&wording::no_care_card(&instrument.family));
        return Ok(Exit::Findings);
    };
    if json {
        out.line(&out::json(&document(&instrument.id, &card)))?;
        return Ok(Exit::Fine);
    }
    out.line(&card.title)?;
    for (heading, sentences) in wording::care(&card) {
        out.line("")?;
        out.line(heading)?;
        out.lines(sentences.iter().map(|sentence| format!("  - {sentence}")))?;
    }
    out.line("")?;
    out.line(&wording::care_source(&card))?;
    Ok(Exit::Fine)
}

fn document<'a>(instrument: &'a str, card: &'a CareCard) -> CareOut<'a> {
    CareOut {
        instrument,
        title: &card.title,
        before: &card.before,
        measure: &card.measure,
        storage: &card.storage,
        wear: &card.wear,
        cautions: &card.cautions,
        source: &card.source,
    }
}
