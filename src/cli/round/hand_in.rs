//! `linefall return`.

use super::{folder, shown};
use crate::cli::args::Common;
use crate::cli::exit::{Exit, Halt};
use crate::cli::out::{self, Out};
use crate::store::{self, round};
use crate::wording::round as say;
use clap::Args;
use serde::Serialize;
use std::path::PathBuf;

/// `return`.
#[derive(Debug, Args)]
pub struct Options {
    /// The shared folder; the one the job card lay in when left out
    #[arg(long, value_name = "DIR")]
    pub folder: Option<PathBuf>,
    /// As JSON
    #[arg(long)]
    pub json: bool,
}

#[derive(Serialize)]
struct HandedOut {
    folder: String,
    copied: Vec<String>,
    waiting: usize,
    going_on: usize,
}

/// Copies finished work into the shared folder.
pub fn run(common: &Common, args: &Options, out: &mut Out) -> Result<Exit, Halt> {
    let dir = store::data_dir(common.data_dir.clone())?;
    let waiting = round::waiting(&dir)?;
    let going_on = round::open_work(&dir)?.len();
    if waiting == 0 && args.folder.is_none() {
        let folder = round::share(&dir)?.map_or_else(String::new, |path| shown(&path));
        if args.json {
            out.line(&out::json(&HandedOut { folder, copied: Vec::new(), waiting, going_on }))?;
        } else {
            out.lines(say::nothing_waits(going_on))?;
        }
        return Ok(Exit::Fine);
    }
    let share = folder(&dir, args.folder.as_deref()).inspect_err(|_| {
        if waiting > 0 {
            out::complain(&say::waits(waiting));
        }
    })?;
    let handed = round::hand_in(&dir, &share)?;
    if args.json {
        let folder = shown(&share);
        let copied = handed.copied.clone();
        out.line(&out::json(&HandedOut { folder, copied, waiting: handed.waiting, going_on }))?;
    } else {
        out.lines(handed.copied.iter().map(|name| say::handed_in(&out::clean_name(name))))?;
        if handed.copied.is_empty() && handed.waiting == 0 {
            out.lines(say::nothing_waits(going_on))?;
        }
    }
    let Some(why) = handed.why else { return Ok(Exit::Fine) };
    out.flush()?;
    out::complain(&say::still_waits(handed.waiting, &why.to_string()));
    Ok(Exit::Trouble)
}
