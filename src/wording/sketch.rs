//! The sketch of base, blade and work that goes with a question for the part's angle. It shows which angle is meant and is the
//! same whatever the tool reads.

use crate::instrument::SetUp;
use crate::reading::Asks;

/// Rows of every sketch.
pub const ROWS: u16 = 5;

const AS_READ: [&str; 5] = [
    "              / blade",
    "             /|",
    "            /:|            : the work",
    "           /?:|            ? the angle asked for",
    "       ===========  base",
];
const COMPLEMENT: [&str; 5] = [
    "              / blade",
    "             /|",
    "            /?|            : the work, square at the foot of its upright face",
    "           /::|            ? the angle asked for",
    "       ===========  base",
];
const SUPPLEMENT: [&str; 5] = [
    "       _______/ blade",
    "       ::::::/",
    "       :::::/              : the work",
    "       :::?/               ? the angle asked for",
    "       ===========  base",
];

/// The sketch that goes with a question, if one does.
pub fn sketch(asks: Asks) -> Option<&'static [&'static str; 5]> {
    Some(match asks.set_up()? {
        SetUp::AsRead => &AS_READ,
        SetUp::Complement => &COMPLEMENT,
        SetUp::Supplement => &SUPPLEMENT,
    })
}

/// The same in a sentence.
pub fn sketched(asks: Asks) -> Option<&'static str> {
    Some(match asks.set_up()? {
        SetUp::AsRead => {
            "Sketch: the work stands on the base under the slanting blade. Asked for is its angle between base and blade."
        }
        SetUp::Complement => {
            "Sketch: the work stands on the base under the slanting blade, its far face square to the base. Asked for is its \
             angle at the top, between blade and square face."
        }
        SetUp::Supplement => {
            "Sketch: the work stands on the base on the open side of the slanting blade. Asked for is its wide angle between \
             base and blade."
        }
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sketches_have_their_rows_and_differ() {
        let all = SetUp::WORDS.map(|(_, set_up)| sketch(Asks::part(set_up)).expect("a sketch"));
        for rows in all {
            assert_eq!(rows.len(), usize::from(ROWS));
            assert!(rows.iter().all(|row| row.is_ascii() && row.len() < 80));
            assert_eq!(rows.iter().filter(|row| row.contains("? the angle asked for")).count(), 1);
        }
        assert!(all[0] != all[1] && all[1] != all[2] && all[0] != all[2]);
        assert_eq!(sketch(Asks::Reading), None);
    }
}
