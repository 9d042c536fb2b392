//! Collecting: what the files that came back come to.
//!
//! | type | what it is |
//! |---|---|
//! | [`Ground`], [`Given`] | what is known beforehand: the cards that were issued, the sets, the instruments |
//! | [`Slip`] | a file: its name and its bytes |
//! | [`gather()`], [`Gathered`] | a learner's files looked at together: what each of them is, the sittings that count |
//! | [`Standing`], [`Note`] | what a file is, and what is to be said of it |
//!
//! Pure, and the same whatever the order of the files and however often it is done. Nothing is taken on trust but the times: every
//! answer is marked again. No file is moved or deleted.

mod sort;
#[cfg(test)]
mod tests;

use super::card::Card;
use super::remark::{Differs, Remarked, remark};
use super::returned::{Happened, Header, Returned};
use super::seal::Public;
use super::sitting::{Purpose, Sitting};
use super::text::is_code;
use crate::drill::set::{DrillSet, Shelf};
use crate::instrument::Catalogue;
use crate::learner::calendar::Day;
use serde::{Deserialize, Serialize};
use sort::{Kept, sorted};
use std::collections::{BTreeMap, BTreeSet};

/// What is known beforehand.
#[derive(Clone, Copy, Debug)]
pub struct Ground<'a> {
    /// The instruments.
    pub catalogue: &'a Catalogue,
    /// The cards that were issued, by number.
    pub cards: &'a BTreeMap<String, Given>,
    /// The sets on the shelf, for sittings that answer no card.
    pub sets: &'a Shelf,
}

/// A card that was issued.
#[derive(Clone, Debug)]
pub struct Given {
    /// The card.
    pub card: Card,
    /// Its set.
    pub set: DrillSet,
}

/// A file that came back.
#[derive(Clone, Copy, Debug)]
pub struct Slip<'a> {
    /// Where it lies, as a person is told.
    pub name: &'a str,
    /// What is in it.
    pub bytes: &'a [u8],
}

/// A learner's files, looked at together.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Gathered {
    /// Each file, in the order of the names.
    pub files: Vec<Filed>,
    /// The sittings that count, in the order in which they were begun.
    pub sittings: Vec<Sitting>,
    /// Of each of them its number, its set and the file it came in.
    pub counted: Vec<(String, String, String)>,
    /// The machines that they come from, each with the first file from it.
    pub machines: BTreeMap<Public, String>,
}

/// What a file is.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Filed {
    /// Where it lies.
    pub name: String,
    /// What it is.
    #[serde(flatten)]
    pub standing: Standing,
    /// What is to be said of it beside.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub notes: Vec<Note>,
}

/// What a file is.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", tag = "is", content = "why")]
pub enum Standing {
    /// A sitting that counts.
    Counted,
    /// A sitting without an end: it goes on, or was broken off.
    Open,
    /// The same file as another one.
    Duplicate(String),
    /// The same sitting as it stood earlier.
    EarlierCopy(String),
    /// It is cut short: half a line at its end, or no signature.
    CutShort,
    /// It cannot be used as it is: changed, or none of ours. Each fault is a sentence.
    Faulty(Vec<String>),
    /// Two whole files of one sitting that differ: neither counts.
    Clash(String),
    /// It answers a card that was not issued here.
    Foreign(String),
    /// It answers no card, and its set is not on the shelf, or is there with another text.
    UnknownSet(String),
}

impl Standing {
    /// Whether somebody has to look at it.
    pub fn is_finding(&self) -> bool {
        match self {
            Self::Counted | Self::Open | Self::Duplicate(_) | Self::EarlierCopy(_) => false,
            Self::CutShort | Self::Faulty(_) | Self::Clash(_) | Self::Foreign(_) | Self::UnknownSet(_) => {
                true
            }
        }
    }
}

/// What is to be said of a file beside what it is.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Note {
    /// Ended after the day it was due.
    Late(String),
    /// Not the first try of its card.
    Try(u32),
    /// Earlier tries of its card did not come back.
    TriesMissing(Vec<u32>),
    /// Another sitting says that it is the same try: begun on two machines.
    SameTry(String),
    /// The card was not for this learner.
    NotForThem,
    /// It lies in another learner's folder.
    InFolderOf(String),
    /// A time in it is before the card was issued, or goes back.
    Clock,
    /// It went on for so many seconds longer than the set gives, breaks not counted.
    OverTime(u32),
    /// Its answers took so many seconds more than there were from its beginning to its end.
    MoreThanItsTime(u32),
    /// The answer to a question could not be marked: place, part.
    NotMarked(u32, u32, String),
    /// Our mark differs from the one in the file.
    OtherMark(u32, u32),
    /// The glass was used where it is forbidden.
    Glass(u32, u32),
    /// The answer to a question came after that to a later one: place, part.
    OutOfOrder(u32, u32),
    /// A check goes on to later questions without this one.
    LeftOut(u32),
    /// A part of this question was not answered.
    PartsMissing(u32),
}

