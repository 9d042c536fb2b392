//! The steps of a reading, one at a time, and what a wrong answer says about them.

use super::summary::Answer;
use crate::drill::Kind;
use crate::drill::record::Attempt;
use crate::exact::{Exact, Quanta};
use crate::instrument::{Form, Instrument, Zero};
use crate::reading::misread::{self, On};
use serde::{Deserialize, Serialize};

/// A step of the reading on an instrument, coarse to fine; on a screen it is called by the name of its part.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Facet {
    /// What is added to the scales: a rod, a collar, nibs.
    Fixed,
    /// The lines of rule, main scale or sleeve.
    Lines,
    /// Half lines between the whole ones.
    Halves,
    /// The thimble.
    Thimble,
    /// The dial.
    Dial,
    /// The vernier.
    Vernier,
    /// Allowing for zero.
    Zero,
    /// The whole reading.
    Reading,
}

/// What a wrong answer costs.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Grade {
    /// A line or a few.
    Fine,
    /// A turn, a half line, an inch, a sign: scrap.
    Gross,
}

/// More lines off than this is gross, whatever was done.
const FEW_LINES: i128 = 5;

/// The steps that reading an instrument takes.
pub fn facets(instrument: &Instrument) -> Vec<Facet> {
    let has = |wanted: fn(&Form) -> bool| instrument.stages.iter().any(|stage| wanted(&stage.form));
    let mut all = vec![Facet::Reading];
    let mut add = |there: bool, facet| all.extend(there.then_some(facet));
    // A length that never comes up in practice is no step of it: the frame of an outside micrometer.
    let chosen = instrument.choices.iter().any(|choice| choice.practised);
    add(chosen || has(|form| matches!(form, Form::Fixed(_))), Facet::Fixed);
    add(has(|form| matches!(form, Form::Line(_))), Facet::Lines);
    add(has(|form| matches!(form, Form::Line(line) if line.whole().is_some())), Facet::Halves);
    add(has(|form| matches!(form, Form::Drum(_))), Facet::Thimble);
    add(has(|form| matches!(form, Form::Dial(_))), Facet::Dial);
    add(has(|form| matches!(form, Form::Vernier(_))), Facet::Vernier);
    add(instrument.zero == Zero::CanBeOff, Facet::Zero);
    all.sort_unstable();
    all
}

/// The step that a misread is made in; one over the whole figure, or one no longer known, belongs to the whole reading.
pub fn facet_of(slip: &str, instrument: &Instrument) -> Facet {
    let known = facets(instrument);
    let by_name = match slip.split('-').next() {
        Some("line" | "covered" | "shown" | "quarter" | "figure" | "figures" | "nearest")
            if !slip.ends_with("label") =>
        {
            Some(Facet::Lines)
        }
        Some("neighbour") => known.iter().copied().filter(|facet| *facet <= Facet::Vernier).max(),
        _ => None,
    };
    let by_scale = || {
        let steps = misread::named(slip)?.on.iter().filter_map(step_of);
        steps.filter(|facet| known.contains(facet)).max()
    };
    by_name.or_else(by_scale).unwrap_or(Facet::Reading)
}

fn step_of(on: &On) -> Option<Facet> {
    match on {
        On::Line | On::Turns | On::Covering | On::Fortieths | On::TenthFigures => Some(Facet::Lines),
        On::HalfLines => Some(Facet::Halves),
        On::Drum => Some(Facet::Thimble),
        On::Dial | On::BalancedDial | On::Collar | On::Indicator | On::Lever => Some(Facet::Dial),
        On::Vernier | On::VernierLabels | On::SlidingVernier => Some(Facet::Vernier),
        On::Fixed | On::Nibs | On::Named(_) => Some(Facet::Fixed),
        On::ZeroError => Some(Facet::Zero),
        _ => None,
    }
}

/// What an answer cost; nothing when it was right.
pub fn grade(answer: &Answer, instrument: &Instrument) -> Option<Grade> {
    if answer.right {
        return None;
    }
    let by_name = answer.slip.as_deref().is_some_and(|slip| slip.split('-').any(|word| word == "sign"));
    let by_size = answer.off().is_none_or(|off| is_gross(off.abs(), instrument));
    Some(if by_name || by_size { Grade::Gross } else { Grade::Fine })
}

