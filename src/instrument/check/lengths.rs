//! Fixed lengths to choose from, and what is stamped with each.
//!
//! Rods, collars and frames are listed from the one that is fitted where nobody chooses, shortest first, each with the text that
//! then stands on the tool (empty for none): a length that is not stamped cannot be read. What is chosen has a name of one word,
//! because options and records spell it `rod=2 in`.
//!
//! Example: `lengths = ["0 in", "1 in", "2 in"]` with `stamped = ["rod 0-1 in", "rod 1-2 in"]`.

use super::measure::spell;
use crate::diag::Diagnostic;
use crate::exact::Exact;
use crate::instrument::schema::{Definition, Draft};

/// Keys of a variant that are not lengths.
const TAKEN: [&str; 6] = ["halves", "figures", "vernier", "counter", "held", "tool"];
/// Lengths of one choice.
const MOST: usize = 60;
/// Characters of a stamped text.
const STAMPED: usize = 24;

pub(super) fn check(def: &Definition, faults: &mut Vec<Diagnostic>) {
    for (at, stage) in def.stages.iter().enumerate() {
        if stage.lengths.is_empty() {
            alone(stage, faults);
        } else {
            order(def, stage, faults);
            stamps(stage, faults);
            name(def, at, stage, faults);
        }
    }
}

fn alone(stage: &Draft, faults: &mut Vec<Diagnostic>) {
    if let Some(stamp) = stage.stamped.first() {
        let fault =
            Diagnostic::new("lengths", stamp.span.clone(), "`stamped` needs `lengths`, one for each text");
        faults.push(fault.fix("put the text into `engraved`"));
    }
}

fn order(def: &Definition, stage: &Draft, faults: &mut Vec<Diagnostic>) {
    if let Some(length) = &stage.length {
        let fault =
            Diagnostic::new("lengths", length.span.clone(), "`length` and `lengths` exclude each other");
        faults.push(fault.related(stage.lengths[0].span.clone(), "to choose from").fix("take out `length`"));
    }
    if let [only] = &stage.lengths[..] {
        let fault = Diagnostic::new("lengths", only.span.clone(), "there is but one length to choose from");
        let fix = if only.value == Exact::ZERO {
            "take out this stage, or write a second length".to_owned()
        } else {
            format!("length = \"{}\" in place of `lengths`", spell(def, only.value))
        };
        faults.push(fault.fix(fix));
    }
    if let Some(extra) = stage.lengths.get(MOST) {
        let fault = Diagnostic::new("lengths", extra.span.clone(), format!("more than {MOST} lengths"));
        faults.push(fault.fix("take out the last lengths"));
    }
    for pair in stage.lengths.windows(2).filter(|pair| pair[1].value <= pair[0].value) {
        let message = format!("{} comes after {}", spell(def, pair[1].value), spell(def, pair[0].value));
        let mut values: Vec<Exact> = stage.lengths.iter().map(|length| length.value).collect();
        values.sort_unstable();
        values.dedup();
        let values: Vec<String> = values.iter().map(|value| format!("\"{}\"", spell(def, *value))).collect();
        let fault = Diagnostic::new("lengths", pair[1].span.clone(), message);
        faults.push(fault.fix(format!("lengths = [{}]", values.join(", "))));
    }
}

fn stamps(stage: &Draft, faults: &mut Vec<Diagnostic>) {
    if stage.stamped.len() != stage.lengths.len() {
        let message =
            format!("{} lengths, but {} texts stamped with them", stage.lengths.len(), stage.stamped.len());
        let last = stage.stamped.last().map_or(&stage.lengths[0].span, |text| &text.span);
        let fault = Diagnostic::new("lengths", last.clone(), message);
        faults.push(fault.fix("stamped = [\"rod 0-1 in\", \"rod 1-2 in\"], a text for each length"));
    }
    for (n, text) in stage.stamped.iter().enumerate() {
        if text.value.chars().count() > STAMPED {
            let message = format!("a stamped text has more than {STAMPED} characters");
            let fault = Diagnostic::new("lengths", text.span.clone(), message);
            faults.push(fault.fix("write what stands on the tool: \"rod 1-2 in\""));
        }
        let adds = stage.lengths.get(n).is_some_and(|length| length.value != Exact::ZERO);
        let twin = stage.stamped[..n].iter().find(|other| other.value == text.value);
        let message = match twin {
            Some(_) => "two lengths are stamped alike, so nobody could tell which is fitted",
            None if text.value.is_empty() && adds => "a length that is not stamped cannot be read",
            None => continue,
        };
        let fault = Diagnostic::new("lengths", text.span.clone(), message);
        faults.push(fault.fix("stamp each length with a text of its own"));
    }
}

fn name(def: &Definition, at: usize, stage: &Draft, faults: &mut Vec<Diagnostic>) {
    let Some(name) = &stage.name else { return };
    let plain = name.value.chars().all(|c| c.is_ascii_lowercase() || c == '-');
    let taken =
        def.stages[..at].iter().any(|other| other.name.as_ref().is_some_and(|n| n.value == name.value));
    let message = if !plain || TAKEN.contains(&name.value.as_str()) {
        "what is chosen is named in one word of small letters"
    } else if taken {
        "another stage has this name already"
    } else {
        return;
    };
    faults.push(Diagnostic::new("lengths", name.span.clone(), message).fix("name = \"rod\""));
}
