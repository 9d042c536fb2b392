//! The wrong answers to what a line is worth that have a name. They are about the scale, not about a reading, so none of them
//! stands among the misreads of a reading.

use super::line_worth::{Worth, closest, figures_of, line_of, turn_of};
use crate::drill::mark::Found;
use crate::exact::{Exact, Quanta};
use crate::instrument::{Face, Form, Instrument};
use crate::reading::{Misread, Wrong, misread};

/// A slip about a scale; it leads to no reading of its own.
const fn slip(id: &'static str, name: &'static str, formula: &'static str, cure: &'static str) -> Misread {
    Misread { id, name, formula, cure, on: &[], answers: |_| Vec::new() }
}

static FIGURES_FOR_LINE: Misread = slip(
    "figures-for-line",
    "step between figures taken for one line",
    "line = from figure to figure",
    "Count the lines from one figure to the next, then share the step out among them.",
);
static LINE_FOR_FIGURES: Misread = slip(
    "line-for-figures",
    "one line taken for the step between figures",
    "from figure to figure = line",
    "Look at two neighbouring figures, not at two neighbouring lines.",
);
static MAIN_FOR_VERNIER: Misread = slip(
    "main-for-vernier",
    "line of the scale taken for a line of the vernier",
    "vernier line = one division of the scale",
    "A vernier shares out one division of its scale: divide that by the number of the vernier's parts.",
);
static SPACING_FOR_WORTH: Misread = slip(
    "spacing-for-worth",
    "how far vernier lines stand apart taken for what one reads",
    "vernier line = its distance from the next",
    "What counts is by how much a vernier part misses whole divisions of the scale, not how long it is.",
);
static TURN_FOR_LINE: Misread = slip(
    "turn-for-line",
    "a whole turn taken for one line",
    "line = turn",
    "Share the turn out among all lines round.",
);
static LINE_FOR_TURN: Misread = slip(
    "line-for-turn",
    "one line taken for a whole turn",
    "turn = line",
    "A turn is all lines round together.",
);
static WHOLE_FOR_HALF: Misread = slip(
    "whole-for-half",
    "whole line taken for the half line",
    "half line = whole line",
    "The lines on the other side of the datum line halve the figured ones.",
);
static WHOLE_FOR_TURN: Misread = slip(
    "whole-for-turn",
    "whole line taken for one turn",
    "turn = whole line",
    "Turn it once and look which line comes up: it is the half line, and the whole one only with the second turn.",
);
static HIGHEST_FIGURE_FOR_TURN: Misread = slip(
    "highest-figure-for-turn",
    "highest figure taken for a whole turn",
    "turn = highest figure",
    "A face figured both ways shows half a turn on each side.",
);
static FIGURES_AS_UNITS: Misread = slip(
    "figures-as-units",
    "figures taken for whole units",
    "from figure to figure = so many whole units",
    "See how long the scale is, and how many figures it takes for that.",
);

/// The named slips that lead elsewhere than to `right`.
pub(super) fn slips(tool: &Instrument, worth: Worth, right: Exact) -> Vec<Found> {
    let stage = worth.stage();
    let form = &tool.stages[stage].form;
    let before = tool.stages[..stage].iter().rev().map(|stage| &stage.form);
    let scale = before.clone().find(|form| !matches!(form, Form::Fixed(_)));
    let mut all: Vec<(&'static Misread, Option<Exact>)> = Vec::new();
    let mut put = |slip: &'static Misread, at: Option<Quanta>| all.push((slip, at.map(|at| tool.value(at))));
    match worth {
        Worth::Line { .. } => {
            if let Form::Line(line) = form {
                put(&WHOLE_FOR_HALF, line.whole());
            }
            if let Form::Vernier(vernier) = form {
                put(&MAIN_FOR_VERNIER, scale.and_then(line_of));
                put(&SPACING_FOR_WORTH, Some(vernier.part));
            }
            put(&FIGURES_FOR_LINE, figures_of(form));
            put(&TURN_FOR_LINE, turn_of(form));
        }
        Worth::Turn { .. } => {
            if let Some(Form::Line(line)) = scale {
                put(&WHOLE_FOR_TURN, line.whole());
            }
            if let Form::Dial(dial) = form
                && dial.face == Face::Balanced
                && dial.parts % 2 == 0
            {
                put(&HIGHEST_FIGURE_FOR_TURN, Some(dial.division * (dial.parts / 2)));
            }
            put(&LINE_FOR_TURN, line_of(form));
        }
        Worth::Figures { .. } => {
            put(&LINE_FOR_FIGURES, line_of(form));
            let rule = closest(form).filter(|_| matches!(form, Form::Line(_)));
            let units = rule.map(|rule| {
                let one = Exact::whole(tool.unit.per_symbol());
                Exact::whole(i128::from(rule.every.passed(rule.worth) * rule.by)) * one
            });
            all.push((&FIGURES_AS_UNITS, units));
        }
    }
    if let Some(slipped) = misread::named("decimal-slip") {
        all.extend([Exact::whole(10), Exact::ratio(1, 10)].map(|times| (slipped, Some(right * times))));
    }
    let found = |(slip, answer): (&'static Misread, Option<Exact>)| {
        let answer = answer.filter(|answer| *answer != right)?;
        let did = format!("That is another thing: {}.", slip.name);
        Some(Found { misread: slip, wrong: Wrong { answer, stage: Some(stage), did } })
    };
    all.into_iter().filter_map(found).collect()
}
