//! Two pictures that a trap separates: one of them is this size, which? Then the other is read.
//!
//! Drawn in this order: the trap, of those that the tool has; where it lies and what it needs; which of the two pictures comes
//! first, below 2, 0 meaning the lower one; which of them is named, below 2.

use super::line_worth::{figures_of, line_of};
use super::{Asked, Choice, Offered, Part, Says, Wanted, plain_reading};
use crate::drill::draw::Draw;
use crate::drill::generate::Seed;
use crate::drill::{Conditions, Kind, Question, edge_limits};
use crate::exact::Quanta;
use crate::instrument::{Drum, Face, Form, Instrument, Variant};

/// The words for the two pictures.
pub const PLACES: [&str; 2] = ["first", "second"];

/// What separates two pictures.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Trap {
    /// One stands just under a line of a scale, the other just over it: 8.98 and 9.02, 1.449 and 1.451.
    JustPassed {
        /// The scale.
        stage: usize,
    },
    /// All that is fine is the same, a whole turn lies between them: 8.48 and 8.98.
    OneTurn {
        /// The scale whose lines count the turns.
        stage: usize,
    },
    /// The vernier of a micrometer at its last line and at its first: 0.2859 and 0.2860.
    VernierEnd {
        /// The vernier.
        stage: usize,
    },
    /// As many lines before a figure as after it.
    EitherSideOfFigure {
        /// The scale.
        stage: usize,
    },
    /// As many lines from 0 on the plus side as on the minus side.
    PlusAndMinus {
        /// The dial.
        stage: usize,
    },
}

/// Two settings, the lower one first, and what the tool is read under.
struct Two {
    settings: [Quanta; 2],
    lead: Quanta,
}

/// The pair, then the other one.
pub(super) fn parts(instrument: &Instrument, seed: Seed, number: u32, draw: &mut Draw) -> Option<Vec<Part>> {
    let variant = plain_reading(instrument, seed, number).variant;
    let tool = instrument.fitted(&variant);
    let traps: Vec<Trap> = Trap::all(&tool);
    if traps.is_empty() {
        return None;
    }
    let trap = traps[draw.place(traps.len())];
    let two = trap.drawn(&tool, draw)?;
    let mut settings = two.settings;
    if draw.below(2) == 1 {
        settings.reverse();
    }
    let named = draw.place(2);
    let [first, second] = settings.map(|at| standing(&tool, number, at, two.lead, &variant));
    let pictures = vec![first.measuring(&tool), second.measuring(&tool)];
    let readings = [&first, &second].map(|question| question.expected(&tool));
    let (which, other) = if named == 0 { (first, second) } else { (second, first) };

    let mut which = Part::reading(instrument, which);
    which.pictures = pictures;
    which.kind = Kind::Pair;
    which.asked = Asked::WhichIs { named, readings };
    let options = PLACES.map(|word| Offered { says: Says::Word(word), slip: None });
    which.wanted = Wanted::Choice(Choice { options: options.into(), right: named });

    let mut other = Part::reading(instrument, other);
    other.asked = Asked::TheOther { place: 1 - named, trap };
    Some(vec![which, other])
}

fn standing(tool: &Instrument, number: u32, at: Quanta, lead: Quanta, variant: &Variant) -> Question {
    let question = Question::new(tool, number, at, Quanta::ZERO, variant.clone());
    question.under(tool, Conditions { lead, ..Conditions::default() })
}

impl Trap {
    /// All that a tool has.
    fn all(tool: &Instrument) -> Vec<Self> {
        let mut all = Vec::new();
        let forms: Vec<(usize, &Form)> = tool
            .stages
            .iter()
            .map(|stage| &stage.form)
            .enumerate()
            .filter(|(_, form)| !matches!(form, Form::Fixed(_)))
            .collect();
        for (n, (stage, form)) in forms.iter().enumerate() {
            let stage = *stage;
            let next = forms.get(n + 1).map(|(_, form)| *form);
            match (form, next) {
                (Form::Line(_), Some(Form::Drum(_) | Form::Dial(_))) => {
                    all.extend([Self::JustPassed { stage }, Self::OneTurn { stage }]);
                }
                (Form::Line(_), Some(Form::Vernier(_))) => all.push(Self::JustPassed { stage }),
                (Form::Line(line), None) if !line.numerals.is_empty() => {
                    all.push(Self::EitherSideOfFigure { stage });
                }
                (Form::Dial(dial), _) if n == 0 => {
                    all.push(Self::EitherSideOfFigure { stage });
                    if dial.face == Face::Balanced {
                        all.push(Self::PlusAndMinus { stage });
                    }
                }
                (Form::Vernier(_), _) if n > 0 && matches!(forms[n - 1].1, Form::Drum(_)) => {
                    all.push(Self::VernierEnd { stage });
                }
                _ => {}
            }
        }
        all
    }

