//! The practical half: what the instructor saw somebody do with a real tool, and what was measured of check parts whose size is
//! known. Kept in the instructor's own file, a line of JSON each, dated and initialled; a line is never changed, another takes
//! it back.

use crate::exact::{Exact, Quantity, parse_answer};
use serde::{Deserialize, Serialize};

/// The form of such a line.
pub const FORM: u32 = 1;
/// The most check parts on one sheet.
pub const MOST_PARTS: usize = 12;
/// The longest text of an entry, in characters.
pub const LONGEST: usize = 200;

/// What is looked at beside the person, in the order of the work.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Act {
    /// Tool and part were wiped.
    Cleaned,
    /// The zero was checked.
    ZeroChecked,
    /// Held square.
    Square,
    /// The usual feel.
    Feel,
    /// Locked, where it has a lock.
    Locked,
    /// Read.
    Read,
    /// Written down, with its unit.
    Wrote,
    /// Wiped, and put away.
    PutAway,
}

impl Act {
    /// All of them.
    pub const ALL: [Self; 8] = [
        Self::Cleaned,
        Self::ZeroChecked,
        Self::Square,
        Self::Feel,
        Self::Locked,
        Self::Read,
        Self::Wrote,
        Self::PutAway,
    ];
}

/// What was seen of an act.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Tick {
    /// Done as it should be.
    Done,
    /// Not done, or not as it should be.
    Not,
    /// Not looked at.
    #[default]
    NotShown,
}

/// A check part as it was measured.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Measured {
    /// What it is called.
    pub part: String,
    /// Its known size, with unit.
    pub size: String,
    /// How far off a reading may be, with unit.
    pub allowed: String,
    /// What was read, with unit.
    pub read: String,
}

impl Measured {
    /// How far off it was, in base units, what was read less the size; none where an entry is no size.
    pub fn off(&self) -> Option<Exact> {
        let size = Quantity::parse(&self.size).ok()?;
        Some(parse_answer(&self.read, size.unit).ok()?.value - size.value)
    }

    /// Within what was allowed, the limit itself too.
    pub fn is_within(&self) -> bool {
        let allowed = Quantity::parse(&self.allowed).ok().map(|allowed| allowed.value);
        self.off().zip(allowed).is_some_and(|(off, allowed)| off.abs() <= allowed)
    }
}

/// One sheet, as it was filled.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Sheet {
    /// [`FORM`].
    pub form: u32,
    /// Drawn by chance: 16 hexadecimal digits.
    pub id: String,
    /// The learner's short code.
    pub learner: String,
    /// The instrument's id.
    pub instrument: String,
    /// Which tool it was, as the shop calls it; may be empty.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub tool: String,
    /// When, UTC as RFC 3339.
    pub at: String,
    /// Who saw it.
    pub initials: String,
    /// Each act, in the order of [`Act::ALL`].
    pub ticks: Vec<(Act, Tick)>,
    /// What was measured.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub parts: Vec<Measured>,
    /// What was not shown, in the instructor's words; may be empty.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub not_shown: String,
    /// The instructor's decision that the tool may be used unsupervised.
    pub alone: Alone,
}

/// Whether somebody may use a tool unsupervised. The instructor decides; nothing here does.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Alone {
    /// He may.
    Yes,
    /// Not decided, or not yet.
    #[default]
    NotYet,
}

/// A line of the file.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Line {
    /// A sheet.
    Sheet(Sheet),
    /// An earlier one is taken back.
    TakenBack {
        /// Its id.
        id: String,
        /// When, UTC as RFC 3339.
        at: String,
        /// By whom.
        initials: String,
    },
}

/// What was shown with steel.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Shown {
    /// Acts done.
    pub done: u32,
    /// Acts not done, or not as they should be.
    pub not: u32,
    /// Check parts within what was allowed.
    pub within: u32,
    /// Check parts measured.
    pub parts: u32,
}

impl Sheet {
    /// What it comes to.
    pub fn shown(&self) -> Shown {
        let ticks = |wanted: Tick| count(self.ticks.iter().filter(|(_, tick)| *tick == wanted).count());
        Shown {
            done: ticks(Tick::Done),
            not: ticks(Tick::Not),
            within: count(self.parts.iter().filter(|part| part.is_within()).count()),
            parts: count(self.parts.len()),
        }
    }

