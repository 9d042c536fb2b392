//! The tables, step by step. A step, once released, is never changed: a new one is added after it.

/// The mark of Linefall's database files (`LnFl`).
pub(super) const APPLICATION_ID: i64 = 0x4c6e_466c;

/// Step `n` leads from version `n` to version `n + 1`, in one transaction.
pub(super) const STEPS: &[&str] = &[
    // Version 1. Words and quantities are text, so that the record can be read without this program.
    // The seed is text because it may exceed a signed 64-bit number. `number` orders attempts and is never given twice.
    "CREATE TABLE attempt (
        number      INTEGER PRIMARY KEY AUTOINCREMENT,
        learner     TEXT NOT NULL,
        at          TEXT NOT NULL,
        instrument  TEXT NOT NULL,
        revision    TEXT NOT NULL,
        generator   INTEGER NOT NULL,
        seed        TEXT NOT NULL,
        question    INTEGER NOT NULL,
        variant     TEXT NOT NULL,
        asks        TEXT NOT NULL,
        setting     TEXT NOT NULL,
        zero_error  TEXT NOT NULL,
        view        TEXT NOT NULL,
        glass       INTEGER NOT NULL,
        lines       TEXT NOT NULL,
        cols        INTEGER NOT NULL,
        rows        INTEGER NOT NULL,
        answer      TEXT NOT NULL,
        expected    TEXT NOT NULL,
        verdict     TEXT NOT NULL,
        misreads    TEXT NOT NULL,
        took_ms     INTEGER NOT NULL
    ) STRICT;
    CREATE INDEX attempt_of_learner ON attempt (learner);
    CREATE TABLE setting (
        key    TEXT PRIMARY KEY,
        value  TEXT NOT NULL
    ) STRICT, WITHOUT ROWID;",
    // Version 2. What the instrument was read under.
    "ALTER TABLE attempt ADD COLUMN conditions TEXT NOT NULL DEFAULT '';",
    // Version 3. What a learner's attempts come to, up to a number. It is derived: any row may be deleted.
    "CREATE TABLE summary (
        learner     TEXT PRIMARY KEY,
        form        INTEGER NOT NULL,
        upto        INTEGER NOT NULL,
        unreadable  INTEGER NOT NULL,
        text        TEXT NOT NULL
    ) STRICT, WITHOUT ROWID;",
    // Version 4. What kind of question it was, and what was given beside the picture.
    "ALTER TABLE attempt ADD COLUMN kind TEXT NOT NULL DEFAULT 'read';
    ALTER TABLE attempt ADD COLUMN given TEXT NOT NULL DEFAULT '';",
];
