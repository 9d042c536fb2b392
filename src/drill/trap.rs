//! Lone traps: settings where a gross slip is near, one in four among plain ones and never announced.
//!
//! A trap is known by where the tool stands, not by who fell into it: just under a full turn or division, just over one, or on
//! it; an edge that shows its line early or late there; the 9 and the 0 of a vernier on a thimble. A run with traps takes its
//! questions from that of the ordinary generator, by number, so each can be posed again from seed and number.

use super::draw::Draw;
use super::generate::{Seed, question};
use super::question::Question;
use crate::exact::Quanta;
use crate::instrument::{Form, Instrument};

/// Numbers among which one is chosen. Where traps are one in eight, 32 numbers hold none once in seventy times.
const POOL: u32 = 32;
/// One question in so many is a trap.
const ONE_IN: u32 = 4;
/// What is nearer to a line of the coarse scale than this part of its division is near.
const NEAR: i64 = 16;

/// Whether a question is a trap. `tool` is the one of the question.
pub fn is_trap(question: &Question, tool: &Instrument) -> bool {
    let steps = &question.reading.steps;
    steps.iter().enumerate().any(|(n, step)| {
        let Some(division) = coarse_division(tool, step.stage) else { return false };
        let finer =
            steps[n + 1..].iter().filter(|step| !matches!(tool.stages[step.stage].form, Form::Fixed(_)));
        let beyond = finer.map(|step| step.value).sum::<Quanta>().left_of(division);
        let short = division - beyond;
        let near = |distance: Quanta| distance * NEAR <= division;
        let lead = question.conditions.lead;
        let misleads = (lead > Quanta::ZERO && short <= lead) || (lead < Quanta::ZERO && beyond < -lead);
        near(beyond) || near(short) || short <= tool.least_count || misleads
    })
}

/// The division of a scale that another one of the tool divides further.
fn coarse_division(tool: &Instrument, stage: usize) -> Option<Quanta> {
    let next = tool.stages.get(stage + 1).map(|next| &next.form);
    match (&tool.stages[stage].form, next) {
        (Form::Line(line), Some(Form::Drum(_) | Form::Dial(_) | Form::Vernier(_))) => Some(line.division),
        (Form::Drum(drum), Some(Form::Vernier(_))) => Some(drum.division),
        _ => None,
    }
}

/// The number of the question that comes up at turn `turn` (from 1) of a run with traps. On a tool that has none, or no others,
/// it is the first of the turn's numbers.
pub fn number_at(instrument: &Instrument, seed: Seed, turn: u32) -> u32 {
    let first = turn.saturating_sub(1).saturating_mul(POOL).saturating_add(1);
    let wanted = Draw::keyed("linefall traps 1", instrument, seed, turn).below(ONE_IN) == 0;
    let is_wanted = |number: &u32| {
        let question = question(instrument, seed, *number);
        let tool = question.tool(instrument);
        is_trap(&question, &tool) == wanted
    };
    (first..first.saturating_add(POOL)).find(is_wanted).unwrap_or(first)
}

/// The turn of a run with traps that a number belongs to.
pub fn turn_of(number: u32) -> u32 {
    number.saturating_sub(1) / POOL + 1
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::exact::parse_answer;
    use crate::instrument::{Catalogue, Variant};

    fn trap(tool: &str, reads: &str) -> bool {
        let catalogue = Catalogue::new(Vec::new());
        let instrument = catalogue.get(tool).expect("shipped");
        let variant = Variant::default();
        let tool = instrument.fitted(&variant);
        let value = parse_answer(reads, tool.unit).expect("a reading").value;
        let setting = tool.lattice.at(value).expect("a setting");
        is_trap(&Question::new(&tool, 1, setting, Quanta::ZERO, variant), &tool)
    }

    /// Settings where people slip and where they do not: common practice, worked by hand.
    #[test]
    fn what_is_a_trap() {
        for (tool, traps, plain) in [
            ("micrometer-metric", ["8.98", "8.52", "9.00", "8.47"], ["8.84", "8.34", "8.60", "8.40"]),
            ("micrometer-inch", ["0.274", "0.276", "0.275", "0.249"], ["0.286", "0.260", "0.262", "0.295"]),
            (
                "micrometer-inch-tenths",
                ["0.2859", "0.2860", "0.2749", "0.2751"],
                ["0.2862", "0.2855", "0.2838", "0.2903"],
            ),
            ("caliper-inch-25", ["1.449", "1.451", "1.450", "1.424"], ["1.436", "1.460", "1.432", "1.440"]),
            ("caliper-metric-50", ["12.98", "13.02", "13.00", "12.96"], ["12.50", "12.34", "12.76", "12.20"]),
            ("bevel-protractor", ["23 55", "23 00", "12 55", "1 00"], ["23 25", "23 40", "12 10", "12 50"]),
        ] {
            for reads in traps {
                assert!(trap(tool, reads), "{tool} {reads}");
            }
            for reads in plain {
                assert!(!trap(tool, reads), "{tool} {reads}");
            }
        }
        // A rule has one scale: nothing finer can be misjudged against it.
        assert!(!trap("rule-metric", "20"));
    }

    /// One in four within four standard deviations: of 400 turns 65 to 135, and the pool may be without once in a while.
    #[test]
    fn one_in_four_is_a_trap_and_any_can_be_posed_again() {
        let catalogue = Catalogue::new(Vec::new());
        for id in [
            "micrometer-metric",
            "micrometer-inch-tenths",
            "caliper-inch-25",
            "caliper-metric-50",
            "dial-caliper-metric",
        ] {
            let tool = catalogue.get(id).expect("shipped");
            let mut traps = 0;
            let mut before = 0;
            for turn in 1..=400 {
                let number = number_at(tool, Seed(3), turn);
                assert!(number > before, "{id}: no question comes twice");
                assert_eq!(turn_of(number), turn, "{id}");
                let question = question(tool, Seed(3), number);
                traps += u32::from(is_trap(&question, &question.tool(tool)));
                before = number;
            }
            assert!((65..=135).contains(&traps), "{id}: {traps} of 400");
        }
    }

    #[test]
    fn the_last_number_of_all_is_no_trouble() {
        let catalogue = Catalogue::new(Vec::new());
        let tool = catalogue.get("rule-metric").expect("shipped");
        assert_eq!(number_at(tool, Seed(3), u32::MAX), u32::MAX);
    }
}
