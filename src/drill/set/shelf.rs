//! The shipped sets with an instructor's own on top.

use super::check::{read, trusted};
use super::{DrillSet, schema};
use crate::diag::{Diagnostic, SourceText, Span, nearest};
use crate::instrument::schema::shown;
use crate::instrument::{Catalogue, Origin};
use std::sync::OnceLock;

/// The id of every shipped set and its text, in the order of the course.
const SHIPPED: [(&str, &str); 20] = [
    ("first-rule", include_str!("../../../drills/first-rule.toml")),
    ("rule-fractions", include_str!("../../../drills/rule-fractions.toml")),
    ("vernier-idea", include_str!("../../../drills/vernier-idea.toml")),
    ("metric-verniers", include_str!("../../../drills/metric-verniers.toml")),
    ("inch-verniers", include_str!("../../../drills/inch-verniers.toml")),
    ("metric-micrometer", include_str!("../../../drills/metric-micrometer.toml")),
    ("inch-micrometer", include_str!("../../../drills/inch-micrometer.toml")),
    ("tenths", include_str!("../../../drills/tenths.toml")),
    ("allow-for-zero", include_str!("../../../drills/allow-for-zero.toml")),
    ("set-to-size", include_str!("../../../drills/set-to-size.toml")),
    ("same-again", include_str!("../../../drills/same-again.toml")),
    ("half-way-check", include_str!("../../../drills/half-way-check.toml")),
    ("depth-and-inside", include_str!("../../../drills/depth-and-inside.toml")),
    ("dials", include_str!("../../../drills/dials.toml")),
    ("angles", include_str!("../../../drills/angles.toml")),
    ("machine-collars", include_str!("../../../drills/machine-collars.toml")),
    ("in-or-out", include_str!("../../../drills/in-or-out.toml")),
    ("traps-day", include_str!("../../../drills/traps-day.toml")),
    ("final-check", include_str!("../../../drills/final-check.toml")),
    ("running-check", include_str!("../../../drills/running-check.toml")),
];

/// The sets there are. A shipped one is read when it is first asked for.
#[derive(Debug)]
pub struct Shelf {
    entries: Vec<Entry>,
    faults: Vec<(SourceText, Vec<Diagnostic>)>,
}

#[derive(Debug)]
struct Entry {
    id: String,
    origin: Origin,
    text: &'static str,
    set: OnceLock<DrillSet>,
}

impl Entry {
    fn set(&self) -> &DrillSet {
        self.set.get_or_init(|| trusted(&SourceText::new(format!("{}.toml", self.id), self.text)))
    }
}

impl Shelf {
    /// The shipped sets, and on top of them an instructor's own. One of those with the id of a shipped set takes its place; a faulty
    /// one is left out and found in [`Self::faults`].
    pub fn new(user: Vec<SourceText>, catalogue: &Catalogue) -> Self {
        let shipped = SHIPPED.iter().map(|(id, text)| Entry {
            id: (*id).to_owned(),
            origin: Origin::Shipped,
            text,
            set: OnceLock::new(),
        });
        let mut shelf = Self { entries: shipped.collect(), faults: Vec::new() };
        for source in user {
            match read(&source, catalogue) {
                Ok(set) => shelf.add(source, set),
                Err(faults) => shelf.faults.push((source, faults)),
            }
        }
        shelf
    }

    fn add(&mut self, source: SourceText, set: DrillSet) {
        let id = set.id.clone();
        let place = self.entries.iter_mut().find(|entry| entry.id == id);
        if let Some(Entry { origin: Origin::User { name, .. }, .. }) = place {
            let span = schema::read(&source, &|_, _| None).draft.and_then(|draft| draft.id).map(|id| id.span);
            let span = span.unwrap_or(Span { start: 0, end: 0 });
            let message = format!("the set \"{id}\" is already in {}", shown(name));
            let fault = Diagnostic::new("id-taken", span, message).fix(format!("set = \"{id}-2\""));
            self.faults.push((source, vec![fault]));
            return;
        }
        let origin = Origin::User { name: source.name, overrides_shipped: place.is_some() };
        let entry = Entry { id, origin, text: "", set: OnceLock::from(set) };
        match place {
            Some(shipped) => *shipped = entry,
            None => self.entries.push(entry),
        }
    }

    /// The set of an id.
    pub fn get(&self, id: &str) -> Option<&DrillSet> {
        self.entry(id).map(Entry::set)
    }

    /// Every id: the shipped sets in the order of the course, then an instructor's own. Reads none of them.
    pub fn ids(&self) -> impl Iterator<Item = &str> {
        self.entries.iter().map(|entry| entry.id.as_str())
    }

    /// True for a name that is nearly that of a set.
    pub fn is_near(&self, name: &str) -> bool {
        nearest(name, self.ids()).is_some()
    }

    /// Every set, in the order of the ids.
    pub fn all(&self) -> impl Iterator<Item = &DrillSet> {
        self.entries.iter().map(Entry::set)
    }

    /// Where the set of an id comes from.
    pub fn origin(&self, id: &str) -> Option<&Origin> {
        self.entry(id).map(|entry| &entry.origin)
    }

    /// An instructor's files that could not be used, and why.
    pub fn faults(&self) -> &[(SourceText, Vec<Diagnostic>)] {
        &self.faults
    }

    fn entry(&self, id: &str) -> Option<&Entry> {
        self.entries.iter().find(|entry| entry.id == id)
    }
}
