//! Sittings made up for tests.

use super::sitting::{End, Entry, Purpose, Sitting};
use crate::drill::record::{Asks, Attempt, Verdict, View};
use crate::drill::{GENERATOR, Kind};

fn hundredths(n: u32) -> String {
    format!("{}.{:02}", n / 100, n % 100)
}

/// A right answer on a metric micrometer; each place has a setting of its own.
pub fn entry(place: u32) -> Entry {
    let n = place * 37 + 100;
    let attempt = Attempt {
        learner: "k7".to_owned(),
        at: "2026-03-09T07:30:00Z".to_owned(),
        instrument: "micrometer-metric".to_owned(),
        revision: "5f1c".to_owned(),
        generator: GENERATOR,
        seed: 7,
        number: place,
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
        answer: hundredths(n),
        expected: format!("{} mm", hundredths(n)),
        verdict: Verdict::Right,
        misreads: Vec::new(),
        took_ms: 7_000,
    };
    Entry { place, part: 1, attempt }
}

/// The same so many hundredths too much.
pub fn wrong_by(place: u32, off: u32) -> Entry {
    let right = entry(place);
    let answer = hundredths(place * 37 + 100 + off);
    Entry { attempt: Attempt { answer, verdict: Verdict::Other, ..right.attempt }, ..right }
}

/// The same explained by a misread.
pub fn misread_by(place: u32, id: &str, off: u32) -> Entry {
    let wrong = wrong_by(place, off);
    let misreads = vec![id.to_owned()];
    Entry { attempt: Attempt { misreads, verdict: Verdict::Misread, ..wrong.attempt }, ..wrong }
}

/// A sitting of an exercise.
pub fn sitting(id: &str, learner: &str, set: &str, entries: Vec<Entry>) -> Sitting {
    Sitting {
        id: id.to_owned(),
        learner: learner.to_owned(),
        set: set.to_owned(),
        revision: "77aa".to_owned(),
        purpose: Purpose::Exercise,
        card: None,
        nth: 1,
        begun: "2026-03-09T07:30:00Z".to_owned(),
        ended: Some("2026-03-09T07:50:00Z".to_owned()),
        interruptions: 0,
        end: End::Done,
        entries,
        lacks: Vec::new(),
    }
}
