//! The places in a lesson's sentences, filled from the reading.
//!
//! | place | filled with |
//! |---|---|
//! | `{reading}` | the whole reading, with its unit |
//! | `{sum}` | its parts and their sum |
//! | `{stage NAME}` | what a stage shows |
//! | `{figure NAME}`, `{large NAME}` | the figure last passed on a straight scale, the large one |
//! | `{count NAME}` | the lines after that figure |
//! | `{line NAME}` | the number of the line read on a thimble, a dial, a vernier |
//! | `{least}`, `{division NAME}`, `{turn NAME}`, `{part NAME}` | lengths of the tool |
//! | `{times N LENGTH}` | so many of one of those |
//! | `{parts NAME}`, `{over NAME}` | divisions of a round scale or a vernier; divisions that a vernier spans |
//! | `{low}`, `{high}` | the ends of the range |
//! | `{at N}` | the reading at the point of the step with that number, from 1 |
//! | `{less N M}` | the reading at point N less that at point M |
//! | `{slip ID}` | what somebody reads who makes that slip, by its id in `list misreads` |

use super::{Fault, Point, Step};
use crate::exact::Quanta;
use crate::instrument::{Form, Instrument, NumeralSize, Stage};
use crate::reading::{Asks, Case, Change, ShareKind, misread};

impl Step {
    /// Its sentences with every place filled.
    pub fn said(&self, point: &Point) -> Result<String, Fault> {
        fill(&self.say, point)
    }
}

/// A sentence with every place filled.
pub(super) fn fill(text: &str, point: &Point) -> Result<String, Fault> {
    let mut filled = String::new();
    let mut rest = text;
    while let Some((before, after)) = rest.split_once('{') {
        filled.push_str(before);
        let (place, after) = after.split_once('}').ok_or_else(|| Fault::NoPlace(after.to_owned()))?;
        filled.push_str(&value(place, point).ok_or_else(|| Fault::NoPlace(place.to_owned()))?);
        rest = after;
    }
    filled.push_str(rest);
    Ok(filled)
}

fn value(place: &str, point: &Point) -> Option<String> {
    let stand = &point.stand;
    let tool = &stand.tool;
    let (word, name) = place.split_once(' ').unwrap_or((place, ""));
    let shares = || {
        let stage = stage_of(tool, name);
        stand.shares.iter().filter(move |share| Some(share.stage) == stage)
    };
    let figure = |wanted: NumeralSize| {
        let of = |kind: &ShareKind| match *kind {
            ShareKind::Figure { figure, size } if size == wanted => Some(figure.to_string()),
            _ => None,
        };
        shares().filter_map(|share| of(&share.kind)).next_back()
    };
    let at = |number: &str| point.readings.get(number.parse::<usize>().ok()?.checked_sub(1)?).copied();
    match word {
        "reading" => Some(tool.spell_with_unit(stand.reading.total)),
        "sum" => Some(sum(point)),
        "stage" => Some(tool.spell_with_unit(stand.shown_by(stage_of(tool, name)?)?)),
        "figure" => figure(NumeralSize::Small).or_else(|| figure(NumeralSize::Large)),
        "large" => figure(NumeralSize::Large),
        "count" => shares().find_map(|share| match share.kind {
            ShareKind::Lines { count } => Some(count.to_string()),
            _ => None,
        }),
        "line" => shares().find_map(|share| line_number(&share.kind)).map(|line| line.to_string()),
        "low" => Some(tool.spell_with_unit(tool.low)),
        "high" => Some(tool.spell_with_unit(tool.high)),
        "parts" => parts(tool, name).map(|parts| parts.to_string()),
        "over" => match &form(tool, name)? {
            Form::Vernier(vernier) => Some(vernier.over.to_string()),
            Form::Line(_) | Form::Drum(_) | Form::Dial(_) | Form::Fixed(_) => None,
        },
        "at" => at(name).map(|at| tool.spell_with_unit(at)),
        "less" => {
            let (more, less) = name.split_once(' ')?;
            Some(tool.spell_with_unit(at(more)? - at(less)?))
        }
        "slip" => slip(point, name),
        "times" => {
            let (count, of) = name.split_once(' ')?;
            Some(tool.spell_with_unit(length(tool, of)? * count.parse::<i64>().ok()?))
        }
        _ => length(tool, place).map(|length| tool.spell_with_unit(length)),
    }
}

/// The number of the line that a share is read at.
pub(super) fn line_number(kind: &ShareKind) -> Option<i64> {
    match kind {
        ShareKind::DrumLine { line } | ShareKind::DialLine { line, .. } | ShareKind::VernierLine { line } => {
            Some(*line)
        }
        _ => None,
    }
}

/// The number of the stage of a name.
pub(super) fn stage_of(tool: &Instrument, name: &str) -> Option<usize> {
    tool.stages.iter().position(|stage: &Stage| stage.name == name)
}

fn form<'a>(tool: &'a Instrument, name: &str) -> Option<&'a Form> {
    stage_of(tool, name).map(|stage| &tool.stages[stage].form)
}

fn parts(tool: &Instrument, name: &str) -> Option<i64> {
    match form(tool, name)? {
        Form::Drum(drum) => Some(drum.parts),
        Form::Dial(dial) => Some(dial.parts),
        Form::Vernier(vernier) => Some(vernier.parts),
        Form::Line(_) | Form::Fixed(_) => None,
    }
}

fn length(tool: &Instrument, of: &str) -> Option<Quanta> {
    let (word, name) = of.split_once(' ').unwrap_or((of, ""));
    match (word, form(tool, name)) {
        ("least", None) => Some(tool.least_count),
        ("division", Some(Form::Line(line))) => Some(line.division),
        ("division", Some(Form::Drum(drum))) => Some(drum.division),
        ("division", Some(Form::Dial(dial))) => Some(dial.division),
        ("turn", Some(Form::Drum(drum))) => Some(drum.turn()),
        ("turn", Some(Form::Dial(dial))) => Some(dial.turn()),
        ("part", Some(Form::Vernier(vernier))) => Some(vernier.part),
        _ => None,
    }
}

fn sum(point: &Point) -> String {
    let stand = &point.stand;
    let mut text = String::new();
    for share in stand.shares.iter().filter(|share| share.value != Quanta::ZERO) {
        let below = share.value < Quanta::ZERO;
        text.push_str(match (text.is_empty(), below) {
            (true, false) => "",
            (true, true) => "-",
            (false, false) => " + ",
            (false, true) => " - ",
        });
        text.push_str(&stand.tool.spell(if below { -share.value } else { share.value }));
    }
    format!("{text} = {}", stand.tool.spell_with_unit(stand.reading.total))
}

fn slip(point: &Point, id: &str) -> Option<String> {
    let stand = &point.stand;
    let case = Case {
        instrument: &stand.tool,
        pose: &stand.pose,
        reading: &stand.reading,
        zero_error: Quanta::ZERO,
        asks: Asks::Reading,
        change: Change::default(),
    };
    let known = misread::ALL.into_iter().find(|known| known.id == id)?;
    let wrong = (known.answers)(&case).into_iter().next()?;
    Some(stand.tool.notation.spell_with_unit(wrong.answer, stand.tool.unit))
}
