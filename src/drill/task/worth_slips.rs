//! Which slips lead to which wrong answer to what a line is worth.

use super::line_worth::{Worth, closest, figures_of, line_of, turn_of};
use super::slip;
use crate::drill::mark::Found;
use crate::exact::{Exact, Quanta};
use crate::instrument::{Face, Form, Instrument};

/// The named slips that lead elsewhere than to `right`.
pub(super) fn slips(tool: &Instrument, worth: Worth, right: Exact) -> Vec<Found> {
    let stage = worth.stage();
    let form = &tool.stages[stage].form;
    let before = tool.stages[..stage].iter().rev().map(|stage| &stage.form);
    let scale = before.clone().find(|form| !matches!(form, Form::Fixed(_)));
    let mut all: Vec<(&'static str, Option<Exact>)> = Vec::new();
    let mut put = |slip: &'static str, at: Option<Quanta>| all.push((slip, at.map(|at| tool.value(at))));
    match worth {
        Worth::Line { .. } => {
            if let Form::Line(line) = form {
                put("whole-for-half", line.whole());
            }
            if let Form::Vernier(vernier) = form {
                put("main-for-vernier", scale.and_then(line_of));
                put("spacing-for-worth", Some(vernier.part));
            }
            put("figures-for-line", figures_of(form));
            put("turn-for-line", turn_of(form));
        }
        Worth::Turn { .. } => {
            if let Some(Form::Line(line)) = scale {
                put("whole-for-turn", line.whole());
            }
            if let Form::Dial(dial) = form
                && dial.face == Face::Balanced
                && dial.parts % 2 == 0
            {
                put("highest-figure-for-turn", Some(dial.division * (dial.parts / 2)));
            }
            put("line-for-turn", line_of(form));
        }
        Worth::Figures { .. } => {
            put("line-for-figures", line_of(form));
            let rule = closest(form).filter(|_| matches!(form, Form::Line(_)));
            let units = rule.map(|rule| {
                let one = Exact::whole(tool.unit.per_symbol());
                Exact::whole(i128::from(rule.every.passed(rule.worth) * rule.by)) * one
            });
            all.push(("figures-as-units", units));
        }
    }
    all.extend([Exact::whole(10), Exact::ratio(1, 10)].map(|times| ("place-slip", Some(right * times))));
    let leads = |(id, answer): (&'static str, Option<Exact>)| {
        Some(slip::found(id, answer.filter(|answer| *answer != right)?))
    };
    all.into_iter().filter_map(leads).collect()
}