    /// What was seen of an act.
    pub fn tick(&self, act: Act) -> Tick {
        self.ticks.iter().find(|(one, _)| *one == act).map_or(Tick::NotShown, |(_, tick)| *tick)
    }
}

/// The sheets of a file in its order, without those taken back; and the numbers of the lines that cannot be read, from 1.
pub fn sheets(text: &str) -> (Vec<Sheet>, Vec<usize>) {
    let (mut sheets, mut unreadable) = (Vec::<Sheet>::new(), Vec::new());
    for (number, line) in (1..).zip(text.lines()).filter(|(_, line)| !line.trim().is_empty()) {
        match serde_json::from_str(line) {
            Ok(Line::Sheet(sheet)) if sheet.form <= FORM => sheets.push(sheet),
            Ok(Line::TakenBack { id, .. }) => sheets.retain(|sheet| sheet.id != id),
            Ok(Line::Sheet(_)) | Err(_) => unreadable.push(number),
        }
    }
    (sheets, unreadable)
}

/// The latest sheet of a learner on an instrument.
pub fn latest<'a>(sheets: &'a [Sheet], learner: &str, instrument: &str) -> Option<&'a Sheet> {
    sheets.iter().rev().find(|sheet| sheet.learner == learner && sheet.instrument == instrument)
}

fn count(n: usize) -> u32 {
    u32::try_from(n).unwrap_or(u32::MAX)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn measured(size: &str, allowed: &str, read: &str) -> Measured {
        let own = str::to_owned;
        Measured { part: own("A"), size: own(size), allowed: own(allowed), read: own(read) }
    }

    fn sheet(id: &str) -> Sheet {
        Sheet {
            form: FORM,
            id: id.to_owned(),
            learner: "k7".to_owned(),
            instrument: "micrometer-metric".to_owned(),
            tool: String::new(),
            at: "2026-03-09T07:30:00Z".to_owned(),
            initials: "bw".to_owned(),
            ticks: vec![(Act::Cleaned, Tick::Done), (Act::Square, Tick::Not)],
            parts: vec![measured("8.00 mm", "0.01 mm", "8.01"), measured("8.00 mm", "0.01 mm", "8.02 mm")],
            not_shown: String::new(),
            alone: Alone::NotYet,
        }
    }

    #[test]
    fn the_limit_itself_is_within() {
        for (size, allowed, read, within) in [
            ("12.37 mm", "0.01 mm", "12.36", true),
            ("12.37 mm", "0.01 mm", "12.385", false),
            ("0.3125 in", "0.001 in", ".3135", true),
            ("5/16 in", "1/64 in", "21/64", true),
            ("5/16 in", "1/64 in", "11/32", false),
            ("35\u{b0}10'", "5'", "35\u{b0}15'", true),
            ("12.37 mm", "0.01 mm", "about twelve", false),
        ] {
            assert_eq!(measured(size, allowed, read).is_within(), within, "{size} {read}");
        }
        let shown = sheet("a").shown();
        assert_eq!((shown.done, shown.not, shown.within, shown.parts), (1, 1, 1, 2));
    }

    #[test]
    fn a_line_is_taken_back_by_another_and_what_cannot_be_read_is_named() {
        let line = |line: &Line| serde_json::to_string(line).expect("JSON");
        let back = Line::TakenBack { id: "a".to_owned(), at: String::new(), initials: "bw".to_owned() };
        let text = [
            line(&Line::Sheet(sheet("a"))),
            line(&Line::Sheet(sheet("b"))),
            "half a li".to_owned(),
            line(&back),
        ];
        let (sheets, unreadable) = sheets(&text.join("\n"));
        assert_eq!(sheets, [sheet("b")]);
        assert_eq!(unreadable, [3]);
        assert_eq!(latest(&sheets, "k7", "micrometer-metric"), Some(&sheet("b")));
        assert!(latest(&sheets, "k8", "micrometer-metric").is_none());
    }
}
