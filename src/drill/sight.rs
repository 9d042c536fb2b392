//! The pictures of a question: those seen first, and the one that is measured from.

use super::change;
use super::question::Question;
use crate::exact::Quanta;
use crate::instrument::{Instrument, Variant};
use crate::reading::{Asks, Pose, pose};

/// What a picture of a question shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Role {
    /// The tool closed, or on the standard that it begins at.
    Closed,
    /// On the master, or before the cut: what a change is counted from.
    Start,
    /// The slide that is set first, by itself.
    Height,
    /// The tool on the work.
    Measuring,
}

impl Role {
    /// The word used in streams.
    pub fn word(self) -> &'static str {
        match self {
            Self::Closed => "closed",
            Self::Start => "start",
            Self::Height => "height",
            Self::Measuring => "measuring",
        }
    }
}

/// One picture of a question: a tool standing somewhere.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Sight {
    /// What it shows.
    pub role: Role,
    /// The tool, with what is fitted to it.
    pub tool: Instrument,
    /// Which maker's variant of it.
    pub variant: Variant,
    /// Where everything stands.
    pub pose: Pose,
    /// What is written on tags that hang on it.
    pub tags: Vec<String>,
}

impl Question {
    /// What is seen before the work, in order. `tool` is the fitted tool of this question.
    pub fn earlier(&self, tool: &Instrument) -> Vec<Sight> {
        let mut all = Vec::new();
        if self.asks == Asks::Corrected && self.zero_error != Quanta::ZERO {
            all.push(self.sight(tool, Role::Closed, tool.low + self.zero_error));
        }
        all.extend(self.conditions.change.start.map(|start| self.sight(tool, Role::Start, start)));
        if let (Some(other), Some(pose)) = (tool.own_slide(), &self.pose.beside) {
            let (tool, pose) = (other.tool.clone(), pose.as_ref().clone());
            all.push(Sight { role: Role::Height, variant: tool.plain(), tool, pose, tags: Vec::new() });
        }
        all
    }

    /// What is measured from.
    pub fn measuring(&self, tool: &Instrument) -> Sight {
        let pose = self.pose.clone();
        self.seen(tool, Role::Measuring, pose)
    }

    pub(super) fn sight(&self, tool: &Instrument, role: Role, setting: Quanta) -> Sight {
        let pose = pose(tool, setting, self.conditions.lead);
        self.seen(tool, role, pose)
    }

    fn seen(&self, tool: &Instrument, role: Role, pose: Pose) -> Sight {
        let tags = change::tags(&self.conditions.change, tool, role);
        Sight { role, tool: tool.clone(), variant: self.variant.clone(), pose, tags }
    }
}
