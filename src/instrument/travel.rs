//! Moving a tool by hand: how far it goes at a stroke, where it stops, and which way its reading grows.

use super::{Course, Dial, Drum, Face, Form, Grows, Held, Instrument, Line, NumeralSize, Sense, Turns};
use crate::exact::Quanta;

/// How a tool is moved.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Travel {
    /// The finest setting.
    pub fine: Quanta,
    /// From line to line of the next coarser scale: of the thimble under a vernier, of the sleeve under a plain thimble.
    pub line: Quanta,
    /// Once through the finest scale: a turn, a division of the main scale; on a lone scale from figure to figure.
    pub coarse: Quanta,
    /// From figure to figure of the coarsest scale, where that is more than coarse.
    pub far: Quanta,
    /// The lowest setting.
    pub low: Quanta,
    /// The highest.
    pub high: Quanta,
    /// Where its scales begin: lines are counted from there.
    pub start: Quanta,
    /// What stands beyond the ends.
    pub ends: Ends,
    /// The way the moving member goes, or the hand, as the reading grows.
    pub grows: Heading,
}

/// How far it goes at once.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stroke {
    /// One setting.
    Fine,
    /// To the next line of the next coarser scale, exactly.
    Line,
    /// Once through the finest scale.
    Coarse,
    /// As far as the next figure is.
    Far,
}

/// Which way it is moved.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Toward {
    /// Its reading grows.
    Larger,
    /// Its reading becomes less.
    Smaller,
}

/// What is beyond the ends of the range.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ends {
    /// It stops.
    Stops,
    /// It goes round: a collar that nothing counts the turns of.
    Round,
}

/// A direction on the picture.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Heading {
    /// To the right.
    Right,
    /// To the left.
    Left,
    /// Upward as the tool stands; laid flat, to the right.
    Up,
    /// With the hands of a clock.
    Clockwise,
    /// Against them.
    Anticlockwise,
}

impl Heading {
    /// True where an arrow to the left goes that way.
    pub fn is_leftward(self) -> bool {
        matches!(self, Self::Left | Self::Anticlockwise)
    }
}

impl Travel {
    /// Where a stroke from a setting ends. What would go beyond the range stops at its end.
    #[must_use]
    pub fn moved(&self, at: Quanta, stroke: Stroke, toward: Toward) -> Quanta {
        let by = |length: Quanta| if toward == Toward::Larger { at + length } else { at - length };
        let to = match stroke {
            Stroke::Fine => by(self.fine),
            Stroke::Coarse => by(self.coarse),
            Stroke::Far => by(self.far),
            Stroke::Line => self.next_line(at, toward),
        };
        self.within(to)
    }

    /// Where it stands when it is moved to there: at an end, if that is beyond it.
    #[must_use]
    pub fn within(&self, to: Quanta) -> Quanta {
        match self.ends {
            Ends::Stops => to.max(self.low).min(self.high),
            Ends::Round => self.low + (to - self.low).left_of(self.high + self.fine - self.low),
        }
    }

    /// The setting at which its scales read nought, or the lowest.
    pub fn zero(&self) -> Quanta {
        Quanta::ZERO.max(self.low)
    }

    /// Every setting that comes next to this many fine strokes, for someone who draws one by chance.
    pub fn settings(&self) -> i64 {
        (self.high - self.low).passed(self.fine) + 1
    }

    fn next_line(&self, at: Quanta, toward: Toward) -> Quanta {
        let along = at - self.start;
        let passed = self.start + self.line * along.passed(self.line);
        match toward {
            Toward::Larger => passed + self.line,
            Toward::Smaller if passed == at => passed - self.line,
            Toward::Smaller => passed,
        }
    }
}

impl Instrument {
    /// How it is moved.
    pub fn travel(&self) -> Travel {
        let mut lengths = self.lengths();
        lengths.sort_unstable();
        lengths.dedup();
        let above = |least: Quanta| lengths.iter().copied().find(|length| *length > least);
        let line = above(self.step).unwrap_or(self.step);
        let coarse = self.run_of_finest().filter(|run| *run > self.step).unwrap_or(line);
        Travel {
            fine: self.step,
            line,
            coarse,
            far: above(coarse).unwrap_or(coarse),
            low: self.low,
            high: self.high,
            start: self.start(),
            ends: self.ends(),
            grows: self.heading(),
        }
    }

