//! Where the class record comes from.

use crate::class::invented::invented;
use crate::class::practical::Sheet;
use crate::class::questions::questions;
use crate::class::record::{Class, Issued, Person, ROW_FORM, Row, rows};
use crate::class::room::Room;
use crate::class::sitting::{Purpose, Sitting};
use crate::cli::args::Common;
use crate::cli::exit::Halt;
use crate::cli::{out, practical, round};
use crate::drill::Seed;
use crate::instrument::Catalogue;
use crate::learner::calendar::Day;
use crate::learner::plan::Plan;
use crate::store;
use crate::wording::class as say;
use std::collections::BTreeSet;

/// The sittings of a set, by its id.
type Sittings = Box<dyn Fn(&str) -> Result<Vec<Sitting>, String>>;

/// All that is known of a class.
struct Known {
    invented: bool,
    roster: Vec<Person>,
    rows: Vec<Row>,
    issued: Vec<Issued>,
    sheets: Vec<Sheet>,
    sittings: Sittings,
}

/// What was collected.
pub(super) fn collected(common: &Common, catalogue: &Catalogue, group: Option<&str>) -> Result<Room, Halt> {
    let sheets = practical::sheets(common)?;
    let dir = store::data_dir(common.data_dir.clone())?;
    let (mut rows, roster) = round::class_of(common)?;
    let before = rows.len();
    rows.retain(|row| row.form == ROW_FORM);
    if rows.len() < before {
        out::complain(&say::stale(before - rows.len()));
    }
    let issued = round::issued(common, catalogue)?;
    let sittings = move |set: &str| {
        round::sittings_of(&dir, set).map_err(|halt| match halt {
            Halt::Said { why, .. } => why,
            Halt::ReaderGone => String::new(),
        })
    };
    let known = Known { invented: false, roster, rows, issued, sheets, sittings: Box::new(sittings) };
    room(known, group)
}

/// A class made up.
pub(super) fn made_up(catalogue: &Catalogue, people: u32, group: Option<&str>) -> Result<Room, Halt> {
    let today = Day::of(&now()).expect("the clock gives a date");
    let class = invented(catalogue, people, Seed(1), today);
    let plan = |sitting: &Sitting| (sitting.purpose == Purpose::Check).then_some(Plan::USUAL);
    let rows = rows(&class.sittings, plan, catalogue);
    let all = class.sittings;
    let sittings = move |set: &str| Ok(all.iter().filter(|one| one.set == set).cloned().collect());
    let known = Known {
        invented: true,
        roster: class.roster,
        rows,
        issued: class.issued,
        sheets: class.sheets,
        sittings: Box::new(sittings),
    };
    room(known, group)
}

fn room(known: Known, group: Option<&str>) -> Result<Room, Halt> {
    let groups: BTreeSet<&str> = known.roster.iter().filter_map(|person| person.group.as_deref()).collect();
    if let Some(group) = group.filter(|group| !groups.contains(group)) {
        return Err(Halt::usage(say::no_group(group, &groups.into_iter().collect::<Vec<_>>())));
    }
    let briefs = known.rows.iter().flat_map(|row| &row.sittings);
    let ids: BTreeSet<&str> = briefs.map(|brief| brief.set.as_str()).collect();
    let title = |id: &str| {
        let issued = known.issued.iter().rev().find(|issued| issued.set == id);
        issued.map_or_else(|| id.to_owned(), |issued| issued.title.clone())
    };
    let sets = ids.into_iter().map(|id| (id.to_owned(), title(id))).collect();
    let own: Option<BTreeSet<String>> = group.map(|group| {
        let of_group = known.roster.iter().filter(|person| person.group.as_deref() == Some(group));
        of_group.map(|person| person.code.clone()).collect()
    });
    let sittings = known.sittings;
    let look_up = move |set: &str, catalogue: &Catalogue| {
        let mut all = sittings(set)?;
        all.retain(|sitting| own.as_ref().is_none_or(|own| own.contains(&sitting.learner)));
        Ok(questions(set, &all, catalogue))
    };
    Ok(Room {
        class: Class::of(known.roster, known.rows, known.issued, group, &now()),
        group: group.map(str::to_owned),
        invented: known.invented,
        sheets: known.sheets,
        sets,
        look_up: Box::new(look_up),
    })
}

fn now() -> String {
    jiff::Timestamp::now().to_string()
}
