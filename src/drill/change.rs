//! Questions about a change: which are asked, what is written on the picture's tags, how a record spells them.
//!
//! Drawn after all else, in this order, each uniform. A collar: a number below 10, under 6 meaning a change; how the handwheel is
//! turned, of four (on, on, back, on again); the start, of all settings; the turns, below 3, one more where nothing would have
//! been moved; the slack, two to eight divisions; of three, two for the diameter where the collar takes something off and was
//! not turned back. Where start or end is the 0 itself the reading is asked, but for a collar set to 0 and turned on. An indicator: a number below 10, under 4 meaning a change; the start, of the 61 steps about 0 on a balanced
//! face, of the 241 about the setting on another, kept in the range. A lever before that: of ten, three for the movement at
//! an angle and three for a change at one; then the angle.

use super::conditions::{Conditions, length_of};
use super::draw::Draw;
use super::question::Question;
use super::sight::Role;
use crate::exact::Quanta;
use crate::instrument::{Dial, Face, Instrument, Variant};
use crate::reading::change::{collar, indicator, lever};
use crate::reading::{Angle, Asks, Change, Turned};

/// The question as it was drawn, or one about a change in its place.
pub(super) fn changed(question: Question, tool: &Instrument, draw: &mut Draw) -> Question {
    let drawn = match (collar(tool), indicator(tool)) {
        (Some(dial), _) => handwheel(tool, dial, question.setting, draw),
        (None, Some(dial)) => comparison(tool, dial, question.setting, draw),
        (None, None) => None,
    };
    match drawn {
        None => question,
        Some((asks, change)) => asking(question, tool, asks, change),
    }
}

fn asking(question: Question, tool: &Instrument, asks: Asks, change: Change) -> Question {
    let conditions = Conditions { change, ..question.conditions.clone() };
    Question { asks, ..question.under(tool, conditions) }
}

fn handwheel(tool: &Instrument, dial: &Dial, end: Quanta, draw: &mut Draw) -> Option<(Asks, Change)> {
    if draw.below(10) >= 6 {
        return None;
    }
    let turned = match draw.below(4) {
        0 | 1 => Turned::On,
        2 => Turned::Back,
        _ => Turned::OnAgain,
    };
    let start = setting(tool, draw);
    let passed = i64::from(draw.below(3));
    let slack = dial.division * (i64::from(draw.below(7)) + 2);
    let diameter = draw.below(3) < 2 && dial.takes.is_some() && turned != Turned::Back;
    // Standing on the 0, nobody could say whether it has come past: a collar set to 0 is turned on, less than a turn.
    let set = start == Quanta::ZERO && end > start;
    if (start == Quanta::ZERO || end == Quanta::ZERO) && !(set && turned != Turned::Back) {
        return None;
    }
    let passed = if set { 0 } else { passed };
    let mut change = Change { start: Some(start), passed, turned, slack, angle: None };
    if change.collar(dial, end) <= change.lost() {
        change.passed += 1;
    }
    Some((if diameter { Asks::Diameter } else { Asks::Travel }, change))
}

fn comparison(tool: &Instrument, dial: &Dial, end: Quanta, draw: &mut Draw) -> Option<(Asks, Change)> {
    if lever(tool).is_some() {
        let kind = draw.below(10);
        if kind < 6 {
            let angles = u32::try_from(Angle::all().len()).expect("a short table");
            let angle = Angle::all().nth(usize::try_from(draw.below(angles)).expect("a small number"));
            let start = (kind >= 3).then(|| about(tool, dial, end, draw));
            let asks = if start.is_some() { Asks::Change } else { Asks::Movement };
            return Some((asks, Change { start, angle, ..Change::default() }));
        }
    }
    if draw.below(10) >= 4 {
        return None;
    }
    let start = Some(about(tool, dial, end, draw));
    Some((Asks::Change, Change { start, ..Change::default() }))
}

