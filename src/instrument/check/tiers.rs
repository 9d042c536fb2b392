//! Line lengths in order.
//!
//! The eye finds its place by the long lines. Tiers are written longest first, each a smaller value than the one before, each
//! on graduations; at most six, which with the shortest makes seven lengths, as many as rows can tell apart.
//!
//! Example: `tiers = ["5 mm", "10 mm"]`, where the ten would get the length of the five.

use super::measure::{counts, divides, round_up, spell};
use crate::diag::Diagnostic;
use crate::instrument::schema::Definition;

/// Tiers that may be written.
const MOST: usize = 6;

pub(super) fn check(def: &Definition, faults: &mut Vec<Diagnostic>) {
    for (at, stage) in def.stages.iter().enumerate() {
        if let Some(extra) = stage.tiers.get(MOST) {
            let message =
                format!("the {} has more than {MOST} tiers; the shortest length needs none", stage.called());
            faults.push(Diagnostic::new("tiers", extra.span.clone(), message).fix("take out the last tiers"));
        }
        let division = counts(def, at);
        for (n, tier) in stage.tiers.iter().enumerate() {
            if let Some(longer) = n.checked_sub(1).map(|n| &stage.tiers[n])
                && longer.value <= tier.value
            {
                let message = format!(
                    "the tier {} comes after {}; the longest lines come first",
                    spell(def, tier.value),
                    spell(def, longer.value)
                );
                let mut values: Vec<_> = stage.tiers.iter().map(|tier| tier.value).collect();
                values.sort_unstable_by(|a, b| b.cmp(a));
                values.dedup();
                let values: Vec<String> =
                    values.iter().map(|value| format!("\"{}\"", spell(def, *value))).collect();
                let fault = Diagnostic::new("tiers", tier.span.clone(), message);
                faults.push(
                    fault
                        .related(longer.span.clone(), "longer")
                        .fix(format!("tiers = [{}]", values.join(", "))),
                );
            }
            let Some(division) = division.filter(|division| !divides(*division, tier.value)) else {
                continue;
            };
            let message = format!(
                "no line of the {} stands every {}; its lines count {}",
                stage.called(),
                spell(def, tier.value),
                spell(def, division)
            );
            let mut fault = Diagnostic::new("tiers", tier.span.clone(), message);
            if let Some(written) = &stage.division {
                fault = fault.related(written.span.clone(), "the division");
            }
            faults.push(
                fault.fix(format!("the next that is: \"{}\"", spell(def, round_up(tier.value, division)))),
            );
        }
    }
}
