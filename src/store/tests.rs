//! The store against real files.

mod opening;
mod upgrade;

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
