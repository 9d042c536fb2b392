//! Files and folders as they are found: locked, full, foreign, newer.

use super::*;

#[test]
fn opened_for_reading_nothing_is_saved() -> Outcome {
    let dir = tempfile::tempdir()?;
    open(dir.path())?.append(&attempt("me", "rule-metric", 1))?;
    let store = Store::open_for(dir.path(), Access::ReadOnly)?.store;
    assert_eq!(store.why_read_only(), Some("it was opened for reading alone"));
    assert_eq!(store.attempts("me", None)?.stored.len(), 1);
    let error = store.append(&attempt("me", "rule-metric", 2)).expect_err("reading alone");
    assert_eq!(
        error.to_string(),
        format!(
            "cannot save the answer in {}: it was opened for reading alone; nothing was saved",
            dir.path().join(FILE_NAME).display()
        )
    );
    assert!(matches!(store.set_setting("theme", "mono"), Err(StoreError::ReadOnly { .. })));
    // The database itself would refuse as well.
    let said = store.connection.execute("DELETE FROM attempt", []).expect_err("opened for reading");
    assert!(matches!(StoreError::database("x", &store.file, &said), StoreError::ReadOnly { .. }));
    assert_eq!(store.count()?, 1);
    Ok(())
}

#[test]
fn reading_alone_creates_nothing() -> Outcome {
    let dir = tempfile::tempdir()?;
    let folder = dir.path().join("not-there");
    let store = Store::open_for(&folder, Access::ReadOnly)?.store;
    assert_eq!(store.attempts("me", None)?, Attempts::default());
    assert_eq!(store.setting("theme")?, None);
    assert!(matches!(store.append(&attempt("me", "a", 1)), Err(StoreError::ReadOnly { .. })));
    assert!(!folder.exists());
    Ok(())
}

/// For root no folder is locked: root then simply writes, and the test says no more than that.
#[cfg(unix)]
#[test]
fn a_locked_folder_or_file_is_read() -> Outcome {
    use std::os::unix::fs::PermissionsExt;
    let set = |path: &Path, mode| fs::set_permissions(path, fs::Permissions::from_mode(mode));
    for (folder_mode, file_mode, why) in [
        (0o555, 0o644, "the folder may not be written"),
        (0o755, 0o444, "the file may not be written"),
        (0o555, 0o444, "the file may not be written"),
    ] {
        let dir = tempfile::tempdir()?;
        let file = dir.path().join(FILE_NAME);
        open(dir.path())?.append(&attempt("me", "rule-metric", 1))?;
        set(&file, file_mode)?;
        set(dir.path(), folder_mode)?;
        let store = open(dir.path());
        set(dir.path(), 0o755)?;
        let store = store?;
        assert_eq!(store.attempts("me", None)?.stored.len(), 1);
        if rustix::process::geteuid().is_root() {
            assert_eq!(store.why_read_only(), None);
        } else {
            assert_eq!(store.why_read_only(), Some(why));
            assert!(matches!(store.append(&attempt("me", "a", 2)), Err(StoreError::ReadOnly { .. })));
        }
    }
    Ok(())
}

#[test]
fn a_file_that_does_not_change_is_read_from_memory() -> Outcome {
    let dir = tempfile::tempdir()?;
    let folder = dir.path().join("50 % off? #1");
    open(&folder)?.append(&attempt("me", "rule-metric", 1))?;
    let address = open::unchanging(&folder.join(FILE_NAME))?;
    let flags = rusqlite::OpenFlags::SQLITE_OPEN_READ_ONLY | rusqlite::OpenFlags::SQLITE_OPEN_URI;
    let unchanging = Connection::open_with_flags(address, flags)?;
    let count: i64 = unchanging.query_row("SELECT count(*) FROM attempt", [], |row| row.get(0))?;
    assert_eq!(count, 1);
    Ok(())
}

