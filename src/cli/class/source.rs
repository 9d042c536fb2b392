//! Where the class record comes from.

use crate::class::invented::invented;
use crate::class::practical::{Sheet, latest};
use crate::class::questions::{Questions, questions};
use crate::class::record::{Class, Issued, Person, Row, rows};
use crate::class::sitting::{Purpose, Sitting};
use crate::cli::args::Common;
use crate::cli::exit::Halt;
use crate::cli::practical;
use crate::drill::Seed;
use crate::instrument::Catalogue;
use crate::learner::calendar::Day;
use crate::learner::plan::Plan;
use std::collections::BTreeSet;

/// The sittings of a set, by its id.
type Sittings = Box<dyn Fn(&str) -> Result<Vec<Sitting>, Halt>>;

/// All that is known of a class.
pub struct Source {
    /// Nobody in it is real.
    pub invented: bool,
    /// UTC now, RFC 3339.
    pub now: String,
    roster: Vec<Person>,
    rows: Vec<Row>,
    issued: Vec<Issued>,
    /// What was shown with steel.
    pub sheets: Vec<Sheet>,
    sittings: Sittings,
}

impl Source {
    /// What was collected.
    pub fn read(common: &Common, _: &Catalogue) -> Result<Self, Halt> {
        let sheets = practical::sheets(common)?;
        Ok(Self {
            invented: false,
            now: jiff::Timestamp::now().to_string(),
            roster: Vec::new(),
            rows: Vec::new(),
            issued: Vec::new(),
            sheets,
            sittings: Box::new(|_| Ok(Vec::new())),
        })
    }

    /// A class made up.
    pub fn invented(catalogue: &Catalogue, people: u32) -> Self {
        let now = jiff::Timestamp::now().to_string();
        let today = Day::of(&now).expect("the clock gives a date");
        let class = invented(catalogue, people, Seed(1), today);
        let plan = |sitting: &Sitting| (sitting.purpose == Purpose::Check).then_some(Plan::USUAL);
        let rows = rows(&class.sittings, plan, catalogue);
        let all = class.sittings;
        let sittings = move |set: &str| Ok(all.iter().filter(|one| one.set == set).cloned().collect());
        Self {
            invented: true,
            now,
            roster: class.roster,
            rows,
            issued: class.issued,
            sheets: class.sheets,
            sittings: Box::new(sittings),
        }
    }

    /// The class, or a group of it.
    pub fn class(&self, group: Option<&str>) -> Class {
        Class::of(self.roster.clone(), self.rows.clone(), self.issued.clone(), group, &self.now)
    }

    /// The groups of the roster.
    pub fn groups(&self) -> Vec<&str> {
        let all: BTreeSet<&str> = self.roster.iter().filter_map(|person| person.group.as_deref()).collect();
        all.into_iter().collect()
    }

    /// The ids of the sets of which anything came back.
    pub fn sets(&self) -> Vec<&str> {
        let briefs = self.rows.iter().flat_map(|row| &row.sittings);
        let all: BTreeSet<&str> = briefs.map(|brief| brief.set.as_str()).collect();
        all.into_iter().collect()
    }

    /// What a person calls a set.
    pub fn title<'a>(&'a self, set: &'a str) -> &'a str {
        self.issued.iter().rev().find(|issued| issued.set == set).map_or(set, |issued| &issued.title)
    }

    /// The analysis of a set; none where nothing came back of it.
    pub fn questions(
        &self,
        set: &str,
        group: Option<&str>,
        catalogue: &Catalogue,
    ) -> Result<Option<Questions>, Halt> {
        let mut all = (self.sittings)(set)?;
        if group.is_some() {
            let own: BTreeSet<&str> = self
                .roster
                .iter()
                .filter(|person| person.group.as_deref() == group)
                .map(|person| person.code.as_str())
                .collect();
            all.retain(|sitting| own.contains(sitting.learner.as_str()));
        }
        Ok(questions(set, &all, catalogue))
    }

    /// What a learner last showed with an instrument.
    pub fn steel(&self, learner: &str, instrument: &str) -> Option<&Sheet> {
        latest(&self.sheets, learner, instrument)
    }
}
