//! What stands round the picture in a round for a room. Read from ten metres: short.

use std::time::Duration;

/// The keys, before the round begins.
pub const KEYS: [&str; 6] = [
    "PgDn or \u{2192}   begin, show the answer, go on",
    "PgUp or \u{2190}   go back",
    "p           stop the clock, start it again",
    "1 to 4      a point for a team",
    "?           help: all keys",
    "Esc         end the round",
];

/// A question is up.
pub const WRITE: &str = "Write it down.";
/// Its time is up.
pub const UP: &str = "Time is up. Hands up.";
/// The clocks are stopped.
pub const STOPPED: &str = "The clock is stopped.";
/// All is asked, or the time of the round is up.
pub const OVER: &str = "End of the round.";
/// How to leave.
pub const LEAVE: &str = "Esc leaves, PgUp goes back.";
/// What is looked at first.
pub const FIRST: &str = "PgDn: on to the question.";
/// There is another picture, or the answers are on another page.
pub const MORE_PAGES: &str = "x or PgDn: there is more to see.";
/// Nothing could be drawn.
pub const NOTHING: &str = "Nothing of it can be drawn truly in this window.";

/// What a round is made of.
pub fn head(count: Option<usize>, question: Option<Duration>, round: Option<Duration>) -> String {
    let mut parts: Vec<String> = count.map(questions).into_iter().collect();
    parts.extend(question.map(|time| format!("{} each", seconds(time.as_secs()))));
    parts.extend(round.map(|time| format!("{} in all", minutes(time.as_secs().div_ceil(60)))));
    if parts.is_empty() { "No clock.".to_owned() } else { format!("{}.", parts.join(", ")) }
}

/// The size that a question needs.
pub fn needs((cols, rows): (i64, i64)) -> String {
    format!("It needs {cols}x{rows}.")
}

/// There is nothing that can be asked before a room.
pub const NOTHING_TO_ASK: &str =
    "there is nothing in it that a room can be asked: a tool is set by hand there";

/// A set and what is asked are both given.
pub const SET_SAYS_WHAT: &str =
    "an exercise says itself what is asked: --kind and --level go with an instrument";

/// Neither an exercise nor an instrument.
pub fn no_such(name: &str, near: Option<&str>) -> String {
    let near = near.map_or_else(String::new, |near| format!("; did you mean {near}?"));
    format!(
        "there is no exercise and no instrument \"{name}\"{near} (linefall list sets, linefall list instruments show all)"
    )
}

/// What is left out before it begins.
pub fn set_by_hand(count: usize) -> String {
    format!("{} left out: there the tool is set by hand.", questions(count))
}

/// What was passed over.
pub fn passed_over(count: usize) -> String {
    format!("{} left out: not drawn truly in this window.", questions(count))
}

/// One that was passed over, as it happens.
pub fn left_out(number: usize, (cols, rows): (i64, i64)) -> String {
    format!("Question {number} is left out: it needs {cols}x{rows}.")
}

/// Which question it is, and what is left of the round.
pub fn status(which: &str, round_left: Option<Duration>) -> String {
    match round_left {
        None => which.to_owned(),
        Some(left) if left.is_zero() => format!("{which}   the last one"),
        Some(left) => format!("{which}   {} left", minutes(whole_minutes(left))),
    }
}

/// Which question it is.
pub fn which((number, count): (usize, Option<usize>), (part, parts): (usize, usize)) -> String {
    let part =
        match part.checked_sub(1).and_then(|place| char::from_digit(u32::try_from(place).ok()? + 10, 36)) {
            Some(letter) if parts > 1 => letter.to_string(),
            _ => String::new(),
        };
    match count {
        Some(count) => format!("question {number}{part} of {count}"),
        None => format!("question {number}{part}"),
    }
}

/// The points of the teams that have some.
pub fn teams(points: &[usize]) -> String {
    let team = |(place, points): (usize, &usize)| format!("team {} has {points}", place + 1);
    let all: Vec<String> = points.iter().enumerate().map(team).collect();
    all.join("   ")
}

/// A team.
pub fn team(place: usize) -> String {
    format!("team {}", place + 1)
}

/// The letter of an answer.
pub fn letter(place: usize) -> char {
    (b'A'..=b'Z').nth(place).map_or('?', char::from)
}

/// One of the answers offered.
pub fn offered(place: usize, says: &str) -> String {
    format!("{}  {says}", letter(place))
}

/// The sum so far.
pub fn so_far(value: &str) -> String {
    format!("so far {value}")
}

/// How many questions were asked.
pub fn asked(count: usize) -> String {
    format!("{} asked.", questions(count))
}

/// More lines of an answer below.
pub fn more(lines: usize) -> String {
    format!("{lines} more: PgDn")
}

fn questions(count: usize) -> String {
    if count == 1 { "1 question".to_owned() } else { format!("{count} questions") }
}

fn seconds(count: u64) -> String {
    if count == 1 { "1 second".to_owned() } else { format!("{count} seconds") }
}

fn minutes(count: u64) -> String {
    if count == 1 { "1 minute".to_owned() } else { format!("{count} minutes") }
}

/// Whole minutes, a part of one counting as one.
fn whole_minutes(left: Duration) -> u64 {
    (left.as_secs() + u64::from(left.subsec_nanos() > 0)).div_ceil(60)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_left_in_whole_minutes() {
        let left = |secs| status("question 3", Some(Duration::from_secs(secs)));
        assert_eq!(left(600), "question 3   10 minutes left");
        assert_eq!(left(541), "question 3   10 minutes left");
        assert_eq!(left(540), "question 3   9 minutes left");
        assert_eq!(left(1), "question 3   1 minute left");
        assert_eq!(left(0), "question 3   the last one");
    }

    #[test]
    fn parts_have_letters_and_teams_numbers() {
        assert_eq!(which((3, Some(20)), (2, 2)), "question 3b of 20");
        assert_eq!(which((3, None), (1, 1)), "question 3");
        assert_eq!(teams(&[0, 2]), "team 1 has 0   team 2 has 2");
        assert_eq!((letter(0), letter(3)), ('A', 'D'));
    }
}