    /// What the lines and figures of its scales are apart.
    fn lengths(&self) -> Vec<Quanta> {
        let figures = |line: &Line| line.numerals.iter().map(|rule| rule.every).collect::<Vec<_>>();
        let mut all = Vec::new();
        for stage in &self.stages {
            match &stage.form {
                Form::Line(line) => {
                    all.push(line.division);
                    all.extend(figures(line));
                }
                Form::Drum(drum) => all.extend([drum.division, drum.turn()]),
                Form::Dial(dial) => {
                    all.push(dial.division);
                    if dial.turns == Turns::Uncounted {
                        all.extend(dial.numerals.iter().map(|rule| rule.every));
                    }
                }
                Form::Vernier(_) | Form::Fixed(_) => {}
            }
        }
        all
    }

    /// What the finest scale runs through before it begins again.
    fn run_of_finest(&self) -> Option<Quanta> {
        let turn = |form: &Form| match form {
            Form::Drum(drum) => Some(Drum::turn(drum)),
            Form::Dial(dial) if dial.turns != Turns::Uncounted => Some(Dial::turn(dial)),
            Form::Line(_) | Form::Dial(_) | Form::Vernier(_) | Form::Fixed(_) => None,
        };
        let has_vernier = self.stages.iter().any(|stage| matches!(stage.form, Form::Vernier(_)));
        let division = |form: &Form| match form {
            Form::Line(line) if has_vernier => Some(line.division),
            Form::Line(line) => line
                .numerals
                .iter()
                .filter(|rule| rule.size == NumeralSize::Small || line.numerals.len() == 1)
                .map(|rule| rule.every)
                .min(),
            Form::Drum(_) | Form::Dial(_) | Form::Vernier(_) | Form::Fixed(_) => None,
        };
        let of =
            |run: &dyn Fn(&Form) -> Option<Quanta>| self.stages.iter().find_map(|stage| run(&stage.form));
        of(&turn).or_else(|| of(&division))
    }

    fn ends(&self) -> Ends {
        let round = |form: &Form| match form {
            Form::Dial(dial) => {
                dial.turns == Turns::Uncounted
                    && dial.face == Face::Continuous
                    && self.high + self.step - self.low == dial.turn()
            }
            Form::Line(_) | Form::Drum(_) | Form::Vernier(_) | Form::Fixed(_) => false,
        };
        if self.stages.iter().any(|stage| round(&stage.form)) { Ends::Round } else { Ends::Stops }
    }

