//! What questions that were drawn have in common.

use super::Asked;
use crate::drill::record::Attempt;
use crate::drill::{Kind, Put, trap};
use crate::exact::Quanta;
use crate::instrument::{Catalogue, Form, Instrument};
use crate::reading::Seen;
use serde::Serialize;
use std::collections::BTreeSet;

/// A family of questions: what an instrument, a kind, and perhaps something about where it stands have in common. A question may
/// belong to several.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub struct Family {
    /// The instrument's id.
    pub instrument: String,
    /// The kind of question.
    pub kind: Kind,
    /// What it is about; none for all of the kind.
    pub feature: Option<Feature>,
}

/// Something about where a tool stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Feature {
    /// The zero is off and has to be allowed for.
    ZeroOff,
    /// A half line shows beyond the whole one.
    HalfLineShows,
    /// No half line shows.
    NoHalfLine,
    /// The thimble is in the first tenth of its turn.
    ThimbleNearZero,
    /// In the middle.
    ThimbleMiddle,
    /// In the last tenth.
    ThimbleHigh,
    /// The vernier line taken is in its first half.
    VernierLow,
    /// In its second half.
    VernierHigh,
    /// A gross slip is near: just under or over a full turn or line.
    NearALine,
}

/// Of a turn one part in so many counts as its beginning, and as its end.
const TENTH: i64 = 10;

impl Family {
    /// Whether a question belongs to it.
    pub(super) fn holds(&self, asked: &Asked<'_>) -> bool {
        let of_it = |attempt: &&Attempt| attempt.instrument == self.instrument && attempt.kind == self.kind;
        asked.parts.first().is_some_and(of_it)
            && self.feature.is_none_or(|feature| asked.features.contains(&feature))
    }
}

/// The families there are among the questions of all papers.
pub(super) fn all(papers: &[&Vec<Asked<'_>>]) -> Vec<Family> {
    let mut all = BTreeSet::new();
    for asked in papers.iter().flat_map(|paper| paper.iter()) {
        let Some(attempt) = asked.parts.first() else { continue };
        let of = |feature| Family { instrument: attempt.instrument.clone(), kind: attempt.kind, feature };
        all.insert(of(None));
        all.extend(asked.features.iter().map(|feature| of(Some(*feature))));
    }
    all.into_iter().collect()
}

/// What is to be said about where the tool stood; nothing where its definition was changed since.
pub(super) fn features(attempt: &Attempt, catalogue: &Catalogue) -> BTreeSet<Feature> {
    let mut all = BTreeSet::new();
    if attempt.kind != Kind::Read {
        return all;
    }
    let question = catalogue.get(&attempt.instrument).and_then(|tool| Put::of(attempt).question(0, tool));
    let Some((question, tool)) = question else { return all };
    if question.zero_error != Quanta::ZERO {
        all.insert(Feature::ZeroOff);
    }
    if trap::is_trap(&question, &tool) {
        all.insert(Feature::NearALine);
    }
    for step in &question.reading.steps {
        all.extend(of_step(&tool, step.stage, &step.seen, step.value));
    }
    all
}

fn of_step(tool: &Instrument, stage: usize, seen: &Seen, value: Quanta) -> Option<Feature> {
    match (&tool.stages[stage].form, seen) {
        (Form::Line(line), _) => line.whole().map(|whole| {
            if value.is_multiple_of(whole) { Feature::NoHalfLine } else { Feature::HalfLineShows }
        }),
        (Form::Drum(drum), _) => {
            let (turn, at) = (drum.turn(), value.left_of(drum.turn()));
            Some(match at {
                at if at * TENTH < turn => Feature::ThimbleNearZero,
                at if (turn - at) * TENTH <= turn => Feature::ThimbleHigh,
                _ => Feature::ThimbleMiddle,
            })
        }
        (Form::Vernier(vernier), Seen::InLine { taken, .. }) => {
            let half = taken.saturating_mul(2) < vernier.parts;
            Some(if half { Feature::VernierLow } else { Feature::VernierHigh })
        }
        _ => None,
    }
}
