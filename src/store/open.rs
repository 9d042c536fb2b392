//! Opening: the short way for a file that is as it should be, the long way for one to be created or brought up to date, the
//! way for reading alone.

use super::files::sync_folder;
use super::schema::APPLICATION_ID;
use super::{Access, BUSY_SECONDS, FILE_NAME, Migrated, Opened, Store, StoreError, place};
use rusqlite::backup::Backup;
use rusqlite::{Connection, OpenFlags, TransactionBehavior};
use std::fs::{self, DirBuilder, File};
use std::io;
use std::path::{Path, PathBuf};
use std::time::Duration;

const OPENING: &str = "open the record";

/// What the head of a database file says.
struct Head {
    application: i64,
    version: i64,
    wal: bool,
    tables: i64,
}

/// Opens the store of a folder; `steps` lead from an empty file to the version known here.
pub(super) fn open(dir: &Path, access: Access, steps: &[&str]) -> Result<Opened, StoreError> {
    let file = dir.join(FILE_NAME);
    if let Some(kind) = place::network(&file) {
        return Err(StoreError::Network { path: file, kind });
    }
    if access == Access::ReadOnly {
        return for_reading(&file, "it was opened for reading alone", steps);
    }
    for_writing(dir, &file, steps).or_else(|error| match why_for_reading(&file, &error) {
        Some(why) => for_reading(&file, why, steps),
        None => Err(error),
    })
}

fn for_writing(dir: &Path, file: &Path, steps: &[&str]) -> Result<Opened, StoreError> {
    // The short way. What stands in its way may be another program just creating the file, so the long way has the last word.
    if let Ok(connection) = connect_for_writing(file, OpenFlags::SQLITE_OPEN_READ_WRITE) {
        let head = head_of(&connection, file)?;
        check(&head, file, steps)?;
        if head.version == version_of(steps) && head.wal {
            settle(&connection, file)?;
            return Ok(opened(connection, file, None, None));
        }
    }
    let (connection, migrated) = prepare(dir, file, steps)?;
    Ok(opened(connection, file, None, migrated))
}

fn opened(
    connection: Connection,
    file: &Path,
    read_only: Option<&'static str>,
    migrated: Option<Migrated>,
) -> Opened {
    let identity = place::identity(file);
    Opened { store: Store { connection, file: file.to_owned(), read_only, identity }, migrated }
}

/// Creates the file or brings it up to date, while all others wait.
fn prepare(dir: &Path, file: &Path, steps: &[&str]) -> Result<(Connection, Option<Migrated>), StoreError> {
    create_folder(dir)?;
    let lock = dir.join(format!("{FILE_NAME}.lock"));
    let lock_failed = |cause| StoreError::file("lock", &lock, cause);
    let guard = File::options().create(true).truncate(false).write(true).open(&lock).map_err(lock_failed)?;
    guard.lock().map_err(lock_failed)?;

    let mut connection =
        connect_for_writing(file, OpenFlags::SQLITE_OPEN_READ_WRITE | OpenFlags::SQLITE_OPEN_CREATE)?;
    // Another program may have done the work by now.
    let head = head_of(&connection, file)?;
    check(&head, file, steps)?;
    settle(&connection, file)?;
    connection.execute_batch("PRAGMA journal_mode = WAL").map_err(failed(file))?;
    let known = version_of(steps);
    let migrated = if head.version > 0 && head.version < known {
        let copy = copy_before(&connection, file, known)?;
        Some(Migrated { from: head.version, to: known, copy })
    } else {
        None
    };
    migrate(&mut connection, head.version, steps).map_err(failed(file))?;
    sync_folder(dir).map_err(|cause| StoreError::file("write", dir, cause))?;
    Ok((connection, migrated))
}

pub(super) fn create_folder(dir: &Path) -> Result<(), StoreError> {
    let mut builder = DirBuilder::new();
    builder.recursive(true);
    #[cfg(unix)]
    std::os::unix::fs::DirBuilderExt::mode(&mut builder, 0o700);
    builder.create(dir).map_err(|cause| StoreError::file("create the folder", dir, cause))
}

