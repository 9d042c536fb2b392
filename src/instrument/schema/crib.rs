//! The file of the tools that somebody has, as it was written: `crib.toml`.

use super::Written;
use super::reader::{Fields, Reader};
use super::sort::{CRIB, opened};
use crate::diag::{Diagnostic, SourceText, Span};
use toml::de::DeValue;

/// What the keys may look like.
const TOOL: &str = "[[tool]]";
const LABEL: &str = "label = \"no. 14\"";
const INSTRUMENT: &str = "instrument = \"caliper-metric-20\"";
const KEYS: [&str; 3] = ["label", "instrument", "variant"];

/// True for a key of this file.
pub(super) fn is_key(name: &str) -> bool {
    name == "tool" || KEYS.contains(&name)
}

/// One tool as it was written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Listed {
    /// Its header, or the whole of one that is written in braces.
    pub header: Span,
    /// What it is called in the shop.
    pub label: Option<Written<String>>,
    /// The id of its instrument.
    pub instrument: Option<Written<String>>,
    /// Its variant, as options spell it.
    pub variant: Option<Written<String>>,
}

impl Listed {
    /// Where its last value ends.
    pub fn end(&self) -> usize {
        let values = [&self.label, &self.instrument, &self.variant];
        let ends = values.into_iter().flatten().map(|written| written.span.end);
        ends.max().unwrap_or(self.header.end).max(self.header.end)
    }
}

/// Reads the file; what is missing or faulty is `None` and has a fault.
pub fn read_crib(source: &SourceText) -> (Vec<Listed>, Vec<Diagnostic>) {
    let (table, mut reader) = match opened(source, &CRIB) {
        Ok(opened) => opened,
        Err(faults) => return (Vec::new(), faults),
    };
    let fields = reader.fields(table.get_ref(), Span { start: 0, end: 0 }, "a crib", &["tool"]);
    let mut listed = Vec::new();
    for item in reader.list(&fields, "tool", TOOL).unwrap_or_default() {
        match item.get_ref() {
            DeValue::Table(table) => {
                let header = Span::from(item.span());
                let fields = reader.fields(table, header.clone(), "a tool", &KEYS);
                listed.push(tool(&mut reader, &fields, header));
            }
            _ => reader.wrong_type("tool", item, "a table", TOOL.to_owned()),
        }
    }
    (listed, reader.into_faults())
}

fn tool(reader: &mut Reader<'_>, fields: &Fields<'_>, header: Span) -> Listed {
    reader.need(fields, "a tool", "label", LABEL);
    reader.need(fields, "a tool", "instrument", INSTRUMENT);
    Listed {
        header,
        label: reader.text(fields, "label"),
        instrument: reader.text(fields, "instrument"),
        variant: reader.text(fields, "variant"),
    }
}
