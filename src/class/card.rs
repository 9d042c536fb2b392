//! A job card: a set as it is given out, signed. A text that a person can read.

use super::seal::{Public, Secret, Signed};
use super::sitting::Purpose;
use super::text::{is_code, is_day, is_hex, is_number, is_obeyed, is_set, is_time};
use crate::drill::set::DrillSet;
use thiserror::Error;

/// The largest card, in bytes.
pub const CARD_LIMIT: u64 = 2 << 20;
/// The version of the form.
const FORM: u32 = 1;
const FIRST: &str = "LINEFALL JOB CARD";
const ABOUT: &str = "Signed by the instructor: a change anywhere in this file shows.";
const OPENS: &str = "----- the exercise -----";
const CLOSES: &str = "----- end of the exercise -----";
const SIGNED: &str = "signed    ";
const EVERYONE: &str = "everyone";
const NONE: &str = "none";
/// The longest title and set.
const TITLE: usize = 200;

/// A job card.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Card {
    /// Its number, drawn by chance: 16 hexadecimal digits.
    pub number: String,
    /// The id of the set.
    pub set: String,
    /// What a person calls it.
    pub title: String,
    /// The hash of the set's text.
    pub revision: String,
    /// Whom it is for; empty for everyone.
    pub learners: Vec<String>,
    /// Until when it is to be done.
    pub due: Option<Due>,
    /// What it is for.
    pub purpose: Purpose,
    /// When it was issued, UTC as RFC 3339.
    pub issued: String,
    /// The instructor's key.
    pub from: Public,
    /// The set as it was written.
    pub text: String,
}

/// Until when a card is to be done.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Due {
    /// The day, where it was issued.
    pub day: String,
    /// The end of that day, UTC as RFC 3339.
    pub until: String,
}

/// What is wrong with a card.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum CardFault {
    /// It is not text.
    #[error("it is not text in UTF-8")]
    NotText,
    /// Larger than any card.
    #[error("it is larger than {CARD_LIMIT} bytes")]
    TooBig,
    /// Something else.
    #[error("it is no job card")]
    NoCard,
    /// Of a newer program.
    #[error("it was written by a newer Linefall (form {0}); this one knows up to {FORM}")]
    Newer(u32),
    /// It breaks off.
    #[error("it breaks off: \"{0}\" is missing")]
    CutShort(&'static str),
    /// A line that cannot be so.
    #[error("line {line}: {what} is not written as a card has it")]
    Line {
        /// Which, from 1.
        line: usize,
        /// What should stand there.
        what: &'static str,
    },
    /// Not as it was signed.
    #[error("it was changed after it was signed, or signed by somebody else")]
    Changed,
    /// Only the ends of its lines are not as they were signed.
    #[error(
        "the ends of its lines were changed, as some editors and mail programs do: take the file itself, not a saved copy"
    )]
    LineEnds,
    /// Something comes after the signature.
    #[error("something was added after the signature")]
    Added,
}

impl Card {
    /// Whether it is for this learner.
    pub fn is_for(&self, learner: &str) -> bool {
        self.learners.is_empty() || self.learners.iter().any(|one| one == learner)
    }

    /// Whether a time is after its due day.
    pub fn is_late(&self, time: &str) -> bool {
        self.due.as_ref().is_some_and(|due| time > due.until.as_str())
    }

    /// Whether this is the set that it gives out.
    pub fn gives(&self, set: &DrillSet) -> bool {
        (&self.set, &self.title, &self.revision) == (&set.id, &set.title, &set.revision)
    }

    /// The name of its file: the set and the card's number.
    pub fn file_name(&self) -> String {
        format!("{}-{}.card", self.set, self.number)
    }

    /// The whole file.
    pub fn write(&self, secret: &Secret) -> String {
        let body = self.body();
        let signature = secret.sign(Signed::Card, body.as_bytes());
        format!("{body}{SIGNED}{signature}\n")
    }

