//! What is kept and looked up: where runs were left, sittings, the page for the supervisor.

use super::{Msg, Record, Runtime, drawn};
use crate::class::card::Card;
use crate::diag::SourceText;
use crate::drill::set;
use crate::session::Exercise;
use crate::store;
use crate::store::round::{self, Desk, HandedIn, Note, OnDesk};
use crate::tui::model::{Issued, Model, Stands};
use crate::tui::update::{Desked, Resume, Sat, read_run};
use crate::wording::exercise as say;
use std::path::PathBuf;

impl Runtime {
    /// What was put away of every set.
    pub(super) fn look_up_sets(&mut self) -> bool {
        let kept = |id: &str| {
            let text = self.put_away(id)?;
            Some((id.to_owned(), Exercise::sitting_in(&text)?))
        };
        let last = self.model.sets.all.ids().filter_map(kept).collect();
        let cards = self.cards();
        self.message(Msg::SetsFound(last, cards))
    }

    /// The job cards in the shared folder that are for this learner, the next due first. A folder that is away has none.
    fn cards(&self) -> Vec<Issued> {
        let Some(dir) = self.folder() else { return Vec::new() };
        let Ok(Some(share)) = round::share(&dir) else { return Vec::new() };
        let Model { learner, catalogue, .. } = &self.model;
        let issued = |(name, bytes): (String, Vec<u8>)| {
            let card = Card::read(&bytes).ok().filter(|card| card.is_for(learner))?;
            let set = set::read(&SourceText::new(name, card.text.clone()), catalogue).ok()?;
            let tries = round::tries(&dir, &card.number, learner).ok()?;
            let open = round::open_work(&dir).ok()?;
            let goes_on =
                open.iter().any(|(_, of)| of.card.as_ref() == Some(&card.number) && of.learner == *learner);
            let stands = match (tries, goes_on) {
                (_, true) => Stands::Left,
                (0, _) => Stands::New,
                _ => Stands::Done,
            };
            card.gives(&set).then_some(Issued { card, set, stands })
        };
        let mut cards: Vec<Issued> =
            round::cards(&share).unwrap_or_default().into_iter().filter_map(issued).collect();
        let due = |issued: &Issued| issued.card.due.as_ref().map(|due| due.until.clone());
        cards.sort_by_key(|issued| (issued.stands == Stands::Done, due(issued).is_none(), due(issued)));
        cards
    }

    /// What there is of a job card on this machine.
    pub(super) fn look_up_card(&mut self, number: String) -> bool {
        let put_away = self.put_away(&number);
        let Some(dir) = self.folder() else { return false };
        let desk = self.desk.get_or_insert_with(|| Desk::new(&dir));
        match desk.look(&number, &self.model.learner) {
            Ok(OnDesk { going, tries }) => {
                self.message(Msg::CardFound(number, Box::new(Desked { going, put_away, tries })))
            }
            Err(error) => {
                self.model.notice = Some(error.to_string());
                false
            }
        }
    }

    /// The data folder.
    fn folder(&self) -> Option<PathBuf> {
        self.store.as_ref()?.file().parent().map(PathBuf::from)
    }

    /// What was put away of a set.
    pub(super) fn look_up_set(&mut self, id: String) -> bool {
        let kept = self.put_away(&id);
        self.message(Msg::SetFound(id, kept))
    }

    fn put_away(&self, set: &str) -> Option<String> {
        let key = Exercise::key_of(&self.model.learner, set);
        self.store.as_ref()?.setting(&key).ok().flatten()
    }

    /// Puts a sitting down.
    pub(super) fn sit(&mut self, sat: &Sat) -> bool {
        if self.model.record == Record::Private {
            return self.message(Msg::Sat(Ok(())));
        }
        let outcome = match &self.store {
            Some(store) => store.set_setting(&sat.key, &sat.text).map_err(|error| error.to_string()),
            None => Err(self.model.store_problem.clone().unwrap_or_default()),
        };
        let handed = sat.sitting.card.as_ref().map_or(Ok(None), |_| self.put_down(sat));
        let (outcome, handed) = match handed {
            Ok(handed) => (outcome, handed),
            Err(why) => (Err(why), None),
        };
        let mut leave = self.message(Msg::Sat(outcome));
        if let Some(HandedIn { waiting, why, .. }) = handed {
            let why = why.map(|why| why.to_string());
            leave |= self.message(Msg::HandedIn(say::handed_in(waiting, why.as_deref())));
        }
        leave
    }

    /// Keeps the file of a job card level with its sitting.
    fn put_down(&mut self, sat: &Sat) -> Result<Option<HandedIn>, String> {
        let dir = self.folder().ok_or_else(|| self.model.store_problem.clone().unwrap_or_default())?;
        let drawn = drawn().map_err(|cause| cause.to_string())?;
        let note = Note { silent: sat.silent, nth: sat.nth, at: sat.at.clone(), leaves: sat.leaves, drawn };
        let desk = self.desk.get_or_insert_with(|| Desk::new(&dir));
        desk.put_down(&sat.sitting, &note).map_err(|error| error.to_string())
    }

    /// Writes the page for the supervisor.
    pub(super) fn write_page(&mut self, path: Option<String>, name: &str, lines: &[String]) -> bool {
        let folder = self.folder();
        let usual = || folder.unwrap_or_default().join(name);
        let path = path.map_or_else(usual, PathBuf::from);
        let text = lines.join("\n") + "\n";
        let shown = path.to_string_lossy().into_owned();
        let outcome =
            store::write_new(&path, text.as_bytes()).map(|()| shown).map_err(|error| error.to_string());
        self.message(Msg::PageWritten(outcome))
    }

    /// Where a run was left.
    pub(super) fn left_at(&self, key: &str) -> Option<Resume> {
        let kept = self.store.as_ref().and_then(|store| store.setting(key).ok().flatten());
        kept.and_then(|text| read_run(&text))
    }

    /// Remembers a setting.
    pub(super) fn remember(&mut self, key: &str, value: &str) {
        if self.model.record == Record::Private {
            return;
        }
        if let Some(store) = &self.store
            && let Err(error) = store.set_setting(key, value)
        {
            // An answer may still be kept; whether it is, its own line says.
            self.model.notice = Some(error.to_string());
        }
    }
}
