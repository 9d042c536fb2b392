//! Questions for the angle of a part. Drawn after all else, each uniform: a number below 10, under 4 meaning that the part's angle
//! is asked for; then the set-up, of those of the definition.

use super::draw::Draw;
use super::question::Question;
use crate::instrument::Instrument;
use crate::reading::Asks;

/// The question as it was drawn, or the same for the part's angle.
pub(super) fn part_asked(question: Question, tool: &Instrument, draw: &mut Draw) -> Question {
    let count = u32::try_from(tool.set_ups.len()).expect("few set-ups");
    if count == 0 || draw.below(10) >= 4 {
        return question;
    }
    let number = usize::try_from(draw.below(count)).expect("a small number");
    question.asking(Asks::part(tool.set_ups[number]))
}
