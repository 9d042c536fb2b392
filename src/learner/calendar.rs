//! Days as numbers, so that they can be counted between.

use serde::{Deserialize, Serialize};

/// A day of the calendar: days since 1970-01-01.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub struct Day(pub i32);

impl Day {
    /// The day of a time in RFC 3339, or of a date: `2026-03-09`.
    pub fn of(at: &str) -> Option<Self> {
        let mut parts = at.get(..10)?.split('-');
        let mut part = |digits: usize| -> Option<i32> {
            let part = parts.next()?;
            let all = part.len() == digits && part.bytes().all(|byte| byte.is_ascii_digit());
            all.then(|| part.parse().ok()).flatten()
        };
        let (year, month, day) = (part(4)?, part(2)?, part(2)?);
        ((1..=12).contains(&month) && (1..=31).contains(&day)).then(|| Self::civil(year, month, day))
    }

    /// Days to a later day; below nought for an earlier one.
    pub fn until(self, later: Self) -> i32 {
        later.0 - self.0
    }

    /// The day so many days later.
    #[must_use]
    pub fn after(self, days: i32) -> Self {
        Self(self.0 + days)
    }

    /// Years begin in March here, so that the leap day is the last one.
    fn civil(year: i32, month: i32, day: i32) -> Self {
        let year = if month <= 2 { year - 1 } else { year };
        let (era, of_era) = (year.div_euclid(400), year.rem_euclid(400));
        let of_year = (153 * ((month + 9) % 12) + 2) / 5 + day - 1;
        Self(era * 146_097 + of_era * 365 + of_era / 4 - of_era / 100 + of_year - 719_468)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Source: Unix time of these days as the POSIX formula gives it (IEEE Std 1003.1, Base Definitions, 4.16).
    #[test]
    fn days_since_1970() {
        for (date, seconds) in [
            ("1970-01-01", 0_i64),
            ("1999-12-31T23:59:59Z", 946_598_400),
            ("2000-02-29", 951_782_400),
            ("2000-03-01", 951_868_800),
            ("2026-03-09T07:30:00.123Z", 1_773_014_400),
        ] {
            assert_eq!(Day::of(date).map(|day| i64::from(day.0) * 86_400), Some(seconds), "{date}");
        }
    }

    #[test]
    fn no_date() {
        for text in ["", "yesterday", "2026-3-09", "2026-13-01", "2026-00-01", "20260309", "2026-03-0\u{fc}"]
        {
            assert_eq!(Day::of(text), None, "{text}");
        }
    }
}
