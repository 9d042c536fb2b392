//! What is said in the instructor's round: issue, return, collect.

use super::counted;
use crate::class::card::Card;
use crate::class::gather::{Filed, Note, Standing};
use crate::class::returned::BEGUN;
use crate::class::sitting::Purpose;

/// No shared folder is known.
pub const NO_FOLDER: &str = "which shared folder? Give it once with --folder DIR; it is remembered";
/// A text that is no learner's code.
pub const NO_CODE: &str = "a code has up to 16 small letters, digits and hyphens: k7";
/// A card whose set says something else.
pub const OTHER_SET: &str = "its exercise is not the one that it names";
/// What signatures can and cannot show.
pub const SIGNATURES: [&str; 4] = [
    "Every answer was marked again here. A signature shows that a file was not",
    "changed after it was written; it cannot show who sat at the keyboard, and",
    "whoever owns a machine has its key. A check that counts is sat in your",
    "sight.",
];
/// Over the files that somebody has to look at.
pub const LOOK_AT: &str = "To be looked at:";
/// Over the others of which something is to be said.
pub const BESIDE: &str = "To be known:";
/// Over the cards.
pub const CARDS: &str = "Job cards:";
/// Whose work did not come back in time.
pub const ABSENT: &str = "nothing back";
/// Whose work did not come back yet.
pub const NOT_BACK: &str = "not back yet";
/// Whose work was late.
pub const LATE: &str = "late";
/// Who sat it more than once.
pub const AGAIN: &str = "more than once";

/// A folder that is not there.
pub fn no_such_folder(name: &str) -> String {
    format!("there is no folder {name}; is the share connected, the stick in?")
}

/// A folder that no card was issued in and nothing came back to.
pub fn not_shared(name: &str) -> String {
    format!(
        "{name} holds neither \"issued\" nor \"returned\": is it the shared folder, is the share connected? Nothing was changed"
    )
}

/// Learners of whom nothing lies in the shared folder this time.
pub fn not_there(codes: &[&str]) -> String {
    format!("nothing there this time of {}: what was collected of them before is kept", codes.join(", "))
}

/// The roster has faults.
pub fn faulty_roster(name: &str, faults: usize) -> String {
    let faults = counted(faults, "fault", "faults");
    format!("in {name} faulty lines are left out ({faults}): run linefall check {name}")
}

/// A roster without a fault.
pub fn no_faults_in_roster(name: &str, people: usize) -> String {
    format!("{name}: no faults ({})", counted(people, "learner", "learners"))
}

/// An unknown set.
pub fn no_set(id: &str, near: Option<&str>) -> String {
    let near = near.map_or_else(String::new, |near| format!("; did you mean {near}?"));
    format!("there is no exercise or check \"{id}\"{near} (linefall list sets shows all)")
}

/// A day that has gone by.
pub fn due_is_over(day: &str) -> String {
    format!("{day} has gone by: give a day that is still to come")
}

/// A code that is not on the roster.
pub fn not_on_roster(code: &str) -> String {
    format!("{code} is not on your roster; the card is issued all the same")
}

/// A set that cannot stand on a card.
pub fn not_for_a_card(id: &str) -> String {
    format!(
        "{id} cannot stand on a job card: a character in its file or title is hidden, or the title is too long"
    )
}

fn purpose(purpose: Purpose) -> &'static str {
    match purpose {
        Purpose::Exercise => "exercise",
        Purpose::Check => "skills check",
        Purpose::SelfTest => "self-test",
    }
}

/// A card was issued.
pub fn issued(card: &Card) -> String {
    let to = if card.learners.is_empty() { "everyone".to_owned() } else { card.learners.join(", ") };
    let due = card.due.as_ref().map_or_else(String::new, |due| format!(", to be done by {}", due.day));
    format!("issued: {} ({}), {}, to {to}{due}", card.title, card.set, purpose(card.purpose))
}

