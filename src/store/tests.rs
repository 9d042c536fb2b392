//! The store against real files.

use super::*;
use crate::drill::Kind;
use crate::drill::record::{Asks, Attempt, Verdict, View};
use std::error::Error;
use std::fs;

type Outcome = Result<(), Box<dyn Error>>;

fn attempt(learner: &str, instrument: &str, number: u32) -> Attempt {
    Attempt {
        learner: learner.to_owned(),
        at: "2026-03-09T07:30:00Z".to_owned(),
        instrument: instrument.to_owned(),
        revision: "5f1c09".to_owned(),
        generator: 1,
        seed: u64::MAX - u64::from(number),
        number,
        variant: "halves=above".to_owned(),
        conditions: String::new(),
        kind: Kind::OneStep,
        given: "bore 1 3/64 in, \"given\"".to_owned(),
        asks: Asks::Corrected,
        setting: "1 3/64 in".to_owned(),
        zero_error: "-1/64 in".to_owned(),
        view: View::Held,
        glass: true,
        lines: "bars".to_owned(),
        cols: 120,
        rows: 40,
        answer: " 1-3/64\"; DROP TABLE attempt".to_owned(),
        expected: "1 1/16 in".to_owned(),
        verdict: Verdict::Misread,
        misreads: vec!["zero-ignored".to_owned(), "next \"line\"".to_owned()],
        took_ms: 12_345,
    }
}

fn open(dir: &Path) -> Result<Store, StoreError> {
    Store::open(dir).map(|opened| opened.store)
}

fn pragma(store: &Store, name: &str) -> rusqlite::Result<i64> {
    store.connection.query_row(&format!("PRAGMA {name}"), [], |row| row.get(0))
}

#[test]
fn what_is_read_is_what_was_saved() -> Outcome {
    let dir = tempfile::tempdir()?;
    let store = open(dir.path())?;
    assert_eq!(store.why_read_only(), None);
    let mut saved = Vec::new();
    for (n, &verdict) in (1..).zip(Verdict::ALL) {
        let mut attempt = attempt("Jo \u{e9}", "rule-inch-64", n);
        attempt.verdict = verdict;
        // A clock gone back does not change the order.
        attempt.at = format!("20{}-01-01T00:00:00Z", 40 - n);
        attempt.misreads.truncate(usize::try_from(n)? - 1);
        let number = store.append(&attempt)?;
        saved.push(Stored { number, attempt });
    }
    assert!(saved.is_sorted_by(|a, b| a.number < b.number));
    let read = store.attempts("Jo \u{e9}", None)?;
    assert_eq!(read, Attempts { stored: saved, unreadable: 0 });
    assert_eq!(read.into_attempts().len(), Verdict::ALL.len());
    Ok(())
}

#[test]
fn by_learner_and_instrument() -> Outcome {
    let dir = tempfile::tempdir()?;
    let store = open(dir.path())?;
    for (n, (learner, instrument)) in
        [("me", "a"), ("me", "b"), ("Kim", "a"), ("me", "a")].into_iter().enumerate()
    {
        store.append(&attempt(learner, instrument, u32::try_from(n)?))?;
    }
    let numbers = |learner, instrument| -> Result<Vec<u32>, StoreError> {
        let attempts = store.attempts(learner, instrument)?.into_attempts();
        Ok(attempts.iter().map(|a| a.number).collect())
    };
    assert_eq!(numbers("me", None)?, [0, 1, 3]);
    assert_eq!(numbers("me", Some("a"))?, [0, 3]);
    assert!(numbers("Kim", Some("b"))?.is_empty());
    assert!(numbers("nobody", None)?.is_empty());
    assert_eq!(store.learners()?, ["Kim", "me"]);
    assert_eq!(store.count()?, 4);
    Ok(())
}

#[test]
fn a_new_store_is_created_and_found_again() -> Outcome {
    let dir = tempfile::tempdir()?;
    let folder = dir.path().join("share/linefall");
    let first = open(&folder)?.append(&attempt("me", "rule-metric", 1))?;
    let opened = Store::open(&folder)?;
    assert_eq!(opened.migrated, None);
    let store = opened.store;
    assert_eq!(store.file(), folder.join(FILE_NAME));
    assert!(store.append(&attempt("me", "rule-metric", 2))? > first);
    assert_eq!(store.count()?, 2);

    let mode: String = store.connection.query_row("PRAGMA journal_mode", [], |row| row.get(0))?;
    assert_eq!(mode, "wal");
    assert_eq!(pragma(&store, "synchronous")?, 2);
    assert_eq!(pragma(&store, "foreign_keys")?, 1);
    assert_eq!(pragma(&store, "busy_timeout")?, 5_000);
    assert_eq!(pragma(&store, "trusted_schema")?, 0);
    assert_eq!(pragma(&store, "cell_size_check")?, 1);
    assert_eq!(pragma(&store, "user_version")?, i64::try_from(schema::STEPS.len())?);
    assert_eq!(pragma(&store, "application_id")?, schema::APPLICATION_ID);
    // Without memory mapping the pragma answers 0, or nothing at all.
    assert_eq!(pragma(&store, "mmap_size").unwrap_or(0), 0);
    Ok(())
}

