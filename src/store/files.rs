//! Files a person wrote, and files written on request.

use super::StoreError;
use crate::diag::SourceText;
use std::fs::{self, File};
use std::io::{self, Read, Write};
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicU32, Ordering};

/// The largest file of a person that is read, in bytes: an instrument, a drill set.
pub const OWN_LIMIT: u64 = 1 << 20;

/// The `*.toml` files of a folder, in the order of their names, and what could not be read. A folder that does not exist has
/// none. Hidden files and anything but plain files are passed over; a file over [`OWN_LIMIT`] or not in UTF-8 is an
/// error of its own and does not stop the others.
pub fn read_own_files(dir: &Path) -> (Vec<SourceText>, Vec<StoreError>) {
    let (mut sources, mut errors) = (Vec::new(), Vec::new());
    let paths = match toml_files(dir) {
        Ok(paths) => paths,
        Err(cause) if cause.kind() == io::ErrorKind::NotFound => Vec::new(),
        Err(cause) => {
            errors.push(StoreError::file("list the files of", dir, cause));
            Vec::new()
        }
    };
    for path in paths {
        match read_source(&path) {
            Ok(Some(source)) => sources.push(source),
            Ok(None) => {}
            Err(error) => errors.push(error),
        }
    }
    (sources, errors)
}

fn toml_files(dir: &Path) -> io::Result<Vec<PathBuf>> {
    let mut paths = Vec::new();
    for entry in fs::read_dir(dir)? {
        let path = entry?.path();
        let hidden = path.file_name().is_some_and(|name| name.as_encoded_bytes().starts_with(b"."));
        if !hidden && path.extension().is_some_and(|extension| extension == "toml") {
            paths.push(path);
        }
    }
    paths.sort();
    Ok(paths)
}

/// `None` for what is no plain file: opening a pipe would wait for ever.
fn read_source(path: &Path) -> Result<Option<SourceText>, StoreError> {
    let failed = |cause| StoreError::file("read", path, cause);
    if !fs::metadata(path).map_err(failed)?.is_file() {
        return Ok(None);
    }
    let mut bytes = Vec::new();
    let file = File::open(path).map_err(failed)?;
    file.take(OWN_LIMIT + 1).read_to_end(&mut bytes).map_err(failed)?;
    if bytes.len() as u64 > OWN_LIMIT {
        return Err(StoreError::TooBig { path: path.to_owned(), limit: OWN_LIMIT });
    }
    let text = String::from_utf8(bytes)
        .map_err(|_| failed(io::Error::new(io::ErrorKind::InvalidData, "it is not text in UTF-8")))?;
    Ok(Some(SourceText::new(path.to_string_lossy(), text)))
}

/// A file that need not be there, such as that of the shop's own tools; none where there is no such file.
pub fn read_if_there(path: &Path) -> Result<Option<SourceText>, StoreError> {
    match fs::metadata(path) {
        Err(cause) if cause.kind() == io::ErrorKind::NotFound => Ok(None),
        _ => read_source(path),
    }
}

/// Puts another text into the file of the shop's own tools. What stood there is copied beside it first, into the file whose path
/// is returned; none where nothing stood there.
pub fn replace_crib(
    path: &Path,
    before: Option<&SourceText>,
    text: &str,
) -> Result<Option<PathBuf>, StoreError> {
    if let Some(folder) = path.parent() {
        super::open::create_folder(folder)?;
    }
    let copy = path.with_file_name("crib.toml.before");
    if let Some(before) = before {
        write_new(&copy, before.text.as_bytes())?;
    }
    write_new(path, text.as_bytes())?;
    Ok(before.map(|_| copy))
}

/// Writes a file whole or not at all: beside it, through to the disk, then into its place. A file of that name is replaced and
/// its permissions are kept; a link is followed; what is no plain file (`/dev/null`, a pipe) is written to as it is.
pub fn write_new(path: &Path, bytes: &[u8]) -> Result<(), StoreError> {
    let failed = |cause| StoreError::file("write", path, cause);
    let (target, permissions) = match fs::metadata(path) {
        Ok(found) if found.is_file() => (fs::canonicalize(path).map_err(failed)?, Some(found.permissions())),
        Ok(found) if found.is_dir() => return Err(failed(io::ErrorKind::IsADirectory.into())),
        Ok(_) => {
            let written = File::options().write(true).open(path).and_then(|mut f| f.write_all(bytes));
            return written.map_err(failed);
        }
        Err(_) => (path.to_owned(), None),
    };
    let folder = match target.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    };
    let (beside, file) = create_beside(folder).map_err(failed)?;
    let written = fill(file, bytes, permissions).and_then(|()| fs::rename(&beside, &target));
    if let Err(cause) = written {
        // The half-written file is worth nothing; that it could not be removed would hide the first fault.
        let _ = fs::remove_file(&beside);
        return Err(failed(cause));
    }
    sync_folder(folder).map_err(failed)
}

fn fill(mut file: File, bytes: &[u8], permissions: Option<fs::Permissions>) -> io::Result<()> {
    file.write_all(bytes)?;
    if let Some(permissions) = permissions {
        file.set_permissions(permissions)?;
    }
    file.sync_all()
}

