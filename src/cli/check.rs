//! `linefall check`.

use super::args::Common;
use super::exit::{Exit, Halt};
use super::out::{self, Out};
use super::report::Report;
use super::{shelf, terminal};
use crate::class::roster;
use crate::diag::{Diagnostic, SourceText};
use crate::drill::set::{self, Shelf};
use crate::instrument::{Catalogue, Instrument, check, targets};
use crate::store::OWN_LIMIT;
use crate::wording::{self, command as say};
use std::fs::File;
use std::io::{self, Read};
use std::path::{Path, PathBuf};

/// A file of this name holds times, not an instrument.
const TARGETS: &str = "targets.toml";
/// One of this name holds the learners behind the codes.
const ROSTER: &str = "roster.toml";

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
        let judged = if path.file_name().is_some_and(|name| name == TARGETS) {
            times(&source, common)
        } else if path.file_name().is_some_and(|name| name == ROSTER) {
            people(&source)
        } else if set::is_set(&source) {
            drill_set(&source, common)
        } else {
            definition(&source, &shipped)
        };
        match judged {
            Ok(lines) => out.lines(lines)?,
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

/// What to say of times without a fault.
fn times(source: &SourceText, common: &Common) -> Result<Vec<String>, Vec<Diagnostic>> {
    let found = targets::read(source, &shelf::instruments(common));
    if found.faults.is_empty() {
        Ok(vec![say::no_faults_in_targets(&source.name, found.set.len())])
    } else {
        Err(found.faults)
    }
}

/// What to say of a roster without a fault.
fn people(source: &SourceText) -> Result<Vec<String>, Vec<Diagnostic>> {
    let found = roster::read(source);
    if found.faults.is_empty() {
        Ok(vec![wording::round::no_faults_in_roster(&source.name, found.people.len())])
    } else {
        Err(found.faults)
    }
}

/// What to say of a drill set without a fault.
fn drill_set(source: &SourceText, common: &Common) -> Result<Vec<String>, Vec<Diagnostic>> {
    let catalogue = shelf::catalogue(common);
    let own = set::read(source, &catalogue)?;
    let mut lines = vec![say::no_faults_in_set(&source.name, &own)];
    lines.extend(wording::set::notes(&own).into_iter().map(say::to_know));
    let shipped = Shelf::new(Vec::new(), &catalogue);
    if shipped.get(&own.id).is_some_and(|ours| ours.text != own.text) {
        lines.push(say::in_place_of_shipped_set("    put among your own it", &own.id));
    }
    Ok(lines)
}

/// What to say of a definition without a fault.
fn definition(source: &SourceText, shipped: &Catalogue) -> Result<Vec<String>, Vec<Diagnostic>> {
    let own = check::read(source)?;
    let mut lines = vec![say::no_faults(&source.name, &own.id)];
    if differs_from_shipped(shipped, &own) {
        lines.push(say::in_place_of_shipped("    put among your own it", &own.id));
    }
    Ok(lines)
}

/// True for another definition under the id of a shipped one.
fn differs_from_shipped(shipped: &Catalogue, own: &Instrument) -> bool {
    let same = |ours: &Instrument| Instrument { revision: own.revision.clone(), ..ours.clone() } == *own;
    shipped.get(&own.id).is_some_and(|ours| !same(ours))
}

fn read(path: &Path) -> io::Result<String> {
    let mut bytes = Vec::new();
    File::open(path)?.take(OWN_LIMIT + 1).read_to_end(&mut bytes)?;
    if bytes.len() as u64 > OWN_LIMIT {
        return Err(io::Error::other(format!("it is larger than {OWN_LIMIT} bytes")));
    }
    String::from_utf8(bytes)
        .map_err(|_| io::Error::new(io::ErrorKind::InvalidData, "it is not text in UTF-8"))
}
