//! Attempts as rows.

use super::{Store, StoreError};
use crate::drill::Kind;
use crate::drill::record::{Asks, Attempt, Verdict, View};
use rusqlite::types::FromSql;
use rusqlite::{Row, params};

/// An attempt's place in the store: it grows with every attempt and is never given twice.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct AttemptNumber(pub i64);

/// An attempt with its number.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stored {
    /// The number.
    pub number: AttemptNumber,
    /// The attempt.
    pub attempt: Attempt,
}

/// Attempts in the order they were stored.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Attempts {
    /// Those that could be read.
    pub stored: Vec<Stored>,
    /// How many rows could not be understood and were passed over.
    pub unreadable: u32,
}

impl Attempts {
    /// The attempts alone, in order.
    pub fn into_attempts(self) -> Vec<Attempt> {
        self.stored.into_iter().map(|stored| stored.attempt).collect()
    }
}

const INSERT: &str = "INSERT INTO attempt (learner, at, instrument, revision, generator, seed, question, variant, asks, \
    setting, zero_error, view, glass, lines, cols, rows, answer, expected, verdict, misreads, took_ms, conditions, kind, given) \
    VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13, ?14, ?15, ?16, ?17, ?18, ?19, ?20, ?21, ?22, ?23, ?24)";

const SELECT: &str = "SELECT number, learner, at, instrument, revision, generator, seed, question, variant, asks, setting, \
    zero_error, view, glass, lines, cols, rows, answer, expected, verdict, misreads, took_ms, conditions, kind, \
    given FROM attempt \
    WHERE learner = ?1 AND (?2 IS NULL OR instrument = ?2) ORDER BY number";

const SELECT_AFTER: &str = "SELECT number, learner, at, instrument, revision, generator, seed, question, variant, asks, \
    setting, zero_error, view, glass, lines, cols, rows, answer, expected, verdict, misreads, took_ms, conditions, kind, \
    given FROM attempt \
    WHERE learner = ?1 AND number > ?2 ORDER BY number";

impl Store {
    /// Saves one attempt, in one transaction. When this returns a number the attempt is on the disk; on any error nothing of
    /// it is saved. Times beyond 292 million years are cut to that.
    pub fn append(&self, attempt: &Attempt) -> Result<AttemptNumber, StoreError> {
        let doing = "save the answer";
        self.check_writable(doing)?;
        let misreads = serde_json::to_string(&attempt.misreads).expect("a list of texts is always JSON");
        let row = params![
            attempt.learner,
            attempt.at,
            attempt.instrument,
            attempt.revision,
            attempt.generator,
            attempt.seed.to_string(),
            attempt.number,
            attempt.variant,
            attempt.asks.word(),
            attempt.setting,
            attempt.zero_error,
            attempt.view.word(),
            attempt.glass,
            attempt.lines,
            attempt.cols,
            attempt.rows,
            attempt.answer,
            attempt.expected,
            attempt.verdict.word(),
            misreads,
            i64::try_from(attempt.took_ms).unwrap_or(i64::MAX),
            attempt.conditions,
            attempt.kind.word(),
            attempt.given,
        ];
        self.connection.execute(INSERT, row).map_err(self.failed(doing))?;
        Ok(AttemptNumber(self.connection.last_insert_rowid()))
    }

    /// A learner's attempts, on one instrument or on all, in the order they were stored.
    pub fn attempts(&self, learner: &str, instrument: Option<&str>) -> Result<Attempts, StoreError> {
        let doing = "read the answers";
        let mut found = Attempts::default();
        let mut statement = self.connection.prepare(SELECT).map_err(self.failed(doing))?;
        let mut rows = statement.query(params![learner, instrument]).map_err(self.failed(doing))?;
        while let Some(row) = rows.next().map_err(self.failed(doing))? {
            match stored(row) {
                Some(stored) => found.stored.push(stored),
                None => found.unreadable += 1,
            }
        }
        Ok(found)
    }

