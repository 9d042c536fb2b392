//! Scales figured both ways from their nought, and what they are set up for.
//!
//! A protractor's disc is figured both ways; which way its nought has moved is a variant, `direction=left` or
//! `direction=right`. The tool of a variant is the one whose figures grow that way from its nought.

use super::{Change, Course, Figured, Form, Instrument, Offer, Way};
use crate::exact::Exact;
use std::ops::RangeInclusive;

/// How a protractor stands to the angle that is asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum SetUp {
    /// The work lies in the angle that is read.
    AsRead,
    /// The angle that makes a right angle with it is asked for.
    Complement,
    /// The work lies on the other side of the blade.
    Supplement,
}

impl SetUp {
    /// The words used in files.
    pub const WORDS: [(&'static str, Self); 3] =
        [("as-read", Self::AsRead), ("complement", Self::Complement), ("supplement", Self::Supplement)];

    /// The part's angle in minutes of arc, from what is read.
    pub fn angle(self, reading: Exact) -> Exact {
        const RIGHT_ANGLE: i128 = 90 * 60;
        match self {
            Self::AsRead => reading,
            Self::Complement => Exact::whole(RIGHT_ANGLE) - reading,
            Self::Supplement => Exact::whole(2 * RIGHT_ANGLE) - reading,
        }
    }
}

/// The words of a direction.
const DIRECTIONS: [(&str, Course); 2] = [("right", Course::Rightward), ("left", Course::Leftward)];
/// The key of the direction in a variant.
pub const DIRECTION: &str = "direction";

impl Offer {
    /// The two ways in which the nought of a scale figured both ways can have moved.
    pub(super) fn of_direction() -> Self {
        let way =
            |(word, course): (&str, Course)| Way { word: word.to_owned(), change: Change::Direction(course) };
        Self { key: DIRECTION.to_owned(), ways: DIRECTIONS.map(way).into() }
    }
}

impl Instrument {
    /// True where the first scale is figured both ways: its nought can move to either side.
    pub fn is_both_ways(&self) -> bool {
        let both = |form: &Form| matches!(form, Form::Line(line) if line.figured == Figured::BothWays);
        self.stages.iter().any(|stage| both(&stage.form))
    }

    /// Lets the figures of a scale figured both ways grow to one side of its nought.
    pub(super) fn turn_to(&mut self, course: Course) {
        for stage in &mut self.stages {
            if let Form::Line(line) = &mut stage.form
                && line.figured == Figured::BothWays
            {
                line.runs = course;
            }
        }
    }

    /// The numbers of the vernier lines that a glass can be put on: on a double vernier those to the right of its 0 are
    /// positive whatever is read, those to the left negative. `None` without a vernier.
    pub fn vernier_lines(&self) -> Option<RangeInclusive<i64>> {
        self.stages.iter().rev().find_map(|stage| match &stage.form {
            Form::Vernier(vernier) => Some(match vernier.figured {
                Figured::OneWay => 0..=vernier.parts,
                Figured::BothWays => -vernier.parts..=vernier.parts,
            }),
            Form::Line(_) | Form::Drum(_) | Form::Dial(_) | Form::Fixed(_) => None,
        })
    }

    /// The number by which the glass knows a line of the half that is read.
    pub fn glass_line(&self, line: i64) -> i64 {
        let double = self.vernier_lines().is_some_and(|lines| *lines.start() < 0);
        if double && self.figures_grow_left() { -line } else { line }
    }

    /// True where vernier lines with higher numbers lie further left for the glass.
    pub fn glass_runs_leftward(&self) -> bool {
        let lines = self.vernier_lines();
        if lines.is_none_or(|lines| *lines.start() < 0) {
            return false;
        }
        let backward =
            |form: &Form| matches!(form, Form::Vernier(vernier) if vernier.runs == super::Runs::Backward);
        self.figures_grow_left() != self.stages.iter().any(|stage| backward(&stage.form))
    }

    fn figures_grow_left(&self) -> bool {
        let leftward = |form: &Form| matches!(form, Form::Line(line) if line.runs == Course::Leftward);
        self.stages.iter().any(|stage| leftward(&stage.form))
    }
}
