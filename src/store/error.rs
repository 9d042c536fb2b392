//! What can go wrong with the data folder, each with what was being done to which file.

use rusqlite::ErrorCode;
use std::io;
use std::path::{Path, PathBuf};
use thiserror::Error;

/// A failing disk, folder or file. Nothing that ended in one of these was saved.
#[derive(Debug, Error)]
pub enum StoreError {
    /// The system names no home folder and no data folder was given.
    #[error("this system names no home folder; say where the data is with --data-dir")]
    NoHome,
    /// A file or folder could not be read or written.
    #[error("cannot {doing} {}: {cause}", shown(path))]
    File {
        /// What was being done.
        doing: &'static str,
        /// To which file or folder.
        path: PathBuf,
        /// What the system said.
        cause: io::Error,
    },
    /// The folder lies on a network file system.
    #[error(
        "{} lies on a network file system ({kind}): its locks do not hold, and two writers can destroy the record; \
         choose a folder on this machine with --data-dir",
        shown(path)
    )]
    Network {
        /// The file that would have been there.
        path: PathBuf,
        /// The kind of file system.
        kind: &'static str,
    },
    /// The file was written by a newer version of the program.
    #[error(
        "{} was written by a newer Linefall (version {found} of the file, this one knows up to {known}); it was left as it \
         is: use the newer Linefall, or another folder with --data-dir",
        shown(path)
    )]
    Newer {
        /// The file.
        path: PathBuf,
        /// The version it has.
        found: i64,
        /// The highest version known here.
        known: i64,
    },
    /// The file is a database of some other program.
    #[error("{} is not Linefall's: it was left as it is; choose another folder with --data-dir", shown(path))]
    Foreign {
        /// The file.
        path: PathBuf,
    },
    /// The file is no sound database.
    #[error(
        "cannot {doing} in {}: the file is damaged ({cause}); put a copy of it in its place, or move it away",
        shown(path)
    )]
    Damaged {
        /// What was being done.
        doing: &'static str,
        /// The file.
        path: PathBuf,
        /// What was found.
        cause: String,
    },
    /// The file is open for reading only.
    #[error("cannot {doing} in {}: {why}; nothing was saved", shown(path))]
    ReadOnly {
        /// What was being done.
        doing: &'static str,
        /// The file.
        path: PathBuf,
        /// Why it may only be read.
        why: &'static str,
    },
    /// No room is left.
    #[error("cannot {doing} in {}: the disk is full; nothing was saved", shown(path))]
    Full {
        /// What was being done.
        doing: &'static str,
        /// The file.
        path: PathBuf,
    },
    /// Another program held the file for longer than [`super::BUSY_SECONDS`].
    #[error("cannot {doing} in {}: another program holds the file; nothing was saved", shown(path))]
    Busy {
        /// What was being done.
        doing: &'static str,
        /// The file.
        path: PathBuf,
    },
    /// The file that was opened is no longer the one of that name.
    #[error(
        "cannot {doing} in {}: the file was moved or deleted while in use; nothing was saved",
        shown(path)
    )]
    Moved {
        /// What was being done.
        doing: &'static str,
        /// The file.
        path: PathBuf,
    },
    /// A file is larger than any of its kind may be.
    #[error("cannot read {}: it is larger than {limit} bytes", shown(path))]
    TooBig {
        /// The file.
        path: PathBuf,
        /// The limit in bytes.
        limit: u64,
    },
    /// Anything else the database said.
    #[error("cannot {doing} in {}: {cause}", shown(path))]
    Database {
        /// What was being done.
        doing: &'static str,
        /// The file.
        path: PathBuf,
        /// What it said.
        cause: String,
    },
}

/// `SQLITE_IOERR_SHMSIZE`: no room for the index of the log.
const NO_ROOM_FOR_THE_INDEX: i32 = 0x130a;

impl StoreError {
    pub(super) fn file(doing: &'static str, path: &Path, cause: io::Error) -> Self {
        Self::File { doing, path: path.to_owned(), cause }
    }

    /// Sorts what the database said.
    pub(super) fn database(doing: &'static str, path: &Path, said: &rusqlite::Error) -> Self {
        let path = path.to_owned();
        let extended = said.sqlite_error().map_or(0, |e| e.extended_code);
        match said.sqlite_error_code() {
            Some(ErrorCode::ReadOnly) => Self::ReadOnly { doing, path, why: "it may not be written" },
            Some(ErrorCode::DiskFull) => Self::Full { doing, path },
            _ if extended == NO_ROOM_FOR_THE_INDEX => Self::Full { doing, path },
            Some(ErrorCode::DatabaseBusy | ErrorCode::DatabaseLocked) => Self::Busy { doing, path },
            Some(ErrorCode::DatabaseCorrupt | ErrorCode::NotADatabase) => {
                Self::Damaged { doing, path, cause: clean(&said.to_string()) }
            }
            _ => Self::Database { doing, path, cause: clean(&said.to_string()) },
        }
    }
}

/// A path as an error may show it: without anything a terminal would obey.
fn shown(path: &Path) -> String {
    clean(&path.to_string_lossy())
}

fn clean(text: &str) -> String {
    let obeyed = |c: char| {
        c.is_control()
            || matches!(c, '\u{61c}' | '\u{200b}'..='\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2060}'..='\u{206f}')
            || matches!(c, '\u{feff}' | '\u{e0000}'..='\u{e007f}')
    };
    text.chars().map(|c| if obeyed(c) { '\u{fffd}' } else { c }).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_path_cannot_command_the_terminal() {
        let path = PathBuf::from("/srv/\u{1b}]52;c;eA==\u{7}/\u{202e}evil\u{9b}");
        let said = StoreError::Full { doing: "save the answer", path }.to_string();
        assert_eq!(
            said,
            "cannot save the answer in /srv/\u{fffd}]52;c;eA==\u{fffd}/\u{fffd}evil\u{fffd}: the disk is full; nothing was saved"
        );
    }
}
