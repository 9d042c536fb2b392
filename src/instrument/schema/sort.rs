//! The sorts of files that are read, and how one of them is opened.

use super::keys::is_key;
use super::reader::Reader;
use super::{crib, limits, syntax};
use crate::diag::{Diagnostic, SourceText};
use toml::Spanned;
use toml::de::DeTable;

/// A sort of file.
pub(crate) struct Sort {
    /// True for a name that stands in its table of keys. The reader asks for no other.
    pub(crate) is_key: fn(&str) -> bool,
    /// What to call it: `a definition`.
    pub(crate) called: &'static str,
    /// What it is about: `the instrument`.
    pub(crate) about: &'static str,
    /// What has a unit that its quantities share: `the file`.
    pub(crate) in_unit: &'static str,
    /// How one of its tables begins.
    pub(crate) tables: &'static str,
}

/// A definition of an instrument.
pub(super) static DEFINITION: Sort = Sort {
    is_key,
    called: "a definition",
    about: "the instrument",
    in_unit: "the file",
    tables: "a stage begins with a line [[stage]]",
};

/// The tools that somebody has.
pub(super) static CRIB: Sort = Sort {
    is_key: crib::is_key,
    called: "a crib",
    about: "the tools",
    in_unit: "the file",
    tables: "a tool begins with a line [[tool]]",
};

/// The times that readings are wanted in.
pub(super) static TARGETS: Sort = Sort {
    is_key: |_| false,
    called: "a file of times",
    about: "the times",
    in_unit: "the file",
    tables: "a line is an instrument and its time: micrometer-metric = \"8 s\"",
};

/// The keys of a file, and the reader that has its faults so far. Only a file that is far too large is refused at once.
pub(crate) fn opened<'s>(
    source: &'s SourceText,
    sort: &'static Sort,
) -> Result<(Spanned<DeTable<'s>>, Reader<'s>), Vec<Diagnostic>> {
    if let Some(fault) = limits::refusal(source, sort) {
        return Err(vec![fault]);
    }
    let (table, errors) = DeTable::parse_recoverable(&source.text);
    let mut reader = Reader::new(source, sort, syntax::faults(source, sort, &errors));
    limits::hidden_characters(source, &mut reader);
    Ok((table, reader))
}