/// The instructor's key.
pub fn your_key(fingerprint: &str) -> String {
    format!("signed with your key {fingerprint}")
}

/// Nothing waits to be handed in.
pub fn nothing_waits(going_on: usize) -> Vec<String> {
    let mut said = vec!["nothing waits to be handed in".to_owned()];
    if going_on > 0 {
        let sittings = counted(going_on, "exercise is", "exercises are");
        said.push(format!("{sittings} not done yet"));
    }
    said
}

/// So many wait.
pub fn waits(waiting: usize) -> String {
    format!("{} to be handed in", counted(waiting, "exercise waits", "exercises wait"))
}

/// One was handed in.
pub fn handed_in(name: &str) -> String {
    format!("handed in: {name}")
}

/// Some could not be handed in.
pub fn still_waits(waiting: usize, why: &str) -> String {
    format!("{waiting} waiting: {why}; nothing is lost, run linefall return again")
}

/// A card that cannot be used.
pub fn faulty_card(name: &str, why: &str) -> String {
    format!("the job card {name} is left out: {why}")
}

/// A card with faults in its set.
pub fn faulty_set(name: &str, faults: usize) -> String {
    let faults = counted(faults, "fault", "faults");
    format!(
        "the job card {name} is left out: {faults} in its exercise; is an instrument of your own missing?"
    )
}

/// A card that somebody else signed.
pub fn other_instructor(name: &str, fingerprint: &str) -> String {
    format!("the job card {name} was not signed with your key but with {fingerprint}; it is left out")
}

/// How far collecting is.
pub fn progress(done: usize, of: usize) -> String {
    format!("{done} of {}", counted(of, "learner", "learners"))
}

/// What was found, in one line.
pub fn head(folder: &str, standings: &[&Standing], changed: usize) -> String {
    let count = |is: &dyn Fn(&Standing) -> bool| standings.iter().filter(|standing| is(standing)).count();
    let mut parts = vec![format!("{} count", count(&|of| *of == Standing::Counted))];
    let mut add = |count: usize, one: &str, many: &str| {
        if count > 0 {
            parts.push(format!("{count} {}", if count == 1 { one } else { many }));
        }
    };
    add(
        count(&|of| *of == Standing::Open),
        "is not done yet or was broken off",
        "are not done yet or were broken off",
    );
    let copies = count(&|of| matches!(of, Standing::Duplicate(_) | Standing::EarlierCopy(_)));
    add(copies, "is a copy", "are copies");
    add(count(&Standing::is_finding), "cannot be used", "cannot be used");
    let files = counted(standings.len(), "file", "files");
    let new = if changed == 0 { "; nothing new since the last time" } else { "" };
    format!("{folder}: {files}: {}{new}", parts.join(", "))
}

/// Whether something is to be said of a file that nobody has to look at.
pub fn is_told(file: &Filed) -> bool {
    !is_only_begun(file) && (file.standing != Standing::Counted || !file.notes.is_empty())
}

/// Whether a file only says that a sitting was begun which came back whole.
pub fn is_only_begun(file: &Filed) -> bool {
    matches!(file.standing, Standing::EarlierCopy(_)) && file.name.ends_with(BEGUN)
}

/// So many faults of a file are said; a file that was changed all through has one a line.
const FAULTS: usize = 3;

/// What is to be said of a file.
pub fn of_file(file: &Filed) -> Vec<String> {
    let mut said = match &file.standing {
        Standing::Counted => Vec::new(),
        Standing::Open => vec!["it has no end: it goes on, or was broken off; it does not count".to_owned()],
        Standing::Duplicate(of) => vec![format!("the same file as {of}; it counts once")],
        Standing::EarlierCopy(of) => vec![format!("an earlier copy of {of}")],
        Standing::CutShort => {
            vec!["it is cut short: take the whole file from the learner's machine".to_owned()]
        }
        Standing::Faulty(why) => {
            let mut said: Vec<String> = why.iter().take(FAULTS).cloned().collect();
            said.extend((why.len() > FAULTS).then(|| more(why.len() - FAULTS)));
            said
        }
        Standing::Clash(with) => {
            vec![format!("it says otherwise than {with}, though both are of one sitting; neither counts")]
        }
        Standing::Foreign(card) => vec![format!("it answers job card {card}, which was not issued here")],
        Standing::UnknownSet(set) => {
            vec![format!(
                "it answers no job card, and its exercise \"{set}\" is not among yours in that form"
            )]
        }
    };
    said.extend(file.notes.iter().map(note));
    said
}

