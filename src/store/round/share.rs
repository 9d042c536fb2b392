//! The shared folder: a share of the house, a stick, any folder that both sides can reach.

use super::work::{HANDED_IN, settle};
use super::{StoreError, files, finished, no_data, read_to};
use crate::class::card::{CARD_LIMIT, Card};
use crate::class::returned::{FILE_LIMIT, FIRST_LIMIT};
use std::collections::{BTreeMap, BTreeSet};
use std::fs::{self, File};
use std::io::{self, Write};
use std::path::{Path, PathBuf};

const ISSUED: &str = "issued";
const RETURNED: &str = "returned";
const CARDS: &str = "cards";
/// The file that names the shared folder.
const SHARE: &str = "shared-folder.txt";
/// The machines that work came from before. It is not derived: whoever is new is told once.
const MACHINES: &str = "machines.txt";
/// Files that systems put into every folder they show.
const OF_SYSTEMS: [&str; 2] = ["Thumbs.db", "desktop.ini"];

/// What became of the outbox.
#[derive(Debug, Default)]
pub struct HandedIn {
    /// The files that were copied, by name.
    pub copied: Vec<String>,
    /// How many still wait.
    pub waiting: usize,
    /// Why they wait, the first reason.
    pub why: Option<StoreError>,
}

/// The shared folder that is remembered; none where none is.
pub fn share(dir: &Path) -> Result<Option<PathBuf>, StoreError> {
    let path = dir.join(SHARE);
    match read_to(&path, 8192) {
        Ok(bytes) => {
            let text = String::from_utf8(bytes).map_err(|_| no_data(&path, &"it is not text in UTF-8"))?;
            let line = text.lines().next().map(str::trim).filter(|line| !line.is_empty());
            Ok(line.map(PathBuf::from))
        }
        Err(StoreError::File { cause, .. }) if cause.kind() == io::ErrorKind::NotFound => Ok(None),
        Err(error) => Err(error),
    }
}

/// Remembers the shared folder.
pub fn set_share(dir: &Path, folder: &Path) -> Result<(), StoreError> {
    let path = dir.join(SHARE);
    let folder = std::path::absolute(folder).map_err(|cause| StoreError::file("find", folder, cause))?;
    let text = folder.to_str().filter(|text| !text.contains(['\n', '\r']));
    let text = text.ok_or_else(|| no_data(&folder, &"the name of the shared folder is not text in UTF-8"))?;
    super::super::open::create_folder(dir)?;
    super::super::files::write_new(&path, format!("{text}\n").as_bytes())
}

/// How many finished sittings wait.
pub fn waiting(dir: &Path) -> Result<usize, StoreError> {
    settle(dir)?;
    finished(dir).map(|all| all.len())
}

/// Copies what waits into the shared folder. What cannot be copied goes on waiting; nothing is lost or overwritten.
pub fn hand_in(dir: &Path, share: &Path) -> Result<HandedIn, StoreError> {
    settle(dir)?;
    let mut handed = HandedIn::default();
    for (path, header) in finished(dir)? {
        match copy_out(dir, share, &path, &header.learner) {
            Ok(name) => handed.copied.push(name),
            Err(error) => {
                handed.waiting += 1;
                handed.why.get_or_insert(error);
            }
        }
    }
    Ok(handed)
}

fn copy_out(dir: &Path, share: &Path, path: &Path, learner: &str) -> Result<String, StoreError> {
    // A share that is away is often an empty folder's name: nothing may be made in its place.
    fs::metadata(share).map_err(|cause| StoreError::file("reach", share, cause))?;
    let folder = share.join(RETURNED).join(learner);
    fs::create_dir_all(&folder).map_err(|cause| StoreError::file("make", &folder, cause))?;
    let bytes = read_to(path, FILE_LIMIT)?;
    let name = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
    let name = put(&folder, &name, &bytes)?;
    let kept = dir.join(HANDED_IN);
    super::super::open::create_folder(&kept)?;
    let to = kept.join(path.file_name().unwrap_or_default());
    fs::rename(path, &to).map_err(|cause| StoreError::file("move", path, cause))?;
    Ok(name)
}

