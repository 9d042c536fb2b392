//! The keys of one stage.

use super::keys::{self, Key, Place};
use super::quantity::Sign;
use super::reader::{Fields, Reader};
use super::{Draft, Figures, Shape, Written};
use crate::diag::Span;
use crate::exact::Exact;
use crate::instrument::{
    Body, Contact, Counts, Course, Face, Figured, Nought, NumeralSize, ReadBy, Sense, Side, SmallHand, Takes,
    Turns,
};
use toml::Spanned;
use toml::de::{DeTable, DeValue};

pub(super) const SHAPES: [(&str, Shape); 5] = [
    ("line", Shape::Line),
    ("drum", Shape::Drum),
    ("dial", Shape::Dial),
    ("vernier", Shape::Vernier),
    ("fixed", Shape::Fixed),
];
pub(super) const SIDES: [(&str, Side); 2] = [("above", Side::Above), ("below", Side::Below)];
pub(super) const SIZES: [(&str, NumeralSize); 2] =
    [("large", NumeralSize::Large), ("small", NumeralSize::Small)];
pub(super) const READS: [(&str, ReadBy); 3] =
    [("last-passed", ReadBy::LastPassed), ("nearest", ReadBy::Nearest), ("estimate", ReadBy::Estimate)];
pub(super) const NOUGHTS: [(&str, Nought); 2] =
    [("required", Nought::Required), ("optional", Nought::Optional)];
pub(super) const COURSES: [(&str, Course); 3] =
    [("left-to-right", Course::Rightward), ("right-to-left", Course::Leftward), ("upward", Course::Upward)];

pub(super) const FIGURED: [(&str, Figured); 2] =
    [("one-way", Figured::OneWay), ("both-ways", Figured::BothWays)];
pub(super) const FACES: [(&str, Face); 2] = [("continuous", Face::Continuous), ("balanced", Face::Balanced)];
pub(super) const SENSES: [(&str, Sense); 2] =
    [("clockwise", Sense::Clockwise), ("counter-clockwise", Sense::CounterClockwise)];
pub(super) const BODIES: [(&str, Body); 2] = [("face", Body::Face), ("collar", Body::Collar)];
pub(super) const TURNS: [(&str, Turns); 2] = [("bar", Turns::Bar), ("counter", Turns::Counter)];

pub(super) const COUNTS: [(&str, Counts); 2] = [("mm", Counts::Millimetres), ("cm", Counts::Centimetres)];
pub(super) const COUNTERS: [(&str, SmallHand); 2] =
    [("with", SmallHand::With), ("against", SmallHand::Against)];
pub(super) const TAKES: [(&str, Takes); 2] = [("diameter", Takes::Diameter), ("radius", Takes::Radius)];
pub(super) const CONTACTS: [(&str, Contact); 2] = [("plunger", Contact::Plunger), ("lever", Contact::Lever)];

pub(super) const PRACTISED: [(&str, bool); 2] = [("all", false), ("first", true)];

const NUMERALS: &str = "numerals = [{ every = \"0.1 in\", worth = \"0.1 in\" }]";

