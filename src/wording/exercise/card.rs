//! Job cards: whose they are, when they are due, what became of them.

use crate::class::card::Card;

/// The set of a job card has faults here.
pub fn card_set(faults: usize) -> String {
    format!(
        "its exercise cannot be asked here ({faults} faults): it needs instruments that are not on this machine"
    )
}

/// A job card whose set is not the one it names.
pub const CARD_OTHER_SET: &str = "its exercise is not the one that it names";
/// A job card in a private session.
pub const CARD_PRIVATE: &str = "a job card is worked on with a record: leave out --private";

/// A job card for several people, and nobody said who works on it.
pub fn card_whose(learners: &[String]) -> String {
    let whom = if learners.is_empty() { "everyone".to_owned() } else { learners.join(", ") };
    format!("this job card is for {whom}: give your code with --learner")
}

/// A name that is no learner's code.
pub fn card_code(name: &str) -> String {
    format!("\"{name}\" is no learner's code: a job card is worked on under a code such as k7 (--learner k7)")
}

/// A job card for somebody else.
pub fn card_not_for(learner: &str, learners: &[String]) -> String {
    format!("this job card is for {}, not for {learner}", learners.join(", "))
}

/// What there is to know of a job card before it is begun.
pub fn card(card: &Card, now: &str) -> String {
    let due = card.due.as_ref().map_or_else(|| "no day is set".to_owned(), |due| format!("due {}", due.day));
    let late = if card.is_late(now) { LATE } else { "" };
    format!("{due}. Issued by the key {}.{late}", card.from.fingerprint())
}

/// It was due before today.
const LATE: &str = " It is late: it can still be done, and is handed in as late.";

/// A job card was worked on to its end.
pub fn handed_in(waiting: usize, why: Option<&str>) -> String {
    match (waiting, why) {
        (0, _) => "It is handed in.".to_owned(),
        (_, Some(why)) => format!("It waits on this machine: {why}. `linefall hand-in` tries again."),
        (_, None) => "It waits on this machine: `linefall hand-in FOLDER` hands it in.".to_owned(),
    }
}

/// A job card in the list, before its title.
pub fn card_title(title: &str, learners: usize) -> String {
    let whose = if learners == 1 { "your job card" } else { "job card" };
    format!("{whose}: {title}")
}

/// How a job card stands, for the list.
pub fn card_stands(due: Option<&str>, begun: Option<bool>) -> String {
    match (begun, due) {
        (Some(true), _) => "done".to_owned(),
        (Some(false), Some(day)) => format!("left, due {day}"),
        (Some(false), None) => "left".to_owned(),
        (None, Some(day)) => format!("due {day}"),
        (None, None) => "new".to_owned(),
    }
}