/// The same of an attempt of any kind; nothing for one that was passed over, or for a decision that no size can be given to.
pub fn grade_of(attempt: &Attempt, instrument: &Instrument) -> Option<Grade> {
    if !attempt.verdict.is_answer() {
        return None;
    }
    let answer = Answer::of(attempt, 0);
    if attempt.kind != Kind::Read && answer.off().is_none() {
        return None;
    }
    grade(&answer, instrument)
}

fn is_gross(off: Exact, instrument: &Instrument) -> bool {
    let worth = |at: Quanta| instrument.value(at) - instrument.value(Quanta::ZERO);
    let a_line = whole_line(instrument).is_some_and(|line| off >= worth(line));
    a_line || off > worth(line_worth(instrument)) * Exact::whole(FEW_LINES)
}

/// A line that someone is off by: of the thimble or dial, else of the vernier, else of the scale itself.
pub fn line_worth(instrument: &Instrument) -> Quanta {
    let round = instrument.stages.iter().find_map(|stage| match &stage.form {
        Form::Drum(drum) => Some(drum.division),
        Form::Dial(dial) => Some(dial.division),
        _ => None,
    });
    round.unwrap_or(instrument.least_count)
}

/// The division of a straight scale that a finer one follows: half lines and quarter lines are such.
fn whole_line(instrument: &Instrument) -> Option<Quanta> {
    instrument.stages.windows(2).find_map(|pair| match (&pair[0].form, &pair[1].form) {
        (Form::Line(line), Form::Drum(_) | Form::Dial(_) | Form::Vernier(_)) => Some(line.division),
        _ => None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::instrument::Catalogue;

    fn off_by(instrument: &str, off: &str) -> Option<Grade> {
        let catalogue = Catalogue::new(Vec::new());
        let instrument = catalogue.get(instrument).expect("shipped");
        let off = crate::exact::parse_answer(off, instrument.unit).expect("a number").value;
        let answer = Answer::wrong_by(off, None);
        grade(&answer, instrument)
    }

    /// Common practice: what makes scrap is gross, what the next line costs is fine.
    #[test]
    fn gross_makes_scrap() {
        for (instrument, gross, fine) in [
            ("micrometer-metric", "0.5", "0.01"),
            ("micrometer-inch", "-0.025", "0.001"),
            ("micrometer-inch-tenths", "0.025", "0.001"),
            ("micrometer-inch-tenths", "0.1", "-0.0001"),
            ("caliper-metric-50", "1", "0.02"),
            ("caliper-inch-25", "0.025", "-0.001"),
            ("lesson-5-part", "1", "0.2"),
            ("dial-caliper-metric", "1", "0.01"),
        ] {
            assert_eq!(off_by(instrument, gross), Some(Grade::Gross), "{instrument} {gross}");
            assert_eq!(off_by(instrument, fine), Some(Grade::Fine), "{instrument} {fine}");
        }
        let catalogue = Catalogue::new(Vec::new());
        let instrument = catalogue.get("dial-indicator-inch-balanced").expect("shipped");
        let line = instrument.value(instrument.least_count);
        assert_eq!(grade(&Answer::wrong_by(line, Some("balanced-sign")), instrument), Some(Grade::Gross));
        assert_eq!(grade(&Answer::wrong_by(line, None), instrument), Some(Grade::Fine));
    }

    #[test]
    fn steps_of_a_metric_micrometer() {
        let catalogue = Catalogue::new(Vec::new());
        let tool = catalogue.get("micrometer-metric").expect("shipped");
        let wanted = [Facet::Lines, Facet::Halves, Facet::Thimble, Facet::Zero, Facet::Reading];
        assert!(wanted.iter().all(|facet| facets(tool).contains(facet)), "{:?}", facets(tool));
        assert!(!facets(tool).contains(&Facet::Vernier) && !facets(tool).contains(&Facet::Fixed));
        let rods = catalogue.get("depth-micrometer-metric").expect("shipped");
        assert!(facets(rods).contains(&Facet::Fixed));
        for (slip, facet) in [
            ("half-line-missed", Facet::Halves),
            ("half-line-added", Facet::Halves),
            ("line-missed", Facet::Lines),
            ("thimble-backwards", Facet::Thimble),
            ("neighbour-line", Facet::Thimble),
            ("zero-ignored", Facet::Zero),
            ("decimal-slip", Facet::Reading),
            ("no-longer-known", Facet::Reading),
        ] {
            assert_eq!(facet_of(slip, tool), facet, "{slip}");
        }
        let tenths = catalogue.get("micrometer-inch-tenths").expect("shipped");
        assert_eq!(facet_of("neighbour-line", tenths), Facet::Vernier);
    }
}
