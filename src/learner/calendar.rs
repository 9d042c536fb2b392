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

    /// The second of a time in UTC as RFC 3339, from 1970-01-01 on; parts of a second are left out.
    pub fn second(at: &str) -> Option<i64> {
        let day = Self::of(at)?;
        let clock = at.get(10..19)?.strip_prefix('T')?;
        let mut parts = clock.split(':').map(|part| part.parse::<i64>().ok());
        let (hours, minutes, seconds) = (parts.next()??, parts.next()??, parts.next()??);
        Some(i64::from(day.0) * 86_400 + hours * 3_600 + minutes * 60 + seconds)
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

    /// The Monday of its week.
    #[must_use]
    pub fn monday(self) -> Self {
        // 1970-01-01 was a Thursday.
        Self(self.0 - (self.0 + 3).rem_euclid(7))
    }

    /// A time of this day in UTC as RFC 3339, so many seconds after midnight.
    pub fn at(self, seconds: u32) -> String {
        let (year, month, day) = self.date();
        let (hours, minutes, seconds) = (seconds / 3600, seconds / 60 % 60, seconds % 60);
        format!("{year:04}-{month:02}-{day:02}T{hours:02}:{minutes:02}:{seconds:02}Z")
    }

    /// Year, month and day.
    fn date(self) -> (i32, i32, i32) {
        let shifted = self.0 + 719_468;
        let (era, of_era) = (shifted.div_euclid(146_097), shifted.rem_euclid(146_097));
        let year = (of_era - of_era / 1_460 + of_era / 36_524 - of_era / 146_096) / 365;
        let of_year = of_era - (365 * year + year / 4 - year / 100);
        let month = (5 * of_year + 2) / 153;
        let day = of_year - (153 * month + 2) / 5 + 1;
        let month = if month < 10 { month + 3 } else { month - 9 };
        (era * 400 + year + i32::from(month <= 2), month, day)
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
    fn there_and_back() {
        for day in (-700_000..2_900_000).step_by(37).map(Day) {
            assert_eq!(Day::of(&day.at(0)), Some(day));
        }
        assert_eq!(Day(20_521).at(27_045), "2026-03-09T07:30:45Z");
    }

    /// 2026-03-09 was a Monday, 1970-01-01 a Thursday.
    #[test]
    fn weeks_begin_on_mondays() {
        let monday = Day(20_521);
        for day in 0..7 {
            assert_eq!(monday.after(day).monday(), monday, "{day}");
        }
        assert_eq!(monday.after(7).monday(), monday.after(7));
        assert_eq!(Day(0).monday(), Day(-3));
    }

    #[test]
    fn no_date() {
        for text in ["", "yesterday", "2026-3-09", "2026-13-01", "2026-00-01", "20260309", "2026-03-0\u{fc}"]
        {
            assert_eq!(Day::of(text), None, "{text}");
        }
    }
}