/// Puts a file into a folder under a name that is free: beside it, through to the disk, then into its place. The same file that is
/// there already is not put a second time.
fn put(folder: &Path, name: &str, bytes: &[u8]) -> Result<String, StoreError> {
    let (stem, ending) = name.rsplit_once('.').unwrap_or((name, ""));
    let named = |n: u32| if n == 1 { name.to_owned() } else { format!("{stem}-{n}.{ending}") };
    for n in 1..100 {
        let name = named(n);
        let path = folder.join(&name);
        if fs::symlink_metadata(&path).is_err() {
            fill(folder, &path, bytes).map_err(|cause| StoreError::file("write", &path, cause))?;
            return Ok(name);
        }
        let limit = bytes.len() as u64;
        if read_to(&path, limit).is_ok_and(|there| there == bytes) {
            return Ok(name);
        }
    }
    Err(no_data(folder, &"a hundred files of this name are there"))
}

fn fill(folder: &Path, path: &Path, bytes: &[u8]) -> io::Result<()> {
    let (beside, mut file) = super::super::files::create_beside(folder)?;
    let written = file.write_all(bytes).and_then(|()| file.sync_all());
    drop(file);
    if let Err(cause) = written.and_then(|()| fs::rename(&beside, path)) {
        // Where nothing may be deleted the rest stays; its name is hidden, and nobody collects it.
        let _ = fs::remove_file(&beside);
        return Err(cause);
    }
    // Whoever may only put files in may not open the folder: the file itself is on the disk.
    let _ = super::super::files::sync_folder(folder);
    Ok(())
}

/// Puts a card into the shared folder and a copy into the instructor's data folder, and makes the folders for what comes
/// back from these codes. Returns where the card is.
pub fn put_card(
    dir: &Path,
    share: &Path,
    card: &Card,
    text: &str,
    codes: &[String],
) -> Result<PathBuf, StoreError> {
    fs::metadata(share).map_err(|cause| StoreError::file("reach", share, cause))?;
    let (issued, own) = (share.join(ISSUED), dir.join(CARDS));
    let returned = codes.iter().map(|code| share.join(RETURNED).join(code));
    for folder in [issued.clone(), share.join(RETURNED)].into_iter().chain(returned) {
        fs::create_dir_all(&folder).map_err(|cause| StoreError::file("make", &folder, cause))?;
    }
    super::super::open::create_folder(&own)?;
    // The own copy first: a card that is out and not known would be a stranger when its work comes back.
    put(&own, &card.file_name(), text.as_bytes())?;
    let name = put(&issued, &card.file_name(), text.as_bytes())?;
    Ok(issued.join(name))
}

/// Keeps a copy of a card somebody works on, and remembers the shared folder that it lies in. The card was read before.
pub fn take_card(dir: &Path, path: &Path, card: &Card, bytes: &[u8]) -> Result<(), StoreError> {
    let own = dir.join(CARDS);
    super::super::open::create_folder(&own)?;
    put(&own, &card.file_name(), bytes)?;
    let path = std::path::absolute(path).map_err(|cause| StoreError::file("find", path, cause))?;
    let folder = path.parent().filter(|folder| folder.file_name().is_some_and(|name| name == ISSUED));
    folder.and_then(Path::parent).map_or(Ok(()), |share| set_share(dir, share))
}

/// The cards in a data folder, or in the `issued` of a shared one: name and bytes.
pub fn cards(folder: &Path) -> Result<Vec<(String, Vec<u8>)>, StoreError> {
    let of_share = folder.join(ISSUED);
    let place = if of_share.is_dir() { of_share } else { folder.join(CARDS) };
    let mut all = Vec::new();
    for path in files(&place)? {
        let name = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
        if path.extension().is_some_and(|ending| ending == "card") {
            all.push((name, read_to(&path, CARD_LIMIT)?));
        }
    }
    Ok(all)
}

/// A file that came back.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Found {
    /// Where it lies.
    pub path: PathBuf,
    /// The same from the shared folder on, as it is named to a person.
    pub name: String,
}

/// Whether cards were issued in a folder, or work came back to it.
pub fn is_shared(folder: &Path) -> bool {
    [ISSUED, RETURNED].iter().any(|name| folder.join(name).is_dir())
}

/// The files in the `returned` of a shared folder, in the order of their names; and what could not be looked at.
pub fn returned_files(share: &Path) -> Result<(Vec<Found>, Vec<StoreError>), StoreError> {
    let root = share.join(RETURNED);
    let (mut found, mut errors) = (Vec::new(), Vec::new());
    // The folder itself must be there; one inside that is closed does not stop the others.
    fs::read_dir(&root).map_err(|cause| StoreError::file("list the files of", &root, cause))?;
    walk(&root, share, 0, &mut found, &mut errors);
    found.sort_by(|a, b| a.name.cmp(&b.name));
    Ok((found, errors))
}

