//! On which tools a misread can happen.

use super::{Misread, impossible_value, quarter_lines, vernier_label};
use crate::exact::{Exact, Unit};
use crate::instrument::{Face, Figured, Form, Grows, Instrument, Line, Numerals, Stage, Zero};
use crate::reading::change::{collar, indicator, lever};

/// The stage forms a misread can happen on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum On {
    /// A rule, main scale or sleeve.
    Line,
    /// A sleeve with half lines.
    HalfLines,
    /// A thimble.
    Drum,
    /// A dial.
    Dial,
    /// A dial figured both ways.
    BalancedDial,
    /// A dial whose turns are counted.
    Turns,
    /// A vernier.
    Vernier,
    /// A vernier with a half either way from its 0.
    DoubleVernier,
    /// A protractor that the part's angle is asked of.
    SetUps,
    /// A constant length.
    Fixed,
    /// Nibs that are added to an outside scale.
    Nibs,
    /// Any instrument.
    Any,
    /// An instrument that can have a zero error.
    ZeroError,
    /// A scale whose last digit can be estimated.
    Estimate,
    /// A sleeve that is covered as the reading grows.
    Covering,
    /// The collar of a handwheel.
    Collar,
    /// A dial that compares.
    Indicator,
    /// A dial moved by a lever.
    Lever,
    /// A fixed length of this name.
    Named(&'static str),
    /// A scale with forty lines to the inch.
    Fortieths,
    /// A scale whose figures count tenths of an inch.
    TenthFigures,
    /// A vernier whose figures are not the numbers of its lines.
    VernierLabels,
    /// A vernier that slides along a straight scale.
    SlidingVernier,
    /// An instrument that reads lengths.
    Lengths,
    /// An instrument that reads in steps of several of its last digit.
    CoarseLastDigit,
    /// Two sets of scales on one tool.
    TwoScales,
}

impl Misread {
    /// True when an instrument has a stage this can happen on.
    pub fn happens_on(&self, instrument: &Instrument) -> bool {
        self.on.iter().any(|on| match on {
            On::Any => true,
            On::Estimate => instrument.estimate.is_some(),
            On::ZeroError => instrument.zero == Zero::CanBeOff,
            On::Collar => collar(instrument).is_some(),
            On::Indicator => indicator(instrument).is_some(),
            On::Lever => lever(instrument).is_some(),
            On::TwoScales => instrument.other.is_some(),
            On::Covering => instrument.grows == Grows::Covering,
            On::Named(name) => {
                let fixed = |stage: &Stage| stage.name == *name && matches!(stage.form, Form::Fixed(_));
                instrument.choices.iter().any(|choice| choice.name == *name)
                    || instrument.stages.iter().any(fixed)
            }
            On::Line => instrument.stages.iter().any(|s| matches!(s.form, Form::Line(_))),
            On::HalfLines => instrument
                .stages
                .iter()
                .any(|s| matches!(&s.form, Form::Line(line) if line.whole().is_some())),
            On::Drum => instrument.stages.iter().any(|s| matches!(s.form, Form::Drum(_))),
            On::Dial => instrument.stages.iter().any(|s| matches!(s.form, Form::Dial(_))),
            On::BalancedDial => instrument
                .stages
                .iter()
                .any(|s| matches!(&s.form, Form::Dial(dial) if dial.face == Face::Balanced)),
            On::Turns => instrument.stages.windows(2).any(|pair| matches!(pair[1].form, Form::Dial(_))),
            On::Fixed => {
                !instrument.choices.is_empty()
                    || instrument.stages.iter().any(|s| matches!(s.form, Form::Fixed(_)))
            }
            On::Nibs => {
                instrument.stages.iter().any(|s| matches!(s.form, Form::Fixed(_)) && are_nibs(&s.name))
            }
            On::Fortieths => {
                has_line(instrument, |line| quarter_lines::has_fortieths(instrument.value(line.division)))
            }
            On::TenthFigures => {
                has_line(instrument, |line| line.numerals.iter().any(|rule| counts_tenths(instrument, rule)))
            }
            On::VernierLabels => instrument.stages.iter().any(
                |s| matches!(&s.form, Form::Vernier(vernier) if vernier_label::labels(vernier).is_some()),
            ),
            On::SlidingVernier => instrument
                .stages
                .windows(2)
                .any(|pair| matches!((&pair[0].form, &pair[1].form), (Form::Line(_), Form::Vernier(_)))),
            On::Lengths => instrument.unit != Unit::Minute,
            On::CoarseLastDigit => {
                let least_count = instrument.value(instrument.least_count);
                impossible_value::last_digit(instrument.notation, least_count).is_some()
            }
            On::SetUps => !instrument.set_ups.is_empty(),
            On::DoubleVernier => instrument
                .stages
                .iter()
                .any(|s| matches!(&s.form, Form::Vernier(vernier) if vernier.figured == Figured::BothWays)),
            On::Vernier => instrument.stages.iter().any(|s| matches!(s.form, Form::Vernier(_))),
        })
    }
}

fn has_line(instrument: &Instrument, is: impl Fn(&Line) -> bool) -> bool {
    instrument.stages.iter().any(|stage| matches!(&stage.form, Form::Line(line) if is(line)))
}

/// True for figures that count tenths of an inch.
pub(super) fn counts_tenths(instrument: &Instrument, rule: &Numerals) -> bool {
    instrument.unit == Unit::Inch && instrument.value(rule.worth) == Exact::ratio(1, 10)
}

/// True for the name of a constant length that is the width of inside nibs.
pub(super) fn are_nibs(name: &str) -> bool {
    name == "nibs"
}
