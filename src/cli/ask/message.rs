//! The messages of the stream of questions at a bench, out and in.

use crate::class::sitting::End;
use crate::class::verdict::Outcome;
use crate::drill::set::{Allowed, Feedback};
use serde::{Deserialize, Serialize};

/// What goes out.
#[derive(Serialize)]
#[serde(rename_all = "lowercase")]
pub(super) enum Message<'a> {
    Linefall(HeadOut),
    Question(Box<QuestionOut<'a>>),
    Picture(PictureOut),
    Mark(MarkOut<'a>),
    Again {
        id: &'a str,
        why: String,
    },
    Error {
        line: u64,
        why: String,
    },
    /// It was answered; what was right is told at the end.
    Taken {
        id: &'a str,
    },
    Summary {
        complete: bool,
        asked: u32,
        right: u32,
        diagnosis: (),
        #[serde(skip_serializing_if = "Option::is_none")]
        outcome: Option<OutcomeOut>,
    },
}

#[derive(Serialize)]
pub(super) struct HeadOut {
    pub(super) stream: u32,
    pub(super) seed: u64,
    pub(super) choose: &'static str,
    pub(super) count: u32,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) set: Option<SetHeadOut>,
    pub(super) kinds: Vec<KindOut>,
    pub(super) misreads: Vec<Named>,
}

/// Which drill set is asked.
#[derive(Serialize)]
pub(super) struct SetHeadOut {
    pub(super) id: String,
    pub(super) title: String,
    pub(super) revision: String,
    pub(super) feedback: Feedback,
    pub(super) glass: Allowed,
    pub(super) seconds: Option<u32>,
}

/// What a set comes to.
#[derive(Serialize)]
pub(super) struct OutcomeOut {
    /// Whole questions answered, and those right in all their parts.
    pub(super) questions: u32,
    pub(super) right: u32,
    pub(super) end: End,
    pub(super) stands: Outcome,
}

#[derive(Serialize)]
pub(super) struct KindOut {
    pub(super) kind: &'static str,
    pub(super) name: &'static str,
}

#[derive(Serialize)]
pub(super) struct Named {
    pub(super) id: &'static str,
    pub(super) name: &'static str,
}

#[derive(Serialize)]
pub(super) struct QuestionOut<'a> {
    pub(super) id: &'a str,
    pub(super) n: u32,
    pub(super) kind: &'static str,
    pub(super) part: [usize; 2],
    pub(super) instrument: &'a str,
    pub(super) revision: &'a str,
    pub(super) asks: &'static str,
    pub(super) prompt: String,
    pub(super) given: Vec<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) sketch: Option<SketchOut>,
    pub(super) unit: &'static str,
    pub(super) least_count: String,
    pub(super) pictures: Vec<PictureOut>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub(super) choices: Vec<ChoiceOut>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) set: Option<SetOut>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) reveal: Option<RevealOut>,
}

/// Base, blade and work, where the part's angle is asked for.
#[derive(Serialize)]
pub(super) struct SketchOut {
    pub(super) text: [&'static str; 5],
    pub(super) description: &'static str,
}

#[derive(Serialize)]
pub(super) struct ChoiceOut {
    pub(super) n: usize,
    pub(super) text: String,
}

/// Which size is to be set, and the finest move. Where the tool stands is for the eye.
#[derive(Serialize)]
pub(super) struct SetOut {
    pub(super) to: String,
    pub(super) fine: String,
}

#[derive(Serialize)]
pub(super) struct PictureOut {
    pub(super) role: &'static str,
    pub(super) cols: u16,
    pub(super) rows: u16,
    pub(super) lines: &'static str,
    pub(super) lens: Option<i64>,
    pub(super) text: Vec<String>,
    pub(super) description: String,
}

#[derive(Serialize)]
pub(super) struct RevealOut {
    pub(super) expected: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) choice: Option<usize>,
}

#[derive(Serialize)]
pub(super) struct MarkOut<'a> {
    pub(super) id: &'a str,
    pub(super) kind: &'static str,
    pub(super) right: bool,
    pub(super) verdict: &'static str,
    pub(super) answer: String,
    pub(super) expected: String,
    pub(super) misreads: Vec<&'static str>,
    pub(super) told: String,
    pub(super) why: Vec<String>,
}

/// What comes in.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Input {
    pub(super) id: String,
    pub(super) answer: Option<String>,
    pub(super) choose: Option<usize>,
    #[serde(rename = "move")]
    pub(super) by: Option<String>,
    pub(super) lock: Option<bool>,
    pub(super) loosen: Option<bool>,
    pub(super) done: Option<bool>,
    pub(super) lens: Option<i64>,
    /// Over which of the pictures, from 1.
    pub(super) picture: Option<usize>,
    pub(super) skip: Option<bool>,
}
