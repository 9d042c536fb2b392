//! The keys of the whole file.

use super::keys::{self, Place};
use super::other;
use super::quantity::Sign;
use super::reader::{Fields, Reader};
use super::stage::draft;
use super::{Definition, Draft, Style, Written};
use crate::diag::{Diagnostic, Span};
use crate::exact::{Exact, Unit};
use crate::instrument::{Face, Grows, Held, Moves, SetUp, Zero};
use toml::Spanned;
use toml::de::{DeTable, DeValue};

/// The format that is read.
const FORMAT: i64 = 1;

pub(super) const UNITS: [(&str, Unit); 3] =
    [("in", Unit::Inch), ("mm", Unit::Millimetre), ("deg", Unit::Minute)];
pub(super) const STYLES: [(&str, Style); 3] =
    [("decimal", Style::Decimal), ("fraction", Style::Fraction), ("angle", Style::Angle)];
pub(super) const GROWS: [(&str, Grows); 2] =
    [("uncovering", Grows::Uncovering), ("covering", Grows::Covering)];
pub(super) const MOVES: [(&str, Moves); 2] = [("finer", Moves::Finer), ("main-scale", Moves::MainScale)];
pub(super) const ZEROS: [(&str, Zero); 2] = [("can-be-off", Zero::CanBeOff), ("none", Zero::None)];

pub(super) const HELD: [(&str, Held); 2] = [("usual", Held::Usual), ("turned", Held::Turned)];

/// Reads a definition.
pub(super) fn definition(reader: &mut Reader<'_>, table: &DeTable<'_>) -> Definition {
    let first = table.iter().map(|(key, _)| key.span()).min_by_key(|span| span.start);
    let top = Span::from(first.unwrap_or(0..0));
    let fields = reader.fields(table, top.clone(), Place::File.called(), &keys::names_of(Place::File));
    reader.unit = reader.choice(&fields, "unit", &UNITS);
    reader.needs(&fields, Place::File.called(), keys::keys_of(Place::File));
    format(reader, &fields);
    let stages = stages(reader, &fields);
    let balanced = |stage: &Draft| stage.face.as_ref().is_some_and(|face| face.value == Face::Balanced);
    let lowest = if stages.iter().any(balanced) { Sign::Any } else { Sign::NotNegative };
    let (low, high) = range(reader, &fields, lowest);
    let mut definition = Definition {
        top,
        id: reader.text(&fields, "id"),
        title: reader.text(&fields, "title"),
        family: reader.text(&fields, "family"),
        unit: reader.unit.clone(),
        low,
        high,
        least_count: reader.quantity(&fields, "least-count", Sign::Positive),
        settings: reader.quantity(&fields, "settings", Sign::Positive),
        style: reader.choice(&fields, "notation", &STYLES),
        grows: reader.choice(&fields, "grows", &GROWS),
        moves: reader.choice(&fields, "moves", &MOVES).map(|w| w.value),
        zero: reader.choice(&fields, "zero", &ZEROS).map(|w| w.value),
        held: reader.words(&fields, "held", &HELD),
        set_ups: set_ups(reader, &fields),
        engraved: engraved(reader, &fields),
        source: reader.text(&fields, "source"),
        stages,
        other: None,
    };
    // Last, because its quantities are in a unit of its own.
    definition.other = other::read(reader, &fields).map(Box::new);
    definition
}

fn format(reader: &mut Reader<'_>, fields: &Fields<'_>) {
    if let Some(found) = reader.count(fields, "format", 1)
        && found.value != FORMAT
    {
        let message = format!("format {} is not known here; format {FORMAT} is read", found.value);
        reader.push(Diagnostic::new("format", found.span, message).fix(format!("format = {FORMAT}")));
    }
}

pub(super) fn range(
    reader: &mut Reader<'_>,
    fields: &Fields<'_>,
    lowest: Sign,
) -> (Option<Written<Exact>>, Option<Written<Exact>>) {
    let line = "range = [\"0 in\", \"1 in\"]";
    match reader.list(fields, "range", line) {
        None => (None, None),
        Some([low, high]) => {
            let low = reader.quantity_of("range", low, lowest);
            (low, reader.quantity_of("range", high, Sign::Positive))
        }
        Some(_) => {
            if let Some(value) = fields.get("range") {
                reader.wrong_type("range", value, "the lowest and the highest setting", line.to_owned());
            }
            (None, None)
        }
    }
}

pub(super) fn engraved(reader: &mut Reader<'_>, fields: &Fields<'_>) -> Vec<Written<String>> {
    let items = filled(reader, fields, "engraved", "engraved = [\"0-1 in\", \"0.001 in\"]");
    items.iter().filter_map(|item| reader.text_of("engraved", item)).collect()
}

fn set_ups(reader: &mut Reader<'_>, fields: &Fields<'_>) -> Vec<Written<SetUp>> {
    let items = reader.list(fields, "set-ups", "set-ups = [\"as-read\", \"supplement\"]").unwrap_or_default();
    items.iter().filter_map(|item| reader.choice_of("set-ups", item, &SetUp::WORDS)).collect()
}

pub(super) fn stages(reader: &mut Reader<'_>, fields: &Fields<'_>) -> Vec<Draft> {
    let mut drafts = Vec::new();
    for item in filled(reader, fields, "stage", "[[stage]]") {
        match item.get_ref() {
            DeValue::Table(table) => drafts.push(draft(reader, table, item.span().into())),
            _ => reader.wrong_type("stage", item, "a table", "[[stage]]".to_owned()),
        }
    }
    drafts
}

/// A list that has at least one item.
fn filled<'t>(
    reader: &mut Reader<'_>,
    fields: &Fields<'t>,
    key: &str,
    line: &str,
) -> &'t [Spanned<DeValue<'t>>] {
    let items = reader.list(fields, key, line).unwrap_or_default();
    if items.is_empty()
        && let Some(value) = fields.get(key).filter(|value| value.get_ref().is_array())
    {
        let fix = reader.in_unit(line);
        let message = format!("`{key}` is an empty list");
        reader.push(Diagnostic::new("empty-list", value.span().into(), message).fix(fix));
    }
    items
}
