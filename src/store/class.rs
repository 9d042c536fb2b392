//! The class record as it was collected, in the instructor's data folder. It is derived: the files that came back are the record,
//! and this one may be deleted at any time; it is then made again from them.

use super::{BUSY_SECONDS, StoreError, place};
use rusqlite::{Connection, OptionalExtension, params};
use std::path::{Path, PathBuf};
use std::time::Duration;

/// Its name in the data folder.
pub const CLASS_FILE: &str = "class.sqlite";
/// The form of its tables. A file of another form is made anew.
const FORM: i64 = 1;
const OPENING: &str = "open the class record";

/// The class record.
#[derive(Debug)]
pub struct ClassStore {
    connection: Connection,
    file: PathBuf,
}

/// What is kept of one learner.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct KeptLearner {
    /// The learner's code; empty for files that name nobody.
    pub code: String,
    /// The hash of all that the rest was made of.
    pub made_of: String,
    /// What each file is, as JSON.
    pub files: String,
    /// The row of the class record, as JSON; empty where nothing counts.
    pub row: String,
    /// The sittings that count.
    pub sittings: Vec<KeptSitting>,
}

/// Where a sitting that counts is to be found again.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct KeptSitting {
    /// Its number.
    pub id: String,
    /// The set.
    pub set: String,
    /// The file it came in, from the shared folder on.
    pub file: String,
}

impl ClassStore {
    /// Opens the class record of a data folder. A file of another form, or a damaged one, is made anew.
    pub fn open(dir: &Path) -> Result<Self, StoreError> {
        let file = dir.join(CLASS_FILE);
        if let Some(kind) = place::network(&file) {
            return Err(StoreError::Network { path: file, kind });
        }
        super::open::create_folder(dir)?;
        match Self::of(&file) {
            Ok(Some(store)) => Ok(store),
            Ok(None) | Err(StoreError::Damaged { .. }) => {
                for ending in ["", "-wal", "-shm"] {
                    let part = dir.join(format!("{CLASS_FILE}{ending}"));
                    match std::fs::remove_file(&part) {
                        Err(cause) if cause.kind() != std::io::ErrorKind::NotFound => {
                            return Err(StoreError::file("make anew", &part, cause));
                        }
                        _ => {}
                    }
                }
                let anew = || StoreError::Damaged {
                    doing: OPENING,
                    path: file.clone(),
                    cause: "it stays so".to_owned(),
                };
                Self::of(&file)?.ok_or_else(anew)
            }
            Err(error) => Err(error),
        }
    }

    /// None for a file of another form.
    fn of(file: &Path) -> Result<Option<Self>, StoreError> {
        let failed = |said: rusqlite::Error| StoreError::database(OPENING, file, &said);
        let connection = Connection::open(file).map_err(failed)?;
        connection.busy_timeout(Duration::from_secs(BUSY_SECONDS)).map_err(failed)?;
        let settings = "PRAGMA journal_mode = WAL; PRAGMA synchronous = NORMAL; PRAGMA trusted_schema = OFF;";
        connection.execute_batch(settings).map_err(failed)?;
        let form: i64 = connection.query_row("PRAGMA user_version", [], |row| row.get(0)).map_err(failed)?;
        let tables: i64 = connection
            .query_row("SELECT count(*) FROM sqlite_schema", [], |row| row.get(0))
            .map_err(failed)?;
        if tables == 0 {
            let sql = format!(
                "BEGIN IMMEDIATE;
                 CREATE TABLE IF NOT EXISTS learner (
                     code     TEXT PRIMARY KEY,
                     made_of  TEXT NOT NULL,
                     files    TEXT NOT NULL,
                     row      TEXT NOT NULL
                 ) STRICT, WITHOUT ROWID;
                 CREATE TABLE IF NOT EXISTS sitting (
                     learner  TEXT NOT NULL,
                     id       TEXT NOT NULL,
                     of_set   TEXT NOT NULL,
                     file     TEXT NOT NULL,
                     PRIMARY KEY (learner, id)
                 ) STRICT, WITHOUT ROWID;
                 CREATE INDEX IF NOT EXISTS sitting_of_set ON sitting (of_set);
                 PRAGMA user_version = {FORM};
                 COMMIT;"
            );
            connection.execute_batch(&sql).map_err(failed)?;
        } else if form != FORM {
            return Ok(None);
        }
        Ok(Some(Self { connection, file: file.to_owned() }))
    }

    /// The hash of all that a learner's part was made of; none where there is none.
    pub fn made_of(&self, code: &str) -> Result<Option<String>, StoreError> {
        let sql = "SELECT made_of FROM learner WHERE code = ?1";
        self.connection.query_row(sql, [code], |row| row.get(0)).optional().map_err(self.failed("read"))
    }

    /// What the files of each learner are, as JSON, in the order of the codes.
    pub fn files(&self) -> Result<Vec<(String, String)>, StoreError> {
        self.pairs("SELECT code, files FROM learner ORDER BY code")
    }

    /// The rows of the class record, as JSON, in the order of the codes.
    pub fn rows(&self) -> Result<Vec<(String, String)>, StoreError> {
        self.pairs("SELECT code, row FROM learner WHERE row <> '' ORDER BY code")
    }

