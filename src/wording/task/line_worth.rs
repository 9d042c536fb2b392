//! What one line is worth.

use crate::drill::task::{Engraving, Part, Worth};
use crate::exact::{Notation, Quanta, Unit};
use crate::instrument::{Form, Instrument};

/// The question.
pub(super) fn asked(part: &Part, worth: Worth, engraving: Engraving) -> Vec<String> {
    let stage = &part.tool.stages[worth.stage()];
    let name = &stage.name;
    let half = matches!(&stage.form, Form::Line(line) if line.whole().is_some());
    let question = match (worth, &stage.form) {
        (Worth::Line { .. }, Form::Vernier(_)) => {
            format!("By how much more does it read when the next line of the {name} comes in line?")
        }
        (Worth::Line { .. }, _) if half => {
            format!("How much is it on the {name} from a whole line to the half line after it?")
        }
        (Worth::Line { .. }, _) => format!("How much is it on the {name} from one line to the next?"),
        (Worth::Turn { .. }, _) => format!("How much is one whole turn of the {name}?"),
        (Worth::Figures { .. }, Form::Line(line)) if line.numerals.len() > 1 => {
            format!("How much is it on the {name} from one small figure to the next?")
        }
        (Worth::Figures { .. }, _) => format!("How much is it on the {name} from one figure to the next?"),
    };
    let mut lines = vec![format!("{question} In {}.", unit_word(&part.tool))];
    if engraving == Engraving::Gone {
        lines.push("The plate that says so is worn: find it out from the lines and figures.".to_owned());
    }
    lines
}

/// What its readings are given in.
pub(super) fn unit_word(tool: &Instrument) -> &'static str {
    match tool.unit {
        Unit::Inch => "inches",
        Unit::Millimetre => "millimetres",
        Unit::Minute => "degrees and minutes",
    }
}

/// How it is found out.
pub(super) fn why(part: &Part, worth: Worth, engraving: Engraving) -> Vec<String> {
    let tool = &part.tool;
    let number = worth.stage();
    let stage = &tool.stages[number];
    let name = &stage.name;
    let spell = |at: Quanta| plain(tool, at);
    let scale = tool.stages[..number].iter().rev().find(|stage| !matches!(stage.form, Form::Fixed(_)));
    let scale = scale.map_or("", |scale| scale.name.as_str());
    let is = worth.of(tool);
    let mut lines = Vec::new();
    if engraving == Engraving::Printed {
        lines.push(format!("The face says so: {}. Read that before anything else.", spell(is)));
    }
    match (worth, &stage.form) {
        (Worth::Line { .. }, Form::Vernier(vernier)) => {
            let division = vernier.least_count * vernier.parts;
            lines.push(format!(
                "{} parts of the {name} take up {} divisions of the {scale}: they share out one division.",
                vernier.parts, vernier.over
            ));
            lines.push(format!("{} / {} = {}", spell(division), vernier.parts, spell(is)));
        }
        (Worth::Line { .. }, Form::Line(line)) => {
            let whole = line.whole();
            let counted = whole.unwrap_or(line.division);
            lines.extend(line.numerals.iter().map(|rule| rule.every).min().map(|every| {
                let count = every.passed(counted);
                let kind = if whole.is_some() { "whole " } else { "" };
                format!(
                    "From one figure of the {name} to the next it is {}, in {count} {kind}{}: {} / {count} = {}",
                    spell(every),
                    if count == 1 { "step" } else { "steps" },
                    spell(every),
                    spell(counted)
                )
            }));
            lines.extend(whole.map(|whole| {
                format!("The half lines halve that: {} / {} = {}", spell(whole), whole.passed(is), spell(is))
            }));
        }
        (Worth::Line { .. }, Form::Drum(drum)) => {
            lines.push(format!("One turn brings up one line of the {scale}, {}.", spell(drum.turn())));
            lines.push(format!(
                "There are {} lines round the {name}: {} / {} = {}",
                drum.parts,
                spell(drum.turn()),
                drum.parts,
                spell(is)
            ));
        }
        (Worth::Line { .. } | Worth::Turn { .. }, Form::Dial(dial)) => lines.push(format!(
            "{} lines round, {} each: {} in a whole turn.",
            dial.parts,
            spell(dial.division),
            spell(dial.turn())
        )),
        (Worth::Turn { .. }, Form::Drum(drum)) => {
            lines.push(format!("One turn brings up one line of the {scale}: {}.", spell(is)));
            lines.push(format!(
                "To be sure: {} lines round the {name}, {} each, are {}.",
                drum.parts,
                spell(drum.division),
                spell(is)
            ));
        }
        (Worth::Figures { .. }, form) => {
            let line = match form {
                Form::Line(line) => line.division,
                Form::Drum(drum) => drum.division,
                Form::Dial(dial) => dial.division,
                Form::Vernier(vernier) => vernier.least_count,
                Form::Fixed(_) => is,
            };
            lines.push(format!(
                "From one figure to the next there are {} steps of {}: {}.",
                is.passed(line),
                spell(line),
                spell(is)
            ));
        }
        (Worth::Line { .. } | Worth::Turn { .. }, _) => lines.push(spell(is)),
    }
    lines
}

/// A length with as many digits as it needs, and its unit.
pub(super) fn plain(tool: &Instrument, at: Quanta) -> String {
    let value = tool.value(at);
    let notation = match tool.notation {
        Notation::Decimal { .. } => Notation::decimal_for(tool.unit, value).unwrap_or(tool.notation),
        Notation::Fraction | Notation::Angle => tool.notation,
    };
    notation.spell_with_unit(value, tool.unit)
}
