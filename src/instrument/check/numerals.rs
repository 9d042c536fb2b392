//! Figures on graduations.
//!
//! A scale without figures cannot be read. Each rule puts a figure every so often, on lines that exist, counting in units that
//! go into the distance; a rule all of whose figures are taken by an earlier one is never used.
//!
//! Example: `{ every = "0.1 in", worth = "0.03 in" }`, whose figures would be 3, 6, 10.

use super::measure::{counts, divides, round_up, spell};
use crate::diag::Diagnostic;
use crate::exact::Exact;
use crate::instrument::schema::{Definition, Draft, Shape};

pub(super) fn check(def: &Definition, faults: &mut Vec<Diagnostic>) {
    for (at, stage) in def.stages.iter().enumerate() {
        let Some(rules) = &stage.numerals else { continue };
        if rules.is_empty() && stage.shape() != Some(Shape::Fixed) {
            let message = format!("the {} has no figures: it could not be read", stage.called());
            let every = counts(def, at).map_or_else(|| "0.1 in".to_owned(), |division| spell(def, division));
            let fix = format!("numerals = [{{ every = \"{every}\", worth = \"{every}\" }}]");
            faults.push(Diagnostic::new("no-figures", stage.header.clone(), message).fix(fix));
        }
        rule(def, at, stage, faults);
        far(def, at, stage, faults);
    }
}

/// Lines from one figure to the next on a thimble or a dial, at the most: of these only a few lines are in view, and a figure
/// must be among them. A picture of any other scale is made wide enough for one.
const FAR: i128 = 10;

fn far(def: &Definition, at: usize, stage: &Draft, faults: &mut Vec<Diagnostic>) {
    let shown_in_part = matches!(stage.shape(), Some(Shape::Drum | Shape::Dial));
    let (Some(division), true) = (counts(def, at), shown_in_part) else { return };
    let distances = stage.numerals.iter().flatten().filter_map(|rule| rule.every.as_ref());
    let Some(nearest) = distances.min_by_key(|every| every.value) else { return };
    let most = division * Exact::whole(FAR);
    if nearest.value <= most {
        return;
    }
    let message = format!(
        "the {} has a figure only every {}: more than {FAR} lines apart, there may be none in view",
        stage.called(),
        spell(def, nearest.value)
    );
    // What comes out even round a turn.
    let parts = stage.parts.as_ref().map_or(FAR, |parts| i128::from(parts.value));
    let lines = (1..=FAR).rev().find(|lines| parts % lines == 0).unwrap_or(1);
    let mut fault = Diagnostic::new("figures-far", nearest.span.clone(), message);
    if let Some(written) = &stage.division {
        fault = fault.related(written.span.clone(), "the division");
    }
    faults.push(fault.fix(format!("every = \"{}\"", spell(def, division * Exact::whole(lines)))));
}

fn rule(def: &Definition, at: usize, stage: &Draft, faults: &mut Vec<Diagnostic>) {
    let rules = stage.numerals.as_deref().unwrap_or_default();
    for (n, rule) in rules.iter().enumerate() {
        let Some(every) = &rule.every else { continue };
        if let Some(division) = counts(def, at).filter(|division| !divides(*division, every.value)) {
            let message = format!(
                "a figure every {} misses the lines of the {}, which count {}",
                spell(def, every.value),
                stage.called(),
                spell(def, division)
            );
            let mut fault = Diagnostic::new("figure-off-line", every.span.clone(), message);
            if let Some(written) = &stage.division {
                fault = fault.related(written.span.clone(), "the division");
            }
            let fix = format!("every = \"{}\"", spell(def, round_up(every.value, division)));
            faults.push(fault.fix(fix));
        } else if let Some(worth) = rule.worth.as_ref().filter(|worth| !divides(worth.value, every.value)) {
            let message = format!(
                "figures worth {} do not come out whole every {}",
                spell(def, worth.value),
                spell(def, every.value)
            );
            let fault = Diagnostic::new("figure-worth", worth.span.clone(), message);
            let fix = format!("worth = \"{}\"", spell(def, every.value));
            faults.push(fault.related(every.span.clone(), "the distance of the figures").fix(fix));
        }
        let earlier = rules[..n].iter().filter_map(|earlier| earlier.every.as_ref());
        if let Some(earlier) = earlier.into_iter().find(|earlier| divides(earlier.value, every.value)) {
            let message = format!(
                "a figure every {} is never used: an earlier rule takes its places",
                spell(def, every.value)
            );
            let fault = Diagnostic::new("figure-unused", every.span.clone(), message);
            faults.push(
                fault
                    .related(earlier.span.clone(), "the earlier rule")
                    .fix("put the rule with the larger distance first"),
            );
        }
    }
}
