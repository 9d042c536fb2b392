//! What there is to do today, and why.

use super::progress::step;
use crate::learner::ladder::Missed;
use crate::learner::schedule::{Aim, LONG, Round, Why};
use crate::reading::misread;

/// The first line of a round: what, and why.
pub fn today(round: &Round, title: impl Fn(&str) -> String) -> String {
    match &round.why {
        Why::Missed { instrument, facet, missed, ago } => {
            format!("Today: {}, {} ({})", small(&title(instrument)), step(*facet), missed_when(missed, *ago))
        }
        Why::Named { instrument, slip, ago } => {
            let name = misread::named(slip).map_or(*slip, |misread| misread.name);
            format!("Today: {}, {name} (found {})", small(&title(instrument)), when(*ago))
        }
        Why::Due { instrument, facet, steps } => {
            let first = format!("Today: {}, {}", small(&title(instrument)), step(*facet));
            match steps {
                0 | 1 => format!("{first} (due again)"),
                2 => format!("{first} and one more step that is due"),
                steps => format!("{first} and {} more steps that are due", steps - 1),
            }
        }
        Why::Proof => "Today: do your readings repeat? Nothing is due".to_owned(),
        Why::Pause(days) => format!("Today: a refresher, after {days} days without a reading"),
    }
}

/// The second line: how much, and how it begins.
pub fn how_much(round: &Round) -> String {
    let others = round.items.iter().filter(|item| matches!(item.aim, Aim::Task { .. })).count();
    let readings = round.items.len() - others;
    let long = u32::try_from(readings).is_ok_and(|readings| readings >= LONG);
    let time = if long { "About five minutes" } else { "Two minutes" };
    let more = if others > 0 { format!(" and {others} other questions") } else { String::new() };
    format!("{time}, {readings} readings{more}; Enter begins. Or choose below.")
}

/// A round that was left.
pub fn go_on((asked, length): (u32, u32)) -> [String; 2] {
    [
        format!("Today: go on with the round, {asked} of {length} read"),
        "Enter goes on at the same question. Or choose an instrument below.".to_owned(),
    ]
}

/// Nothing is due for so many days.
pub fn rest(days: i32) -> [String; 2] {
    let when = match days {
        ..=1 => "tomorrow".to_owned(),
        days => format!("in {days} days"),
    };
    [
        format!("Nothing is due today; the next step is due {when}."),
        "Any instrument below can be read.".to_owned(),
    ]
}

/// A round has come to its end.
pub fn done((asked, right): (u32, u32)) -> String {
    format!("The round is done: {right} of {asked} right.")
}

/// Beside a reading of a round: which it is.
pub fn which(place: (u32, u32), score: (u32, u32)) -> String {
    placed("reading", place, score)
}

/// Beside a question of another kind.
pub fn which_other(place: (u32, u32), score: (u32, u32)) -> String {
    placed("question", place, score)
}

fn placed(what: &str, (number, length): (u32, u32), (asked, right): (u32, u32)) -> String {
    match asked {
        0 => format!("{what} {number} of {length}"),
        _ => format!("{what} {number} of {length}   {right} of {asked} right"),
    }
}

/// None of a round's readings can be drawn.
pub const TOO_SMALL: &str = "Nothing of this round can be drawn truly in this window: make it larger.";

/// The mark of a private session, on every screen.
pub const PRIVATE: &str = "private";
/// What it means.
pub const NOTHING_KEPT: &str = "Private: nothing of this session is kept.";

fn missed_when(missed: &Missed, ago: i32) -> String {
    let times = match missed.times {
        1 => "once".to_owned(),
        2 => "twice".to_owned(),
        times => format!("{times} times"),
    };
    format!("missed {times} {}", when(ago))
}

fn when(ago: i32) -> String {
    match ago {
        ..=0 => "today".to_owned(),
        1 => "yesterday".to_owned(),
        ago => format!("{ago} days ago"),
    }
}

/// A title within a sentence.
fn small(title: &str) -> String {
    let mut letters = title.chars();
    letters.next().map_or_else(String::new, |first| first.to_lowercase().chain(letters).collect())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::learner::calendar::Day;
    use crate::learner::facet::Facet;

    #[test]
    fn what_and_why() {
        let title = |_: &str| "Outside micrometer, 0.01 mm".to_owned();
        let says = |why| today(&Round { items: Vec::new(), why }, title);
        let missed = |times| Missed { day: Day(0), times, slip: None };
        let weak = |times, ago| Why::Missed {
            instrument: String::new(),
            facet: Facet::Halves,
            missed: missed(times),
            ago,
        };
        assert_eq!(
            says(weak(2, 1)),
            "Today: outside micrometer, 0.01 mm, half lines (missed twice yesterday)"
        );
        assert_eq!(
            says(weak(3, 4)),
            "Today: outside micrometer, 0.01 mm, half lines (missed 3 times 4 days ago)"
        );
        let due = |steps| Why::Due { instrument: String::new(), facet: Facet::Thimble, steps };
        assert_eq!(says(due(1)), "Today: outside micrometer, 0.01 mm, the thimble (due again)");
        assert_eq!(
            says(due(4)),
            "Today: outside micrometer, 0.01 mm, the thimble and 3 more steps that are due"
        );
        assert_eq!(says(Why::Pause(45)), "Today: a refresher, after 45 days without a reading");
    }
}