    /// All that is signed.
    fn body(&self) -> String {
        let learners = if self.learners.is_empty() { EVERYONE.to_owned() } else { self.learners.join(", ") };
        let due = self
            .due
            .as_ref()
            .map_or_else(|| NONE.to_owned(), |due| format!("{} (until {})", due.day, due.until));
        let purpose = purpose_word(self.purpose);
        let mut text = format!(
            "{FIRST} {FORM}\n{ABOUT}\n\ntitle     {}\nset       {}\nfor       {learners}\ndue       {due}\npurpose   {purpose}\n\
             issued    {}\nnumber    {}\nrevision  {}\nfrom      {}\n\n{OPENS}\n",
            self.title,
            self.set,
            self.issued,
            self.number,
            self.revision,
            self.from.hex()
        );
        for line in self.text.split('\n') {
            text.push_str(if line.is_empty() { "|" } else { "| " });
            text.push_str(line);
            text.push('\n');
        }
        text.push_str(CLOSES);
        text.push('\n');
        text
    }

    /// Reads a card. Whose it is, is for the reader to see: the signature is the one of the key that stands in it.
    pub fn read(bytes: &[u8]) -> Result<Self, Vec<CardFault>> {
        if bytes.len() as u64 > CARD_LIMIT {
            return Err(vec![CardFault::TooBig]);
        }
        let text = std::str::from_utf8(bytes).map_err(|_| vec![CardFault::NotText])?;
        match read(text) {
            Err(faults) if text.contains('\r') && read(&text.replace("\r\n", "\n")).is_ok() => {
                drop(faults);
                Err(vec![CardFault::LineEnds])
            }
            other => other,
        }
    }
}

fn purpose_word(purpose: Purpose) -> &'static str {
    match purpose {
        Purpose::Exercise => "exercise",
        Purpose::Check => "skills check",
        Purpose::SelfTest => "self-test",
    }
}

fn read(text: &str) -> Result<Card, Vec<CardFault>> {
    let mut lines = text.split('\n').enumerate().map(|(n, line)| (n + 1, line));
    let form = lines.next().and_then(|(_, line)| line.strip_prefix(FIRST)?.trim().parse::<u32>().ok());
    match form {
        Some(FORM) => {}
        Some(newer) if newer > FORM => return Err(vec![CardFault::Newer(newer)]),
        _ => return Err(vec![CardFault::NoCard]),
    }
    let mut faults = Vec::new();
    let mut plain = |wanted: &'static str, faults: &mut Vec<CardFault>| match lines.next() {
        Some((_, line)) if line == wanted => {}
        Some((line, _)) => faults.push(CardFault::Line { line, what: "a fixed line" }),
        None => faults.push(CardFault::CutShort("signed")),
    };
    plain(ABOUT, &mut faults);
    plain("", &mut faults);
    let mut field = |what: &'static str, faults: &mut Vec<CardFault>, good: &dyn Fn(&str) -> bool| {
        let Some((line, text)) = lines.next() else {
            faults.push(CardFault::CutShort(what));
            return String::new();
        };
        let value = text.strip_prefix(what).map(str::trim_start).filter(|value| good(value));
        if value.is_none() {
            faults.push(CardFault::Line { line, what });
        }
        value.unwrap_or_default().to_owned()
    };
    let title = field("title", &mut faults, &is_title);
    let set = field("set", &mut faults, &is_set);
    let learners = field("for", &mut faults, &|text| learners_of(text).is_some());
    let due = field("due", &mut faults, &|text| due_of(text).is_ok());
    let purpose = field("purpose", &mut faults, &|text| purpose_of(text).is_some());
    let issued = field("issued", &mut faults, &is_time);
    let number = field("number", &mut faults, &is_number);
    let revision = field("revision", &mut faults, &|text| (1..=128).contains(&text.len()) && is_hex(text));
    let from = field("from", &mut faults, &|text| Public::of(text).is_some());
    let mut plain = |wanted: &'static str, faults: &mut Vec<CardFault>| match lines.next() {
        Some((_, line)) if line == wanted => {}
        Some((line, _)) => faults.push(CardFault::Line { line, what: "a fixed line" }),
        None => {}
    };
    plain("", &mut faults);
    plain(OPENS, &mut faults);
    let mut rows = Vec::new();
    let closed = loop {
        match lines.next() {
            Some((_, CLOSES)) => break true,
            Some((line, row)) => match row.strip_prefix("| ").or_else(|| (row == "|").then_some("")) {
                Some(row) => rows.push(row),
                None => faults.push(CardFault::Line { line, what: "the exercise" }),
            },
            None => break false,
        }
    };
    if !closed {
        faults.push(CardFault::CutShort(CLOSES));
        return Err(capped(faults));
    }
    let signature = lines.next().and_then(|(_, line)| line.strip_prefix(SIGNED));
    let rest: Vec<&str> = lines.map(|(_, line)| line).collect();
    let Some(signature) = signature else {
        faults.push(CardFault::CutShort("signed"));
        return Err(capped(faults));
    };
    match rest[..] {
        [""] => {}
        [] => faults.push(CardFault::CutShort("the end of the last line")),
        _ => faults.push(CardFault::Added),
    }
    let read = (learners_of(&learners), due_of(&due), purpose_of(&purpose), Public::of(&from));
    let (Some(learners), Ok(due), Some(purpose), Some(from)) = read else { return Err(capped(faults)) };
    let card =
        Card { number, set, title, revision, learners, due, purpose, issued, from, text: rows.join("\n") };
    // Spaces that were put in between do not show in the fields: what is signed is the card as it is written.
    let body = card.body();
    if !(text.starts_with(&body) && card.from.signed(Signed::Card, body.as_bytes(), signature)) {
        faults.push(CardFault::Changed);
    }
    if faults.is_empty() { Ok(card) } else { Err(capped(faults)) }
}