#[test]
fn a_number_is_never_given_twice() -> Outcome {
    let dir = tempfile::tempdir()?;
    let store = open(dir.path())?;
    let number = store.append(&attempt("me", "rule-metric", 1))?;
    store.connection.execute("DELETE FROM attempt", [])?;
    assert!(store.append(&attempt("me", "rule-metric", 2))? > number);
    Ok(())
}

#[test]
fn settings() -> Outcome {
    let dir = tempfile::tempdir()?;
    let store = open(dir.path())?;
    assert_eq!(store.setting("theme")?, None);
    store.set_setting("theme", "steel")?;
    store.set_setting("lines.xterm-256color", "thin")?;
    store.set_setting("theme", "mono")?;
    drop(store);
    let store = open(dir.path())?;
    assert_eq!(store.setting("theme")?.as_deref(), Some("mono"));
    assert_eq!(store.setting("lines.xterm-256color")?.as_deref(), Some("thin"));
    Ok(())
}

#[test]
fn two_at_once_lose_nothing() -> Outcome {
    let dir = tempfile::tempdir()?;
    let write = |learner: &'static str| {
        let dir = dir.path().to_owned();
        std::thread::spawn(move || -> Result<Vec<AttemptNumber>, StoreError> {
            // The store does not exist yet: they also meet while creating it.
            let store = open(&dir)?;
            (0..50).map(|n| store.append(&attempt(learner, "rule-metric", n))).collect()
        })
    };
    let writers: Vec<_> = ["A", "B", "C", "D"].map(|learner| (learner, write(learner))).into();
    let mut all = Vec::new();
    for (learner, writer) in writers {
        let numbers = writer.join().map_err(|_| "a writer panicked")??;
        let read = open(dir.path())?.attempts(learner, None)?;
        assert_eq!(read.stored.iter().map(|s| s.number).collect::<Vec<_>>(), numbers);
        let order: Vec<_> = read.into_attempts().iter().map(|a| a.number).collect();
        assert_eq!(order, (0..50).collect::<Vec<_>>());
        all.extend(numbers);
    }
    all.sort();
    all.dedup();
    assert_eq!(all.len(), 200);
    Ok(())
}

#[test]
fn rows_nobody_understands_are_passed_over_and_counted() -> Outcome {
    let dir = tempfile::tempdir()?;
    let store = open(dir.path())?;
    let faults = [
        "verdict = 'splendid'",
        "asks = ''",
        "view = 'upside-down'",
        "seed = '-1'",
        "misreads = 'next-line'",
        "cols = -5",
        "took_ms = -1",
        "answer = CAST(x'ff' AS TEXT)",
    ];
    for n in 0..=u32::try_from(faults.len())? {
        store.append(&attempt("me", "rule-metric", n))?;
    }
    for (n, fault) in faults.iter().enumerate() {
        let sql = format!("UPDATE attempt SET {fault} WHERE question = {n}");
        assert_eq!(store.connection.execute(&sql, [])?, 1, "{fault}");
    }
    let read = store.attempts("me", None)?;
    assert_eq!(usize::try_from(read.unreadable)?, faults.len());
    assert_eq!(read.stored.len(), 1);
    assert_eq!(usize::try_from(read.stored[0].attempt.number)?, faults.len());
    Ok(())
}

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

/// The steps of today and one more.
fn later_steps() -> Vec<&'static str> {
    let mut steps = schema::STEPS.to_vec();
    steps.push(
        "ALTER TABLE attempt ADD COLUMN note TEXT NOT NULL DEFAULT ''; CREATE TABLE later (n INTEGER) STRICT",
    );
    steps
}

