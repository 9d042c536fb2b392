//! What is seen of a tool that is held half a turn round.

use super::{Against, Meets, Seen, Way};
use crate::instrument::{Held, Side};

/// The same on a tool that is held half a turn round.
pub(super) fn turned(seen: Seen) -> Seen {
    match seen {
        Seen::Tool { kind, view, grows, held: _ } => {
            Seen::Tool { kind, view, grows: opposite(grows), held: Held::Turned }
        }
        Seen::Figure { stage, against, size, number, times } => {
            Seen::Figure { stage, against: turned_index(against), size, number, times }
        }
        Seen::Lines { stage, against, side, count, longer } => {
            Seen::Lines { stage, against: turned_index(against), side: side.map(Side::other), count, longer }
        }
        Seen::VernierLine { stage, other, line, figure, meets: Meets::Beside { way, by }, half } => {
            Seen::VernierLine {
                stage,
                other,
                line,
                figure,
                meets: Meets::Beside { way: opposite(way), by },
                half,
            }
        }
        other => other,
    }
}

fn turned_index(against: Against) -> Against {
    match against {
        Against::DatumLine(way) => Against::DatumLine(opposite(way)),
        other => other,
    }
}

fn opposite(way: Way) -> Way {
    match way {
        Way::Left => Way::Right,
        Way::Right => Way::Left,
        Way::Above => Way::Below,
        Way::Below => Way::Above,
    }
}
