//! The page on how a drill set is written: prose, the keys from the reader's own table, examples.

use super::format::{Example, examples_of, item, lines};
use crate::drill::set::{Place, keys_of};
use std::fmt::Write as _;

macro_rules! example {
    ($shows:literal, $file:literal) => {
        Example { shows: $shows, text: include_str!(concat!("../../assets/format/sets/", $file)) }
    };
}

/// What a set may look like.
pub const EXAMPLES: [Example; 4] = [
    example!("an exercise", "exercise.toml"),
    example!("readings of one's own", "given.toml"),
    example!("a check", "check.toml"),
    example!("a check that ends when it is clear", "sequential.toml"),
];

/// The prose, with marks where keys and examples go.
const PROSE: &str = include_str!("../../assets/format/sets/page.md");

/// The whole page, in Markdown that reads well as it is.
pub fn page() -> String {
    PROSE.replace("<!-- keys -->\n", &all_keys()).replace("<!-- examples -->\n", &examples_of(&EXAMPLES))
}

/// The keys of a place: its name, and two lines for each key.
pub fn keys(place: Place) -> Vec<String> {
    lines(place.called(), keys_of(place))
}

fn all_keys() -> String {
    let mut text = String::new();
    for (n, place) in Place::ALL.into_iter().enumerate() {
        let gap = if n == 0 { "" } else { "\n" };
        let _ = writeln!(text, "{gap}### Keys of {}\n", place.called());
        text.extend(keys_of(place).map(item));
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::diag::SourceText;
    use crate::drill::set::{KEYS, Key, read};
    use crate::instrument::Catalogue;
    use crate::instrument::schema::Kind;
    use std::path::Path;

    const COMMITTED: &str = "drills/FORMAT.md";

    /// The committed page is what the table, the prose and the examples make. `LINEFALL_RECORD=write` writes it.
    #[test]
    fn the_committed_page_is_current() {
        let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(COMMITTED);
        if std::env::var("LINEFALL_RECORD").is_ok_and(|value| value == "write") {
            std::fs::write(&path, page()).expect("the page can be written");
        }
        let committed = std::fs::read_to_string(&path).expect("the committed page");
        assert!(committed == page(), "{COMMITTED} is not current: run this test with LINEFALL_RECORD=write");
        assert!(!committed.contains("<!--"), "a mark was not filled");
    }

    #[test]
    fn every_example_keeps_every_rule_and_every_key_is_in_one() {
        let catalogue = Catalogue::new(Vec::new());
        for example in &EXAMPLES {
            let found = read(&SourceText::new(example.shows, example.text), &catalogue);
            assert!(found.is_ok(), "{}: {found:#?}", example.shows);
        }
        let used = |key: &Key| {
            let starts = format!("{} =", key.name);
            EXAMPLES.iter().any(|example| {
                let text = example.text;
                text.lines().any(|line| line.starts_with(&starts) || line.contains(&format!(" {starts}")))
                    || text.contains(&format!("[{}]", key.name))
            })
        };
        // How it is ordered, which kinds and the like are in the shipped sets, which the page sends its reader to.
        let unused: Vec<&str> = KEYS.iter().filter(|key| !used(key)).map(|key| key.name).collect();
        assert_eq!(unused, [""; 0]);
    }

    /// The line of a key is read where it stands: nothing is said about it but what a bare file lacks.
    #[test]
    fn every_line_is_read_in_its_place() {
        let catalogue = Catalogue::new(Vec::new());
        for key in KEYS {
            assert!(key.says.ends_with('.') && key.says.len() < 200, "{}: {}", key.name, key.says);
            for place in key.places {
                let line = key.line;
                let asks = "[[questions]]\ninstrument = \"caliper-metric-10\"\n";
                let mut head = vec!["set = \"x\"", "title = \"x\"", "count = 40"];
                head.retain(|have| have.split(' ').next() != line.split(' ').next());
                let head = head.join("\n");
                let text = match place {
                    _ if matches!(key.kind, Kind::Own("tables", _)) => continue,
                    Place::Set if line.starts_with('[') => {
                        format!("{head}\npass = \"sequential\"\n{line}\n{asks}")
                    }
                    Place::Set if line.starts_with("pass") => {
                        format!("{head}\n{line}\n{asks}").replace("40", "30")
                    }
                    Place::Set => format!("{head}\n{line}\n{asks}"),
                    Place::Sequential => {
                        format!("{head}\npass = \"sequential\"\n[sequential]\n{line}\n{asks}")
                    }
                    Place::Questions if line.starts_with("instrument") => {
                        format!("{head}\n[[questions]]\n{line}\n")
                    }
                    Place::Questions => format!("{head}\n{asks}{line}\n"),
                    Place::Reading => {
                        let reading = if key.name == "reading" { "" } else { "reading = \"12 mm\", " };
                        format!("{head}\n{asks}readings = [{{ {reading}{line} }}]\n")
                    }
                };
                let found = read(&SourceText::new("x.toml", text.as_str()), &catalogue);
                assert!(found.is_ok(), "{} in {}: {found:#?}\n{text}", key.name, place.called());
            }
        }
    }
}
