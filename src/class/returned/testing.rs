//! Files made up for tests.

use super::{Header, Writer};
use crate::class::seal::Secret;
use crate::class::sitting::{End, Purpose};
use crate::drill::Kind;
use crate::drill::record::{Asks, Attempt, Verdict, View};

/// The key of a machine.
pub fn machine(drawn: u8) -> Secret {
    Secret::new([drawn; 32])
}

/// A first line.
pub fn header() -> Header {
    Header {
        sitting: "0123456789abcdef".to_owned(),
        learner: "k7".to_owned(),
        set: "first-rule".to_owned(),
        revision: "5f1c".to_owned(),
        purpose: Purpose::Exercise,
        card: Some("00000000000000aa".to_owned()),
        nth: 1,
        key: machine(1).public(),
        program: "0.1.0".to_owned(),
        begun: "2026-11-30T07:30:00Z".to_owned(),
    }
}

/// An answer.
pub fn attempt(answer: &str) -> Attempt {
    Attempt {
        learner: "k7".to_owned(),
        at: "2026-11-30T07:31:00.250Z".to_owned(),
        instrument: "rule-metric".to_owned(),
        revision: "77".to_owned(),
        generator: 2,
        seed: u64::MAX,
        number: 3,
        variant: String::new(),
        conditions: String::new(),
        kind: Kind::Read,
        given: String::new(),
        asks: Asks::Reading,
        setting: "12.5 mm".to_owned(),
        zero_error: "0 mm".to_owned(),
        view: View::Held,
        glass: false,
        lines: "thin".to_owned(),
        cols: 80,
        rows: 24,
        answer: answer.to_owned(),
        expected: "12.5 mm".to_owned(),
        verdict: Verdict::Right,
        misreads: Vec::new(),
        took_ms: 4200,
    }
}

/// A small whole file: two answers, left and taken up again between them.
pub fn small() -> String {
    let (mut writer, mut text) = Writer::begin(&header());
    text += &writer.answer(1, 1, &attempt("12.5"));
    text += &writer.left("2026-11-30T07:32:00Z");
    text += &writer.back("2026-11-30T07:42:00Z");
    text += &writer.answer(2, 1, &attempt("13"));
    text + &writer.end("2026-11-30T07:43:00Z", End::Done, &machine(1))
}
