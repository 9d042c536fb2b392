//! What makers do differently, and how a tool is held.
//!
//! A key lists its alternatives, the usual one first, each once. What the figures count can differ on metric scales that are
//! read by themselves or by a vernier: figures every 10 mm, counting 10 20 30 or 1 2 3. A vernier comes with a short and a long
//! span of the same least count. Only a counter has a small hand. Calipers, micrometers and rules are turned in the hand;
//! what stands on a plate, or is a face, is not.
//!
//! Example: `figures = ["mm", "cm"]` on a sleeve, whose figures stand every 5 mm.

use super::measure::{after, before, end_over, is_both_ways, of_shape, spell, value, vernier_over};
use crate::diag::{Diagnostic, Span};
use crate::exact::{Exact, Lattice, Unit};
use crate::instrument::schema::{Definition, Draft, Shape, Written};
use crate::instrument::{Change, Counts, Course, Held, Offer, SmallHand, Turns, Way};

pub(super) fn check(def: &Definition, faults: &mut Vec<Diagnostic>) {
    one_form(def, faults);
    once("held", def.held.as_ref(), "[\"usual\", \"turned\"]", faults);
    held(def, faults);
    for (at, line) in of_shape(def, Shape::Line) {
        once("figures", line.figures.as_ref(), "[\"mm\", \"cm\"]", faults);
        figures(def, at, line, faults);
    }
    for (at, vernier) in of_shape(def, Shape::Vernier) {
        along(def, at, vernier, faults);
        spans(vernier, faults);
    }
    for (_, dial) in of_shape(def, Shape::Dial) {
        once("counter", dial.counter.as_ref(), "[\"with\", \"against\"]", faults);
        if let Some(counter) = &dial.counter
            && value(dial.turns.as_ref()) != Some(Turns::Counter)
        {
            let message = format!("the {} has no counter, so no small hand that turns", dial.called());
            faults.push(fault(&counter.span, message).fix("take out `counter`"));
        }
    }
}

fn fault(span: &Span, message: impl Into<String>) -> Diagnostic {
    Diagnostic::new("offers", span.clone(), message)
}

/// A tool with two sets of scales is drawn in one form.
fn one_form(def: &Definition, faults: &mut Vec<Diagnostic>) {
    let Some(second) = &def.other else { return };
    let of_stage = |stage: &Draft| -> Vec<(&'static str, Span)> {
        let figures = stage.figures.iter().map(|list| ("`figures`", list.span.clone()));
        let spans = stage.other_spans.first().map(|other| ("the second span", other.span.clone()));
        figures.chain(spans).collect()
    };
    let stages = def.stages.iter().chain(&second.scales.stages).flat_map(of_stage);
    let held = def.held.iter().map(|list| ("`held`", list.span.clone()));
    for (what, span) in held.chain(stages) {
        let message = "a tool with two sets of scales is drawn in one form only";
        faults.push(fault(&span, message).fix(format!("take out {what}")));
    }
}

/// Each alternative once, and at least one.
fn once<T: PartialEq>(key: &str, list: Option<&Written<Vec<T>>>, line: &str, faults: &mut Vec<Diagnostic>) {
    let Some(list) = list else { return };
    let words = &list.value;
    let twice = (1..words.len()).any(|n| words[..n].contains(&words[n]));
    if words.is_empty() || twice {
        faults.push(
            fault(&list.span, format!("`{key}` names each way once, the usual one first"))
                .fix(format!("{key} = {line}")),
        );
    }
}

/// What can be turned in the hand.
fn held(def: &Definition, faults: &mut Vec<Diagnostic>) {
    let Some(list) = def.held.as_ref().filter(|list| list.value.contains(&Held::Turned)) else { return };
    // A scale that stands upright without a vernier has been refused as such.
    let slides = of_shape(def, Shape::Vernier).next().is_some();
    let upright = |stage: &Draft| slides && value(stage.runs.as_ref()) == Some(Course::Upward);
    let dial = |stage: &Draft| stage.shape() == Some(Shape::Dial);
    let stands = def.stages.iter().find(|stage| upright(stage) || dial(stage) || is_both_ways(stage));
    if let Some(stage) = stands {
        let why = match (dial(stage), is_both_ways(stage)) {
            (true, _) => "has a dial, which is read as it hangs",
            (_, true) => "is read on a disc that turns by itself",
            (false, false) => "stands on a plate",
        };
        let message = format!("this tool {why}: nobody turns it by half a turn");
        faults.push(
            fault(&list.span, message).related(stage.header.clone(), "this stage").fix("take out `held`"),
        );
    }
}