/// So many folders in one another are looked into.
const DEEP: u32 = 4;

fn walk(folder: &Path, share: &Path, depth: u32, found: &mut Vec<Found>, errors: &mut Vec<StoreError>) {
    let failed = |cause| StoreError::file("list the files of", folder, cause);
    let entries = match fs::read_dir(folder) {
        Ok(entries) => entries,
        Err(cause) => return errors.push(failed(cause)),
    };
    for entry in entries {
        let entry = match entry {
            Ok(entry) => entry,
            Err(cause) => return errors.push(failed(cause)),
        };
        let name = entry.file_name();
        let hidden = name.as_encoded_bytes().starts_with(b".") || OF_SYSTEMS.iter().any(|of| name == *of);
        match entry.file_type() {
            _ if hidden => {}
            Ok(kind) if kind.is_dir() && depth < DEEP => walk(&entry.path(), share, depth + 1, found, errors),
            // A link may lead anywhere, a pipe would be waited at for ever: both are found and not opened.
            Ok(_) => {
                let path = entry.path();
                let name = path.strip_prefix(share).unwrap_or(&path).to_string_lossy().replace('\\', "/");
                found.push(Found { path, name });
            }
            Err(cause) => errors.push(StoreError::file("look at", &entry.path(), cause)),
        }
    }
}

/// The bytes of a job card, at most one more than a card may have.
pub fn read_card(path: &Path) -> Result<Vec<u8>, StoreError> {
    let failed = |cause| StoreError::file("read", path, cause);
    if !fs::metadata(path).map_err(failed)?.is_file() {
        return Err(failed(io::Error::other("it is no plain file")));
    }
    read_to(path, CARD_LIMIT)
}

/// The bytes of a file that came back, at most one more than such a file may have.
pub fn read_returned(found: &Found) -> Result<Vec<u8>, StoreError> {
    let failed = |cause| StoreError::file("read", &found.path, cause);
    if !fs::symlink_metadata(&found.path).map_err(failed)?.is_file() {
        return Err(failed(io::Error::other("it is no plain file")));
    }
    read_to(&found.path, FILE_LIMIT)
}

/// Its first bytes, in which the first line stands.
pub fn read_first(found: &Found) -> Result<Vec<u8>, StoreError> {
    let failed = |cause| StoreError::file("read", &found.path, cause);
    if !fs::symlink_metadata(&found.path).map_err(failed)?.is_file() {
        return Err(failed(io::Error::other("it is no plain file")));
    }
    let mut bytes = vec![0; FIRST_LIMIT + 1];
    let mut file = File::open(&found.path).map_err(failed)?;
    let mut filled = 0;
    while filled < bytes.len() {
        match io::Read::read(&mut file, &mut bytes[filled..]).map_err(failed)? {
            0 => break,
            more => filled += more,
        }
    }
    bytes.truncate(filled);
    Ok(bytes)
}

/// The machines that are known, by learner.
pub fn machines(dir: &Path) -> Result<BTreeMap<String, BTreeSet<String>>, StoreError> {
    let path = dir.join(MACHINES);
    let bytes = match fs::read(&path) {
        Err(cause) if cause.kind() == io::ErrorKind::NotFound => return Ok(BTreeMap::new()),
        other => other.map_err(|cause| StoreError::file("read", &path, cause))?,
    };
    let mut all: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
    for line in String::from_utf8_lossy(&bytes).lines() {
        if let Some((learner, key)) = line.split_once(' ') {
            all.entry(learner.to_owned()).or_default().insert(key.to_owned());
        }
    }
    Ok(all)
}

/// Adds machines of learners to those that are known.
pub fn add_machines(dir: &Path, new: &[(String, String)]) -> Result<(), StoreError> {
    if new.is_empty() {
        return Ok(());
    }
    let mut text: Vec<String> = Vec::new();
    for (learner, keys) in machines(dir)? {
        text.extend(keys.iter().map(|key| format!("{learner} {key}\n")));
    }
    text.extend(new.iter().map(|(learner, key)| format!("{learner} {key}\n")));
    super::super::files::write_new(&dir.join(MACHINES), text.concat().as_bytes())
}
