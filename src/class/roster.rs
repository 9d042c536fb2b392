//! The instructor's roster: who is behind the codes. It stays in the instructor's data folder; the files that go to and fro carry
//! codes alone.
//!
//! ```toml
//! k7 = "Ada"
//! k8 = { name = "Bo", group = "second year" }
//! ```

use super::record::Person;
use super::text::is_code;
use crate::diag::{Diagnostic, SourceText};
use crate::instrument::schema::{Sort, opened, shown};

/// What the file holds.
#[derive(Clone, Debug, Default)]
pub struct Roster {
    /// Those without a fault, in the order of the file.
    pub people: Vec<Person>,
    /// Every fault, in the order of the file.
    pub faults: Vec<Diagnostic>,
}

static SORT: Sort = Sort {
    is_key: |key| matches!(key, "name" | "group"),
    called: "a roster",
    about: "the learners",
    in_unit: "the file",
    tables: "a line is a code and a name: k7 = \"Ada\"",
};

/// Reads the file.
pub fn read(source: &SourceText) -> Roster {
    let (table, mut reader) = match opened(source, &SORT) {
        Ok(opened) => opened,
        Err(faults) => return Roster { people: Vec::new(), faults },
    };
    let mut people = Vec::new();
    for (key, value) in table.get_ref() {
        let code = key.get_ref().to_string();
        let place = crate::diag::Span::from(key.span());
        let is_one = is_code(&code);
        if !is_one {
            let message =
                format!("\"{}\" is no code: up to 16 small letters, digits and hyphens", shown(&code));
            reader.push(Diagnostic::new("code", place.clone(), message).fix("k7 = \"Ada\""));
        }
        let (name, group) = if let Some(table) = value.get_ref().as_table() {
            let whose = format!("`{}`", shown(&code));
            let fields = reader.fields(table, place.clone(), &whose, &["name", "group"]);
            (reader.text(&fields, "name"), reader.text(&fields, "group"))
        } else {
            (reader.text_of(&shown(&code), value), None)
        };
        if is_one {
            let text =
                |written: Option<crate::instrument::schema::Written<String>>| written.map(|of| of.value);
            people.push((place.start, Person { code, name: text(name), group: text(group) }));
        }
    }
    people.sort_by_key(|(start, _)| *start);
    Roster { people: people.into_iter().map(|(_, person)| person).collect(), faults: reader.into_faults() }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(text: &str) -> Roster {
        read(&SourceText::new("roster.toml", text))
    }

    #[test]
    fn people_in_the_order_of_the_file() {
        let roster = of(
            "# days\nk8 = { name = \"Bo\", group = \"second year\" }\nk7 = \"Ada\"\n[k9]\ngroup = \"x\"\n",
        );
        assert!(roster.faults.is_empty(), "{:?}", roster.faults);
        let all: Vec<_> = roster
            .people
            .iter()
            .map(|of| (of.code.as_str(), of.name.as_deref(), of.group.as_deref()))
            .collect();
        assert_eq!(
            all,
            [("k8", Some("Bo"), Some("second year")), ("k7", Some("Ada"), None), ("k9", None, Some("x"))]
        );
        assert!(of("").people.is_empty());
    }

    #[test]
    fn every_fault_is_named_and_the_others_hold() {
        let text = "K7 = \"Ada\"\nk8 = 3\nk9 = { nam = \"Bo\" }\nk1 = \"a\\u001b[31m\"\n\"../x\" = \"y\"\nk2 = \"Cy\"\n";
        let roster = of(text);
        let codes: Vec<_> = roster.faults.iter().map(|fault| fault.code).collect();
        assert_eq!(codes.len(), 5, "{codes:?}");
        assert_eq!((codes[0], codes[1], codes[2], codes[4]), ("code", "wrong-type", "unknown-key", "code"));
        let kept: Vec<_> =
            roster.people.iter().filter(|of| of.name.is_some()).map(|of| of.code.as_str()).collect();
        assert_eq!(kept, ["k2"]);
        assert!(!of("k7 = \n").faults.is_empty());
    }
}
