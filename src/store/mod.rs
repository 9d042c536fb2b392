//! Floor 6. What is kept: attempts and settings in `SQLite`, a learner's own instruments, files written on request.
//!
//! | type | what it is |
//! |---|---|
//! | [`Store`] | the open database of a data folder |
//! | [`Opened`] | the store, and what happened while opening it |
//! | [`Attempts`], [`Stored`], [`AttemptNumber`] | attempts in the order of their numbers |
//! | [`Summarised`] | what a learner's attempts come to, kept beside them |
//! | [`ClassStore`] | what was collected of a class; derived |
//! | [`round`] | the files of the instructor's round |
//! | [`StoreError`] | what failed, on which file |
//! | [`data_dir`], [`instruments_dir`], [`exercises_dir`], [`crib_file`], [`targets_file`] | where things are |
//! | [`read_own_files`], [`read_if_there`], [`replace_crib`], [`write_new`] | files |
//!
//! An attempt is one transaction and is on the disk when [`Store::append`] returns. A folder or file that may not be written
//! is opened for reading; every write then fails, saying so. Several programs may have the same store open.

mod attempts;
mod class;
mod error;
mod files;
mod open;
mod place;
mod practical;
pub mod round;
mod schema;
mod summary;
#[cfg(test)]
mod tests;

pub use attempts::{AttemptNumber, Attempts, Stored};
pub use class::{CLASS_FILE, ClassStore, KeptLearner, KeptSitting};
pub use error::StoreError;
pub use files::{OWN_LIMIT, read_if_there, read_own_files, replace_crib, write_new};
pub use place::{crib_file, data_dir, exercises_dir, instruments_dir, roster_file, targets_file};
pub use practical::{add_practical, practical_file, read_practical};
pub use summary::Summarised;

use rusqlite::{Connection, OptionalExtension, params};
use std::path::{Path, PathBuf};

/// The database's name in the data folder.
pub const FILE_NAME: &str = "linefall.sqlite";
/// How long a write waits for another program's to end, in seconds.
pub const BUSY_SECONDS: u64 = 5;

/// What a store is opened for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Access {
    /// Reading and writing; reading alone where the folder or the file allows no more.
    ReadWrite,
    /// Reading alone: nothing is created, nothing brought up to date.
    ReadOnly,
}

/// The open database of a data folder.
#[derive(Debug)]
pub struct Store {
    connection: Connection,
    file: PathBuf,
    /// Why nothing can be written.
    read_only: Option<&'static str>,
    /// Which file was opened, whatever its name is now.
    identity: Option<place::Identity>,
}

/// A store, and what happened while opening it.
#[derive(Debug)]
pub struct Opened {
    /// The store.
    pub store: Store,
    /// Set when the file was of an older version and has been brought up to date.
    pub migrated: Option<Migrated>,
}

/// An older file that was brought up to date.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Migrated {
    /// The version it had.
    pub from: i64,
    /// The version it has now.
    pub to: i64,
    /// The copy made before.
    pub copy: PathBuf,
}

impl Store {
    /// Opens the store of a data folder, creating both as needed.
    ///
    /// Where nothing may be written, or the disk is full, it is opened for reading ([`Store::why_read_only`]); an error means
    /// that not even that is possible or right: a network file system, a newer file, another program's, a damaged one.
    pub fn open(dir: &Path) -> Result<Opened, StoreError> {
        Self::open_for(dir, Access::ReadWrite)
    }

    /// Opens the store of a data folder for reading and writing or for reading alone; errors as [`Store::open`].
    pub fn open_for(dir: &Path, access: Access) -> Result<Opened, StoreError> {
        open::open(dir, access, schema::STEPS)
    }

    /// The database file.
    pub fn file(&self) -> &Path {
        &self.file
    }

    /// Why nothing can be saved, if that is so: `the folder may not be written`.
    pub fn why_read_only(&self) -> Option<&'static str> {
        self.read_only
    }

    /// The value saved under a key; `None` when there is none.
    pub fn setting(&self, key: &str) -> Result<Option<String>, StoreError> {
        self.connection
            .query_row("SELECT value FROM setting WHERE key = ?1", [key], |row| row.get(0))
            .optional()
            .map_err(self.failed("read the settings"))
    }

    /// Saves a value under a key, in place of the one before.
    pub fn set_setting(&self, key: &str, value: &str) -> Result<(), StoreError> {
        let doing = "save the setting";
        self.check_writable(doing)?;
        let sql = "INSERT INTO setting (key, value) VALUES (?1, ?2) \
                   ON CONFLICT (key) DO UPDATE SET value = excluded.value";
        self.connection.execute(sql, params![key, value]).map_err(self.failed(doing))?;
        Ok(())
    }

    /// An error unless the store is open for writing and its file still stands where it was opened.
    fn check_writable(&self, doing: &'static str) -> Result<(), StoreError> {
        if let Some(why) = self.read_only {
            return Err(StoreError::ReadOnly { doing, path: self.file.clone(), why });
        }
        if self.identity != place::identity(&self.file) {
            return Err(StoreError::Moved { doing, path: self.file.clone() });
        }
        Ok(())
    }

    fn failed(&self, doing: &'static str) -> impl Fn(rusqlite::Error) -> StoreError {
        move |said| StoreError::database(doing, &self.file, &said)
    }
}
