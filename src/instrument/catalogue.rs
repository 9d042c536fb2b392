//! The shipped definitions with the user's own on top.

use super::crib::Tool;
use super::schema;
use super::targets::Tenths;
use super::{Instrument, check};
use crate::diag::{Diagnostic, SourceText, Span};
use std::sync::OnceLock;

/// The id of every shipped definition and its text, in the order in which they are listed.
const SHIPPED: [(&str, &str); 42] = [
    ("rule-inch-64", include_str!("../../assets/instruments/rule-inch-64.toml")),
    ("rule-inch-100", include_str!("../../assets/instruments/rule-inch-100.toml")),
    ("rule-metric", include_str!("../../assets/instruments/rule-metric.toml")),
    ("micrometer-inch", include_str!("../../assets/instruments/micrometer-inch.toml")),
    ("micrometer-inch-tenths", include_str!("../../assets/instruments/micrometer-inch-tenths.toml")),
    ("micrometer-metric", include_str!("../../assets/instruments/micrometer-metric.toml")),
    ("micrometer-metric-microns", include_str!("../../assets/instruments/micrometer-metric-microns.toml")),
    ("depth-micrometer-inch", include_str!("../../assets/instruments/depth-micrometer-inch.toml")),
    ("depth-micrometer-metric", include_str!("../../assets/instruments/depth-micrometer-metric.toml")),
    ("inside-micrometer-inch", include_str!("../../assets/instruments/inside-micrometer-inch.toml")),
    ("inside-micrometer-metric", include_str!("../../assets/instruments/inside-micrometer-metric.toml")),
    (
        "inside-jaw-micrometer-metric",
        include_str!("../../assets/instruments/inside-jaw-micrometer-metric.toml"),
    ),
    ("caliper-inch-25", include_str!("../../assets/instruments/caliper-inch-25.toml")),
    ("caliper-inch-25-inside", include_str!("../../assets/instruments/caliper-inch-25-inside.toml")),
    ("caliper-inch-50", include_str!("../../assets/instruments/caliper-inch-50.toml")),
    ("caliper-inch-128", include_str!("../../assets/instruments/caliper-inch-128.toml")),
    ("caliper-metric-10", include_str!("../../assets/instruments/caliper-metric-10.toml")),
    ("caliper-metric-20", include_str!("../../assets/instruments/caliper-metric-20.toml")),
    ("caliper-metric-20-long", include_str!("../../assets/instruments/caliper-metric-20-long.toml")),
    ("caliper-metric-50", include_str!("../../assets/instruments/caliper-metric-50.toml")),
    ("caliper-metric-50-inside", include_str!("../../assets/instruments/caliper-metric-50-inside.toml")),
    ("caliper-two-scale", include_str!("../../assets/instruments/caliper-two-scale.toml")),
    ("height-gauge-inch", include_str!("../../assets/instruments/height-gauge-inch.toml")),
    ("height-gauge-metric", include_str!("../../assets/instruments/height-gauge-metric.toml")),
    ("depth-gauge-inch", include_str!("../../assets/instruments/depth-gauge-inch.toml")),
    ("depth-gauge-metric", include_str!("../../assets/instruments/depth-gauge-metric.toml")),
    ("gear-tooth-inch", include_str!("../../assets/instruments/gear-tooth-inch.toml")),
    ("gear-tooth-metric", include_str!("../../assets/instruments/gear-tooth-metric.toml")),
    ("dial-caliper-inch", include_str!("../../assets/instruments/dial-caliper-inch.toml")),
    ("dial-caliper-metric", include_str!("../../assets/instruments/dial-caliper-metric.toml")),
    (
        "dial-indicator-metric-continuous",
        include_str!("../../assets/instruments/dial-indicator-metric-continuous.toml"),
    ),
    (
        "dial-indicator-inch-balanced",
        include_str!("../../assets/instruments/dial-indicator-inch-balanced.toml"),
    ),
    ("lever-indicator-inch", include_str!("../../assets/instruments/lever-indicator-inch.toml")),
    ("lever-indicator-metric", include_str!("../../assets/instruments/lever-indicator-metric.toml")),
    ("cross-slide-dial-inch", include_str!("../../assets/instruments/cross-slide-dial-inch.toml")),
    (
        "cross-slide-dial-inch-radius",
        include_str!("../../assets/instruments/cross-slide-dial-inch-radius.toml"),
    ),
    ("cross-slide-dial-metric", include_str!("../../assets/instruments/cross-slide-dial-metric.toml")),
    ("protractor-head", include_str!("../../assets/instruments/protractor-head.toml")),
    ("bevel-protractor", include_str!("../../assets/instruments/bevel-protractor.toml")),
    (
        "cross-slide-dial-metric-diameter",
        include_str!("../../assets/instruments/cross-slide-dial-metric-diameter.toml"),
    ),
    ("lesson-5-part", include_str!("../../assets/instruments/lesson-5-part.toml")),
    ("lesson-10-part", include_str!("../../assets/instruments/lesson-10-part.toml")),
];

/// Where a definition comes from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Origin {
    /// With the program.
    Shipped,
    /// From a person's own file.
    User {
        /// The file's name.
        name: String,
        /// Whether it stands in for a shipped one of the same id.
        overrides_shipped: bool,
    },
}

/// The instruments there are. A shipped definition is read when it is first asked for.
#[derive(Debug)]
pub struct Catalogue {
    entries: Vec<Entry>,
    faults: Vec<(SourceText, Vec<Diagnostic>)>,
    tools: Vec<Tool>,
}

