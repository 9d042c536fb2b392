//! The instructor's file of what was shown with steel: lines are added, none is ever changed.

use super::StoreError;
use std::fs::{self, File};
use std::io::{self, Read, Seek, SeekFrom, Write};
use std::path::{Path, PathBuf};

/// The file's name in the data folder.
const NAME: &str = "practical.jsonl";
/// The largest file that is read, in bytes: some hundred thousand sheets.
const LIMIT: u64 = 256 << 20;

/// Where it is.
pub fn practical_file(dir: &Path) -> PathBuf {
    dir.join(NAME)
}

/// What stands in it; nothing where there is none yet. Bytes that are no text spoil their own line only.
pub fn read_practical(dir: &Path) -> Result<String, StoreError> {
    let path = practical_file(dir);
    let failed = |cause| StoreError::file("read", &path, cause);
    let file = match File::open(&path) {
        Err(cause) if cause.kind() == io::ErrorKind::NotFound => return Ok(String::new()),
        other => other.map_err(failed)?,
    };
    let mut bytes = Vec::new();
    file.take(LIMIT + 1).read_to_end(&mut bytes).map_err(failed)?;
    if bytes.len() as u64 > LIMIT {
        return Err(StoreError::TooBig { path, limit: LIMIT });
    }
    Ok(String::from_utf8_lossy(&bytes).into_owned())
}

/// Adds a line, through to the disk. Half a line that a power cut left is ended first, so that it spoils no other.
pub fn add_practical(dir: &Path, line: &str) -> Result<(), StoreError> {
    super::open::create_folder(dir)?;
    let path = practical_file(dir);
    let failed = |cause| StoreError::file("write", &path, cause);
    let is_new = fs::symlink_metadata(&path).is_err();
    let mut file = File::options().read(true).append(true).create(true).open(&path).map_err(failed)?;
    let mut text = String::new();
    if ends_in_half_a_line(&mut file).map_err(failed)? {
        text.push('\n');
    }
    text.push_str(line);
    text.push('\n');
    file.write_all(text.as_bytes()).and_then(|()| file.sync_all()).map_err(failed)?;
    if is_new { super::files::sync_folder(dir).map_err(failed) } else { Ok(()) }
}

fn ends_in_half_a_line(file: &mut File) -> io::Result<bool> {
    if file.metadata()?.len() == 0 {
        return Ok(false);
    }
    file.seek(SeekFrom::End(-1))?;
    let mut last = [0];
    file.read_exact(&mut last)?;
    Ok(last != *b"\n")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_are_added_and_half_a_line_spoils_no_other() -> Result<(), Box<dyn std::error::Error>> {
        let dir = tempfile::tempdir()?;
        let folder = dir.path().join("class");
        assert_eq!(read_practical(&folder)?, "");
        add_practical(&folder, "one")?;
        add_practical(&folder, "two")?;
        assert_eq!(read_practical(&folder)?, "one\ntwo\n");
        fs::write(practical_file(&folder), b"one\nha\xff")?;
        add_practical(&folder, "three")?;
        assert_eq!(read_practical(&folder)?, "one\nha\u{fffd}\nthree\n");
        Ok(())
    }
}
