//! Attempts made up for tests.

use crate::drill::record::{Asks, Attempt, Verdict, View};
use crate::drill::{GENERATOR, Kind};

/// An attempt at reading `n` hundredths of a millimetre; a wrong one is two hundredths too much.
pub fn reading(instrument: &str, n: u32, verdict: Verdict) -> Attempt {
    let hundredths = |n: u32| format!("{}.{:02}", n / 100, n % 100);
    Attempt {
        learner: "me".to_owned(),
        at: "2026-03-09T07:30:00Z".to_owned(),
        instrument: instrument.to_owned(),
        revision: "5f1c".to_owned(),
        generator: GENERATOR,
        seed: 7,
        number: n + 1,
        variant: String::new(),
        conditions: String::new(),
        kind: Kind::Read,
        given: String::new(),
        asks: Asks::Reading,
        setting: format!("{} mm", hundredths(n)),
        zero_error: "0.00 mm".to_owned(),
        view: View::Held,
        glass: false,
        lines: "thin".to_owned(),
        cols: 80,
        rows: 24,
        answer: hundredths(if verdict.is_right() { n } else { n + 2 }),
        expected: format!("{} mm", hundredths(n)),
        verdict,
        misreads: Vec::new(),
        took_ms: 7_000,
    }
}

/// The same at another time.
pub fn at(time: &str, attempt: Attempt) -> Attempt {
    Attempt { at: time.to_owned(), ..attempt }
}

/// The same explained by a misread.
pub fn slip(id: &str, attempt: Attempt) -> Attempt {
    Attempt { verdict: Verdict::Misread, misreads: vec![id.to_owned()], ..attempt }
}

/// The same in so many milliseconds.
pub fn took(took_ms: u64, attempt: Attempt) -> Attempt {
    Attempt { took_ms, ..attempt }
}