    /// The files of a set's sittings: learner and file, in the order of both.
    pub fn sittings(&self, set: &str) -> Result<Vec<(String, String)>, StoreError> {
        let doing = "read the class record";
        let sql = "SELECT learner, file FROM sitting WHERE of_set = ?1 ORDER BY learner, file";
        let mut statement = self.connection.prepare(sql).map_err(self.failed(doing))?;
        let rows = statement.query_map([set], |row| Ok((row.get(0)?, row.get(1)?)));
        rows.and_then(Iterator::collect).map_err(self.failed(doing))
    }

    /// The codes of those under whom one and the same sitting counts, each pair once.
    pub fn under_two_codes(&self) -> Result<Vec<Vec<String>>, StoreError> {
        let sql = "SELECT DISTINCT group_concat(learner, ' '), '' FROM
                   (SELECT id, learner FROM sitting ORDER BY id, learner) GROUP BY id HAVING count(*) > 1";
        let codes = |(codes, _): (String, String)| codes.split(' ').map(str::to_owned).collect();
        Ok(self.pairs(sql)?.into_iter().map(codes).collect())
    }

    fn pairs(&self, sql: &str) -> Result<Vec<(String, String)>, StoreError> {
        let doing = "read the class record";
        let mut statement = self.connection.prepare(sql).map_err(self.failed(doing))?;
        let rows = statement.query_map([], |row| Ok((row.get(0)?, row.get(1)?)));
        rows.and_then(Iterator::collect).map_err(self.failed(doing))
    }

    /// Puts learners in, each in the place of what was kept of them before: all of them or none.
    pub fn keep(&mut self, learners: &[KeptLearner]) -> Result<(), StoreError> {
        let file = self.file.clone();
        let failed = |said: rusqlite::Error| StoreError::database("write the class record", &file, &said);
        let change = self.connection.transaction().map_err(failed)?;
        for of in learners {
            let kept = params![of.code, of.made_of, of.files, of.row];
            let sql = "INSERT OR REPLACE INTO learner (code, made_of, files, row) VALUES (?1, ?2, ?3, ?4)";
            change.prepare(sql).and_then(|mut sql| sql.execute(kept)).map_err(failed)?;
            change.execute("DELETE FROM sitting WHERE learner = ?1", [&of.code]).map_err(failed)?;
            let sql = "INSERT OR REPLACE INTO sitting (learner, id, of_set, file) VALUES (?1, ?2, ?3, ?4)";
            let mut sql = change.prepare(sql).map_err(failed)?;
            for one in &of.sittings {
                sql.execute(params![of.code, one.id, one.set, one.file]).map_err(failed)?;
            }
        }
        change.commit().map_err(failed)
    }

    /// Takes a learner out, with all that was collected of them.
    pub fn forget(&mut self, code: &str) -> Result<(), StoreError> {
        let failed = self.failed("write the class record");
        for sql in ["DELETE FROM learner WHERE code = ?1", "DELETE FROM sitting WHERE learner = ?1"] {
            self.connection.execute(sql, [code]).map_err(&failed)?;
        }
        Ok(())
    }

    fn failed(&self, doing: &'static str) -> impl Fn(rusqlite::Error) -> StoreError {
        move |said| StoreError::database(doing, &self.file, &said)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn kept(code: &str, row: &str) -> KeptLearner {
        let sitting =
            KeptSitting { id: "1".to_owned(), set: "first-rule".to_owned(), file: format!("{code}/a.work") };
        KeptLearner {
            code: code.to_owned(),
            made_of: "77".to_owned(),
            files: "[]".to_owned(),
            row: row.to_owned(),
            sittings: vec![sitting],
        }
    }

    #[test]
    fn what_was_collected_is_replaced_and_can_be_made_anew() -> Result<(), Box<dyn std::error::Error>> {
        let dir = tempfile::tempdir()?;
        let mut store = ClassStore::open(dir.path())?;
        assert_eq!(store.made_of("k7")?, None);
        store.keep(&[kept("k8", "{}"), kept("k7", ""), kept("", "")])?;
        store.keep(&[kept("k7", "{1}")])?;
        assert_eq!(store.made_of("k7")?.as_deref(), Some("77"));
        let pair = |a: &str, b: &str| (a.to_owned(), b.to_owned());
        assert_eq!(store.rows()?, [pair("k7", "{1}"), pair("k8", "{}")]);
        assert_eq!(store.sittings("first-rule")?.len(), 3);
        store.forget("k7")?;
        store.forget("")?;
        assert_eq!((store.files()?.len(), store.sittings("first-rule")?), (1, vec![pair("k8", "k8/a.work")]));
        drop(store);
        std::fs::write(
            dir.path().join(CLASS_FILE),
            "not a database, whatever it is, but long enough to look",
        )?;
        assert!(ClassStore::open(dir.path())?.files()?.is_empty());
        let other = Connection::open(dir.path().join(CLASS_FILE))?;
        other.execute_batch("PRAGMA user_version = 99")?;
        drop(other);
        assert!(ClassStore::open(dir.path())?.files()?.is_empty());
        Ok(())
    }
}
