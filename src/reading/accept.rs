//! Which answers are right: one value, or a band where something is judged between lines.

use super::misread::Case;
use super::pose::StagePose;
use super::read::{Seen, division_before};
use crate::exact::{Exact, Quanta};
use crate::instrument::Form;

/// The answers that are right, both ends included.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Accepted {
    /// The lowest.
    pub low: Exact,
    /// The highest.
    pub high: Exact,
}

impl Accepted {
    /// One value and no other.
    pub fn only(value: Exact) -> Self {
        Self { low: value, high: value }
    }

    /// Whether a value is among them.
    pub fn holds(self, value: Exact) -> bool {
        self.low <= value && value <= self.high
    }

    /// Whether there is more than one.
    pub fn is_band(self) -> bool {
        self.low < self.high
    }

    /// The same band about another value.
    #[must_use]
    pub fn moved(self, by: Exact) -> Self {
        Self { low: self.low + by, high: self.high + by }
    }
}

impl Case<'_> {
    /// The answers that are right.
    ///
    /// An estimated digit has the band that the definition states. A tool that stands between its lines and is read at the
    /// nearest one, or by the best pair, also accepts who judges more than it gives: whatever lies from the line to where it
    /// stands, as far beyond as an estimate may be off; half way between two, either of them.
    pub fn accepted(&self) -> Accepted {
        let expected = self.expected();
        let tool = self.instrument;
        let slack = tool.estimate_step().zip(tool.estimate);
        let slack =
            slack.map_or(Exact::ZERO, |(step, estimate)| step * Exact::whole(i128::from(estimate.accept)));
        if tool.is_estimated() {
            return Accepted { low: expected - slack, high: expected + slack };
        }
        let Some((beyond, apart)) = self.beyond_the_line().filter(|(beyond, _)| *beyond != Quanta::ZERO)
        else {
            return Accepted::only(expected);
        };
        let value = |at: Quanta| tool.value(at);
        let (mut low, mut high) =
            (Exact::ZERO.min(value(beyond) - slack), Exact::ZERO.max(value(beyond) + slack));
        if beyond + beyond >= apart {
            high = high.max(value(apart));
        }
        if -(beyond + beyond) >= apart {
            low = low.min(-value(apart));
        }
        Accepted { low: expected + low, high: expected + high }
    }

    /// How far the finest stage stands beyond the line that is read, and how far its lines are apart in value.
    fn beyond_the_line(&self) -> Option<(Quanta, Quanta)> {
        let step = self.reading.steps.iter().rev().find(|step| step.seen != Seen::Fixed)?;
        let stage = step.stage;
        Some(match (&self.instrument.stages[stage].form, self.pose.stages[stage], &step.seen) {
            (Form::Line(line), StagePose::Line { index }, Seen::Nearest(at)) => (index - *at, line.division),
            (Form::Drum(drum), StagePose::Drum { index }, Seen::Nearest(at)) => (index - *at, drum.division),
            (Form::Dial(dial), StagePose::Dial { hand }, Seen::Nearest(at)) => (hand - *at, dial.division),
            (Form::Vernier(vernier), StagePose::Vernier { zero }, Seen::InLine { taken, .. }) => {
                let division = division_before(self.instrument, stage);
                (zero.left_of(division) - vernier.least_count * *taken, vernier.least_count)
            }
            _ => return None,
        })
    }
}
