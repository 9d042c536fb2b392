//! The files of the instructor's round.
//!
//! | type | what it is |
//! |---|---|
//! | [`key`], [`known_key`], [`Holder`] | the key of a machine or an instructor, made when it is first wanted |
//! | [`WorkFile`], [`TakenUp`] | the file of a sitting while it goes on |
//! | [`Desk`] | a job card being worked on: its file kept level with the sitting |
//! | [`open_work`], [`tries`], [`finished`] | what lies in the data folder |
//! | [`hand_in`], [`HandedIn`] | what is waiting goes to the shared folder |
//! | [`put_card`], [`take_card`], [`cards`] | job cards |
//! | [`share()`], [`set_share`] | the shared folder that is remembered |
//! | [`returned_files`], [`Found`], [`read_returned`] | what came back |
//! | [`is_shared`] | whether a folder is a shared one |
//!
//! In the data folder `sittings` holds what goes on, `outbox` what is done and waits, `handed-in` what was copied away, `cards` the
//! job cards. In the shared folder there are `issued` and `returned/CODE`. One file has one writer and is never written to
//! again once it is there; it comes whole or not at all, under a name that nobody else has.

mod desk;
mod keys;
mod share;
mod work;

pub use desk::{Desk, Note, OnDesk};
pub use keys::{Holder, key, known_key};
pub use share::{
    Found, HandedIn, add_machines, cards, hand_in, is_shared, machines, put_card, read_card, read_first,
    read_returned, returned_files, set_share, share, take_card, waiting,
};
pub use work::{TakenUp, WorkFile, finished, open_work, tries};

use super::StoreError;
use std::fs::{self, File};
use std::io::{self, Read};
use std::path::{Path, PathBuf};

/// The plain files of a folder in the order of their names; a folder that is not there has none. Hidden files are passed over.
fn files(dir: &Path) -> Result<Vec<PathBuf>, StoreError> {
    let failed = |cause| StoreError::file("list the files of", dir, cause);
    let entries = match fs::read_dir(dir) {
        Err(cause) if cause.kind() == io::ErrorKind::NotFound => return Ok(Vec::new()),
        other => other.map_err(failed)?,
    };
    let mut all = Vec::new();
    for entry in entries {
        let entry = entry.map_err(failed)?;
        let hidden = entry.file_name().as_encoded_bytes().starts_with(b".");
        if !hidden && entry.file_type().map_err(failed)?.is_file() {
            all.push(entry.path());
        }
    }
    all.sort();
    Ok(all)
}

/// The bytes of a file, at most one more than the limit.
fn read_to(path: &Path, limit: u64) -> Result<Vec<u8>, StoreError> {
    let failed = |cause| StoreError::file("read", path, cause);
    let file = File::open(path).map_err(failed)?;
    let size = file.metadata().map_or(0, |found| found.len()).min(limit + 1);
    let mut bytes = Vec::with_capacity(usize::try_from(size).unwrap_or(0));
    file.take(limit + 1).read_to_end(&mut bytes).map_err(failed)?;
    Ok(bytes)
}

fn no_data(path: &Path, why: &impl ToString) -> StoreError {
    StoreError::file("use", path, io::Error::new(io::ErrorKind::InvalidData, why.to_string()))
}

#[cfg(test)]
mod tests;