fn figures(def: &Definition, at: usize, line: &Draft, faults: &mut Vec<Diagnostic>) {
    let Some(list) = &line.figures else { return };
    let next = after(def, at).and_then(|next| def.stages[next].shape());
    if value(def.unit.as_ref()).is_some_and(|unit| unit != Unit::Millimetre) {
        let message = format!("the {} is not metric: its figures count no millimetres", line.called());
        faults.push(fault(&list.span, message).fix("take out `figures`"));
        return;
    }
    if matches!(next, Some(Shape::Drum | Shape::Dial)) {
        let message =
            format!("the figures of the {} count its turns; makers do not differ in them", line.called());
        faults.push(fault(&list.span, message).fix("take out `figures`"));
        return;
    }
    let Some(first) = list.value.first() else { return };
    for rule in line.numerals.iter().flatten() {
        if let Some(worth) = rule.worth.as_ref().filter(|worth| worth.value != counted(*first)) {
            let (says, is) = (spell(def, counted(*first)), spell(def, worth.value));
            let message =
                format!("by `figures` a figure 1 is worth {says} on the usual tool, by `worth` it is {is}");
            faults.push(
                fault(&worth.span, message)
                    .related(list.span.clone(), "the usual one first")
                    .fix(format!("worth = \"{says}\"")),
            );
        }
        let ten = counted(Counts::Centimetres);
        if let Some(every) = rule.every.as_ref().filter(|every| every.value.over(ten).to_whole().is_none()) {
            let message = format!("a figure every {} is no whole centimetre", spell(def, every.value));
            faults.push(
                fault(&every.span, message)
                    .related(list.span.clone(), "in centimetres as well")
                    .fix("every = \"10 mm\""),
            );
        }
        if let Some(wrap) = &rule.wrap {
            let message =
                "figures that start again cannot count millimetres or centimetres at the maker's choice";
            faults.push(
                fault(&wrap.span, message).related(list.span.clone(), "the choice").fix("take out `wrap`"),
            );
        }
    }
}

/// A vernier on a sleeve has no room for a longer span.
fn along(def: &Definition, at: usize, vernier: &Draft, faults: &mut Vec<Diagnostic>) {
    let Some(other) = vernier.other_spans.first() else { return };
    if before(def, at).is_some_and(|base| def.stages[base].shape() == Some(Shape::Drum)) {
        let message = format!("the {} of a sleeve comes with one span only", vernier.called());
        let first = vernier.over.as_ref().map_or(9, |over| over.value);
        faults.push(fault(&other.span, message).fix(format!("over = {first}")));
    }
}

fn spans(vernier: &Draft, faults: &mut Vec<Diagnostic>) {
    let (Some(parts), Some(first)) = (&vernier.parts, &vernier.over) else { return };
    let Some(other) = vernier.other_spans.first() else { return };
    if let Some(third) = vernier.other_spans.get(1) {
        let message = format!("the {} has more than two spans to choose from", vernier.called());
        faults.push(fault(&third.span, message).fix("keep a short and a long one"));
    }
    let is_short = |span: &Written<i64>| span.value < parts.value;
    if is_short(first) == is_short(other) {
        let message = format!(
            "of two spans one is short, less than the {} parts, and one long; {} and {} are not",
            parts.value, first.value, other.value
        );
        let fix = format!("over = [{}, {}]", parts.value - 1, 2 * parts.value - 1);
        faults.push(fault(&other.span, message).related(parts.span.clone(), "its parts").fix(fix));
    }
}

/// What a figure 1 is worth.
fn counted(counts: Counts) -> Exact {
    match counts {
        Counts::Millimetres => Exact::whole(1),
        Counts::Centimetres => Exact::whole(10),
    }
}

/// The offers of a definition without faults, in the order in which a variant spells them.
pub(super) fn build(def: &Definition, lattice: Lattice) -> Option<Vec<Offer>> {
    let mut offers = Vec::new();
    let mut offer = |key: &str, ways: Vec<Way>| offers.push(Offer { key: key.to_owned(), ways, owned: None });
    let way = |word: &str, change: Change| Way { word: word.to_owned(), change };
    let plain = def.stages.iter().enumerate().filter(|(_, stage)| stage.lengths.is_empty());
    for (number, (at, stage)) in plain.clone().enumerate() {
        if let Some(halves) = &stage.halves {
            offer(
                "halves",
                halves.value.iter().map(|side| way(side.word(), Change::Halves(*side))).collect(),
            );
        }
        if let Some(figures) = &stage.figures {
            let ways = figures.value.iter().map(|counts| {
                let word = if *counts == Counts::Millimetres { "mm" } else { "cm" };
                Some(way(word, Change::Figures { stage: number, worth: lattice.at(counted(*counts))? }))
            });
            offer("figures", ways.collect::<Option<_>>()?);
        }
        if !stage.other_spans.is_empty() {
            let parts = value(stage.parts.as_ref())?;
            let base = before(def, at)?;
            let ways = stage.over.iter().chain(&stage.other_spans).map(|over| {
                let word = if over.value < parts { "short" } else { "long" };
                let part = lattice.at(vernier_over(def, at, over.value)?.part)?;
                // On a drum there is no end to move.
                let end = lattice.at(end_over(def, base, Some(over.value)).unwrap_or(Exact::ZERO))?;
                Some(way(word, Change::Span { stage: number, over: over.value, part, end }))
            });
            offer("vernier", ways.collect::<Option<_>>()?);
        }
        if let Some(counter) = &stage.counter {
            let word = |hand: SmallHand| if hand == SmallHand::With { "with" } else { "against" };
            offer(
                "counter",
                counter.value.iter().map(|hand| way(word(*hand), Change::SmallHand(*hand))).collect(),
            );
        }
    }
    if let Some(held) = &def.held {
        let word = |held: Held| if held == Held::Usual { "usual" } else { "turned" };
        offer("held", held.value.iter().map(|held_so| way(word(*held_so), Change::Held(*held_so))).collect());
    }
    if def.stages.iter().any(|stage| stage.shape() == Some(Shape::Line) && is_both_ways(stage)) {
        offers.push(Offer::of_direction());
    }
    Some(offers)
}
