//! `linefall crib`.

use super::args::Common;
use super::exit::{Exit, Halt};
use super::out::{self, Out};
use super::report::Report;
use super::{shelf, terminal};
use crate::diag::SourceText;
use crate::instrument::crib::{self, Tool};
use crate::instrument::{Catalogue, schema};
use crate::store;
use crate::wording::crib as say;
use clap::Subcommand;
use serde::Serialize;
use std::path::{Path, PathBuf};
use unicode_width::UnicodeWidthStr;

/// What can be done with the shop's own tools.
#[derive(Debug, Subcommand)]
pub enum CribAction {
    /// Put a tool in
    Add {
        /// Which instrument it is
        instrument: String,
        /// What it is called in the shop; the next free number when left out
        #[arg(long)]
        label: Option<String>,
        /// Its variant and what is fitted to it: "figures=cm vernier=long", halves=above
        #[arg(long)]
        variant: Option<String>,
    },
    /// Take a tool out
    Remove {
        /// What it is called in the shop
        label: String,
    },
    /// Look for faults in the file
    Check,
}

#[derive(Serialize)]
struct ToolOut<'a> {
    label: &'a str,
    instrument: &'a str,
    variant: &'a str,
    title: &'a str,
}

/// Lists the shop's own tools, or changes what is listed.
pub fn run(common: &Common, json: bool, action: Option<&CribAction>, out: &mut Out) -> Result<Exit, Halt> {
    let path = store::crib_file(&store::data_dir(common.data_dir.clone())?);
    match action {
        None => list(&shelf::catalogue(common), json, &path, out),
        Some(CribAction::Check) => check(common, &path, out),
        Some(CribAction::Add { instrument, label, variant }) => {
            add(common, &path, instrument, label.as_deref(), variant.as_deref().unwrap_or_default(), out)
        }
        Some(CribAction::Remove { label }) => remove(&path, label, out),
    }
}

fn list(catalogue: &Catalogue, json: bool, path: &Path, out: &mut Out) -> Result<Exit, Halt> {
    let tools = catalogue.tools();
    if json {
        out.line(&out::json(&tools.iter().map(|tool| document(tool, catalogue)).collect::<Vec<_>>()))?;
    } else if tools.is_empty() {
        out.line(&say::empty(&name(path)))?;
    } else {
        let rows: Vec<[&str; 3]> =
            tools.iter().map(|tool| [&*tool.label, &*tool.instrument.id, &*tool.variant]).collect();
        let widths: [usize; 2] =
            std::array::from_fn(|column| rows.iter().map(|row| row[column].width()).max().unwrap_or(0));
        for row in rows {
            let mut line = String::new();
            for (cell, width) in row.iter().zip(widths) {
                line.push_str(cell);
                line.push_str(&" ".repeat(width - cell.width() + 2));
            }
            line.push_str(row[2]);
            out.line(line.trim_end())?;
        }
    }
    Ok(Exit::Fine)
}

fn document<'a>(tool: &'a Tool, catalogue: &'a Catalogue) -> ToolOut<'a> {
    let id = tool.instrument.id.as_str();
    let title = catalogue.get(id).map_or("", |instrument| instrument.title.as_str());
    ToolOut { label: &tool.label, instrument: id, variant: &tool.variant, title }
}

fn check(common: &Common, path: &Path, out: &mut Out) -> Result<Exit, Halt> {
    let Some(source) = store::read_if_there(path)? else {
        out.line(&say::empty(&name(path)))?;
        return Ok(Exit::Fine);
    };
    let source = SourceText::new(name(path), source.text);
    let found = crib::read(&source, &instruments(common));
    let colours = terminal::terminal().is_terminal && !common.plain && !terminal::no_color();
    let report = Report::new(colours, terminal::size());
    for fault in &found.faults {
        out.line(&report.render(&source, fault))?;
        out.line("")?;
    }
    out.line(&say::checked(&source.name, found.tools.len(), found.faults.len()))?;
    Ok(if found.faults.is_empty() { Exit::Fine } else { Exit::Findings })
}

fn add(
    common: &Common,
    path: &Path,
    instrument: &str,
    label: Option<&str>,
    variant: &str,
    out: &mut Out,
) -> Result<Exit, Halt> {
    let catalogue = instruments(common);
    let before = store::read_if_there(path)?;
    let known = before.as_ref().map(|source| crib::read(source, &catalogue)).unwrap_or_default();
    if !known.faults.is_empty() {
        return Err(Halt::Said {
            exit: Exit::Findings,
            why: say::mend_first(&name(path), known.faults.len()),
        });
    }
    let label = label.map_or_else(|| free_number(&known.tools), str::to_owned);
    let text = before.as_ref().map_or("", |source| source.text.as_str());
    let text = crib::with_tool(text, &label, instrument, variant);
    let found = crib::read(&SourceText::new(name(path), text.as_str()), &catalogue);
    if let Some(fault) = found.faults.first() {
        return Err(Halt::usage(say::refused(&out::clean_name(&fault.message), fault.fix.as_deref())));
    }
    let copy = store::replace_crib(path, before.as_ref(), &text)?;
    out.line(&say::added(&label, instrument, &name(path)))?;
    copied(copy, out)
}

fn remove(path: &Path, label: &str, out: &mut Out) -> Result<Exit, Halt> {
    let shown = schema::shown(label);
    let Some(before) = store::read_if_there(path)? else { return Err(Halt::usage(say::empty(&name(path)))) };
    let (listed, faults) = schema::read_crib(&before);
    let labels = || listed.iter().filter_map(|one| one.label.as_ref()).map(|label| label.value.as_str());
    // A number alone is the label that was made of it.
    let numbered = format!("no. {label}");
    let Some(label) = [label, &numbered].into_iter().find(|label| labels().any(|known| known == *label))
    else {
        let near = crate::diag::nearest(label, labels());
        return Err(Halt::usage(say::no_tool(&shown, near)));
    };
    let shown = schema::shown(label);
    let text = crib::without_tool(&before, label).filter(|text| {
        // Nothing else may have changed its meaning.
        let (left, now) = schema::read_crib(&SourceText::new("", text.as_str()));
        left.len() + 1 == listed.len() && now.len() <= faults.len()
    });
    let Some(text) = text else {
        return Err(Halt::Said { exit: Exit::Findings, why: say::by_hand(&shown, &name(path)) });
    };
    let copy = store::replace_crib(path, Some(&before), &text)?;
    out.line(&say::removed(&shown, &name(path)))?;
    copied(copy, out)
}

fn copied(copy: Option<PathBuf>, out: &mut Out) -> Result<Exit, Halt> {
    if let Some(copy) = copy {
        out.line(&say::copied(&name(&copy)))?;
    }
    Ok(Exit::Fine)
}

/// The instruments, without the tools of the crib.
fn instruments(common: &Common) -> Catalogue {
    shelf::instruments(common)
}

fn free_number(tools: &[Tool]) -> String {
    let taken = |label: &String| tools.iter().any(|tool| tool.label == *label);
    // One of so many numbers is free.
    (1..=tools.len() + 1).map(|n| format!("no. {n}")).find(|label| !taken(label)).unwrap_or_default()
}

fn name(path: &Path) -> String {
    out::clean_name(&path.to_string_lossy())
}
