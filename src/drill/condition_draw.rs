//! The conditions of a question, drawn after everything else of it, from a key of their own.
//!
//! The key is BLAKE3 in key-derivation mode of "linefall conditions 2" over the seed (8 bytes, little-endian), the number (4
//! bytes) and the instrument's id. Drawn in this order, each uniform by rejection on 32 bits: a number below 20; where it
//! stands for a condition that the tool can be under, what that condition needs. 0 to 3: an edge that leads or lags, by so
//! many divisions; then a number below 4, and unless it is nought the part of the turn in which the edge misleads. 4: a
//! setting between lines, by so many parts. 5: the same, to be estimated. 6: figures worn. 7: the lock not tight.

use super::conditions::{Conditions, Lock, Settings};
use super::draw::Draw;
use super::generate::Seed;
use super::question::Question;
use super::worn::{Wear, can_wear};
use crate::exact::{Notation, Quanta, Unit};
use crate::instrument::{Drum, Figured, Form, Instrument, Parts, ReadBy};

/// Conditions are drawn in this many ways, of which the first so many may be any.
const OF: u32 = 20;
const CONDITIONS: u32 = 8;

fn key(tool: &Instrument, seed: Seed, number: u32) -> Draw {
    let key: [&[u8]; 3] = [&seed.0.to_le_bytes(), &number.to_le_bytes(), tool.id.as_bytes()];
    Draw::new("linefall conditions 2", &key)
}

/// False where no conditions are drawn, whatever the tool.
pub(super) fn may_be_conditioned(tool: &Instrument, seed: Seed, number: u32) -> bool {
    key(tool, seed, number).below(OF) < CONDITIONS
}

/// A question under the conditions that are drawn for it. `tool` is the fitted one.
pub(super) fn conditioned(tool: &Instrument, plain: Question, seed: Seed) -> Question {
    let mut draw = key(tool, seed, plain.number);
    match draw.below(OF) {
        0..=3 => edge(tool, plain, &mut draw),
        4 => match parts_between(tool) {
            Some(parts) => between(tool, plain, Settings::Between(parts), &mut draw),
            None => plain,
        },
        5 if tool.estimate.is_some() && !tool.is_estimated() => {
            between(tool, plain, Settings::Estimated, &mut draw)
        }
        6 if can_wear(tool) => {
            let wear = Wear(draw.below(10_000));
            under(tool, &plain, plain.setting, Conditions { worn: Some(wear), ..Conditions::default() })
        }
        7 if tool.has_lock() => {
            under(tool, &plain, plain.setting, Conditions { lock: Lock::Loose, ..Conditions::default() })
        }
        _ => plain,
    }
}

/// The same question under conditions, the tool standing at another setting, in quanta of the tool under them.
fn under(tool: &Instrument, plain: &Question, setting: Quanta, conditions: Conditions) -> Question {
    let under = conditions.tool(tool);
    let zero_error =
        under.lattice.at(tool.value(plain.zero_error)).expect("no lattice is coarser than the tool's");
    let question = Question::new(&under, plain.number, setting, zero_error, plain.variant.clone());
    question.under(&under, conditions)
}

/// How far an edge may be off, in thimble divisions: late, early. From memory, and less than a quarter of a turn.
pub fn edge_limits(unit: Unit, drum: &Drum) -> (i64, i64) {
    let (late, early) = if unit == Unit::Inch { (2, 4) } else { (5, 10) };
    let quarter = (drum.parts - 1) / 4;
    (late.min(quarter), early.min(quarter))
}

fn edge(tool: &Instrument, plain: Question, draw: &mut Draw) -> Question {
    let drum = tool.stages.iter().find_map(|stage| match &stage.form {
        Form::Drum(drum) => Some(drum),
        Form::Line(_) | Form::Dial(_) | Form::Vernier(_) | Form::Fixed(_) => None,
    });
    let Some(drum) = drum else { return plain };
    let (late, early) = edge_limits(tool.unit, drum);
    let Ok(count @ 1..) = u32::try_from(late + early) else { return plain };
    let drawn = i64::from(draw.below(count)) - late;
    let divisions = if drawn >= 0 { drawn + 1 } else { drawn };
    let lead = drum.division * divisions;
    let mut setting = plain.setting;
    if draw.below(4) > 0 {
        // Just under a full turn an early edge shows a line too many, just over one a late edge a line too few.
        let steps = u32::try_from((drum.division * divisions.abs()).passed(tool.step)).unwrap_or(1).max(1);
        let part = tool.step * i64::from(draw.below(steps));
        let within = if divisions > 0 { drum.turn() - tool.step - part } else { part };
        let travel = setting - tool.start();
        let moved = setting - travel.left_of(drum.turn()) + within;
        if tool.low <= moved && moved <= tool.high {
            setting = moved;
        }
    }
    under(tool, &plain, setting, Conditions { lead, ..Conditions::default() })
}

/// The parts of the least count in which a plain tool may stand between lines.
fn parts_between(tool: &Instrument) -> Option<Parts> {
    match &tool.stages[tool.finest()?].form {
        Form::Drum(drum) if drum.read == ReadBy::Nearest => Some(Parts(10)),
        Form::Line(line) if line.read == ReadBy::Nearest && line.figured == Figured::OneWay => {
            Some(if tool.notation == Notation::Fraction { Parts(2) } else { Parts(4) })
        }
        _ => None,
    }
}

/// A setting between the line at which the plain question stands and the next.
fn between(tool: &Instrument, plain: Question, settings: Settings, draw: &mut Draw) -> Question {
    let conditions = Conditions { settings, ..Conditions::default() };
    let fine = conditions.tool(tool);
    let parts = u32::try_from(fine.least_count.passed(fine.step)).unwrap_or(1);
    // An estimated nought comes up as well; between lines it would be no condition.
    let part = match settings {
        Settings::Estimated => draw.below(parts),
        Settings::AsDefined | Settings::Between(_) => draw.below(parts - 1) + 1,
    };
    let at = fine.lattice.at(tool.value(plain.setting)).expect("no lattice is coarser than the tool's");
    let setting = at + fine.step * i64::from(part);
    if setting > fine.high { plain } else { under(tool, &plain, setting, conditions) }
}
