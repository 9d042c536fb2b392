//! `linefall check`.

use super::args::Common;
use super::exit::{Exit, Halt};
use super::out::{self, Out};
use super::report::Report;
use super::{shelf, terminal};
use crate::diag::SourceText;
use crate::instrument::{Catalogue, Instrument, check, targets};
use crate::store::INSTRUMENT_LIMIT;
use crate::wording::command as say;
use std::fs::File;
use std::io::{self, Read};
use std::path::{Path, PathBuf};

/// A file of this name holds times, not an instrument.
const TARGETS: &str = "targets.toml";

/// Looks for faults in files: every fault of every file is shown.
pub fn run(common: &Common, files: &[PathBuf], out: &mut Out) -> Result<Exit, Halt> {
    let colours = terminal::terminal().is_terminal && !common.plain && !terminal::no_color();
    let report = Report::new(colours, terminal::size());
    let shipped = Catalogue::new(Vec::new());
    let mut exit = Exit::Fine;
    for path in files {
        let name = out::clean_name(&path.to_string_lossy());
        let source = match read(path) {
            Ok(text) => SourceText::new(name.clone(), text),
            Err(cause) => {
                out.flush()?;
                out::complain(&format!("cannot read {name}: {cause}"));
                exit = Exit::Trouble;
                continue;
            }
        };
        let read = if path.file_name().is_some_and(|name| name == TARGETS) {
            let found = targets::read(&source, &shelf::instruments(common));
            if found.faults.is_empty() {
                out.line(&say::no_faults_in_targets(&name, found.set.len()))?;
                continue;
            }
            Err(found.faults)
        } else {
            check::read(&source)
        };
        match read {
            Ok(instrument) => {
                out.line(&say::no_faults(&name, &instrument.id))?;
                if differs_from_shipped(&shipped, &instrument) {
                    out.line(&say::in_place_of_shipped("    put among your own it", &instrument.id))?;
                }
            }
            Err(faults) => {
                for fault in &faults {
                    out.line(&report.render(&source, fault))?;
                    out.line("")?;
                }
                out.line(&say::fault_count(&name, faults.len()))?;
                if exit == Exit::Fine {
                    exit = Exit::Findings;
                }
            }
        }
    }
    Ok(exit)
}

/// True for another definition under the id of a shipped one.
fn differs_from_shipped(shipped: &Catalogue, own: &Instrument) -> bool {
    let same = |ours: &Instrument| Instrument { revision: own.revision.clone(), ..ours.clone() } == *own;
    shipped.get(&own.id).is_some_and(|ours| !same(ours))
}

fn read(path: &Path) -> io::Result<String> {
    let mut bytes = Vec::new();
    File::open(path)?.take(INSTRUMENT_LIMIT + 1).read_to_end(&mut bytes)?;
    if bytes.len() as u64 > INSTRUMENT_LIMIT {
        return Err(io::Error::other(format!("it is larger than {INSTRUMENT_LIMIT} bytes")));
    }
    String::from_utf8(bytes)
        .map_err(|_| io::Error::new(io::ErrorKind::InvalidData, "it is not text in UTF-8"))
}
