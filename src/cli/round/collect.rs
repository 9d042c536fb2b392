//! `linefall collect`.

use super::engine::{Looked, batches, look_at};
use super::{chance, folder, ground, now, roster_of, shown};
use crate::class::gather::{Filed, Ground, Standing};
use crate::class::record::{Back, Class, Row};
use crate::cli::args::Common;
use crate::cli::exit::{Exit, Halt};
use crate::cli::out::{self, Out};
use crate::store::{self, ClassStore, StoreError, round};
use crate::wording::round as say;
use clap::Args;
use serde::Serialize;
use std::collections::{BTreeMap, BTreeSet};
use std::io::{IsTerminal, Write};
use std::path::{Path, PathBuf};

/// `collect`.
#[derive(Debug, Args)]
pub struct Options {
    /// The shared folder, or a stick; the one of the last time when left out
    #[arg(long, value_name = "DIR")]
    pub folder: Option<PathBuf>,
    /// As JSON
    #[arg(long)]
    pub json: bool,
}

#[derive(Serialize)]
struct CollectOut<'a> {
    linefall_collect: u32,
    folder: &'a str,
    files: usize,
    counted: usize,
    changed: usize,
    machines: &'a [MachineOut],
    learners: &'a [LearnerOut],
    cards: &'a [CardOut],
    unreadable_folders: &'a [String],
    not_there: &'a [String],
    under_two_codes: &'a [Vec<String>],
    signatures: &'static [&'static str],
}

#[derive(Serialize)]
struct MachineOut {
    learner: String,
    fingerprint: String,
    file: String,
    second: bool,
    also_of: Vec<String>,
}

#[derive(Serialize)]
struct LearnerOut {
    learner: String,
    not_on_roster: bool,
    files: Vec<Filed>,
}

#[derive(Serialize)]
struct CardOut {
    card: String,
    set: String,
    title: String,
    due: Option<String>,
    returned: Vec<String>,
    late: Vec<String>,
    again: Vec<String>,
    not_back: Vec<String>,
    absent: Vec<String>,
}

/// Everything that was found.
struct Collected {
    folder: String,
    changed: usize,
    machines: Vec<MachineOut>,
    learners: Vec<LearnerOut>,
    cards: Vec<CardOut>,
    closed: Vec<String>,
    /// Learners of whom nothing lies there this time. What was collected of them before stays.
    not_there: Vec<String>,
    /// The codes of those under whom one and the same sitting came back.
    under_two: Vec<Vec<String>>,
}

/// Looks at all that came back and brings the class record up to date.
pub fn run(common: &Common, args: &Options, out: &mut Out) -> Result<Exit, Halt> {
    let dir = store::data_dir(common.data_dir.clone())?;
    if let Some(given) = args.folder.as_deref().filter(|given| given.is_dir()) {
        // Before it is remembered: a folder named by mistake is not to be the one of the next time.
        shared(given)?;
    }
    let share = folder(&dir, args.folder.as_deref())?;
    shared(&share)?;
    let collected = collected(common, &dir, &share)?;
    let all = || collected.learners.iter().flat_map(|of| &of.files);
    let counted = all().filter(|file| file.standing == Standing::Counted).count();
    if args.json {
        out.line(&out::json(&CollectOut {
            linefall_collect: 1,
            folder: &collected.folder,
            files: all().count(),
            counted,
            changed: collected.changed,
            machines: &collected.machines,
            learners: &collected.learners,
            cards: &collected.cards,
            unreadable_folders: &collected.closed,
            not_there: &collected.not_there,
            under_two_codes: &collected.under_two,
            signatures: &say::SIGNATURES,
        }))?;
    } else {
        tell(&collected, out)?;
    }
    let finding =
        all().any(Filed::is_finding) || !collected.closed.is_empty() || !collected.under_two.is_empty();
    Ok(if finding { Exit::Findings } else { Exit::Fine })
}

/// Only a folder that cards were issued in, or work came back to, is collected from. An empty one is often where a share would be.
fn shared(folder: &Path) -> Result<(), Halt> {
    if round::is_shared(folder) { Ok(()) } else { Err(Halt::trouble(say::not_shared(&shown(folder)))) }
}

