//! The file of a sitting while it goes on: a line at a time, each on the disk before the next.

use super::{StoreError, files, no_data, read_to};
use crate::class::returned::{self, Closing, FILE_LIMIT, Header, Returned, Writer};
use std::fs::{self, File};
use std::io::{self, Seek, SeekFrom, Write};
use std::path::{Path, PathBuf};

const GOES_ON: &str = "sittings";
const OUTBOX: &str = "outbox";
pub(super) const HANDED_IN: &str = "handed-in";

/// The file of a sitting that goes on. While it is open no other program goes on with it.
#[derive(Debug)]
pub struct WorkFile {
    file: File,
    path: PathBuf,
}

/// A sitting taken up again.
#[derive(Debug)]
pub struct TakenUp {
    /// Its file.
    pub file: WorkFile,
    /// What makes its next lines.
    pub writer: Writer,
    /// What stands in it.
    pub so_far: Returned,
}

impl WorkFile {
    /// Begins one in the data folder: the first line is on the disk.
    pub fn begin(dir: &Path, header: &Header) -> Result<(Self, Writer), StoreError> {
        let folder = dir.join(GOES_ON);
        super::super::open::create_folder(&folder)?;
        let path = folder.join(header.file_name());
        let opened = File::options().read(true).write(true).create_new(true).open(&path);
        let file = opened.map_err(|cause| StoreError::file("write", &path, cause))?;
        let mut work = Self { file, path };
        work.hold()?;
        let (writer, line) = Writer::begin(header);
        work.append(&line)?;
        super::super::files::sync_folder(&folder).map_err(|cause| work.failed("write", cause))?;
        Ok((work, writer))
    }

    /// Takes one up again. Half a line at its end, left by a power cut, is taken off.
    pub fn take_up(path: &Path) -> Result<TakenUp, StoreError> {
        let opened = File::options().read(true).write(true).open(path);
        let file = opened.map_err(|cause| StoreError::file("open", path, cause))?;
        let mut work = Self { file, path: path.to_owned() };
        work.hold()?;
        let so_far = returned::read(&read_to(path, FILE_LIMIT)?)
            .map_err(|faults| no_data(path, &faults.first().map(ToString::to_string).unwrap_or_default()))?;
        let writer = Writer::resume(&so_far).filter(|_| so_far.whole > 0);
        let writer = writer.ok_or_else(|| no_data(path, &"this sitting has come to its end"))?;
        let cut = work.file.set_len(so_far.whole as u64);
        cut.and_then(|()| work.file.seek(SeekFrom::End(0))).map_err(|cause| work.failed("write", cause))?;
        Ok(TakenUp { file: work, writer, so_far })
    }

    fn hold(&self) -> Result<(), StoreError> {
        match self.file.try_lock() {
            Err(fs::TryLockError::WouldBlock) => {
                Err(StoreError::Busy { doing: "go on with the sitting", path: self.path.clone() })
            }
            // A disk without locks keeps nobody from working.
            Ok(()) | Err(fs::TryLockError::Error(_)) => Ok(()),
        }
    }

    /// Appends lines. When this returns they are on the disk.
    pub fn append(&mut self, lines: &str) -> Result<(), StoreError> {
        let written = self.file.write_all(lines.as_bytes()).and_then(|()| self.file.sync_data());
        written.map_err(|cause| self.failed("write", cause))
    }

    /// Appends the end and puts the file into the outbox.
    pub fn finish(mut self, lines: &str) -> Result<PathBuf, StoreError> {
        self.append(lines)?;
        let folder = self.path.parent().and_then(Path::parent).unwrap_or(Path::new(".")).join(OUTBOX);
        super::super::open::create_folder(&folder)?;
        let name = self.path.file_name().unwrap_or_default();
        let path = folder.join(name);
        drop(self.file);
        let moved = fs::rename(&self.path, &path).and_then(|()| super::super::files::sync_folder(&folder));
        moved.map_err(|cause| StoreError::file("write", &path, cause))?;
        Ok(path)
    }

    /// Where it stands.
    pub fn path(&self) -> &Path {
        &self.path
    }

    fn failed(&self, doing: &'static str, cause: io::Error) -> StoreError {
        if cause.kind() == io::ErrorKind::StorageFull {
            return StoreError::Full { doing, path: self.path.clone() };
        }
        StoreError::file(doing, &self.path, cause)
    }
}

/// The sittings in a data folder that go on or were broken off.
pub fn open_work(dir: &Path) -> Result<Vec<(PathBuf, Header)>, StoreError> {
    headers(&dir.join(GOES_ON))
}

/// The finished ones that wait to be handed in.
pub fn finished(dir: &Path) -> Result<Vec<(PathBuf, Header)>, StoreError> {
    headers(&dir.join(OUTBOX))
}

/// Puts those that came to their end, and whose move to the outbox a power cut kept, into the outbox.
pub(super) fn settle(dir: &Path) -> Result<(), StoreError> {
    for (path, _) in open_work(dir)? {
        let at_its_end =
            returned::read(&read_to(&path, FILE_LIMIT)?).is_ok_and(|of| of.closing == Closing::Signed);
        if at_its_end {
            let folder = dir.join(OUTBOX);
            super::super::open::create_folder(&folder)?;
            let to = folder.join(path.file_name().unwrap_or_default());
            fs::rename(&path, &to).map_err(|cause| StoreError::file("move", &path, cause))?;
        }
    }
    Ok(())
}

/// How often a learner has begun on a card on this machine.
pub fn tries(dir: &Path, card: &str, learner: &str) -> Result<u32, StoreError> {
    let mut count = 0;
    for folder in [GOES_ON, OUTBOX, HANDED_IN] {
        let begun = |header: &Header| header.card.as_deref() == Some(card) && header.learner == learner;
        count += headers(&dir.join(folder))?.iter().filter(|(_, header)| begun(header)).count();
    }
    Ok(u32::try_from(count).unwrap_or(u32::MAX))
}

/// Those of a folder whose first line can be read.
fn headers(folder: &Path) -> Result<Vec<(PathBuf, Header)>, StoreError> {
    let mut all = Vec::new();
    for path in files(folder)? {
        let first = read_to(&path, returned::FIRST_LIMIT as u64)?;
        if let Ok(header) = returned::header(&first) {
            all.push((path, header));
        }
    }
    Ok(all)
}