/// Reads one stage.
pub(super) fn draft(reader: &mut Reader<'_>, table: &DeTable<'_>, header: Span) -> Draft {
    let form = table.iter().find(|(key, _)| key.get_ref() == "form");
    let form = form.and_then(|(_, value)| reader.choice_of("form", value, &SHAPES));
    let shape = form.as_ref().map(|form| form.value);
    let (whose, keys) = match shape.map(Place::from) {
        Some(place) => (place.called(), keys::names_of(place)),
        None => ("a stage", keys::names_of_any_stage()),
    };
    let fields = reader.fields(table, header.clone(), whose, &keys);
    let asked = |key: &&Key| match shape.map(Place::from) {
        Some(place) => key.places.contains(&place),
        // Without a form only what every stage has can be missing.
        None => matches!(key.name, "form" | "name"),
    };
    reader.needs(&fields, whose, keys::keys().filter(asked));
    let mut spans = spans(reader, &fields).into_iter();
    Draft {
        header,
        form,
        name: reader.text(&fields, "name"),
        division: reader.quantity(&fields, "division", Sign::Positive),
        end: reader.quantity(&fields, "end", Sign::Positive),
        parts: reader.count(&fields, "parts", 2),
        over: spans.next(),
        other_spans: spans.collect(),
        length: reader.quantity(&fields, "length", Sign::Positive),
        lengths: lengths(reader, &fields),
        stamped: stamped(reader, &fields),
        first_only: reader.choice(&fields, "practised", &PRACTISED).is_some_and(|w| w.value),
        tiers: reader.quantities(&fields, "tiers"),
        figures: reader.words(&fields, "figures", &COUNTS),
        numerals: numerals(reader, &fields),
        side: reader.choice(&fields, "side", &SIDES),
        whole: reader.quantity(&fields, "whole", Sign::Positive),
        halves: reader.words(&fields, "halves", &SIDES),
        read: reader.choice(&fields, "read", &READS),
        estimate: reader.quantity(&fields, "estimate", Sign::Positive),
        accept: reader.quantity(&fields, "accept", Sign::Positive),
        nought: reader.choice(&fields, "estimated-nought", &NOUGHTS),
        runs: reader.choice(&fields, "runs", &COURSES),
        figured: reader.choice(&fields, "figured", &FIGURED),
        face: reader.choice(&fields, "face", &FACES),
        sense: reader.choice(&fields, "sense", &SENSES),
        body: reader.choice(&fields, "body", &BODIES),
        turns: reader.choice(&fields, "turns", &TURNS),
        counter: reader.words(&fields, "counter", &COUNTERS),
        takes: reader.choice(&fields, "takes", &TAKES),
        contact: reader.choice(&fields, "contact", &CONTACTS),
    }
}

/// Lengths to choose from; nought is one.
fn lengths(reader: &mut Reader<'_>, fields: &Fields<'_>) -> Vec<Written<Exact>> {
    let items = reader.list(fields, "lengths", "lengths = [\"0 in\", \"1 in\"]").unwrap_or_default();
    items.iter().filter_map(|item| reader.quantity_of("lengths", item, Sign::NotNegative)).collect()
}

/// What is stamped on the tool with each of them; an empty text where nothing is.
fn stamped(reader: &mut Reader<'_>, fields: &Fields<'_>) -> Vec<Written<String>> {
    let items =
        reader.list(fields, "stamped", "stamped = [\"rod 0-1 in\", \"rod 1-2 in\"]").unwrap_or_default();
    let mut texts = Vec::new();
    for item in items {
        if item.get_ref().as_str() == Some("") {
            texts.push(Written { value: String::new(), span: item.span().into() });
        } else {
            texts.extend(reader.text_of("stamped", item));
        }
    }
    texts
}

/// The span of a vernier, or several to choose from.
fn spans(reader: &mut Reader<'_>, fields: &Fields<'_>) -> Vec<Written<i64>> {
    let Some(value) = fields.get("over") else { return Vec::new() };
    match value.get_ref() {
        DeValue::Array(items) => items.iter().filter_map(|item| reader.count_of("over", item, 1)).collect(),
        _ => reader.count_of("over", value, 1).into_iter().collect(),
    }
}

fn numerals(reader: &mut Reader<'_>, fields: &Fields<'_>) -> Option<Vec<Figures>> {
    let items = reader.list(fields, "numerals", NUMERALS)?;
    let mut rules = Vec::new();
    for item in items {
        match item.get_ref() {
            DeValue::Table(table) => rules.push(figures(reader, table, item)),
            _ => reader.wrong_type("numerals", item, "a list of rules in { }", NUMERALS.to_owned()),
        }
    }
    (rules.len() == items.len()).then_some(rules)
}

fn figures(reader: &mut Reader<'_>, table: &DeTable<'_>, item: &Spanned<DeValue<'_>>) -> Figures {
    let span = Span::from(item.span());
    let whose = Place::Figures.called();
    let fields = reader.fields(table, span.clone(), whose, &keys::names_of(Place::Figures));
    reader.needs(&fields, whose, keys::keys_of(Place::Figures));
    Figures {
        span,
        every: reader.quantity(&fields, "every", Sign::Positive),
        worth: reader.quantity(&fields, "worth", Sign::Positive),
        wrap: reader.count(&fields, "wrap", 2),
        back: reader.count(&fields, "back-from", 2),
        size: reader.choice(&fields, "size", &SIZES).map_or(NumeralSize::Small, |size| size.value),
    }
}
