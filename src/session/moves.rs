//! Moves of a tool that is being set, as they are typed: `+0.1`, `-0.002`, `lock`, `loosen`, `done`.

use crate::exact::{Nonsense, Quanta, parse_answer};
use crate::instrument::Instrument;

/// What is done by hand.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Hand {
    /// It is moved so far.
    Moves(Quanta),
    /// It is locked.
    Locks,
    /// The lock is loosened.
    Loosens,
    /// It is left as it stands.
    Leaves,
}

/// Reads a move. A figure without a sign is none: it would say where the tool is to stand, and that is for the eye to see.
pub(super) fn parse_move(text: &str, tool: &Instrument) -> Result<Hand, Nonsense> {
    let text = text.trim();
    match text.to_ascii_lowercase().as_str() {
        "" => return Err(Nonsense::NoMove),
        "lock" => return Ok(Hand::Locks),
        "loosen" | "unlock" => return Ok(Hand::Loosens),
        "done" | "leave" => return Ok(Hand::Leaves),
        _ => {}
    }
    if !text.starts_with(['+', '-', '\u{2212}']) {
        return Err(Nonsense::NoMove);
    }
    let by = match parse_answer(text, tool.unit) {
        Ok(typed) => typed.value,
        Err(Nonsense::NotANumber | Nonsense::Empty) => return Err(Nonsense::NoMove),
        Err(other) => return Err(other),
    };
    match tool.lattice.at(by) {
        Some(by) if by.is_multiple_of(tool.step) => Ok(Hand::Moves(by)),
        _ => Err(Nonsense::TooFine),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::instrument::Catalogue;

    #[test]
    fn typed_moves() {
        let catalogue = Catalogue::new(Vec::new());
        let read = |id: &str, text: &str| parse_move(text, catalogue.get(id).expect("shipped"));
        for (id, text, worth) in [
            ("micrometer-inch", "+0.1", "0.100"),
            ("micrometer-inch", " -.002 in", "-0.002"),
            ("micrometer-inch", "+25 thou", "0.025"),
            ("caliper-metric-50", "\u{2212}0,02", "-0.02"),
            ("rule-inch-64", "+1 3/64", "1 3/64"),
            ("bevel-protractor", "-1 10", "-1\u{b0}10'"),
        ] {
            let tool = catalogue.get(id).expect("shipped");
            let Ok(Hand::Moves(by)) = parse_move(text, tool) else { panic!("{text}") };
            assert_eq!(tool.spell(by), worth, "{text}");
        }
        assert_eq!(read("micrometer-inch", "Lock"), Ok(Hand::Locks));
        assert_eq!(read("micrometer-inch", "loosen"), Ok(Hand::Loosens));
        assert_eq!(read("micrometer-inch", " done "), Ok(Hand::Leaves));
        for text in ["", "0.250", "turn it", "+", "+a"] {
            assert_eq!(read("micrometer-inch", text), Err(Nonsense::NoMove), "{text}");
        }
        assert_eq!(read("caliper-metric-50", "+0.01"), Err(Nonsense::TooFine));
        assert_eq!(read("micrometer-inch", "+1.2.3"), Err(Nonsense::TwoMarks));
    }
}