/// Copies an older file beside itself before its tables are changed.
fn copy_before(connection: &Connection, file: &Path, to: i64) -> Result<PathBuf, StoreError> {
    let doing = "copy the older record to";
    let wanted = format!("{FILE_NAME}.before-v{to}");
    let mut copy = file.with_file_name(&wanted);
    let mut n = 2;
    while copy.exists() {
        copy = file.with_file_name(format!("{wanted}-{n}"));
        n += 1;
    }
    let part = file.with_file_name(format!("{wanted}.part"));
    let io_failed = |cause| StoreError::file(doing, &part, cause);
    match fs::remove_file(&part) {
        Err(cause) if cause.kind() != io::ErrorKind::NotFound => return Err(io_failed(cause)),
        _ => {}
    }
    let name = part.to_str().ok_or_else(|| {
        io_failed(io::Error::new(io::ErrorKind::InvalidInput, "the folder's name is not UTF-8"))
    })?;
    connection.execute("VACUUM INTO ?1", [name]).map_err(|said| StoreError::database(doing, &part, &said))?;
    File::options().write(true).open(&part).and_then(|f| f.sync_all()).map_err(io_failed)?;
    fs::rename(&part, &copy).map_err(io_failed)?;
    Ok(copy)
}

/// Each step is one transaction, and its version number is part of it.
fn migrate(connection: &mut Connection, from: i64, steps: &[&str]) -> rusqlite::Result<()> {
    for (step, to) in steps.iter().zip(1_i64..).filter(|(_, to)| *to > from) {
        let transaction = connection.transaction_with_behavior(TransactionBehavior::Immediate)?;
        transaction.execute_batch(step)?;
        transaction.execute_batch(&format!(
            "PRAGMA application_id = {APPLICATION_ID}; PRAGMA user_version = {to}"
        ))?;
        transaction.commit()?;
    }
    Ok(())
}

/// Opens for reading alone. What cannot be read in place, or is older, is read into memory; where there is no file there is
/// nothing to read.
fn for_reading(file: &Path, why: &'static str, steps: &[&str]) -> Result<Opened, StoreError> {
    let in_memory = |from: Option<(&Connection, i64)>| {
        let mut memory = Connection::open_in_memory()?;
        let version = match from {
            Some((source, version)) => {
                Backup::new(source, &mut memory)?.run_to_completion(i32::MAX, Duration::ZERO, None)?;
                version
            }
            None => 0,
        };
        migrate(&mut memory, version, steps).map(|()| memory)
    };
    if fs::metadata(file).map_or_else(|e| e.kind() == io::ErrorKind::NotFound, |found| found.len() == 0) {
        let memory = in_memory(None).map_err(failed(file))?;
        return Ok(opened(memory, file, Some(why), None));
    }
    let (connection, head, in_place) = connect_for_reading(file)?;
    check(&head, file, steps)?;
    if in_place && head.version == version_of(steps) {
        settle(&connection, file)?;
        return Ok(opened(connection, file, Some(why), None));
    }
    let memory = in_memory(Some((&connection, head.version))).map_err(failed(file))?;
    Ok(opened(memory, file, Some(why), None))
}

/// The database reads a file in WAL mode only with an index beside it; where that cannot be made and no log is waiting, the
/// file is read as one that does not change.
fn connect_for_reading(file: &Path) -> Result<(Connection, Head, bool), StoreError> {
    let in_place = connect(file, OpenFlags::SQLITE_OPEN_READ_ONLY)
        .and_then(|connection| head_of(&connection, file).map(|head| (connection, head, true)));
    let log = file.with_file_name(format!("{FILE_NAME}-wal"));
    match in_place {
        Err(error) if !matches!(error, StoreError::Damaged { .. }) => {
            if fs::metadata(&log).is_ok_and(|log| log.len() > 0) {
                return Err(error);
            }
            let name = PathBuf::from(unchanging(file)?);
            let flags = OpenFlags::SQLITE_OPEN_READ_ONLY | OpenFlags::SQLITE_OPEN_URI;
            let unchanged = connect(&name, flags)
                .and_then(|connection| head_of(&connection, file).map(|head| (connection, head, false)));
            // The first error names the file as it is called.
            unchanged.map_err(|_| error)
        }
        other => other,
    }
}

