//! `linefall doctor`.

use super::args::Common;
use super::exit::{Exit, Halt};
use super::out::{self, Out};
use super::terminal;
use crate::diag::{Diagnostic, SourceText};
use crate::drill::set::Shelf;
use crate::instrument::{Catalogue, Origin};
use crate::render::Why;
use crate::store::{self, Access, Store, StoreError};
use crate::wording::command::faulty;
use crate::wording::doctor as say;
use serde::Serialize;
use std::path::Path;

#[derive(Serialize)]
struct Findings {
    version: &'static str,
    data_dir: Option<String>,
    record: RecordOut,
    instruments: OwnOut,
    exercises: OwnOut,
    terminal: TerminalOut,
    lines: LinesOut,
    theme: &'static str,
    no_color: bool,
}

#[derive(Serialize)]
struct RecordOut {
    file: Option<String>,
    exists: bool,
    writable: bool,
    problem: Option<String>,
}

#[derive(Serialize)]
struct OwnOut {
    folder: Option<String>,
    own: usize,
    faulty: Vec<FaultyOut>,
    unreadable: Vec<String>,
}

#[derive(Serialize)]
struct FaultyOut {
    file: String,
    faults: usize,
}

#[derive(Serialize)]
struct TerminalOut {
    is_terminal: bool,
    term: String,
    program: String,
    utf8: bool,
    cols: Option<u16>,
    rows: Option<u16>,
}

#[derive(Serialize)]
struct LinesOut {
    style: &'static str,
    why: &'static str,
    #[serde(skip)]
    reason: Why,
}

/// Looks at everything and changes nothing.
pub fn run(common: &Common, json: bool, out: &mut Out) -> Result<Exit, Halt> {
    let findings = look(common);
    if json {
        out.line(&out::json(&findings))?;
    } else {
        out.lines(findings.lines().iter().map(|line| out::clean_name(line)))?;
    }
    let all_used = |own: &OwnOut| own.faulty.is_empty() && own.unreadable.is_empty();
    let sound =
        findings.record.problem.is_none() && all_used(&findings.instruments) && all_used(&findings.exercises);
    Ok(if sound { Exit::Fine } else { Exit::Findings })
}

fn look(common: &Common) -> Findings {
    let dir = store::data_dir(common.data_dir.clone());
    let terminal = terminal::terminal();
    let (style, why) = terminal::line_style(common, &terminal);
    let size = terminal::size();
    let (catalogue, instruments) = instruments(dir.as_deref().ok());
    Findings {
        version: env!("CARGO_PKG_VERSION"),
        data_dir: dir.as_deref().ok().map(shown),
        record: record(dir.as_deref()),
        instruments,
        exercises: exercises(dir.as_deref().ok(), &catalogue),
        terminal: TerminalOut {
            is_terminal: terminal.is_terminal,
            utf8: terminal.utf8,
            cols: size.map(|size| size.cols),
            rows: size.map(|size| size.rows),
            term: terminal.term,
            program: terminal.program,
        },
        lines: LinesOut { style: style.word(), why: say::why_word(why), reason: why },
        theme: common.theme.word(),
        no_color: terminal::no_color(),
    }
}

fn record(dir: Result<&Path, &StoreError>) -> RecordOut {
    let dir = match dir {
        Ok(dir) => dir,
        Err(error) => {
            return RecordOut {
                file: None,
                exists: false,
                writable: false,
                problem: Some(error.to_string()),
            };
        }
    };
    let file = dir.join(store::FILE_NAME);
    let exists = file.exists();
    let problem = match Store::open_for(dir, Access::ReadOnly) {
        Err(error) => Some(error.to_string()),
        Ok(_) => unwritable(&file).map(str::to_owned),
    };
    RecordOut { file: Some(shown(&file)), exists, writable: problem.is_none(), problem }
}

/// Why the file, or the folder it would be made in, may not be written.
#[cfg(unix)]
fn unwritable(file: &Path) -> Option<&'static str> {
    use rustix::fs::{Access, access};
    if file.exists() && access(file, Access::WRITE_OK).is_err() {
        return Some("the file may not be written");
    }
    let file = std::path::absolute(file).ok()?;
    let folder = file.ancestors().skip(1).find(|folder| folder.exists())?;
    if !folder.is_dir() {
        return Some("a file stands where the folder should be");
    }
    let allowed = access(folder, Access::WRITE_OK | Access::EXEC_OK).is_ok();
    if allowed { None } else { Some("the folder may not be written") }
}