#[derive(Debug)]
struct Entry {
    id: String,
    origin: Origin,
    text: &'static str,
    /// The time in which a reading is wanted, where somebody set one.
    target: Option<Tenths>,
    instrument: OnceLock<Instrument>,
}

impl Entry {
    fn title(&self) -> &str {
        let written = || {
            let mut top = self.text.lines().take_while(|line| !line.starts_with('['));
            top.find_map(|line| line.strip_prefix("title = \"")?.strip_suffix('"'))
        };
        match self.instrument.get() {
            Some(instrument) => &instrument.title,
            None => written().unwrap_or_else(|| &self.instrument().title),
        }
    }

    fn instrument(&self) -> &Instrument {
        self.instrument.get_or_init(|| {
            let source = SourceText::new(format!("{}.toml", self.id), self.text);
            let read = check::read(&source);
            let instrument = read.expect("a shipped definition keeps every rule; a test reads each");
            Instrument { target: self.target, ..instrument }
        })
    }
}

impl Catalogue {
    /// The shipped definitions, and on top of them a person's own. One of those with the id of a shipped definition takes its
    /// place; a faulty one is left out and found in [`Self::faults`].
    pub fn new(user: Vec<SourceText>) -> Self {
        let entries = SHIPPED.iter().map(|(id, text)| Entry {
            id: (*id).to_owned(),
            origin: Origin::Shipped,
            text,
            target: None,
            instrument: OnceLock::new(),
        });
        let mut catalogue = Self { entries: entries.collect(), faults: Vec::new(), tools: Vec::new() };
        for source in user {
            match check::read(&source) {
                Ok(instrument) => catalogue.add(source, instrument),
                Err(faults) => catalogue.faults.push((source, faults)),
            }
        }
        catalogue
    }

    fn add(&mut self, source: SourceText, instrument: Instrument) {
        let id = instrument.id.clone();
        let place = self.entries.iter_mut().find(|entry| entry.id == id);
        if let Some(Entry { origin: Origin::User { name, .. }, .. }) = place {
            let span =
                schema::read(&source).definition.and_then(|definition| definition.id).map(|id| id.span);
            let span = span.unwrap_or(Span { start: 0, end: 0 });
            let message = format!("the id \"{id}\" is already used by {}", schema::shown(name));
            let fault = Diagnostic::new("id-taken", span, message).fix(format!("id = \"{id}-2\""));
            self.faults.push((source, vec![fault]));
            return;
        }
        let origin = Origin::User { name: source.name, overrides_shipped: place.is_some() };
        let entry = Entry { id, origin, text: "", target: None, instrument: OnceLock::from(instrument) };
        match place {
            Some(shipped) => *shipped = entry,
            None => self.entries.push(entry),
        }
    }

    /// With times that somebody wants readings in. To be set before the tools of a crib are made of the instruments.
    #[must_use]
    pub fn with_targets(mut self, targets: Vec<(String, Tenths)>) -> Self {
        for (id, target) in targets {
            if let Some(entry) = self.entries.iter_mut().find(|entry| entry.id == id) {
                entry.target = Some(target);
                if let Some(instrument) = entry.instrument.get_mut() {
                    instrument.target = Some(target);
                }
            }
        }
        self
    }

    /// With the tools of a crib, which are found by their labels.
    #[must_use]
    pub fn with_tools(self, tools: Vec<Tool>) -> Self {
        Self { tools, ..self }
    }

    /// The tools of the crib.
    pub fn tools(&self) -> &[Tool] {
        &self.tools
    }

    /// What there is to practise on: the labels of the crib's tools, then every id.
    pub fn names(&self) -> impl Iterator<Item = &str> {
        self.tools.iter().map(|tool| tool.label.as_str()).chain(self.ids())
    }

    /// The instrument of an id, or the tool of a label.
    pub fn get(&self, name: &str) -> Option<&Instrument> {
        self.tool(name).or_else(|| self.entry(name).map(Entry::instrument))
    }

    /// Every id: rules, micrometers, calipers, gauges, dials, lessons, then a person's own. Reads no shipped definition.
    pub fn ids(&self) -> impl Iterator<Item = &str> {
        self.entries.iter().map(|entry| entry.id.as_str())
    }

    /// What a person calls the instrument of an id. Of a shipped one only that line of its definition is looked at, so that a list
    /// of titles reads no definition.
    pub fn title(&self, id: &str) -> Option<&str> {
        self.tool(id).map(|tool| tool.title.as_str()).or_else(|| self.entry(id).map(Entry::title))
    }

    /// The id of the instrument that a name stands for: the name itself, but for the label of a tool.
    pub fn instrument_id<'a>(&'a self, name: &'a str) -> &'a str {
        self.tool(name).map_or(name, |tool| tool.id.as_str())
    }

    fn tool(&self, label: &str) -> Option<&Instrument> {
        self.tools.iter().find(|tool| tool.label == label).map(|tool| &tool.instrument)
    }

    /// Every instrument, in the order of the ids.
    pub fn all(&self) -> impl Iterator<Item = &Instrument> {
        self.entries.iter().map(Entry::instrument)
    }

    /// Where the definition of an id comes from.
    pub fn origin(&self, id: &str) -> Option<&Origin> {
        self.entry(id).map(|entry| &entry.origin)
    }

    /// A person's files that could not be used, and why.
    pub fn faults(&self) -> &[(SourceText, Vec<Diagnostic>)] {
        &self.faults
    }

    fn entry(&self, id: &str) -> Option<&Entry> {
        self.entries.iter().find(|entry| entry.id == id)
    }
}