impl Note {
    /// Whether somebody has to look at it.
    pub fn is_finding(&self) -> bool {
        matches!(
            self,
            Self::OverTime(_)
                | Self::MoreThanItsTime(_)
                | Self::NotMarked(..)
                | Self::OtherMark(..)
                | Self::Glass(..)
                | Self::OutOfOrder(..)
                | Self::LeftOut(_)
                | Self::PartsMissing(_)
        )
    }
}

impl Filed {
    /// Whether somebody has to look at it.
    pub fn is_finding(&self) -> bool {
        self.standing.is_finding() || self.notes.iter().any(Note::is_finding)
    }
}

/// So many notes about answers of one file are kept.
const NOTES: usize = 20;

/// Looks at a learner's files together: all that say in their first line that they are this learner's. Files whose first line
/// cannot be read can be looked at in any company.
pub fn gather(slips: &[Slip<'_>], ground: &Ground<'_>) -> Gathered {
    let mut gathered = Gathered::default();
    let mut counted: Vec<(usize, Header, Sitting)> = Vec::new();
    for Kept { name, standing, returned } in sorted(slips) {
        let mut filed = Filed { name, standing, notes: Vec::new() };
        if let Some(returned) = returned {
            let header = returned.header.clone();
            match judged(returned, ground) {
                Err(standing) => filed.standing = standing,
                Ok((remarked, notes)) => {
                    filed.notes = notes;
                    filed.notes.extend(in_folder_of(&filed.name, &header.learner));
                    filed.notes.extend(notes_of(&remarked));
                    let machine = header.key.clone();
                    gathered.machines.entry(machine).or_insert_with(|| filed.name.clone());
                    counted.push((gathered.files.len(), header, remarked.sitting));
                }
            }
        }
        gathered.files.push(filed);
    }
    tries(&counted, &mut gathered.files);
    let of = |(file, header, _): &(usize, Header, Sitting)| {
        (header.sitting.clone(), header.set.clone(), gathered.files[*file].name.clone())
    };
    gathered.counted = counted.iter().map(of).collect();
    gathered.sittings = counted.into_iter().map(|(_, _, sitting)| sitting).collect();
    gathered.sittings.sort_by(|a, b| (&a.begun, &a.id).cmp(&(&b.begun, &b.id)));
    gathered
}

/// A whole file marked again, or why it does not count.
fn judged(returned: Returned, ground: &Ground<'_>) -> Result<(Remarked, Vec<Note>), Standing> {
    let header = &returned.header;
    let (set, mut notes, issued) = if let Some(number) = &header.card {
        let given = ground.cards.get(number).ok_or_else(|| Standing::Foreign(number.clone()))?;
        (&given.set, of_card(&returned, &given.card)?, Some(given.card.issued.as_str()))
    } else {
        if header.purpose == Purpose::Check {
            return Err(faulty("it is a skills check, and answers no card"));
        }
        let set = ground.sets.get(&header.set).filter(|set| set.revision == header.revision);
        (set.ok_or_else(|| Standing::UnknownSet(header.set.clone()))?, Vec::new(), None)
    };
    notes.extend(went_back(&returned, issued).then_some(Note::Clock));
    notes.extend(more_than_its_time(&returned).map(Note::MoreThanItsTime));
    notes.extend(set.time.and_then(|limit| over_time(&returned, limit)).map(Note::OverTime));
    Ok((remark(returned, set, ground.catalogue), notes))
}

/// What is to be said of work that answers a card, or why it does not.
fn of_card(returned: &Returned, card: &Card) -> Result<Vec<Note>, Standing> {
    let header = &returned.header;
    if (&header.set, &header.revision) != (&card.set, &card.revision) {
        return Err(faulty("it answers another exercise than its card gives"));
    }
    if header.purpose != card.purpose {
        return Err(faulty("it is not what its card is for"));
    }
    let mut notes = Vec::new();
    if !card.is_for(&header.learner) {
        notes.push(Note::NotForThem);
    }
    if let Some(due) = &card.due
        && returned.ended.as_deref().is_some_and(|ended| card.is_late(ended))
    {
        notes.push(Note::Late(due.day.clone()));
    }
    Ok(notes)
}

fn faulty(why: &str) -> Standing {
    Standing::Faulty(vec![why.to_owned()])
}

/// Whether a time is before the one before it.
fn went_back(returned: &Returned, issued: Option<&str>) -> bool {
    let mut before = issued.unwrap_or_default();
    let mut happened = returned.happened.iter().peekable();
    let mut times = vec![returned.header.begun.as_str()];
    for n in 0..=returned.entries.len() {
        // What happened says how many answers came before it.
        while let Some((_, what)) = happened.next_if(|(after, _)| *after <= n) {
            let (Happened::Left(at) | Happened::Back(at)) = what;
            times.push(at);
        }
        times.extend(returned.entries.get(n).map(|entry| entry.attempt.at.as_str()));
    }
    times.extend(returned.ended.as_deref());
    // Whole seconds: some of these times have parts of one and some have not.
    for time in times.into_iter().map(|time| time.get(..19).unwrap_or(time)) {
        if time < before.get(..19).unwrap_or(before) {
            return true;
        }
        before = time;
    }
    false
}

/// So many seconds over the time are nothing to be said: the last answer may be under way when it is up.
const GRACE: i64 = 60;

/// The seconds that a sitting took over its time. A break counts only where it was said when it began: who stops the program dead
/// goes on looking.
fn over_time(returned: &Returned, limit: u32) -> Option<u32> {
    let mut breaks = 0;
    let mut left: Option<i64> = None;
    for (_, happened) in &returned.happened {
        match happened {
            Happened::Left(at) => left = Day::second(at),
            Happened::Back(at) => {
                breaks += left.take().zip(Day::second(at)).map_or(0, |(left, back)| (back - left).max(0));
            }
        }
    }
    let ended = Day::second(returned.ended.as_deref()?)?;
    let over = ended - Day::second(&returned.header.begun)? - breaks - i64::from(limit);
    (over > GRACE).then(|| u32::try_from(over).unwrap_or(u32::MAX))
}

/// The seconds that the answers of a sitting took over all the time there was for them.
fn more_than_its_time(returned: &Returned) -> Option<u32> {
    let took = returned.entries.iter().map(|entry| entry.attempt.took_ms).fold(0, u64::saturating_add);
    let over = i64::try_from(took / 1_000).unwrap_or(i64::MAX).saturating_sub(returned.span()?);
    (over > GRACE).then(|| u32::try_from(over).unwrap_or(u32::MAX))
}

/// The learner whose folder a file lies in, where that is another one.
fn in_folder_of(name: &str, learner: &str) -> Option<Note> {
    let mut parts = name.split('/').peekable();
    // Collected from may be the shared folder, or what came back alone.
    if parts.clone().any(|part| part == "returned") {
        parts.by_ref().find(|part| *part == "returned");
    }
    let folder = parts.next()?;
    let is_file = parts.peek().is_none();
    (!is_file && is_code(folder) && folder != learner).then(|| Note::InFolderOf(folder.to_owned()))
}

fn notes_of(remarked: &Remarked) -> Vec<Note> {
    let note = |difference: &super::remark::Difference| {
        let (place, part) = (difference.place, difference.part);
        match &difference.what {
            Differs::OtherMark => Note::OtherMark(place, part),
            Differs::Glass => Note::Glass(place, part),
            Differs::OutOfOrder => Note::OutOfOrder(place, part),
            Differs::Gap => Note::LeftOut(place),
            Differs::PartsMissing => Note::PartsMissing(place),
            other => Note::NotMarked(place, part, other.to_string()),
        }
    };
    remarked.differences.iter().map(note).take(NOTES).collect()
}

/// Second tries, those that did not come back, and the same try made twice.
fn tries(counted: &[(usize, Header, Sitting)], files: &mut [Filed]) {
    let mut by_card: BTreeMap<&str, Vec<(usize, &Header)>> = BTreeMap::new();
    for (file, header, _) in counted {
        if let Some(card) = &header.card {
            by_card.entry(card).or_default().push((*file, header));
        }
    }
    for tries in by_card.values() {
        let known: BTreeSet<u32> = tries.iter().map(|(_, header)| header.nth).collect();
        let last = known.last().copied().unwrap_or(0);
        for (file, header) in tries {
            let same = tries.iter().find(|(other, of)| other != file && of.nth == header.nth);
            let same = same.map(|(other, _)| files[*other].name.clone());
            let notes = &mut files[*file].notes;
            if header.nth > 1 {
                notes.push(Note::Try(header.nth));
            }
            notes.extend(same.map(Note::SameTry));
            if header.nth == last {
                let missing: Vec<u32> = (1..last).filter(|nth| !known.contains(nth)).take(NOTES).collect();
                notes.extend((!missing.is_empty()).then_some(Note::TriesMissing(missing)));
            }
        }
    }
}