#[test]
fn a_full_disk_is_said_and_loses_nothing() -> Outcome {
    let dir = tempfile::tempdir()?;
    let store = open(dir.path())?;
    // The database's own limit stands in for the disk's: it ends in the same error.
    let pages = pragma(&store, "page_count")?;
    pragma(&store, &format!("max_page_count = {}", pages + 2))?;
    let mut saved = 0;
    let error = loop {
        match store.append(&attempt("me", "rule-metric", saved)) {
            Ok(_) => saved += 1,
            Err(error) => break error,
        }
    };
    assert!(matches!(error, StoreError::Full { .. }), "{error}");
    assert!(error.to_string().ends_with("the disk is full; nothing was saved"), "{error}");
    assert!(saved > 0);
    assert_eq!(store.count()?, u64::from(saved));
    // With room again it goes on where it was.
    pragma(&store, &format!("max_page_count = {}", pages + 100))?;
    store.append(&attempt("me", "rule-metric", saved))?;
    drop(store);
    assert_eq!(open(dir.path())?.count()?, u64::from(saved) + 1);
    Ok(())
}

#[cfg(unix)]
#[test]
fn a_file_taken_away_is_noticed() -> Outcome {
    let dir = tempfile::tempdir()?;
    let store = open(dir.path())?;
    store.append(&attempt("me", "rule-metric", 1))?;
    fs::rename(store.file(), dir.path().join("elsewhere"))?;
    assert!(matches!(store.append(&attempt("me", "a", 2)), Err(StoreError::Moved { .. })));
    open(dir.path())?;
    assert!(matches!(store.append(&attempt("me", "a", 2)), Err(StoreError::Moved { .. })));
    Ok(())
}

#[test]
fn a_newer_file_is_refused_and_left_alone() -> Outcome {
    let dir = tempfile::tempdir()?;
    let store = open(dir.path())?;
    store.connection.execute_batch("PRAGMA user_version = 99")?;
    drop(store);
    let before = fs::read(dir.path().join(FILE_NAME))?;
    for access in [Access::ReadWrite, Access::ReadOnly] {
        let error = Store::open_for(dir.path(), access).expect_err("a newer file");
        assert!(matches!(error, StoreError::Newer { found: 99, .. }), "{error}");
        assert!(error.to_string().contains("written by a newer Linefall"), "{error}");
    }
    assert_eq!(fs::read(dir.path().join(FILE_NAME))?, before);
    Ok(())
}

#[test]
fn what_is_not_ours_is_refused_and_left_alone() -> Outcome {
    let dir = tempfile::tempdir()?;
    let file = dir.path().join(FILE_NAME);
    Connection::open(&file)?.execute_batch("CREATE TABLE stock (part TEXT)")?;
    let before = fs::read(&file)?;
    let error = Store::open(dir.path()).expect_err("another program's file");
    assert!(matches!(error, StoreError::Foreign { .. }), "{error}");
    assert_eq!(fs::read(&file)?, before);

    fs::write(&file, "no database at all, but long enough to be looked at".repeat(40))?;
    let error = Store::open(dir.path()).expect_err("no database");
    assert!(matches!(error, StoreError::Damaged { .. }), "{error}");

    fs::remove_file(&file)?;
    fs::create_dir(&file)?;
    assert!(Store::open(dir.path()).is_err());
    Ok(())
}

#[test]
fn a_folder_that_is_a_file_or_cannot_be_is_an_error() -> Outcome {
    let dir = tempfile::tempdir()?;
    let file = dir.path().join("notes.txt");
    fs::write(&file, "keep me")?;
    let error = Store::open(&file).expect_err("a file");
    assert!(error.to_string().starts_with("cannot create the folder "), "{error}");
    assert!(error.to_string().contains("notes.txt"), "{error}");
    assert_eq!(fs::read_to_string(&file)?, "keep me");
    if cfg!(target_os = "linux") {
        let error = Store::open(Path::new("/proc/linefall")).expect_err("no place for files");
        assert!(error.to_string().contains("/proc/linefall"), "{error}");
    }
    Ok(())
}

#[test]
fn an_empty_file_is_a_new_store() -> Outcome {
    let dir = tempfile::tempdir()?;
    fs::write(dir.path().join(FILE_NAME), "")?;
    let opened = Store::open(dir.path())?;
    assert_eq!(opened.migrated, None);
    opened.store.append(&attempt("me", "rule-metric", 1))?;
    drop(opened);

    // One that was broken off between the log's mode and the first table.
    fs::remove_file(dir.path().join(FILE_NAME))?;
    Connection::open(dir.path().join(FILE_NAME))?.query_row("PRAGMA journal_mode = WAL", [], |_| Ok(()))?;
    assert_eq!(open(dir.path())?.count()?, 0);
    Ok(())
}