/// Any setting.
fn setting(tool: &Instrument, draw: &mut Draw) -> Quanta {
    let settings = (tool.high - tool.low).passed(tool.step) + 1;
    let settings = u32::try_from(settings).expect("the definition was checked: a bounded number of settings");
    tool.low + tool.step * i64::from(draw.below(settings))
}

/// Where it may have stood on the master.
fn about(tool: &Instrument, dial: &Dial, end: Quanta, draw: &mut Draw) -> Quanta {
    let (middle, reach) = match dial.face {
        Face::Balanced => (Quanta::ZERO, 30),
        Face::Continuous => (end, 120),
    };
    let steps = i64::from(draw.below(2 * reach + 1)) - i64::from(reach);
    (middle + tool.step * steps).max(tool.low).min(tool.high)
}

/// A question with the longest tags that can hang on a tool; none where none do.
pub fn fullest(tool: &Instrument, number: u32) -> Option<Question> {
    let plain = Question::new(tool, number, tool.low, Quanta::ZERO, Variant::default());
    if let Some(dial) = collar(tool) {
        let slack = dial.division * 8;
        let change = Change { start: Some(tool.low), passed: 3, turned: Turned::OnAgain, slack, angle: None };
        return Some(asking(plain, tool, Asks::Travel, change));
    }
    lever(tool).map(|_| {
        let change = Change { start: Some(tool.low), angle: Angle::of(60), ..Change::default() };
        asking(plain, tool, Asks::Change, change)
    })
}

/// What is written on the tags of a picture. The turns stand there as strokes: counting them is part of the work.
pub(super) fn tags(change: &Change, tool: &Instrument, role: Role) -> Vec<String> {
    let mut tags = Vec::new();
    if let Some(angle) = change.angle {
        tags.push(format!("stylus at {} degrees to the work", angle.degrees()));
    }
    if collar(tool).is_none() || change.start.is_none() {
        return tags;
    }
    if change.slack != Quanta::ZERO {
        tags.push(format!("slack {}", tool.spell_with_unit(change.slack)));
    }
    if role == Role::Measuring {
        let strokes = "|".repeat(usize::try_from(change.passed).unwrap_or(0));
        tags.push(if strokes.is_empty() {
            "0 not passed".to_owned()
        } else {
            format!("passed 0: {strokes}")
        });
        tags.push(
            match change.turned {
                Turned::On => "turned on",
                Turned::Back => "turned back",
                Turned::OnAgain => "turned on, then a turn back and on again",
            }
            .to_owned(),
        );
    }
    tags
}

/// As a record spells it: `start=0.094 in`, `turned=back`, `passed=2`, `slack=0.006 in`, `angle=30`; what is not so is left out.
pub(super) fn words(change: &Change, tool: &Instrument) -> Vec<String> {
    let mut words = Vec::new();
    words.extend(change.start.map(|start| format!("start={}", tool.spell_with_unit(start))));
    if change.turned != Turned::On {
        words.push(format!("turned={}", change.turned.word()));
    }
    if change.passed != 0 {
        words.push(format!("passed={}", change.passed));
    }
    if change.slack != Quanta::ZERO {
        words.push(format!("slack={}", tool.spell_with_unit(change.slack)));
    }
    words.extend(change.angle.map(|angle| format!("angle={}", angle.degrees())));
    words
}

/// Takes one of those; `None` for one that is none of ours.
pub(super) fn take(change: &mut Change, name: &str, value: &str, tool: &Instrument) -> Option<()> {
    match name {
        "start" => change.start = Some(length_of(value, tool)?),
        "turned" => change.turned = Turned::from_word(value)?,
        "passed" => change.passed = value.parse().ok().filter(|passed| *passed >= 0)?,
        "slack" => change.slack = length_of(value, tool)?,
        "angle" => change.angle = Some(Angle::of(value.parse().ok()?)?),
        _ => return None,
    }
    Some(())
}