    /// Goes through a learner's attempts stored after a number, in order; a row that cannot be understood comes as none.
    pub(super) fn attempts_after(
        &self,
        learner: &str,
        number: AttemptNumber,
        mut each: impl FnMut(AttemptNumber, Option<Attempt>),
    ) -> Result<(), StoreError> {
        let doing = "read the answers";
        let mut statement = self.connection.prepare(SELECT_AFTER).map_err(self.failed(doing))?;
        let mut rows = statement.query(params![learner, number.0]).map_err(self.failed(doing))?;
        while let Some(row) = rows.next().map_err(self.failed(doing))? {
            let number = AttemptNumber(row.get(0).map_err(self.failed(doing))?);
            each(number, stored(row).map(|stored| stored.attempt));
        }
        Ok(())
    }

    /// The instrument of a learner's latest attempt on one of these.
    pub fn latest_instrument(
        &self,
        learner: &str,
        known: impl Fn(&str) -> bool,
    ) -> Result<Option<String>, StoreError> {
        let doing = "read the answers";
        let sql = "SELECT instrument FROM attempt WHERE learner = ?1 ORDER BY number DESC";
        let mut statement = self.connection.prepare(sql).map_err(self.failed(doing))?;
        let mut rows = statement.query([learner]).map_err(self.failed(doing))?;
        while let Some(row) = rows.next().map_err(self.failed(doing))? {
            if let Some(id) = row.get::<_, String>(0).ok().filter(|id| known(id)) {
                return Ok(Some(id));
            }
        }
        Ok(None)
    }

    /// The names of all who have an attempt stored, in alphabetical order.
    pub fn learners(&self) -> Result<Vec<String>, StoreError> {
        let doing = "read the learners";
        let mut statement = self
            .connection
            .prepare("SELECT DISTINCT learner FROM attempt ORDER BY learner")
            .map_err(self.failed(doing))?;
        let mut rows = statement.query([]).map_err(self.failed(doing))?;
        let mut learners = Vec::new();
        while let Some(row) = rows.next().map_err(self.failed(doing))? {
            // A name that is no text belongs to rows nobody can read.
            learners.extend(row.get::<_, String>(0).ok());
        }
        Ok(learners)
    }

    /// How many attempts are stored, of all learners, the unreadable ones too.
    pub fn count(&self) -> Result<u64, StoreError> {
        let count: i64 = self
            .connection
            .query_row("SELECT count(*) FROM attempt", [], |row| row.get(0))
            .map_err(self.failed("count the answers"))?;
        Ok(u64::try_from(count).unwrap_or(0))
    }
}

/// The columns of a row from left to right.
struct Columns<'a> {
    row: &'a Row<'a>,
    next: usize,
}

impl Columns<'_> {
    /// The next column; `None` when it holds something else.
    fn take<T: FromSql>(&mut self) -> Option<T> {
        let value = self.row.get(self.next).ok();
        self.next += 1;
        value
    }

    fn text(&mut self) -> Option<String> {
        self.take()
    }
}

/// A row of [`SELECT`] as an attempt, column by column in its order; `None` when it holds a word, a number or a list that none
/// of ours has.
fn stored(row: &Row<'_>) -> Option<Stored> {
    let mut columns = Columns { row, next: 0 };
    let number = AttemptNumber(columns.take()?);
    let attempt = Attempt {
        learner: columns.text()?,
        at: columns.text()?,
        instrument: columns.text()?,
        revision: columns.text()?,
        generator: columns.take()?,
        seed: columns.text()?.parse().ok()?,
        number: columns.take()?,
        variant: columns.text()?,
        asks: Asks::from_word(&columns.text()?)?,
        setting: columns.text()?,
        zero_error: columns.text()?,
        view: View::from_word(&columns.text()?)?,
        glass: columns.take()?,
        lines: columns.text()?,
        cols: columns.take()?,
        rows: columns.take()?,
        answer: columns.text()?,
        expected: columns.text()?,
        verdict: Verdict::from_word(&columns.text()?)?,
        misreads: serde_json::from_str(&columns.text()?).ok()?,
        took_ms: u64::try_from(columns.take::<i64>()?).ok()?,
        conditions: columns.text()?,
        kind: Kind::from_word(&columns.text()?)?,
        given: columns.text()?,
    };
    Some(Stored { number, attempt })
}
