//! Which entry cannot come from the tool.

use crate::drill::task::{Impossible, Part, Says, Wanted};
use crate::exact::Exact;
use crate::instrument::Form;

/// The question.
pub(super) fn asked() -> Vec<String> {
    vec!["Four entries on an inspection sheet, all said to be read with this tool. Which one cannot come from it?".to_owned()]
}

/// What the tool can give.
pub(super) fn why(part: &Part, why: Impossible) -> Vec<String> {
    let tool = &part.tool;
    let Some(odd) = odd_one(part) else { return Vec::new() };
    let with_unit = |value| tool.notation.spell_with_unit(value, tool.unit);
    let step = tool.value(tool.least_count);
    let entry = tool.notation.spell(odd);
    let steps = format!("It goes in steps of {}.", with_unit(step));
    match why {
        Impossible::Between => {
            let count = odd.over(step);
            let below = step * Exact::whole(count.numerator().div_euclid(count.denominator()));
            let [below, above] = [below, below + step].map(|value| tool.notation.spell(value));
            vec![steps, format!("{entry} lies between {below} and {above}: one of those, or another tool.")]
        }
        Impossible::Finer => {
            let judged = tool.estimate_step().map(|step| {
                format!("Between its lines {} may be judged, but nothing finer.", with_unit(step))
            });
            let vernier =
                tool.finest().is_some_and(|stage| matches!(tool.stages[stage].form, Form::Vernier(_)));
            let without = if vernier {
                "A vernier has no values between its lines."
            } else {
                "Nobody judges between its lines as finely as that."
            };
            let then = judged.unwrap_or_else(|| without.to_owned());
            vec![steps, then, format!("{entry} is finer than what it can give.")]
        }
        Impossible::Outside => {
            let (low, high) = (tool.spell(tool.low), with_unit(tool.value(tool.high)));
            vec![format!("It reads from {low} to {high}: {entry} lies outside.")]
        }
    }
}

/// The entry that cannot come.
fn odd_one(part: &Part) -> Option<Exact> {
    let Wanted::Choice(choice) = &part.wanted else { return None };
    match choice.options[choice.right].says {
        Says::Value(value) => Some(value),
        Says::Word(_) => None,
    }
}
