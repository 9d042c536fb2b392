//! An older file brought up to date.

use super::*;

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