fn collected(common: &Common, dir: &Path, share: &Path) -> Result<Collected, Halt> {
    let (catalogue, sets) = ground::shelves(common);
    let own = round::key(dir, round::Holder::Instructor, chance()?)?.public();
    let cards = ground::cards(dir, Some(share), &catalogue, &own)?;
    let (found, closed) = round::returned_files(share)?;
    let mut progress = Progress::new();
    let batches = batches(found);
    let mut kept = ClassStore::open(dir)?;
    let mut before = BTreeMap::new();
    for batch in &batches {
        before.extend(kept.made_of(&batch.code)?.map(|made_of| (batch.code.clone(), made_of)));
    }
    let print = ground::print(&cards, &catalogue, &sets);
    let ground = Ground { catalogue: &catalogue, cards: &cards, sets: &sets };
    let (mut changed, mut machines, mut failed) = (0, Vec::new(), None::<StoreError>);
    look_at(&batches, &ground, &print, &before, |looked: Looked| {
        progress.step(batches.len());
        let Some(learner) = looked.kept else { return };
        changed += 1;
        machines.extend(looked.machines.into_iter().map(|(key, file)| (learner.code.clone(), key, file)));
        if let Err(error) = kept.keep(std::slice::from_ref(&learner)) {
            failed.get_or_insert(error);
        }
    });
    progress.done();
    if let Some(error) = failed {
        return Err(error.into());
    }
    let codes: BTreeSet<String> = batches.into_iter().map(|batch| batch.code).collect();
    if closed.is_empty() && !codes.contains("") {
        // Files that name nobody and are gone.
        kept.forget("")?;
    }
    let machines = told_once(dir, machines)?;
    let roster = roster_of(common)?;
    let people = roster.map(|roster| roster.people);
    let (mut learners, mut not_there) = (Vec::new(), Vec::new());
    for (code, files) in kept.files()? {
        if !codes.contains(&code) {
            not_there.extend((!code.is_empty()).then_some(code));
            continue;
        }
        let files: Vec<Filed> = serde_json::from_str(&files).unwrap_or_default();
        let on = people.as_ref().is_none_or(|people| people.iter().any(|person| person.code == code));
        learners.push(LearnerOut { not_on_roster: !on && !code.is_empty(), learner: code, files });
    }
    let rows: Vec<Row> = kept.rows()?.iter().filter_map(|(_, row)| serde_json::from_str(row).ok()).collect();
    let class = Class::of(people.unwrap_or_default(), rows, ground::of_cards(&cards), None, &now());
    let closed = closed.iter().map(ToString::to_string).collect();
    Ok(Collected {
        folder: shown(share),
        changed,
        machines,
        learners,
        cards: cards_out(&class, &cards),
        closed,
        not_there,
        under_two: kept.under_two_codes()?,
    })
}

/// The machines that were not known, registered now. Of a learner who had one before, a second one is told as such.
fn told_once(
    dir: &Path,
    mut found: Vec<(String, crate::class::seal::Public, String)>,
) -> Result<Vec<MachineOut>, Halt> {
    found.sort();
    let mut known = round::machines(dir)?;
    let (mut told, mut new) = (Vec::new(), Vec::new());
    for (learner, key, file) in found {
        let of = known.entry(learner.clone()).or_default();
        let second = !of.is_empty();
        if of.insert(key.hex().to_owned()) {
            new.push((learner.clone(), key.hex().to_owned()));
            let others = known.iter().filter(|(code, keys)| **code != learner && keys.contains(key.hex()));
            let also_of = others.map(|(code, _)| code.clone()).collect();
            told.push(MachineOut { learner, fingerprint: key.fingerprint(), file, second, also_of });
        }
    }
    round::add_machines(dir, &new)?;
    Ok(told)
}

fn cards_out(class: &Class, cards: &BTreeMap<String, crate::class::gather::Given>) -> Vec<CardOut> {
    let codes = |of: &dyn Fn(&crate::class::record::Stand) -> bool, given: &crate::class::record::Given| {
        given.stands.iter().filter(|stand| of(stand)).map(|stand| stand.learner.clone()).collect::<Vec<_>>()
    };
    class
        .given
        .iter()
        .map(|given| CardOut {
            card: given.issued.card.clone(),
            set: given.issued.set.clone(),
            title: given.issued.title.clone(),
            due: cards.get(&given.issued.card).and_then(|of| of.card.due.as_ref()).map(|due| due.day.clone()),
            returned: codes(&|stand| stand.back == Back::Returned, given),
            late: codes(&|stand| stand.tries.iter().any(|one| one.late), given),
            again: codes(&|stand| stand.tries.len() > 1, given),
            not_back: codes(&|stand| stand.back == Back::NotBack, given),
            absent: codes(&|stand| stand.back == Back::Absent, given),
        })
        .collect()
}

