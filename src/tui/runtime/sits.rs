//! What is kept and looked up: where runs were left, sittings, the page for the supervisor.

use super::{Msg, Record, Runtime};
use crate::session::Exercise;
use crate::store;
use crate::tui::update::{Resume, Sat, read_run};
use std::path::PathBuf;

impl Runtime {
    /// What was put away of every set.
    pub(super) fn look_up_sets(&mut self) -> bool {
        let kept = |id: &str| {
            let text = self.put_away(id)?;
            Some((id.to_owned(), Exercise::sitting_in(&text)?))
        };
        let last = self.model.sets.all.ids().filter_map(kept).collect();
        self.message(Msg::SetsFound(last))
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
        self.message(Msg::Sat(outcome))
    }

    /// Writes the page for the supervisor.
    pub(super) fn write_page(&mut self, path: Option<String>, name: &str, lines: &[String]) -> bool {
        let folder = self.store.as_ref().and_then(|store| store.file().parent().map(PathBuf::from));
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