    fn heading(&self) -> Heading {
        let of = |form: &Form| match form {
            Form::Dial(dial) if dial.sense == Sense::Clockwise => Some(Heading::Clockwise),
            Form::Dial(_) => Some(Heading::Anticlockwise),
            Form::Line(_) | Form::Drum(_) | Form::Vernier(_) | Form::Fixed(_) => None,
        };
        if let Some(round) = self.stages.iter().find_map(|stage| of(&stage.form)) {
            return round;
        }
        let runs = self.stages.iter().find_map(|stage| match &stage.form {
            Form::Line(line) => Some(line.runs),
            Form::Drum(_) | Form::Dial(_) | Form::Vernier(_) | Form::Fixed(_) => None,
        });
        let left = (runs == Some(Course::Leftward)) != (self.grows == Grows::Covering);
        match (runs, left != (self.held == Held::Turned)) {
            (Some(Course::Upward), _) => Heading::Up,
            (_, true) => Heading::Left,
            (_, false) => Heading::Right,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::instrument::Catalogue;

    fn tool(id: &str, variant: &str) -> Instrument {
        let catalogue = Catalogue::new(Vec::new());
        let known = catalogue.get(id).expect("shipped");
        known.fitted(&known.variant(variant).expect("offered"))
    }

    /// The scales of each as the instrument facts give them: a turn of the inch screw is 0.025 in, of the metric one 0.5 mm; a
    /// main scale of 0.025 in or 1 mm; a dial caliper's hand goes round in 0.1 in.
    #[test]
    fn strokes_are_those_of_the_scales() {
        for (id, fine, line, coarse, far) in [
            ("micrometer-inch", "0.001", "0.025", "0.025", "0.100"),
            ("micrometer-inch-tenths", "0.0001", "0.0010", "0.0250", "0.1000"),
            ("micrometer-metric", "0.01", "0.50", "0.50", "5.00"),
            ("micrometer-metric-microns", "0.001", "0.010", "0.500", "5.000"),
            ("caliper-inch-25", "0.001", "0.025", "0.025", "0.100"),
            ("caliper-metric-50", "0.02", "1.00", "1.00", "10.00"),
            ("dial-caliper-inch", "0.001", "0.100", "0.100", "1.000"),
            ("dial-indicator-metric-continuous", "0.01", "1.00", "1.00", "1.00"),
            ("cross-slide-dial-inch", "0.001", "0.010", "0.010", "0.010"),
            ("rule-inch-64", "1/64", "1/8", "1/8", "1"),
            ("bevel-protractor", "0\u{b0}05'", "1\u{b0}00'", "1\u{b0}00'", "10\u{b0}00'"),
        ] {
            let tool = tool(id, "");
            let travel = tool.travel();
            let lengths = [travel.fine, travel.line, travel.coarse, travel.far];
            assert_eq!(lengths.map(|length| tool.spell(length)), [fine, line, coarse, far], "{id}");
        }
    }

    /// Right-hand screws and how each scale is figured: see the tools' own definitions.
    #[test]
    fn the_reading_grows_where_the_tool_says() {
        for (id, variant, grows) in [
            ("micrometer-inch", "", Heading::Right),
            ("depth-micrometer-inch", "", Heading::Left),
            ("caliper-inch-25", "", Heading::Right),
            ("caliper-inch-25", "held=turned", Heading::Left),
            ("caliper-inch-25-inside", "", Heading::Left),
            ("height-gauge-metric", "", Heading::Up),
            ("bevel-protractor", "direction=left", Heading::Left),
            ("dial-caliper-metric", "", Heading::Clockwise),
        ] {
            assert_eq!(tool(id, variant).travel().grows, grows, "{id} {variant}");
        }
    }

    #[test]
    fn a_stroke_never_leaves_the_settings() {
        let catalogue = Catalogue::new(Vec::new());
        for known in catalogue.all() {
            for variant in known.fittings() {
                let tool = known.fitted(&variant);
                let travel = tool.travel();
                let is_setting = |at: Quanta| {
                    at >= tool.low && at <= tool.high && (at - tool.low).is_multiple_of(tool.step)
                };
                for at in [tool.low, tool.high, travel.zero(), tool.low + tool.step * (travel.settings() / 3)]
                {
                    for stroke in [Stroke::Fine, Stroke::Line, Stroke::Coarse, Stroke::Far] {
                        for toward in [Toward::Larger, Toward::Smaller] {
                            let to = travel.moved(at, stroke, toward);
                            assert!(is_setting(to), "{} {stroke:?} {toward:?} from {at:?}: {to:?}", tool.id);
                        }
                    }
                }
            }
        }
    }

    #[test]
    fn lines_are_met_exactly_and_a_collar_goes_round() {
        let rodded = tool("depth-micrometer-inch", "rod=1 in");
        let travel = rodded.travel();
        let at = |thousandths: i64| rodded.low + rodded.step * thousandths;
        assert_eq!(travel.moved(at(30), Stroke::Line, Toward::Larger), at(50));
        assert_eq!(travel.moved(at(30), Stroke::Line, Toward::Smaller), at(25));
        assert_eq!(travel.moved(at(25), Stroke::Line, Toward::Smaller), at(0));
        assert_eq!(travel.moved(at(0), Stroke::Line, Toward::Smaller), at(0));
        let collar = tool("cross-slide-dial-inch", "");
        let last = collar.high;
        assert_eq!(collar.travel().moved(last, Stroke::Fine, Toward::Larger), Quanta::ZERO);
        assert_eq!(collar.travel().moved(Quanta::ZERO, Stroke::Fine, Toward::Smaller), last);
        let balanced = tool("dial-indicator-inch-balanced", "").travel();
        assert_eq!(balanced.moved(balanced.high, Stroke::Coarse, Toward::Larger), balanced.high);
    }
}