    /// The two settings.
    fn drawn(self, tool: &Instrument, draw: &mut Draw) -> Option<Two> {
        match self {
            Self::JustPassed { stage } => just_passed(tool, stage, draw),
            Self::OneTurn { stage } => {
                let turn = line_of(&tool.stages[stage].form)?;
                let steps = u32::try_from(turn.passed(tool.step)).ok()?;
                // Clear of the ends of a turn, where another trap lies.
                let tenth = steps / 10;
                let within = tool.step * i64::from(tenth + draw.below(steps - 2 * tenth));
                let line = line_between(tool, turn, [within, turn + within], draw)?;
                Some(Two { settings: [line + within, line + turn + within], lead: Quanta::ZERO })
            }
            Self::VernierEnd { stage } => {
                let division = tool.stages[..stage].iter().rev().find_map(|stage| match &stage.form {
                    Form::Drum(drum) => Some(drum.division),
                    _ => None,
                })?;
                let line = line_between(tool, division, [-tool.least_count, Quanta::ZERO], draw)?;
                Some(Two { settings: [line - tool.least_count, line], lead: Quanta::ZERO })
            }
            Self::EitherSideOfFigure { stage } => {
                let form = &tool.stages[stage].form;
                let figures = figures_of(form)?;
                let line = line_of(form)?;
                let most = ((figures.passed(line) - 1) / 2).min(3);
                let off =
                    line * (1 + i64::from(draw.below(u32::try_from(most).ok().filter(|most| *most > 0)?)));
                let figure = line_between(tool, figures, [-off, off], draw)?;
                Some(Two { settings: [figure - off, figure + off], lead: Quanta::ZERO })
            }
            Self::PlusAndMinus { stage } => {
                let line = line_of(&tool.stages[stage].form)?;
                let most = u32::try_from(tool.high.min(-tool.low).passed(line)).ok()?;
                let off = line * (1 + i64::from(draw.below(most)));
                Some(Two { settings: [-off, off], lead: Quanta::ZERO })
            }
        }
    }
}

/// Just under a line and just over it: at most a tenth of a division, and at most five lines of the finer scale. Where an edge
/// uncovers the line, it may show in both pictures, or in neither: a number below 3, 0 meaning as it should be, 1 early in both,
/// 2 late in both; then by how much.
fn just_passed(tool: &Instrument, stage: usize, draw: &mut Draw) -> Option<Two> {
    let division = line_of(&tool.stages[stage].form)?;
    let finer = tool.stages[stage + 1..].iter().find(|stage| !matches!(stage.form, Form::Fixed(_)))?;
    let unit = line_of(&finer.form)?;
    let most = (division.passed(unit) / 10).clamp(1, 5);
    let mut off = || 1 + i64::from(draw.below(u32::try_from(most).unwrap_or(1)));
    let (under, over) = (off(), off());
    let line = line_between(tool, division, [unit * -under, unit * over], draw)?;
    let lead = match &finer.form {
        Form::Drum(drum) => edge(tool, drum, under, over, draw),
        _ => Quanta::ZERO,
    };
    Some(Two { settings: [line - unit * under, line + unit * over], lead })
}

fn edge(tool: &Instrument, drum: &Drum, under: i64, over: i64, draw: &mut Draw) -> Quanta {
    let (late, early) = edge_limits(tool.unit, drum);
    let (sense, off, most) = match draw.below(3) {
        1 => (1, under, early),
        2 => (-1, over, late),
        _ => return Quanta::ZERO,
    };
    match u32::try_from(most - off) {
        Ok(count @ 1..) => drum.division * (sense * (off + 1 + i64::from(draw.below(count)))),
        _ => Quanta::ZERO,
    }
}

/// A line of a scale whose lines stand `division` apart, by chance, but with both offsets from it within the range.
fn line_between(tool: &Instrument, division: Quanta, off: [Quanta; 2], draw: &mut Draw) -> Option<Quanta> {
    let start = tool.start();
    let (low, high) = (tool.low - off[0] - start, tool.high - off[1] - start);
    let first = -(-low).passed(division);
    let last = high.passed(division);
    let count = u32::try_from(last - first + 1).ok().filter(|count| *count > 0)?;
    Some(start + division * (first + i64::from(draw.below(count))))
}

#[cfg(test)]
mod tests {
    use super::super::Given;
    use super::super::testing::every;
    use super::*;
    use crate::exact::Exact;
    use crate::instrument::Catalogue;
    use crate::reading::{StagePose, read};