/// A new file of a name nobody else has.
pub(super) fn create_beside(folder: &Path) -> io::Result<(PathBuf, File)> {
    static NEXT: AtomicU32 = AtomicU32::new(0);
    loop {
        let number = NEXT.fetch_add(1, Ordering::Relaxed);
        let path = folder.join(format!(".linefall-{}-{number}.part", std::process::id()));
        match File::options().write(true).create_new(true).open(&path) {
            Err(cause) if cause.kind() == io::ErrorKind::AlreadyExists => {}
            other => return other.map(|file| (path, file)),
        }
    }
}

/// Makes the names in a folder last through a power cut, where the system has a way to.
pub(super) fn sync_folder(folder: &Path) -> io::Result<()> {
    if cfg!(unix) { File::open(folder)?.sync_all() } else { Ok(()) }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn names(dir: &Path) -> io::Result<Vec<String>> {
        let mut names = Vec::new();
        for entry in fs::read_dir(dir)? {
            names.push(entry?.file_name().to_string_lossy().into_owned());
        }
        names.sort();
        Ok(names)
    }

    #[test]
    fn a_written_file_replaces_the_one_before() -> Result<(), Box<dyn std::error::Error>> {
        let dir = tempfile::tempdir()?;
        let path = dir.path().join("caliper.svg");
        write_new(&path, b"first, and longer")?;
        write_new(&path, b"second")?;
        assert_eq!(fs::read(&path)?, b"second");
        assert_eq!(names(dir.path())?, ["caliper.svg"]);
        Ok(())
    }

    #[test]
    fn nothing_is_left_of_a_file_that_cannot_be_written() -> Result<(), Box<dyn std::error::Error>> {
        let dir = tempfile::tempdir()?;
        let no_folder = dir.path().join("not-there/caliper.svg");
        let error = write_new(&no_folder, b"x").expect_err("no folder");
        assert!(error.to_string().starts_with("cannot write "), "{error}");
        assert!(error.to_string().contains("not-there/caliper.svg"), "{error}");
        assert!(write_new(dir.path(), b"x").is_err());
        assert!(names(dir.path())?.is_empty());
        Ok(())
    }

    #[cfg(unix)]
    #[test]
    fn links_permissions_and_devices_are_left_as_they_are() -> Result<(), Box<dyn std::error::Error>> {
        use std::os::unix::fs::{FileTypeExt, PermissionsExt, symlink};
        let dir = tempfile::tempdir()?;
        let (file, link) = (dir.path().join("sheet.pdf"), dir.path().join("latest.pdf"));
        fs::write(&file, b"old")?;
        fs::set_permissions(&file, fs::Permissions::from_mode(0o640))?;
        symlink("sheet.pdf", &link)?;
        write_new(&link, b"new")?;
        assert!(fs::symlink_metadata(&link)?.is_symlink());
        assert_eq!(fs::read(&file)?, b"new");
        assert_eq!(fs::metadata(&file)?.permissions().mode() & 0o777, 0o640);
        write_new(Path::new("/dev/null"), b"gone")?;
        assert!(fs::metadata("/dev/null")?.file_type().is_char_device());
        Ok(())
    }

    #[test]
    fn own_instruments_in_the_order_of_their_names() -> Result<(), Box<dyn std::error::Error>> {
        let dir = tempfile::tempdir()?;
        let limit = usize::try_from(OWN_LIMIT)?;
        fs::write(dir.path().join("b.toml"), "b = 1\n")?;
        fs::write(dir.path().join("a.toml"), "a = 1\n")?;
        fs::write(dir.path().join("c-full.toml"), "#".repeat(limit))?;
        fs::write(dir.path().join("d-over.toml"), "#".repeat(limit + 1))?;
        fs::write(dir.path().join("e-bytes.toml"), b"\xff\xfe")?;
        fs::write(dir.path().join(".hidden.toml"), "")?;
        fs::write(dir.path().join("notes.txt"), "")?;
        fs::create_dir(dir.path().join("folder.toml"))?;
        let (sources, errors) = read_own_files(dir.path());
        let read: Vec<_> = sources.iter().map(|s| s.name.rsplit('/').next().unwrap_or("")).collect();
        assert_eq!(read, ["a.toml", "b.toml", "c-full.toml"]);
        assert_eq!(sources[0].text, "a = 1\n");
        let said: Vec<_> = errors.iter().map(ToString::to_string).collect();
        assert_eq!(said.len(), 2, "{said:?}");
        assert!(said[0].ends_with("d-over.toml: it is larger than 1048576 bytes"), "{said:?}");
        assert!(said[1].ends_with("e-bytes.toml: it is not text in UTF-8"), "{said:?}");
        Ok(())
    }

    #[test]
    fn no_folder_no_instruments() -> Result<(), Box<dyn std::error::Error>> {
        let dir = tempfile::tempdir()?;
        let (sources, errors) = read_own_files(&dir.path().join("instruments"));
        assert!(sources.is_empty() && errors.is_empty());
        let file = dir.path().join("file");
        fs::write(&file, "")?;
        assert_eq!(read_own_files(&file).1.len(), 1);
        Ok(())
    }
}
