//! How a change is worked out from what the tool reads.

use crate::exact::{Exact, Notation, Quanta};
use crate::instrument::{Instrument, Takes};
use crate::reading::change::{collar, times};
use crate::reading::{Asks, Case, Turned};

/// The lines that come after the reading; none where the reading is the answer.
pub fn worked(case: &Case<'_>) -> Vec<String> {
    match case.asks {
        Asks::Diameter | Asks::Travel => handwheel(case),
        Asks::Change | Asks::Movement => compared(case),
        Asks::Reading
        | Asks::Corrected
        | Asks::ZeroError
        | Asks::PartAsRead
        | Asks::PartComplement
        | Asks::PartSupplement => Vec::new(),
    }
}

fn compared(case: &Case<'_>) -> Vec<String> {
    let tool = case.instrument;
    let (now, change) = (case.reading.total, &case.change);
    let mut lines = Vec::new();
    let mut moved = now;
    if let Some(start) = change.start {
        moved = now - start;
        lines.push(format!(
            "Master {}, part {}: {} {} = {}",
            tool.spell(start),
            tool.spell(now),
            tool.spell(now),
            less(tool, start),
            tool.spell_with_unit(moved)
        ));
    }
    if let Some(angle) = change.angle {
        let factor = |value: Exact| Notation::Decimal { places: 2 }.spell(value);
        let [low, high] = case.accepted().map(|value| tool.notation.spell(value));
        lines.push(format!(
            "At {} degrees the factor is {}: {} x {} = {}; {low} to {high} is near enough",
            angle.degrees(),
            factor(angle.factor()),
            tool.spell(moved),
            factor(angle.factor()),
            tool.notation.spell_with_unit(case.expected(), tool.unit)
        ));
    }
    lines
}

/// A number taken off another, with one sign.
fn less(tool: &Instrument, at: Quanta) -> String {
    if at < Quanta::ZERO { format!("+ {}", tool.spell(-at)) } else { format!("- {}", tool.spell(at)) }
}

fn handwheel(case: &Case<'_>) -> Vec<String> {
    let (tool, change, now) = (case.instrument, &case.change, case.reading.total);
    let (Some(dial), Some(start)) = (collar(tool), change.start) else { return Vec::new() };
    let (from, to) = match change.turned {
        Turned::On | Turned::OnAgain => (now, start),
        Turned::Back => (start, now),
    };
    let turns = match change.passed {
        0 => String::new(),
        1 => format!(" + 1 turn of {}", tool.spell(dial.turn())),
        turns => format!(" + {turns} turns of {}", tool.spell(dial.turn())),
    };
    let turned = change.collar(dial, now);
    let mut lines = vec![format!(
        "The collar went from {} to {}: {} - {}{turns} = {}",
        tool.spell(start),
        tool.spell(now),
        tool.spell(from),
        tool.spell(to),
        tool.spell_with_unit(turned)
    )];
    let lost = change.lost();
    if lost != Quanta::ZERO {
        lines.push(format!(
            "Turned back, the slack comes off once: {} - {} = {}",
            tool.spell(turned),
            tool.spell(lost),
            tool.spell_with_unit(turned - lost)
        ));
    } else if change.slack != Quanta::ZERO {
        lines.push("Both times come on from the same side: the slack cancels".to_owned());
    }
    let counted = match dial.takes {
        Some(Takes::Diameter) => "The collar counts what comes off the diameter",
        Some(Takes::Radius) | None => "The collar counts what the slide moves",
    };
    let answer = tool.notation.spell_with_unit(case.expected(), tool.unit);
    let factor = times(dial.takes, case.asks);
    lines.push(if factor == Exact::ONE {
        format!("{counted}: {answer}")
    } else if factor == Exact::whole(2) {
        format!("{counted}; the diameter changes by twice that: {answer}")
    } else {
        format!("{counted}; the slide moves half of that: {answer}")
    });
    lines
}