/// A file of something else has a fault a line; a few of them tell enough.
fn capped(mut faults: Vec<CardFault>) -> Vec<CardFault> {
    faults.truncate(20);
    faults
}

/// True for what can be the title on a card.
pub fn is_title(text: &str) -> bool {
    (1..=TITLE).contains(&text.chars().count()) && text.trim() == text && !text.chars().any(is_obeyed)
}

/// True for what can be the text of a set on a card: no character that a terminal obeys but ends of lines and tabs.
pub fn is_text(text: &str) -> bool {
    !text.chars().any(|c| is_obeyed(c) && !matches!(c, '\n' | '\t'))
}

fn learners_of(text: &str) -> Option<Vec<String>> {
    if text == EVERYONE {
        return Some(Vec::new());
    }
    let all: Vec<String> = text.split(", ").map(str::to_owned).collect();
    all.iter().all(|code| is_code(code)).then_some(all)
}

fn due_of(text: &str) -> Result<Option<Due>, ()> {
    if text == NONE {
        return Ok(None);
    }
    let (day, until) = text.strip_suffix(')').and_then(|text| text.split_once(" (until ")).ok_or(())?;
    let due = Due { day: day.to_owned(), until: until.to_owned() };
    if is_day(day) && is_time(until) { Ok(Some(due)) } else { Err(()) }
}

