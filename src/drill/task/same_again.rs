//! Same again: readings, among which settings come a second time, drawn another way.
//!
//! From a key of its own, of the task's number: a number below 6. Under 3 it is the setting of eight tasks of this kind before,
//! 3 that of three before, where there was one and it was new itself; else a new one, question `number` of the run. Eight
//! apart, two readings are a pair in the record. Of a setting that comes again are then drawn: another variant of the tool, where
//! it has one that the same lengths go with; and on a micrometer in good order how far the edge leads or lags.

use super::{Asked, Part};
use crate::drill::draw::Draw;
use crate::drill::generate::Seed;
use crate::drill::{Conditions, Question, Settings, edge_limits, question};
use crate::exact::Quanta;
use crate::instrument::{Form, Instrument, Variant};
use crate::reading::Change;

/// How many tasks before lies the setting that comes again, and in how many of six.
const BEFORE: [(u32, u32); 2] = [(3, 8), (4, 3)];

/// One reading. Of the kinds in turn every `stride`th task is of this kind.
pub(super) fn parts(instrument: &Instrument, seed: Seed, number: u32, stride: u32) -> Vec<Part> {
    let Some(of) = first_of(instrument, seed, number, stride) else {
        return vec![Part::reading(instrument, question(instrument, seed, number))];
    };
    let mut draw = Draw::keyed("linefall same again 1 look", instrument, seed, number);
    let again = anew(instrument, &question(instrument, seed, of), number, &mut draw);
    let mut part = Part::reading(instrument, again);
    part.asked = Asked::Again { of, answered: None };
    vec![part]
}

/// The task whose setting comes again; none where the setting is new.
fn first_of(instrument: &Instrument, seed: Seed, number: u32, stride: u32) -> Option<u32> {
    let drawn = Draw::keyed("linefall same again 1", instrument, seed, number).below(6);
    let (_, before) = BEFORE.into_iter().find(|(below, _)| drawn < *below)?;
    let of = number.checked_sub(before * stride).filter(|of| *of > 0)?;
    first_of(instrument, seed, of, stride).is_none().then_some(of)
}

/// The same setting drawn another way.
fn anew(instrument: &Instrument, first: &Question, number: u32, draw: &mut Draw) -> Question {
    let mut variants = others(instrument, &first.variant);
    let variant = if variants.is_empty() {
        first.variant.clone()
    } else {
        variants.swap_remove(draw.place(variants.len()))
    };
    let mut conditions = Conditions { worn: None, ..first.conditions.clone() };
    let fitted = instrument.fitted(&variant);
    if conditions.settings == Settings::AsDefined && conditions.change == Change::default() {
        conditions.lead = edge(&fitted, draw);
    }
    let tool = conditions.tool(&fitted);
    let question = Question::new(&tool, number, first.setting, first.zero_error, variant);
    question.under(&tool, conditions).asking(first.asks)
}

/// The other variants of a tool that the same lengths and scales go with.
fn others(instrument: &Instrument, first: &Variant) -> Vec<Variant> {
    let lengths = instrument.choices.iter().any(|choice| first.value(&choice.name).is_some());
    let mut all = if lengths || instrument.other.is_some() {
        let usual = instrument.usual_of(first);
        let mut all = instrument.unusual(&usual);
        all.push(usual);
        all
    } else {
        instrument.variants()
    };
    all.retain(|variant| variant != first);
    all
}

/// How far the edge leads, or lags below nought; nothing on a tool without a thimble.
fn edge(tool: &Instrument, draw: &mut Draw) -> Quanta {
    let drums = tool.stages.iter().find_map(|stage| match &stage.form {
        Form::Drum(drum) => Some(drum),
        _ => None,
    });
    drums.map_or(Quanta::ZERO, |drum| {
        let (late, early) = edge_limits(tool.unit, drum);
        let count = u32::try_from(late + early + 1).unwrap_or(1);
        drum.division * (i64::from(draw.below(count)) - late)
    })
}

#[cfg(test)]
mod tests {
    use super::super::{Kind, task_in_turn};
    use super::*;
    use crate::instrument::Catalogue;

    #[test]
    fn the_same_setting_drawn_another_way() {
        let catalogue = Catalogue::new(Vec::new());
        for tool in catalogue.all() {
            for stride in 1..=3 {
                let one = |number| {
                    let task = task_in_turn(Kind::SameAgain, tool, Seed(3), number, stride);
                    task.expect("a reading of any tool").parts.swap_remove(0)
                };
                let mut again = 0;
                for number in 1..=60 * stride {
                    let part = one(number);
                    assert_eq!((part.kind, part.question.number), (Kind::Read, number));
                    let Asked::Again { of, .. } = part.asked else { continue };
                    assert!([3 * stride, 8 * stride].contains(&(number - of)), "{} {number}", tool.id);
                    let first = one(of);
                    assert_eq!(first.asked, Asked::Reading, "{}: it was new", tool.id);
                    let said = |part: &Part| {
                        let spell = |at| part.tool.spell_with_unit(at);
                        let question = &part.question;
                        (
                            question.asks,
                            spell(question.setting),
                            spell(question.zero_error),
                            part.expected_word(),
                        )
                    };
                    assert_eq!(said(&part), said(&first), "{} {number}", tool.id);
                    again += 1;
                }
                assert!(again >= 15 * stride, "{}: {again} of {}", tool.id, 60 * stride);
            }
        }
    }

    #[test]
    fn where_makers_differ_it_looks_different() {
        let catalogue = Catalogue::new(Vec::new());
        let tool = catalogue.get("micrometer-metric").expect("shipped");
        let first = question(tool, Seed(3), 1);
        let looks: Vec<Question> = (1..40)
            .map(|n| anew(tool, &first, n, &mut Draw::keyed("looks", tool, Seed(n.into()), n)))
            .collect();
        assert!(looks.iter().all(|look| look.variant != first.variant));
        assert!(looks.iter().any(|look| look.conditions.lead > Quanta::ZERO));
        assert!(looks.iter().any(|look| look.conditions.lead < Quanta::ZERO));
    }
}
