//! Which answers are right: one value, or a band where something is judged between lines.

use super::asks::Asks;
use super::misread::Case;
use super::pose::StagePose;
use super::read::{Seen, division_before};
use crate::exact::{Exact, Quanta};
use crate::instrument::Form;

impl Case<'_> {
    /// From where to where an answer is accepted.
    ///
    /// The product with an angle's factor is finer than anybody reads: half a least count either way is as good. An estimated digit has the band that the definition states. A tool that stands between its lines and is read at the
    /// nearest one, or by the best pair, also accepts who judges more than it gives: whatever lies from the line to where it
    /// stands, as far beyond as an estimate may be off; half way between two, either of them.
    pub fn accepted(&self) -> [Exact; 2] {
        let expected = self.expected();
        let tool = self.instrument;
        match (self.asks, self.change.angle) {
            (Asks::Change | Asks::Movement, Some(_)) => {
                let half = tool.value(tool.least_count) * Exact::ratio(1, 2);
                return [expected - half, expected + half];
            }
            (Asks::Reading | Asks::Corrected | Asks::ZeroError, _) => {}
            _ => return [expected; 2],
        }
        let slack = tool.estimate_step().zip(tool.estimate);
        let slack =
            slack.map_or(Exact::ZERO, |(step, estimate)| step * Exact::whole(i128::from(estimate.accept)));
        if tool.is_estimated() {
            return [expected - slack, expected + slack];
        }
        let Some((beyond, apart)) = self.beyond_the_line().filter(|(beyond, _)| *beyond != Quanta::ZERO)
        else {
            return [expected; 2];
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
        [expected + low, expected + high]
    }

    /// Whether an answer is accepted.
    pub fn accepts(&self, answer: Exact) -> bool {
        let [low, high] = self.accepted();
        low <= answer && answer <= high
    }

    /// Whether an answer is one that is looked for: the same, or as near to it as is accepted of a right one.
    pub fn near(&self, looked_for: Exact, answer: Exact) -> bool {
        self.accepts(answer - looked_for + self.expected())
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
