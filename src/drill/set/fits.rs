//! Whether there are questions as a portion wants them: some hundreds are drawn and looked at.

use super::deal::POOL;
use super::schema::Draft;
use super::wish::{Chooser, Wish};
use super::{DrillSet, Portion};
use crate::diag::Diagnostic;
use crate::drill::{Kind, Seed};
use crate::instrument::{Catalogue, Instrument};

/// So many of [`POOL`] questions must fit: then a paper has none that fits once in three thousand questions.
const ENOUGH: usize = 8;
/// The run that is looked at.
const RUN: Seed = Seed(1);

pub(super) fn check(draft: &Draft, set: &DrillSet, catalogue: &Catalogue) -> Vec<Diagnostic> {
    let portions = draft.portions.iter().zip(&set.portions);
    let faults = portions.filter_map(|(asks, portion)| {
        let reason = reason(portion, catalogue.get(&portion.instrument)?)?;
        let fault = Diagnostic::new("nothing-fits", asks.header.clone(), reason);
        Some(fault.fix("ask for less at once"))
    });
    faults.collect()
}

/// Why nothing fits; none where enough does.
fn reason(portion: &Portion, instrument: &Instrument) -> Option<String> {
    let chooser = Chooser::new(portion, instrument);
    let turns = u32::try_from(chooser.kinds.len() * portion.provoke.len().max(1)).unwrap_or(u32::MAX);
    // Four questions are a whole turn of the level of traps.
    let mut wanted: Vec<(Kind, Wish)> = Vec::new();
    for n in 1..=turns.clamp(4, 200) {
        let (kind, turn) = chooser.kind(n)?;
        let wish = chooser.wish(n, turn);
        if chooser.is_spread(kind) {
            if chooser.can_be_off() {
                wanted.push((kind, Wish { off: Some(true), ..wish.clone() }));
            }
            if wish.near.is_none() && chooser.can_be_near() {
                wanted.push((kind, Wish { near: Some(true), ..wish.clone() }));
            }
        }
        wanted.push((kind, wish));
    }
    let mut seen: Vec<(Kind, Wish)> = Vec::new();
    for (kind, wish) in wanted {
        let known = seen.iter().any(|(other, same)| *other == kind && *same == wish);
        if kind != Kind::SameAgain && !known {
            let fit = count(&chooser, &wish, kind, ENOUGH);
            if fit < ENOUGH {
                return Some(said(&chooser, &wish, kind, fit));
            }
            seen.push((kind, wish));
        }
    }
    None
}

/// How many of the run fit, up to so many.
fn count(chooser: &Chooser<'_>, wish: &Wish, kind: Kind, most: usize) -> usize {
    (1..=POOL).filter(|number| chooser.is_met(wish, kind, RUN, *number)).take(most).count()
}

fn said(chooser: &Chooser<'_>, wish: &Wish, kind: Kind, fit: usize) -> String {
    let all: [(&str, Wish); 6] = [
        ("of a size from `from` to `to`", Wish { within: wish.within, ..Wish::default() }),
        (
            if wish.off == Some(true) { "with the zero off" } else { "with the zero right" },
            Wish { off: wish.off, ..Wish::default() },
        ),
        (
            if wish.odd == Some(true) { "with something out of order" } else { "with all in order" },
            Wish { odd: wish.odd, ..Wish::default() },
        ),
        ("of that variant", Wish { variant: wish.variant.clone(), ..Wish::default() }),
        ("on which that goes wrong", Wish { provoke: wish.provoke, ..Wish::default() }),
        (
            if wish.near == Some(true) { "near a line" } else { "away from a line" },
            Wish { near: wish.near, ..Wish::default() },
        ),
    ];
    let asked: Vec<&(&str, Wish)> = all.iter().filter(|(_, wish)| *wish != Wish::default()).collect();
    let alone = asked.iter().find(|(_, wish)| count(chooser, wish, kind, ENOUGH) < ENOUGH);
    let words = match alone {
        Some((words, _)) => (*words).to_owned(),
        None => asked.iter().map(|(words, _)| *words).collect::<Vec<_>>().join(" and "),
    };
    let few = match fit {
        0 => "none is".to_owned(),
        _ => format!("only {fit} are"),
    };
    let provoked = wish.provoke.filter(|_| words.contains("goes wrong"));
    let words = match provoked {
        Some(misread) => words.replace("that goes wrong", &format!("\"{}\" goes wrong", misread.id)),
        None => words,
    };
    format!("of {POOL} \"{kind}\" questions on {} {few} {words}", chooser.instrument().id)
}