#[cfg(not(unix))]
fn unwritable(file: &Path) -> Option<&'static str> {
    let locked = std::fs::metadata(file).is_ok_and(|file| file.permissions().readonly());
    locked.then_some("the file may not be written")
}

fn instruments(dir: Option<&Path>) -> (Catalogue, OwnOut) {
    let (folder, sources, unreadable) = own_files(dir.map(store::instruments_dir).as_deref());
    let catalogue = Catalogue::new(sources);
    let own = |id: &&str| matches!(catalogue.origin(id), Some(Origin::User { .. }));
    let (own, faulty) = (catalogue.ids().filter(own).count(), faulty_out(catalogue.faults()));
    (catalogue, OwnOut { folder, own, faulty, unreadable })
}

fn exercises(dir: Option<&Path>, catalogue: &Catalogue) -> OwnOut {
    let (folder, sources, unreadable) = own_files(dir.map(store::exercises_dir).as_deref());
    let shelf = Shelf::new(sources, catalogue);
    let own = |id: &&str| matches!(shelf.origin(id), Some(Origin::User { .. }));
    OwnOut { folder, own: shelf.ids().filter(own).count(), faulty: faulty_out(shelf.faults()), unreadable }
}

/// A folder of somebody's own files: its path, the files, and what could not be read.
fn own_files(folder: Option<&Path>) -> (Option<String>, Vec<SourceText>, Vec<String>) {
    let (sources, errors) = folder.map_or_else(|| (Vec::new(), Vec::new()), store::read_own_files);
    (folder.map(shown), sources, errors.iter().map(ToString::to_string).collect())
}

fn faulty_out(faults: &[(SourceText, Vec<Diagnostic>)]) -> Vec<FaultyOut> {
    let out = |(source, faults): &(SourceText, Vec<Diagnostic>)| FaultyOut {
        file: source.name.clone(),
        faults: faults.len(),
    };
    faults.iter().map(out).collect()
}

fn shown(path: &Path) -> String {
    path.to_string_lossy().into_owned()
}

impl Findings {
    fn lines(&self) -> Vec<String> {
        let unknown = || "not known".to_owned();
        let (record, terminal) = (&self.record, &self.terminal);
        let mut lines = vec![
            format!("Linefall      {}", self.version),
            format!("data folder   {}", self.data_dir.clone().unwrap_or_else(unknown)),
            format!("record        {}", record.file.clone().unwrap_or_else(unknown)),
            format!("              {}", say::record(record.exists, record.problem.as_deref())),
        ];
        for (name, own) in [("instruments", &self.instruments), ("exercises", &self.exercises)] {
            lines.push(format!("{name:<14}{}", own.folder.clone().unwrap_or_else(unknown)));
            let left_out = own.faulty.len() + own.unreadable.len();
            lines.push(format!("              {}", say::own_files(own.own, left_out)));
            lines
                .extend(own.faulty.iter().map(|of| format!("              {}", faulty(&of.file, of.faults))));
            lines.extend(own.unreadable.iter().map(|why| format!("              {why}")));
        }
        let size = terminal.cols.zip(terminal.rows).map(|(cols, rows)| format!(", {cols}x{rows}"));
        let kind = if terminal.is_terminal { "a terminal" } else { "no terminal" };
        lines.push(format!("output        {kind}{}", size.unwrap_or_default()));
        lines.push(format!("              TERM={} TERM_PROGRAM={}", terminal.term, terminal.program));
        let locale = if terminal.utf8 { "UTF-8" } else { "not UTF-8" };
        lines.push(format!("locale        {locale}"));
        lines.push(format!("lines         {} ({})", self.lines.style, say::why(self.lines.reason)));
        lines.push(format!("theme         {}", self.theme));
        lines.push(format!("NO_COLOR      {}", if self.no_color { "set" } else { "not set" }));
        lines
    }
}