/// So many files of a sort are listed; the rest is counted. All of them stand in the JSON.
const LISTED: usize = 40;

fn tell(collected: &Collected, out: &mut Out) -> Result<(), Halt> {
    let clean = |text: &str| out::clean_name(text);
    let all: Vec<&Filed> = collected.learners.iter().flat_map(|of| &of.files).collect();
    let standings: Vec<&Standing> = all.iter().map(|file| &file.standing).collect();
    out.line(&clean(&say::head(&collected.folder, &standings, collected.changed)))?;
    let findings: Vec<&&Filed> = all.iter().filter(|file| file.is_finding()).collect();
    section(say::LOOK_AT, &findings, out)?;
    let beside: Vec<&&Filed> = all.iter().filter(|file| !file.is_finding() && say::is_told(file)).collect();
    section(say::BESIDE, &beside, out)?;
    let strangers: Vec<&str> =
        collected.learners.iter().filter(|of| of.not_on_roster).map(|of| of.learner.as_str()).collect();
    let absent: Vec<&str> = collected.not_there.iter().map(String::as_str).collect();
    if !(collected.machines.is_empty()
        && strangers.is_empty()
        && collected.closed.is_empty()
        && collected.under_two.is_empty()
        && absent.is_empty())
    {
        out.line("")?;
    }
    for machine in collected.machines.iter().take(LISTED) {
        out.line(&clean(&say::machine(
            &machine.learner,
            &machine.fingerprint,
            machine.second,
            &machine.also_of,
        )))?;
    }
    if collected.machines.len() > LISTED {
        out.line(&say::more(collected.machines.len() - LISTED))?;
    }
    if !strangers.is_empty() {
        out.line(&clean(&say::strangers(&strangers)))?;
    }
    out.lines(collected.closed.iter().map(|why| clean(why)))?;
    if !absent.is_empty() {
        out.line(&clean(&say::not_there(&absent)))?;
    }
    out.lines(collected.under_two.iter().map(|codes| clean(&say::under_two(codes))))?;
    if !collected.cards.is_empty() {
        out.line("")?;
        out.line(say::CARDS)?;
    }
    for card in &collected.cards {
        let back = (card.returned.len(), card.returned.len() + card.not_back.len() + card.absent.len());
        out.line(&clean(&say::card(&card.title, &card.card, card.due.as_deref(), back)))?;
        for (what, codes) in [
            (say::ABSENT, &card.absent),
            (say::NOT_BACK, &card.not_back),
            (say::LATE, &card.late),
            (say::AGAIN, &card.again),
        ] {
            if !codes.is_empty() {
                out.line(&format!("        {what}: {}", codes.join(", ")))?;
            }
        }
    }
    out.line("")?;
    out.lines(say::SIGNATURES)
}

fn section(title: &str, files: &[&&Filed], out: &mut Out) -> Result<(), Halt> {
    if files.is_empty() {
        return Ok(());
    }
    out.line("")?;
    out.line(title)?;
    for file in files.iter().take(LISTED) {
        out.line(&format!("    {}", out::clean_name(&file.name)))?;
        out.lines(say::of_file(file).iter().map(|line| format!("        {}", out::clean_name(line))))?;
    }
    if files.len() > LISTED {
        out.line(&format!("    {}", say::more(files.len() - LISTED)))?;
    }
    Ok(())
}

/// How far it is, on one line of a terminal.
struct Progress {
    shown: bool,
    done: usize,
}

impl Progress {
    fn new() -> Self {
        Self { shown: std::io::stderr().is_terminal(), done: 0 }
    }

    fn step(&mut self, of: usize) {
        self.done += 1;
        if self.shown {
            // A line that cannot be shown is no reason to stop.
            let _ = write!(std::io::stderr().lock(), "\r{}", say::progress(self.done, of));
        }
    }

    fn done(&self) {
        if self.shown && self.done > 0 {
            let _ = write!(std::io::stderr().lock(), "\r{}\r", " ".repeat(40));
        }
    }
}
