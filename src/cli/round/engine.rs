//! The work of collecting: which files are whose, and each learner's files looked at, several learners at a time.

use crate::class::gather::{Filed, Ground, Slip, Standing, gather};
use crate::class::record::{Brief, ROW_FORM, Row};
use crate::class::returned;
use crate::class::seal::Public;
use crate::class::sitting::{Purpose, Sitting};
use crate::class::verdict::judge_sitting;
use crate::learner::plan::Plan;
use crate::learner::summary::Summary;
use crate::store::round::{Found, read_first, read_returned};
use crate::store::{KeptLearner, KeptSitting};
use crate::wording::round as say;
use std::collections::BTreeMap;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::mpsc;
use std::thread;

/// So many bytes of one learner are looked at together: ten times what a year of practice comes to.
const MOST: usize = 64 << 20;

/// A learner's files.
pub struct Batch {
    /// The code in their first lines; empty for files whose first line cannot be read.
    pub code: String,
    /// The files, in the order of the names.
    pub files: Vec<Found>,
}

/// What became of a learner's files.
pub struct Looked {
    /// What is to be kept; none where nothing has changed since.
    pub kept: Option<KeptLearner>,
    /// The machines that counting sittings come from, with the first file of each.
    pub machines: BTreeMap<Public, String>,
}

/// The threads that work at a time.
fn workers() -> usize {
    thread::available_parallelism().map_or(1, std::num::NonZero::get).min(8)
}

/// Sorts files by the learner that their first lines name.
pub fn batches(found: Vec<Found>) -> Vec<Batch> {
    let share = found.len().div_ceil(workers()).max(1);
    let mut codes: Vec<String> = Vec::with_capacity(found.len());
    thread::scope(|scope| {
        let parts: Vec<_> = found
            .chunks(share)
            .map(|part| scope.spawn(|| part.iter().map(code_of).collect::<Vec<_>>()))
            .collect();
        for part in parts {
            codes.extend(part.join().expect("reading a first line does not panic"));
        }
    });
    let mut all: BTreeMap<String, Vec<Found>> = BTreeMap::new();
    for (code, file) in codes.into_iter().zip(found) {
        all.entry(code).or_default().push(file);
    }
    all.into_iter().map(|(code, files)| Batch { code, files }).collect()
}

fn code_of(file: &Found) -> String {
    let header = read_first(file).ok().and_then(|bytes| returned::header(&bytes).ok());
    header.map_or_else(String::new, |header| header.learner)
}

/// Looks at every batch; each is told as soon as it is done, in no order.
pub fn look_at(
    batches: &[Batch],
    ground: &Ground<'_>,
    print: &str,
    before: &BTreeMap<String, String>,
    mut told: impl FnMut(Looked),
) {
    let next = AtomicUsize::new(0);
    thread::scope(|scope| {
        let (send, receive) = mpsc::sync_channel(4);
        for _ in 0..workers().min(batches.len()) {
            let (send, next) = (send.clone(), &next);
            scope.spawn(move || {
                while let Some(batch) = batches.get(next.fetch_add(1, Ordering::Relaxed)) {
                    if send.send(looked(batch, ground, print, before.get(&batch.code))).is_err() {
                        break;
                    }
                }
            });
        }
        drop(send);
        receive.into_iter().for_each(&mut told);
    });
}

fn looked(batch: &Batch, ground: &Ground<'_>, print: &str, before: Option<&String>) -> Looked {
    let (mut read, mut unread) = (Vec::new(), Vec::new());
    let mut size = 0;
    let mut hash = blake3::Hasher::new();
    hash.update(print.as_bytes()).update(&ROW_FORM.to_le_bytes());
    for file in &batch.files {
        match read_returned(file) {
            Ok(bytes) => {
                hash.update(blake3::hash(file.name.as_bytes()).as_bytes());
                hash.update(blake3::hash(&bytes).as_bytes());
                size += bytes.len();
                if batch.code.is_empty() {
                    // Whose they are cannot be told: each is looked at by itself, and none of them counts.
                    unread.push(of_nobody(&file.name, &bytes));
                } else if size > MOST {
                    let standing = Standing::Faulty(vec![say::TOO_MUCH.to_owned()]);
                    unread.push(Filed { name: file.name.clone(), standing, notes: Vec::new() });
                } else {
                    read.push((file.name.as_str(), bytes));
                }
            }
            Err(error) => {
                hash.update(error.to_string().as_bytes());
                let standing = Standing::Faulty(vec![error.to_string()]);
                unread.push(Filed { name: file.name.clone(), standing, notes: Vec::new() });
            }
        }
    }
    let made_of = hash.finalize().to_hex().to_string();
    if before == Some(&made_of) {
        return Looked { kept: None, machines: BTreeMap::new() };
    }
    let slips: Vec<Slip<'_>> = read.iter().map(|(name, bytes)| Slip { name, bytes }).collect();
    let mut gathered = gather(&slips, ground);
    drop(slips);
    drop(read);
    gathered.files.extend(unread);
    gathered.files.sort_by(|a, b| a.name.cmp(&b.name));
    let kept = KeptLearner {
        code: batch.code.clone(),
        made_of,
        files: json(&gathered.files),
        row: row(&batch.code, &gathered.sittings, ground).map_or_else(String::new, |row| json(&row)),
        sittings: gathered.counted.iter().map(|(id, set, file)| kept_sitting(id, set, file)).collect(),
    };
    Looked { kept: Some(kept), machines: gathered.machines }
}

/// What a file is whose first line says of nobody that it is theirs.
fn of_nobody(name: &str, bytes: &[u8]) -> Filed {
    let faults = match returned::read(bytes) {
        Err(faults) => faults.iter().map(ToString::to_string).collect(),
        // It has changed while it was looked at.
        Ok(_) => vec![say::CHANGED_MEANWHILE.to_owned()],
    };
    Filed { name: name.to_owned(), standing: Standing::Faulty(faults), notes: Vec::new() }
}

fn kept_sitting(id: &str, set: &str, file: &str) -> KeptSitting {
    KeptSitting { id: id.to_owned(), set: set.to_owned(), file: file.to_owned() }
}

/// The row of the class record; none where nothing counts.
fn row(code: &str, sittings: &[Sitting], ground: &Ground<'_>) -> Option<Row> {
    if sittings.is_empty() {
        return None;
    }
    let attempts = sittings.iter().flat_map(|sitting| &sitting.entries).map(|entry| &entry.attempt);
    let summary = Summary::of(attempts);
    let brief = |sitting: &Sitting| {
        let plan = plan(sitting, ground);
        Brief::of(sitting, &judge_sitting(plan.as_ref(), sitting, ground.catalogue))
    };
    Some(Row::of(code, &summary, sittings.iter().map(brief).collect(), ground.catalogue))
}

/// The rule by which a sitting is passed; none for an exercise.
fn plan(sitting: &Sitting, ground: &Ground<'_>) -> Option<Plan> {
    if sitting.purpose == Purpose::Exercise {
        return None;
    }
    let given = sitting.card.as_ref().and_then(|card| ground.cards.get(card)).map(|given| &given.set);
    let set = given.or_else(|| ground.sets.get(&sitting.set))?;
    set.pass.as_ref().map(|pass| Plan::of(pass, set.count))
}

fn json(value: &impl serde::Serialize) -> String {
    serde_json::to_string(value).expect("plain structures of texts and numbers are always JSON")
}
