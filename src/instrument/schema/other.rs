//! A second set of scales, in the table `[other]`.

use super::keys::{self, Place};
use super::quantity::Sign;
use super::reader::{Fields, Reader};
use super::top::{STYLES, UNITS, ZEROS, engraved, range, stages};
use super::{Definition, Second};
use crate::diag::Span;
use crate::instrument::Joined;
use toml::de::DeValue;

pub(super) const JOINS: [(&str, Joined); 3] =
    [("above", Joined::Above), ("below", Joined::Below), ("own-slide", Joined::OwnSlide)];
const READS: &str = "reads = [\"mm\", \"in\"]";

/// Reads the table, if there is one. Its quantities are in a unit of its own.
pub(super) fn read(reader: &mut Reader<'_>, all: &Fields<'_>) -> Option<Second> {
    let value = all.get("other")?;
    let DeValue::Table(table) = value.get_ref() else {
        reader.wrong_type("other", value, "a table", "[other]".to_owned());
        return None;
    };
    let place = Span::from(value.span());
    let whose = Place::Other.called();
    let fields = reader.fields(table, place.clone(), whose, &keys::names_of(Place::Other));
    let outer = reader.unit.take();
    reader.unit = reader.choice(&fields, "unit", &UNITS);
    reader.needs(&fields, whose, keys::keys_of(Place::Other));
    let (low, high) = range(reader, &fields, Sign::NotNegative);
    let reads = reader.list(&fields, "reads", READS).unwrap_or_default();
    let second = Second {
        joined: reader.choice(&fields, "joined", &JOINS),
        reads: reads.iter().filter_map(|item| reader.text_of("reads", item)).collect(),
        scales: Definition {
            top: place,
            id: None,
            title: None,
            family: None,
            unit: reader.unit.clone(),
            low,
            high,
            least_count: reader.quantity(&fields, "least-count", Sign::Positive),
            settings: reader.quantity(&fields, "settings", Sign::Positive),
            style: reader.choice(&fields, "notation", &STYLES),
            grows: None,
            moves: None,
            zero: reader.choice(&fields, "zero", &ZEROS).map(|w| w.value),
            held: None,
            set_ups: Vec::new(),
            engraved: engraved(reader, &fields),
            source: reader.text(&fields, "source"),
            stages: stages(reader, &fields),
            other: None,
        },
    };
    reader.unit = outer;
    Some(second)
}
