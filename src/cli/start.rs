//! What the full screen starts with.

use super::args::{Common, Theme};
use super::card::{self, Given};
use super::exit::Halt;
use super::progress::USUAL_LEARNER;
use super::{out, shelf, terminal};
use crate::class::card::Card;
use crate::class::room::Room;
use crate::drill::set::{DrillSet, Shelf};
use crate::instrument::Catalogue;
use crate::render::{LineStyle, Terminal};
use crate::session::{Begin, Programme};
use crate::store::{self, Access, Store};
use crate::wording::command as say;
use rand::TryRng;
use rand::rngs::SysRng;

/// What the full screen starts with; `main` hands it over.
pub struct FullScreen {
    /// The instruments.
    pub catalogue: Catalogue,
    /// The store, if it could be opened.
    pub store: Option<Store>,
    /// Why nothing can be saved, if so.
    pub store_problem: Option<String>,
    /// Who practises.
    pub learner: String,
    /// Nothing of the session is kept.
    pub private: bool,
    /// Exercises and checks.
    pub sets: Shelf,
    /// The job card that is to be worked on.
    pub card: Option<(Card, DrillSet)>,
    /// Where the page for the supervisor is written.
    pub page: Option<String>,
    /// Where it begins.
    pub begin: Begin,
    /// The class record, where that is what was asked for.
    pub class: Option<Box<Room>>,
    /// `--lines`, or the plain characters of `--plain`.
    pub lines: Option<LineStyle>,
    /// `--theme`.
    pub theme: Theme,
    /// What the environment tells of the terminal.
    pub terminal: Terminal,
    /// `NO_COLOR` is set, or `--plain` given.
    pub no_color: bool,
}

/// At the list of instruments.
pub fn home(common: Common) -> Result<Box<FullScreen>, Halt> {
    need_terminal()?;
    let catalogue = shelf::catalogue(&common);
    Ok(Box::new(FullScreen::new(common, catalogue)))
}

/// In practice on an instrument; without a name, the one practised last, else the first there is. With a programme, at the bench.
pub fn practice(
    common: Common,
    instrument: Option<String>,
    programme: Option<Programme>,
) -> Result<Box<FullScreen>, Halt> {
    let catalogue = shelf::catalogue(&common);
    if let Some(name) = instrument.as_deref().filter(|name| card::is_card(name)) {
        let given = card::given(&common, &catalogue, name)?;
        return job_card(common, catalogue, given, None);
    }
    if let Some(id) = instrument.as_deref().filter(|id| shelf::is_set(&common, &catalogue, id)) {
        if programme.is_some() {
            return Err(Halt::usage(say::SET_SAYS_WHAT));
        }
        return set(common, catalogue, None, Begin::Set(id.to_owned()));
    }
    if let Some(id) = &instrument {
        let tool = shelf::find(&catalogue, id)?;
        programme.as_ref().map_or(Ok(()), |programme| shelf::sensible(tool, programme))?;
    }
    need_terminal()?;
    let mut start = FullScreen::new(common, catalogue);
    let id = instrument
        .or_else(|| start.practised_last())
        .or_else(|| start.catalogue.ids().next().map(str::to_owned));
    start.begin = match id {
        Some(id) => match programme {
            Some(programme) => Begin::Bench(id, programme),
            None => Begin::Practice(id),
        },
        None => Begin::Home,
    };
    Ok(Box::new(start))
}

/// At an instrument that is moved by hand, in its lesson, or with a round for a room.
pub fn at(common: Common, begin: Begin) -> Result<Box<FullScreen>, Halt> {
    need_terminal()?;
    let catalogue = shelf::catalogue(&common);
    Ok(Box::new(FullScreen { begin, ..FullScreen::new(common, catalogue) }))
}

/// In the class record. No learner's own record is opened.
pub fn class(common: Common, catalogue: Catalogue, room: Room) -> Box<FullScreen> {
    let start = FullScreen::with(common, catalogue, (None, None));
    Box::new(FullScreen { begin: Begin::Class, class: Some(Box::new(room)), ..start })
}

/// Before a set, or at the list of them.
pub fn set(
    common: Common,
    catalogue: Catalogue,
    page: Option<String>,
    begin: Begin,
) -> Result<Box<FullScreen>, Halt> {
    need_terminal()?;
    Ok(Box::new(FullScreen { page, begin, ..FullScreen::new(common, catalogue) }))
}

/// Before a job card.
pub fn job_card(
    common: Common,
    catalogue: Catalogue,
    given: Given,
    page: Option<String>,
) -> Result<Box<FullScreen>, Halt> {
    need_terminal()?;
    let Given { card, set, learner } = given;
    let begin = Begin::Card(card.number.clone());
    let common = Common { learner: Some(learner), ..common };
    Ok(Box::new(FullScreen { card: Some((card, set)), page, begin, ..FullScreen::new(common, catalogue) }))
}

/// Sixteen hexadecimal digits by chance.
pub fn chance_id() -> Result<String, Halt> {
    let drawn = SysRng.try_next_u64();
    drawn.map(|id| format!("{id:016x}")).map_err(|cause| Halt::trouble(format!("no random numbers: {cause}")))
}

fn need_terminal() -> Result<(), Halt> {
    if terminal::both_ends() { Ok(()) } else { Err(Halt::usage(say::NEEDS_TERMINAL)) }
}

impl FullScreen {
    fn new(common: Common, catalogue: Catalogue) -> Self {
        let opened = open(&common);
        Self::with(common, catalogue, opened)
    }

    fn with(
        common: Common,
        catalogue: Catalogue,
        (store, store_problem): (Option<Store>, Option<String>),
    ) -> Self {
        let sets = shelf::sets(&common, &catalogue);
        Self {
            catalogue,
            store,
            store_problem,
            lines: common.lines.or(common.plain.then_some(LineStyle::Ascii)),
            private: common.private,
            learner: common.learner.unwrap_or_else(|| USUAL_LEARNER.to_owned()),
            sets,
            card: None,
            page: None,
            begin: Begin::Home,
            class: None,
            theme: common.theme,
            terminal: terminal::terminal(),
            no_color: common.plain || terminal::no_color(),
        }
    }

    /// The instrument of the latest attempt that there still is.
    fn practised_last(&self) -> Option<String> {
        let known = |id: &str| self.catalogue.origin(id).is_some();
        self.store.as_ref()?.latest_instrument(&self.learner, known).ok()?
    }
}

/// The store, and why nothing can be saved. Neither keeps anybody from practising.
fn open(common: &Common) -> (Option<Store>, Option<String>) {
    if common.private {
        // What was chosen before is looked up, nothing is written down; that is no trouble but the point.
        let opened =
            store::data_dir(common.data_dir.clone()).and_then(|dir| Store::open_for(&dir, Access::ReadOnly));
        return (opened.ok().map(|opened| opened.store), None);
    }
    match store::data_dir(common.data_dir.clone()).and_then(|dir| Store::open(&dir)) {
        Err(error) => (None, Some(error.to_string())),
        Ok(opened) => {
            if let Some(migrated) = &opened.migrated {
                let copy = out::clean_name(&migrated.copy.to_string_lossy());
                out::complain(&say::brought_up_to_date(&copy));
            }
            let problem = opened.store.why_read_only().map(str::to_owned);
            (Some(opened.store), problem)
        }
    }
}
