//! What a collect is judged by: the cards that were issued here.

use super::super::args::Common;
use super::super::exit::Halt;
use super::super::{out, shelf};
use crate::class::card::Card;
use crate::class::gather::{Given, Ground, Slip, gather};
use crate::class::record::{Issued, Person, Row};
use crate::class::seal::Public;
use crate::class::sitting::Sitting;
use crate::diag::SourceText;
use crate::drill::set::{self, Shelf};
use crate::instrument::Catalogue;
use crate::store::{self, CLASS_FILE, ClassStore, StoreError, round};
use crate::wording::round as say;
use std::collections::BTreeMap;
use std::path::Path;

/// The cards that were issued here, those of the shared folder too, where this instructor's key signed them. What is wrong with
/// one is said in a line.
pub(super) fn cards(
    dir: &Path,
    share: Option<&Path>,
    catalogue: &Catalogue,
    own: &Public,
) -> Result<BTreeMap<String, Given>, Halt> {
    let mut all = BTreeMap::new();
    let places = [Some(dir), share].into_iter().flatten();
    let found: Vec<Vec<(String, Vec<u8>)>> = places.map(round::cards).collect::<Result<_, StoreError>>()?;
    for (name, bytes) in found.into_iter().flatten() {
        let name = out::clean_name(&name);
        match Card::read(&bytes) {
            Err(faults) => {
                let why = faults.first().map(ToString::to_string).unwrap_or_default();
                out::complain(&say::faulty_card(&name, &why));
            }
            Ok(card) if card.from != *own => {
                out::complain(&say::other_instructor(&name, &card.from.fingerprint()));
            }
            Ok(card) if all.contains_key(&card.number) => {}
            Ok(card) => {
                let source = SourceText::new(format!("{}.toml", card.set), card.text.clone());
                match set::read(&source, catalogue) {
                    Ok(set) if card.gives(&set) => {
                        all.insert(card.number.clone(), Given { card, set });
                    }
                    Ok(_) => out::complain(&say::faulty_card(&name, say::OTHER_SET)),
                    Err(faults) => out::complain(&say::faulty_set(&name, faults.len())),
                }
            }
        }
    }
    Ok(all)
}

/// What was given out, for the class record.
pub fn issued(common: &Common, catalogue: &Catalogue) -> Result<Vec<Issued>, Halt> {
    let dir = store::data_dir(common.data_dir.clone())?;
    match round::known_key(&dir, round::Holder::Instructor)? {
        Some(key) => Ok(of_cards(&cards(&dir, None, catalogue, &key.public())?)),
        None => Ok(Vec::new()),
    }
}

/// The rows of the class record, and who is on the roster.
pub fn class_of(common: &Common) -> Result<(Vec<Row>, Vec<Person>), Halt> {
    let dir = store::data_dir(common.data_dir.clone())?;
    if !dir.join(CLASS_FILE).is_file() {
        return Ok((Vec::new(), super::roster_of(common)?.map(|roster| roster.people).unwrap_or_default()));
    }
    let rows = ClassStore::open(&dir)?.rows()?;
    let rows = rows.iter().filter_map(|(_, row)| serde_json::from_str(row).ok()).collect();
    Ok((rows, super::roster_of(common)?.map(|roster| roster.people).unwrap_or_default()))
}

pub(super) fn of_cards(cards: &BTreeMap<String, Given>) -> Vec<Issued> {
    let mut all: Vec<Issued> = cards
        .values()
        .map(|Given { card, .. }| Issued {
            card: card.number.clone(),
            set: card.set.clone(),
            title: card.title.clone(),
            purpose: card.purpose,
            at: card.issued.clone(),
            due: card.due.as_ref().map(|due| due.day.clone()),
            until: card.due.as_ref().map(|due| due.until.clone()),
            to: card.learners.clone(),
        })
        .collect();
    all.sort_by(|a, b| (&a.at, &a.card).cmp(&(&b.at, &b.card)));
    all
}

/// The sittings of a set that count, read again from the files in the shared folder of a data folder and marked again.
pub fn sittings_of(dir: &Path, set: &str) -> Result<Vec<Sitting>, Halt> {
    let Some(key) = round::known_key(dir, round::Holder::Instructor)? else { return Ok(Vec::new()) };
    let catalogue = Catalogue::new(store::read_own_files(&store::instruments_dir(dir)).0);
    let sets = Shelf::new(store::read_own_files(&store::exercises_dir(dir)).0, &catalogue);
    let cards = cards(dir, None, &catalogue, &key.public())?;
    let ground = Ground { catalogue: &catalogue, cards: &cards, sets: &sets };
    let share = round::share(dir)?.ok_or_else(|| Halt::usage(say::NO_FOLDER))?;
    let mut by_learner: BTreeMap<String, Vec<(String, Vec<u8>)>> = BTreeMap::new();
    for (learner, file) in ClassStore::open(dir)?.sittings(set)? {
        let found = round::Found { path: share.join(&file), name: file.clone() };
        match round::read_returned(&found) {
            Ok(bytes) => by_learner.entry(learner).or_default().push((file, bytes)),
            // Collected before, and not there now: the others are counted all the same.
            Err(error) => out::complain(&out::clean_name(&error.to_string())),
        }
    }
    let mut all = Vec::new();
    for files in by_learner.values() {
        let slips: Vec<Slip<'_>> = files.iter().map(|(name, bytes)| Slip { name, bytes }).collect();
        all.extend(gather(&slips, &ground).sittings);
    }
    Ok(all)
}

/// What is said of the instruments and sets beside the cards: where one of them changes, all is marked again.
pub(super) fn print(cards: &BTreeMap<String, Given>, catalogue: &Catalogue, sets: &Shelf) -> String {
    let mut hash = blake3::Hasher::new();
    hash.update(env!("CARGO_PKG_VERSION").as_bytes());
    for (number, given) in cards {
        hash.update(number.as_bytes()).update(given.card.revision.as_bytes());
        hash.update(given.card.issued.as_bytes()).update(given.card.learners.join(",").as_bytes());
        hash.update(given.card.due.as_ref().map_or("", |due| due.until.as_str()).as_bytes());
    }
    for tool in catalogue.all() {
        hash.update(tool.id.as_bytes()).update(tool.revision.0.as_bytes());
    }
    for set in sets.all() {
        hash.update(set.id.as_bytes()).update(set.revision.as_bytes());
    }
    hash.finalize().to_hex().to_string()
}

/// The instruments that a card's learners need are those of its set.
pub(super) fn shelves(common: &Common) -> (Catalogue, Shelf) {
    let catalogue = shelf::instruments(common);
    let sets = shelf::sets(common, &catalogue);
    (catalogue, sets)
}
