//! The file of the times that an instructor wants readings in, as it was written: `targets.toml`.

use super::Written;
use super::sort::{TARGETS, opened};
use crate::diag::{Diagnostic, SourceText};

/// One line of the file: an instrument, and what stands for its time.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Timed {
    /// The id of the instrument.
    pub instrument: Written<String>,
    /// The time.
    pub time: Written<String>,
}

/// Reads the file; a value that is no text has a fault and is left out.
pub fn read_targets(source: &SourceText) -> (Vec<Timed>, Vec<Diagnostic>) {
    let (table, mut reader) = match opened(source, &TARGETS) {
        Ok(opened) => opened,
        Err(faults) => return (Vec::new(), faults),
    };
    let mut listed = Vec::new();
    for (key, value) in table.get_ref() {
        let id = key.get_ref().to_string();
        let span = value.span().into();
        if let Some(time) = value.get_ref().as_str() {
            let instrument = Written { value: id, span: key.span().into() };
            listed.push(Timed { instrument, time: Written { value: time.to_owned(), span } });
        } else {
            let key = super::shown(&id);
            reader.wrong_type(&key, value, "a time in quotes", format!("{key} = \"10 s\""));
        }
    }
    listed.sort_by_key(|timed| timed.instrument.span.start);
    (listed, reader.into_faults())
}