    /// Worked by hand: sleeve 8, its half line not yet reached, thimble 48 is 8.48; with the half line 8.98. Who takes 8.98 for 8.48 has
    /// missed the half line.
    #[test]
    fn who_takes_the_other_picture_is_told_what_he_did() {
        let mut named = 0;
        for (tool, task) in every(Kind::Pair, 20) {
            let part = &task.parts[0];
            let (Asked::WhichIs { readings, named: right }, Wanted::Choice(choice)) =
                (&part.asked, &part.wanted)
            else {
                panic!("which of the two");
            };
            let marked = part.mark(&Given::Chosen(1 - choice.right));
            for found in &marked.slips {
                assert_eq!(found.wrong.answer, readings[*right], "{}", tool.id);
                assert!(found.misread.happens_on(&part.tool), "{} {}", tool.id, found.misread.id);
            }
            let turn = readings[1 - *right] - readings[*right] == Exact::ratio(1, 2);
            let shown = tool.notation.spell(readings[1 - *right]);
            let half_shows = shown.split('.').nth(1).is_some_and(|digits| digits >= "5");
            if tool.id == "micrometer-metric" && turn && half_shows {
                let slips: Vec<&str> = marked.slips.iter().map(|found| found.misread.id).collect();
                assert!(slips.contains(&"half-line-missed"), "{shown}: {slips:?}");
                named += 1;
            }
        }
        assert!(named > 0, "no such pair came up");
    }

    #[test]
    fn two_pictures_of_one_tool_and_then_the_other_alone() {
        for (tool, task) in every(Kind::Pair, 60) {
            let [which, other] = task.parts.as_slice() else { panic!("two parts") };
            let Asked::WhichIs { named, readings } = which.asked else { panic!("which is it") };
            assert_ne!(readings[0], readings[1], "{}", tool.id);
            assert_eq!(which.pictures[0].tool, which.pictures[1].tool, "{}", tool.id);
            assert_eq!(which.pictures[0].variant, which.pictures[1].variant, "{}", tool.id);
            for (sight, reading) in which.pictures.iter().zip(readings) {
                let total = read(&sight.tool, &sight.pose).total;
                assert_eq!(sight.tool.value(total), reading, "{}", tool.id);
            }
            assert_eq!(which.question.expected(&which.tool), readings[named]);
            assert_eq!(other.question.expected(&other.tool), readings[1 - named]);
            assert_eq!(other.pictures, vec![which.pictures[1 - named].clone()]);
            assert_eq!(other.kind, Kind::Read);
            for part in &task.parts {
                let at = part.question.setting;
                assert!(part.tool.low <= at && at <= part.tool.high, "{}", tool.id);
                assert!((at - part.tool.low).is_multiple_of(part.tool.step), "{}", tool.id);
            }
        }
    }

    /// The edge leads by three lines of the thimble: at 8.98 and at 9.02 the sleeve shows the line of 9 alike. (The pair is that
    /// of the trade's usual warning, thimble 48 and 02; common practice.)
    #[test]
    fn a_misleading_edge_shows_the_same_line_in_both() {
        let mut misled = 0;
        for (tool, task) in every(Kind::Pair, 200) {
            let which = &task.parts[0];
            let lead = which.question.conditions.lead;
            if lead == Quanta::ZERO {
                continue;
            }
            let Asked::TheOther { trap: Trap::JustPassed { stage }, .. } = task.parts[1].asked else {
                panic!("only just passed has an edge: {}", tool.id);
            };
            let shown = which.pictures.iter().map(|sight| match sight.pose.stages[stage] {
                StagePose::Line { index } => {
                    index.passed(line_of(&sight.tool.stages[stage].form).expect("a scale"))
                }
                _ => panic!("a scale"),
            });
            let shown: Vec<i64> = shown.collect();
            assert_eq!(shown[0], shown[1], "{}", tool.id);
            misled += 1;
        }
        assert!(misled > 100, "{misled}");
    }

    #[test]
    fn the_pairs_that_are_named_in_the_trade_come_up() {
        let catalogue = Catalogue::new(Vec::new());
        let apart = |id: &str, apart: Exact, is: fn(Trap) -> bool| {
            let tool = catalogue.get(id).expect("shipped");
            let of = |number| super::super::task(Kind::Pair, tool, Seed(1), number);
            (1..=300).filter_map(of).any(|task| {
                let Asked::WhichIs { readings: [a, b], .. } = task.parts[0].asked else { return false };
                let Asked::TheOther { trap, .. } = task.parts[1].asked else { return false };
                (a - b).abs() == apart && is(trap)
            })
        };
        let just = |trap| matches!(trap, Trap::JustPassed { .. });
        // 8.98 and 9.02; 1.449 and 1.451; 0.2859 and 0.2860; 8.48 and 8.98.
        assert!(apart("micrometer-metric", Exact::ratio(4, 100), just));
        assert!(apart("caliper-inch-25", Exact::ratio(2, 1000), just));
        assert!(apart("dial-caliper-inch", Exact::ratio(4, 1000), just));
        assert!(apart("micrometer-inch-tenths", Exact::ratio(1, 10_000), |trap| {
            matches!(trap, Trap::VernierEnd { .. })
        }));
        assert!(apart("micrometer-metric", Exact::ratio(1, 2), |trap| matches!(trap, Trap::OneTurn { .. })));
    }
}