/// `4 min`; whole minutes, the last one begun.
fn minutes(seconds: u32) -> String {
    format!("{} min", seconds.div_ceil(60))
}

fn note(note: &Note) -> String {
    let at = |place: &u32, part: &u32| {
        if *part > 1 { format!("question {place}, part {part}") } else { format!("question {place}") }
    };
    match note {
        Note::Late(day) => format!("late: it was to be done by {day}"),
        Note::Try(nth) => format!("try {nth}"),
        Note::TriesMissing(nth) => {
            let nth: Vec<String> = nth.iter().map(ToString::to_string).collect();
            format!("earlier tries did not come back: {}", nth.join(", "))
        }
        Note::SameTry(other) => format!("the same try as {other}: begun on two machines?"),
        Note::NotForThem => "its job card is not for this learner".to_owned(),
        Note::InFolderOf(code) => format!("it lies in the folder of {code}"),
        Note::Clock => {
            "a time in it is before the card was issued, or goes back: that machine's clock is wrong"
                .to_owned()
        }
        Note::OverTime(seconds) => format!(
            "it went on for {} longer than the exercise gives; a break that was not announced counts",
            minutes(*seconds)
        ),
        Note::NotMarked(place, part, why) => format!("{}: {why}; the answer is left out", at(place, part)),
        Note::OtherMark(place, part) => {
            format!("{}: the file has another mark than the answer gets", at(place, part))
        }
        Note::Glass(place, part) => {
            format!("{}: the glass was used, and the exercise forbids it", at(place, part))
        }
        Note::OutOfOrder(place, part) => {
            format!("{}: it was answered after a later question", at(place, part))
        }
        Note::MoreThanItsTime(seconds) => format!(
            "its answers took {} more than there was from its beginning to its end",
            minutes(*seconds)
        ),
        Note::PartsMissing(place) => {
            format!("question {place}: a part of it was not answered; it counts as not right")
        }
        Note::LeftOut(place) => {
            format!("question {place}: later questions were answered without it; it counts as not right")
        }
    }
}

/// A machine that was not known.
pub fn machine(learner: &str, fingerprint: &str, second: bool, others: &[String]) -> String {
    let what = if second { "another machine" } else { "new machine" };
    let also = if others.is_empty() {
        String::new()
    } else {
        format!(", also the machine of {}", others.join(", "))
    };
    format!("{learner}: {what}, key {fingerprint}{also}")
}

/// One sitting under two codes.
pub fn under_two(codes: &[String]) -> String {
    format!("the same sitting came back as that of {}: ask them whose it is", codes.join(" and of "))
}

/// More of one learner than is looked at.
pub const TOO_MUCH: &str = "more than 64 MiB of one learner: the files after that are not looked at";

/// A file was written to while it was looked at.
pub const CHANGED_MEANWHILE: &str = "it was changed while it was looked at: collect again";

/// Codes that are not on the roster.
pub fn strangers(codes: &[&str]) -> String {
    format!("not on your roster: {}", codes.join(", "))
}

/// How a card stands.
pub fn card(title: &str, number: &str, due: Option<&str>, (back, of): (usize, usize)) -> String {
    let due = due.map_or_else(String::new, |day| format!(", by {day}"));
    format!("    {title}{due}: {back} of {of} back (card {number})")
}

/// What was not listed.
pub fn more(count: usize) -> String {
    format!("and {count} more; --json names all")
}