fn purpose_of(text: &str) -> Option<Purpose> {
    [Purpose::Exercise, Purpose::Check].into_iter().find(|purpose| purpose_word(*purpose) == text)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn secret() -> Secret {
        Secret::new([3; 32])
    }

    fn card() -> Card {
        Card {
            number: "00000000000000aa".to_owned(),
            set: "first-rule".to_owned(),
            title: "Whole millimetres".to_owned(),
            revision: "5f1c".to_owned(),
            learners: vec!["k7".to_owned(), "k8".to_owned()],
            due: Some(Due { day: "2026-12-04".to_owned(), until: "2026-12-04T23:00:00Z".to_owned() }),
            purpose: Purpose::Check,
            issued: "2026-11-29T08:00:00Z".to_owned(),
            from: secret().public(),
            text: "title = \"Whole millimetres\"\n\n  count = 3\n".to_owned(),
        }
    }

    #[test]
    fn read_back_as_written() {
        let everyone = Card { learners: Vec::new(), due: None, purpose: Purpose::Exercise, ..card() };
        let no_end = Card { text: "x".to_owned(), ..card() };
        let bars = Card { text: format!("|\n| {CLOSES}\n\n\n"), ..card() };
        for card in [card(), everyone, no_end, bars] {
            assert_eq!(Card::read(card.write(&secret()).as_bytes()), Ok(card));
        }
        assert!(card().is_for("k8") && !card().is_for("k9"));
        assert!(card().is_late("2026-12-05T00:00:00Z") && !card().is_late("2026-12-04T22:59:59.999Z"));
    }

    #[test]
    fn a_person_can_read_it() {
        let text = card().write(&secret());
        for line in [
            "title     Whole millimetres",
            "for       k7, k8",
            "purpose   skills check",
            "due       2026-12-04 (until 2026-12-04T23:00:00Z)",
        ] {
            assert!(text.lines().any(|found| found == line), "{line}\n{text}");
        }
    }

    /// Every byte changed once, to what looks most alike and to what does not.
    #[test]
    fn every_change_shows() {
        let text = card().write(&secret());
        for at in 0..text.len() {
            for to in [text.as_bytes()[at] ^ 1, text.as_bytes()[at] ^ 32, b'\n', b' ', 0xff] {
                let mut bytes = text.as_bytes().to_vec();
                bytes[at] = to;
                if bytes != text.as_bytes() {
                    assert!(Card::read(&bytes).is_err(), "byte {at} to {to}");
                }
            }
            assert!(Card::read(&text.as_bytes()[..at]).is_err(), "cut at {at}");
            let mut bytes = text.as_bytes().to_vec();
            bytes.remove(at);
            assert!(Card::read(&bytes).is_err(), "without byte {at}");
        }
    }

    #[test]
    fn faults_are_named() {
        let text = card().write(&secret());
        let read = |text: &str| Card::read(text.as_bytes()).expect_err("faulty");
        assert_eq!(Card::read(&[0xff]), Err(vec![CardFault::NotText]));
        assert_eq!(read("[set]\n"), [CardFault::NoCard]);
        assert_eq!(read(&text.replace("CARD 1", "CARD 2")), [CardFault::Newer(2)]);
        assert_eq!(read(&text.replace('\n', "\r\n")), [CardFault::LineEnds]);
        assert_eq!(read(&text.replace("count = 3", "count = 2")), [CardFault::Changed]);
        assert_eq!(read(&format!("{text}x")), [CardFault::Added]);
        assert_eq!(
            read(&text.replace("for       k7", "for       K7")),
            [CardFault::Line { line: 6, what: "for" }]
        );
        let two = text.replace("number    0", "number    z").replace("2026-11-29T", "yesterday ");
        assert_eq!(read(&two).len(), 3, "{:?}", read(&two));
        let cut = &text[..text.find("signed").expect("signed") + 3];
        assert!(read(cut).contains(&CardFault::CutShort("signed")));
        assert_eq!(Card::read(&vec![b'x'; (2 << 20) + 1]), Err(vec![CardFault::TooBig]));
        // Signed by another key than the one it names.
        let other = card().write(&Secret::new([4; 32]));
        assert_eq!(read(&other), [CardFault::Changed]);
        assert!(is_title("Whole \u{b5}m") && !is_title("a\u{1b}[2J") && !is_title("") && !is_title(" a"));
        assert!(is_text("a\tb\n") && !is_text("a\r\n") && !is_text("\u{202e}"));
    }
}
