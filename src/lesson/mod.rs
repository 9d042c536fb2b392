//! Floor 3. Lessons: how a tool is built and how it is read, step by step, with the picture moving.
//!
//! | type | what it is |
//! |---|---|
//! | [`Lesson`] | one file of `assets/lessons`: the tool it is given on, the tools it is for, its steps |
//! | [`Step`] | settings of the tool, a few sentences, lines that are lit, perhaps a question |
//! | [`Wanted`] | what a question of a lesson asks for |
//!
//! No number is written into a lesson: its sentences hold places that are filled from the reading (see [`Step::said`]).

mod fill;
mod lit;
mod shelf;
mod wanted;

pub use shelf::{all, lesson_for};
pub use wanted::Wanted;

use crate::exact::{Quanta, Quantity};
use crate::instrument::{Catalogue, Form, Instrument, Zero};
use crate::reading::Stand;
use serde::Deserialize;
use thiserror::Error;

/// A lesson.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Lesson {
    /// Its id, `micrometer-metric`.
    pub id: String,
    /// What it teaches, in a few words.
    pub title: String,
    /// The family of tools that it is for.
    pub family: String,
    /// The instrument that it is given on, as it is shipped.
    pub on: String,
    /// The instruments whose lesson it is.
    pub teaches: Vec<String>,
    /// Which variant of the tool; empty for the one that is drawn when nobody chooses.
    #[serde(default)]
    pub variant: String,
    /// What must be kept in mind when the tool is in the hand, one sentence.
    pub caution: String,
    /// Where its facts are published, or that they are common practice.
    pub source: String,
    /// The steps.
    #[serde(rename = "step")]
    pub steps: Vec<Step>,
}

/// A step of a lesson.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Step {
    /// Where the tool stands: one setting, or several that are gone through.
    pub at: Vec<String>,
    /// The sentences, with places to be filled.
    pub say: String,
    /// What is lit: a stage, `sleeve`, or one of its lines, `vernier line 1`.
    #[serde(default)]
    pub light: Vec<String>,
    /// The edge shows its line so many thimble divisions early, or late below nought.
    #[serde(default)]
    pub edge: i64,
    /// Which variant, where it is not the lesson's.
    pub variant: Option<String>,
    /// What must be answered before it goes on.
    pub ask: Option<Ask>,
}

/// A question of a lesson.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Ask {
    /// The question.
    pub question: String,
    /// What is asked for: `reading`, `stage sleeve`, `figure sleeve`, `line vernier`, `less 2 1`, `least`.
    pub answer: String,
    /// What is said when it has been answered.
    pub then: String,
}

/// What is wrong with a lesson. The shipped ones are all checked by a test.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum Fault {
    /// The tool it is given on is not shipped.
    #[error("there is no instrument {0}")]
    NoInstrument(String),
    /// The tool does not come so.
    #[error("the tool has no variant {0}")]
    NoVariant(String),
    /// Not a setting.
    #[error("{0} is no setting")]
    NoSetting(String),
    /// A place in a sentence that cannot be filled.
    #[error("nothing fills the place {0}")]
    NoPlace(String),
    /// Something to be lit that is not there.
    #[error("there is no {0} to light")]
    NoLine(String),
    /// A question for something that is not there.
    #[error("nobody can be asked for {0}")]
    NoAnswer(String),
}

/// Where a lesson's tool stands at one point of a step.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Point {
    /// The tool there.
    pub stand: Stand,
    /// The readings of all points of the step, in order.
    pub readings: Vec<Quanta>,
}

impl Lesson {
    /// The tool that it is given on, as it is shipped: what somebody has put in its place may be built otherwise.
    pub fn tool(&self) -> Result<Instrument, Fault> {
        let shipped = Catalogue::new(Vec::new());
        shipped.get(&self.on).cloned().ok_or_else(|| Fault::NoInstrument(self.on.clone()))
    }

    /// Where the tool stands at a point of a step, both counted from 0; what lies beyond the last is the last.
    pub fn point(&self, tool: &Instrument, step: usize, point: usize) -> Result<Point, Fault> {
        let step = &self.steps[step.min(self.steps.len() - 1)];
        let word = step.variant.as_ref().unwrap_or(&self.variant);
        let variant = tool.variant(word).ok_or_else(|| Fault::NoVariant(word.clone()))?;
        let fitted = tool.fitted(&variant);
        let settings = step.at.iter().map(|text| setting(&fitted, text)).collect::<Result<Vec<_>, _>>()?;
        let at = settings.get(point).or(settings.last());
        let at = *at.ok_or_else(|| Fault::NoSetting(String::new()))?;
        let stand = Stand::new(tool, &variant, at, lead(&fitted, step.edge));
        Ok(Point { stand, readings: settings })
    }
}

/// A setting of the range, or a little below it on a tool whose zero can be off.
fn setting(tool: &Instrument, text: &str) -> Result<Quanta, Fault> {
    /// So many least counts may a closed tool read below nought.
    const BELOW: i64 = 5;
    let fault = || Fault::NoSetting(text.to_owned());
    let quantity =
        Quantity::parse(text).ok().filter(|quantity| quantity.unit == tool.unit).ok_or_else(fault)?;
    let at = tool.lattice.at(quantity.value).ok_or_else(fault)?;
    let below = match tool.zero {
        Zero::CanBeOff => tool.least_count * BELOW,
        Zero::None => Quanta::ZERO,
    };
    let known = at >= tool.low - below && at <= tool.high && (at - tool.low).is_multiple_of(tool.step);
    if known { Ok(at) } else { Err(fault()) }
}

/// How far the edge leads, from so many thimble divisions.
fn lead(tool: &Instrument, divisions: i64) -> Quanta {
    let division = tool.stages.iter().find_map(|stage| match &stage.form {
        Form::Drum(drum) => Some(drum.division),
        Form::Line(_) | Form::Dial(_) | Form::Vernier(_) | Form::Fixed(_) => None,
    });
    division.map_or(Quanta::ZERO, |division| division * divisions)
}

#[cfg(test)]
mod tests;