#[test]
fn an_older_file_is_copied_then_brought_up_to_date() -> Outcome {
    let dir = tempfile::tempdir()?;
    open(dir.path())?.append(&attempt("me", "rule-metric", 1))?;
    let (from, to) = (i64::try_from(schema::STEPS.len())?, i64::try_from(later_steps().len())?);

    // For reading alone: brought up to date in memory, the file left as it is.
    let reading = open::open(dir.path(), Access::ReadOnly, &later_steps())?;
    assert_eq!(reading.store.attempts("me", None)?.stored.len(), 1);
    assert_eq!(pragma(&reading.store, "user_version")?, to);
    assert!(matches!(reading.store.append(&attempt("me", "a", 2)), Err(StoreError::ReadOnly { .. })));
    drop(reading);

    let copy = dir.path().join(format!("{FILE_NAME}.before-v{to}"));
    assert!(!copy.exists());
    let opened = open::open(dir.path(), Access::ReadWrite, &later_steps())?;
    assert_eq!(opened.migrated, Some(Migrated { from, to, copy: copy.clone() }));
    opened.store.append(&attempt("me", "rule-metric", 2))?;
    assert_eq!(opened.store.attempts("me", None)?.stored.len(), 2);
    assert_eq!(pragma(&opened.store, "user_version")?, to);
    drop(opened);
    assert_eq!(open::open(dir.path(), Access::ReadWrite, &later_steps())?.migrated, None);

    // The copy, put back, is the older store, and is taken up again without touching the first copy.
    fs::copy(&copy, dir.path().join(FILE_NAME))?;
    assert_eq!(open(dir.path())?.count()?, 1);
    let again = open::open(dir.path(), Access::ReadWrite, &later_steps())?.migrated;
    assert_eq!(again.map(|m| m.copy), Some(dir.path().join(format!("{FILE_NAME}.before-v{to}-2"))));
    Ok(())
}

#[test]
fn a_step_that_fails_changes_nothing() -> Outcome {
    let dir = tempfile::tempdir()?;
    open(dir.path())?.append(&attempt("me", "rule-metric", 1))?;
    let mut steps = schema::STEPS.to_vec();
    steps.push("CREATE TABLE half (n INTEGER) STRICT; CREATE TABLE attempt (n INTEGER) STRICT");
    assert!(open::open(dir.path(), Access::ReadWrite, &steps).is_err());
    let store = open(dir.path())?;
    assert_eq!(store.count()?, 1);
    let half = "SELECT count(*) FROM sqlite_schema WHERE name = 'half'";
    assert_eq!(store.connection.query_row(half, [], |row| row.get::<_, i64>(0))?, 0);
    Ok(())
}

/// Whatever was kept, and whenever, the summary is that of the whole record.
#[test]
fn the_summary_is_always_that_of_the_record() -> Outcome {
    use crate::learner::summary::Summary;
    let dir = tempfile::tempdir()?;
    let store = open(dir.path())?;
    let mut all = Vec::new();
    for n in 0..200 {
        let attempt = attempt("me", if n % 3 == 0 { "rule-inch-64" } else { "micrometer-inch" }, n);
        store.append(&attempt)?;
        store.append(&self::attempt("someone else", "rule-inch-64", n))?;
        all.push(attempt);
        if [3, 70, 71, 199].contains(&n) {
            assert_eq!(store.summary("me")?.summary, Summary::of(&all), "{n}");
        }
    }
    let kept = |store: &Store| -> rusqlite::Result<i64> {
        store.connection.query_row("SELECT upto FROM summary WHERE learner = 'me'", [], |row| row.get(0))
    };
    assert_eq!(kept(&store)?, 399, "it was written down with the last attempt");
    // Of another form, nonsense, or thrown away: built anew.
    for sql in [
        "UPDATE summary SET form = 0, text = '{}'",
        "UPDATE summary SET text = 'nonsense'",
        "UPDATE summary SET upto = 100000",
        "DELETE FROM summary",
    ] {
        store.connection.execute_batch(sql)?;
        assert_eq!(store.summary("me")?.summary, Summary::of(&all), "{sql}");
    }
    // A reader builds it without writing anything.
    store.connection.execute_batch("DELETE FROM summary")?;
    let reading = Store::open_for(dir.path(), Access::ReadOnly)?.store;
    assert_eq!(reading.summary("me")?.summary, Summary::of(&all));
    assert_eq!(kept(&store).optional()?, None);
    assert_eq!(store.summary("nobody")?.summary, Summary::default());
    Ok(())
}

#[test]
fn a_row_nobody_can_read_is_counted_once() -> Outcome {
    let dir = tempfile::tempdir()?;
    let store = open(dir.path())?;
    for n in 0..100 {
        store.append(&Attempt { kind: Kind::Read, ..attempt("me", "rule-inch-64", n) })?;
    }
    store.connection.execute_batch("UPDATE attempt SET verdict = 'perhaps' WHERE number = 7")?;
    for _ in 0..3 {
        let found = store.summary("me")?;
        assert_eq!((found.unreadable, found.summary.answers), (1, 99));
    }
    Ok(())
}
