//! Keys in files that only their owner may read.

use super::{StoreError, no_data, read_to};
use crate::class::seal::Secret;
use std::fs::File;
use std::io::{self, Write};
use std::path::Path;

/// Whose key it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Holder {
    /// This machine's, which signs returned work.
    Machine,
    /// The instructor's, which signs job cards.
    Instructor,
}

impl Holder {
    const fn file(self) -> &'static str {
        match self {
            Self::Machine => "machine.key",
            Self::Instructor => "instructor.key",
        }
    }
}

/// The key in a data folder. `drawn` are 32 bytes by chance, used where there is none yet.
pub fn key(dir: &Path, of: Holder, drawn: [u8; 32]) -> Result<Secret, StoreError> {
    let path = dir.join(of.file());
    super::super::open::create_folder(dir)?;
    match create(&path) {
        Ok(mut file) => {
            let secret = Secret::new(drawn);
            let written = file.write_all(secret.to_file().as_bytes()).and_then(|()| file.sync_all());
            written.and_then(|()| super::super::files::sync_folder(dir)).map_err(|cause| {
                // Half a key would be taken for a broken one the next time.
                let _ = std::fs::remove_file(&path);
                StoreError::file("write", &path, cause)
            })?;
            Ok(secret)
        }
        Err(cause) if cause.kind() == io::ErrorKind::AlreadyExists => {
            let text = String::from_utf8(read_to(&path, 1024)?).unwrap_or_default();
            Secret::from_file(&text).map_err(|fault| no_data(&path, &fault))
        }
        Err(cause) => Err(StoreError::file("write", &path, cause)),
    }
}

/// The key in a data folder, where there is one; none is made.
pub fn known_key(dir: &Path, of: Holder) -> Result<Option<Secret>, StoreError> {
    if !dir.join(of.file()).is_file() {
        return Ok(None);
    }
    // Nothing is drawn where there is one.
    key(dir, of, [0; 32]).map(Some)
}

fn create(path: &Path) -> io::Result<File> {
    let mut options = File::options();
    options.write(true).create_new(true);
    #[cfg(unix)]
    std::os::unix::fs::OpenOptionsExt::mode(&mut options, 0o600);
    options.open(path)
}