/// The file's name as an address that says it does not change.
pub(super) fn unchanging(file: &Path) -> Result<String, StoreError> {
    let path = std::path::absolute(file).map_err(|cause| StoreError::file("find", file, cause))?;
    let mut address = String::from(if cfg!(windows) { "file:///" } else { "file://" });
    for &byte in path.as_os_str().as_encoded_bytes() {
        match byte {
            b'\\' if cfg!(windows) => address.push('/'),
            b'/' | b':' | b'.' | b'-' | b'_' => address.push(char::from(byte)),
            _ if byte.is_ascii_alphanumeric() => address.push(char::from(byte)),
            _ => {
                let hex = |digit: u8| char::from(b"0123456789ABCDEF"[usize::from(digit)]);
                address.extend(['%', hex(byte >> 4), hex(byte & 15)]);
            }
        }
    }
    address.push_str("?immutable=1");
    Ok(address)
}

/// Why the store can be opened for reading alone after this error; `None` when it should not be opened at all.
fn why_for_reading(file: &Path, error: &StoreError) -> Option<&'static str> {
    const FULL: &str = "the disk is full";
    match error {
        StoreError::Full { .. } => Some(FULL),
        StoreError::ReadOnly { why, .. } => Some(place::why_unwritable(file).unwrap_or(why)),
        StoreError::File { cause, .. } => match cause.kind() {
            io::ErrorKind::StorageFull | io::ErrorKind::QuotaExceeded => Some(FULL),
            io::ErrorKind::ReadOnlyFilesystem => Some("the disk is mounted for reading only"),
            io::ErrorKind::PermissionDenied => Some("the folder may not be written"),
            _ => None,
        },
        StoreError::Database { .. } => place::why_unwritable(file),
        _ => None,
    }
}

fn connect(file: &Path, flags: OpenFlags) -> Result<Connection, StoreError> {
    let connection =
        Connection::open_with_flags(file, flags | OpenFlags::SQLITE_OPEN_NO_MUTEX).map_err(failed(file))?;
    connection.busy_timeout(Duration::from_secs(BUSY_SECONDS)).map_err(failed(file))?;
    Ok(connection)
}

/// The database opens for reading what it cannot open for writing; that is an error here.
fn connect_for_writing(file: &Path, flags: OpenFlags) -> Result<Connection, StoreError> {
    let connection = connect(file, flags)?;
    if connection.is_readonly("main").map_err(failed(file))? {
        let why = place::why_unwritable(file).unwrap_or("the file may not be written");
        return Err(StoreError::ReadOnly { doing: OPENING, path: file.to_owned(), why });
    }
    Ok(connection)
}

fn head_of(connection: &Connection, file: &Path) -> Result<Head, StoreError> {
    let read = || -> rusqlite::Result<Head> {
        connection.execute_batch("PRAGMA trusted_schema = OFF; PRAGMA mmap_size = 0")?;
        let number = |sql| connection.query_row(sql, [], |row| row.get::<_, i64>(0));
        let mode: String = connection.query_row("PRAGMA journal_mode", [], |row| row.get(0))?;
        // One view of all of it: another program may be creating the tables.
        let _view = connection.unchecked_transaction()?;
        Ok(Head {
            application: number("PRAGMA application_id")?,
            version: number("PRAGMA user_version")?,
            wal: mode == "wal",
            tables: number("SELECT count(*) FROM sqlite_schema")?,
        })
    };
    read().map_err(failed(file))
}

/// Refuses a newer file and another program's.
fn check(head: &Head, file: &Path, steps: &[&str]) -> Result<(), StoreError> {
    let path = file.to_owned();
    let untouched = head.application == 0 && head.version == 0 && head.tables == 0;
    if head.application != APPLICATION_ID && !untouched {
        return Err(StoreError::Foreign { path });
    }
    let known = version_of(steps);
    if head.version > known {
        return Err(StoreError::Newer { path, found: head.version, known });
    }
    if head.version < 0 { Err(StoreError::Foreign { path }) } else { Ok(()) }
}

/// What holds for one connection and is not kept in the file.
fn settle(connection: &Connection, file: &Path) -> Result<(), StoreError> {
    connection
        .execute_batch("PRAGMA synchronous = FULL; PRAGMA foreign_keys = ON; PRAGMA cell_size_check = ON")
        .map_err(failed(file))
}

fn version_of(steps: &[&str]) -> i64 {
    i64::try_from(steps.len()).expect("steps are counted on fingers")
}

fn failed(file: &Path) -> impl Fn(rusqlite::Error) -> StoreError {
    move |said| StoreError::database(OPENING, file, &said)
}
