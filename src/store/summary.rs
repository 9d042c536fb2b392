//! What a history comes to, kept beside it so that it need not be read whole each time. The record alone is the truth: what is
//! kept here is taken up from where it ends, built anew where it is of another form, and may be deleted.

use super::{AttemptNumber, Store, StoreError};
use crate::learner::summary::{SUMMARY_FORM, Summary};
use rusqlite::{OptionalExtension, params};

/// So many attempts may be read again each time before the summary is written down anew.
const WORTH_KEEPING: u32 = 64;

/// A learner's summary.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Summarised {
    /// It.
    pub summary: Summary,
    /// How many rows could not be understood and were passed over.
    pub unreadable: u32,
}

impl Store {
    /// What a learner's attempts come to, up to the last one stored.
    pub fn summary(&self, learner: &str) -> Result<Summarised, StoreError> {
        let (mut found, mut upto) = self.kept_summary(learner)?.unwrap_or((Summarised::default(), 0));
        let mut read = 0_u32;
        self.attempts_after(learner, AttemptNumber(upto), |number, attempt| {
            upto = number.0;
            read += 1;
            match attempt {
                Some(attempt) => found.summary.add(&attempt),
                None => found.unreadable += 1,
            }
        })?;
        if read >= WORTH_KEEPING && self.why_read_only().is_none() {
            // Where it cannot be kept it is only slower the next time.
            let _ = self.keep_summary(learner, &found, upto);
        }
        Ok(found)
    }

    fn kept_summary(&self, learner: &str) -> Result<Option<(Summarised, i64)>, StoreError> {
        let sql = "SELECT upto, unreadable, text FROM summary WHERE learner = ?1 AND form = ?2 \
                   AND upto <= (SELECT coalesce(max(number), 0) FROM attempt)";
        let row = self
            .connection
            .query_row(sql, params![learner, SUMMARY_FORM], |row| {
                Ok((row.get::<_, i64>(0)?, row.get::<_, u32>(1)?, row.get::<_, String>(2)?))
            })
            .optional()
            .map_err(self.failed("read the summary"))?;
        Ok(row.and_then(|(upto, unreadable, text)| {
            let summary = serde_json::from_str(&text).ok()?;
            Some((Summarised { summary, unreadable }, upto))
        }))
    }

    fn keep_summary(&self, learner: &str, found: &Summarised, upto: i64) -> Result<(), StoreError> {
        let doing = "keep the summary";
        self.check_writable(doing)?;
        let text = serde_json::to_string(&found.summary).expect("a summary is always JSON");
        let sql = "INSERT INTO summary (learner, form, upto, unreadable, text) VALUES (?1, ?2, ?3, ?4, ?5) \
                   ON CONFLICT (learner) DO UPDATE SET form = excluded.form, upto = excluded.upto, \
                   unreadable = excluded.unreadable, text = excluded.text";
        let row = params![learner, SUMMARY_FORM, upto, found.unreadable, text];
        self.connection.execute(sql, row).map_err(self.failed(doing))?;
        Ok(())
    }
}
