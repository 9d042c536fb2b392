//! Questions on tools with two sets of scales.
//!
//! Drawn in this order. Two scales on one jaw: which of them is read, below 2; then size and zero error as on any tool.
//! A slide of its own: a number below 5, 0 meaning that the height slide alone is read; the number of teeth, out of the table of
//! chordal values; the size of the teeth, out of the usual ones that the tool reaches; how much thinner than it should be the
//! tooth is, below 25 least counts; then the zero error of the slide that is read.

use super::conditions::Conditions;
use super::draw::Draw;
use super::question::Question;
use crate::exact::Quanta;
use crate::instrument::{Instrument, Pitch, Variant, Zero, teeth};

/// How many least counts a tooth is thinner than it should be, below this.
const THINNER: u32 = 25;

/// A question on such a tool, its first set of scales in front.
pub(super) fn question(instrument: &Instrument, draw: &mut Draw, number: u32) -> Question {
    let sets = instrument.sets();
    if instrument.own_slide().is_none() {
        let variant = sets[usize::from(draw.below(2) == 1)].clone();
        let tool = instrument.fitted(&variant);
        let settings = (tool.high - tool.low).passed(tool.step) + 1;
        let settings = u32::try_from(settings).expect("the definition was checked: a bounded number");
        let size = tool.low + tool.step * i64::from(draw.below(settings));
        return posed(&tool, draw, number, size, variant);
    }
    let height_alone = draw.below(5) == 0;
    let tooth = one_of(draw, teeth());
    let sizes: Vec<(Quanta, Quanta)> = Pitch::usual(instrument.unit)
        .into_iter()
        .filter_map(|pitch| instrument.set_for(tooth, pitch))
        .collect();
    if sizes.is_empty() {
        // No usual tooth for a tool of this size: its thickness slide is read at its highest setting.
        return posed(instrument, draw, number, instrument.high, sets[0].clone());
    }
    let (height, thickness) = *one_of(draw, &sizes);
    let thinner = instrument.least_count * i64::from(draw.below(THINNER));
    if height_alone && let Some(variant) = sets.get(1) {
        return posed(&instrument.fitted(variant), draw, number, height, variant.clone());
    }
    let size = (thickness - thinner).max(instrument.low);
    let question = posed(instrument, draw, number, size, sets[0].clone());
    question.under(instrument, Conditions { set: Some(height), ..Conditions::default() })
}

fn posed(tool: &Instrument, draw: &mut Draw, number: u32, size: Quanta, variant: Variant) -> Question {
    let zero_error = match tool.zero {
        Zero::None => Quanta::ZERO,
        Zero::CanBeOff => draw.zero_error(tool.least_count),
    };
    let setting = (size + zero_error).max(tool.low).min(tool.high);
    Question::new(tool, number, setting, zero_error, variant)
}

fn one_of<'a, T>(draw: &mut Draw, list: &'a [T]) -> &'a T {
    let count = u32::try_from(list.len()).expect("a short list");
    &list[usize::try_from(draw.below(count)).expect("a small number")]
}
