//! The rules a definition must keep, one a file.
//!
//! | rule | what it asks |
//! |---|---|
//! | `order` | scales before what divides them |
//! | `turn` | a drum's or dial's turn is the division of the scale before it |
//! | `dial` | a dial's figures go round it, and it is asked no more than it shows |
//! | `coincidence` | a vernier can give its least count |
//! | `least_count` | the stated least count is what the finest stage gives |
//! | `range` | the range lies on the graduations and on the scale |
//! | `bounds` | a size that can be drawn and learnt |
//! | `tiers` | line lengths in order |
//! | `numerals` | figures on graduations |
//! | `clash` | figures that have room |
//! | `sides` | lines and vernier on their sides of the datum line |
//! | `course` | a scale that runs another way has a vernier |
//! | `both_ways` | scales figured both ways have what they need, and room where a vernier reaches back |
//! | `notation` | readings can be written the way the file says |
//! | `lengths` | fixed lengths to choose from, and what is stamped with each |
//! | `offers` | what makers do differently can be done on this tool |
//! | `estimate` | digits are judged where nothing finer gives them, as finely as an eye can |
//! | `hand` | only a sleeve can be covered as the reading grows |
//! | `used` | a collar takes off, a lever moves a hand, and the tool says so |
//! | `other` | a second set of scales that hangs together with the first |
//! | `names` | id, family and engraved texts |
//!
//! A rule says nothing about what it cannot see: where a key is missing or faulty the schema has said so.

mod both_ways;
mod bounds;
mod build;
mod clash;
mod coincidence;
mod course;
mod dial;
mod estimate;
mod hand;
mod least_count;
mod lengths;
mod measure;
mod names;
mod notation;
mod numerals;
mod offers;
mod order;
mod other;
mod range;
mod sides;
#[cfg(test)]
mod tests;
mod tiers;
mod turn;
mod used;

pub(crate) use names::id;

use super::Instrument;
use super::schema::{self, Definition, Outcome};
use crate::diag::{Diagnostic, SourceText};

/// A rule: looks at a definition and adds what is wrong.
type Rule = fn(&Definition, &mut Vec<Diagnostic>);

const RULES: [Rule; 21] = [
    names::check,
    notation::check,
    order::check,
    turn::check,
    dial::check,
    used::check,
    coincidence::check,
    least_count::check,
    range::check,
    bounds::check,
    tiers::check,
    numerals::check,
    clash::check,
    sides::check,
    lengths::check,
    offers::check,
    hand::check,
    course::check,
    estimate::check,
    both_ways::check,
    other::check,
];

/// Reads a definition. Either it is an instrument, or every fault of it is named, in the order of the file.
pub fn read(source: &SourceText) -> Result<Instrument, Vec<Diagnostic>> {
    let Outcome { definition, mut faults, whole } = schema::read(source);
    let Some(definition) = definition else {
        return Err(faults);
    };
    if whole {
        let second = definition.other.as_ref().map(|second| &second.scales);
        for definition in std::iter::once(&definition).chain(second) {
            for rule in RULES {
                rule(definition, &mut faults);
            }
        }
    }
    if faults.is_empty() {
        let built = build::instrument(&definition, &source.text);
        return Ok(built.expect("a definition without faults has every key, and every length on its lattice"));
    }
    faults.sort_by_key(|fault| fault.at.span.start);
    Err(faults)
}
