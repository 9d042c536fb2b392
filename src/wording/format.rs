//! The page on the file format: prose, the keys from the schema's own table, an example of each form.

use crate::instrument::schema::{Key, Place, keys_of};
use std::fmt::Write as _;

/// An example: what it shows, and the file.
pub struct Example {
    /// What it shows.
    pub shows: &'static str,
    /// The file.
    pub text: &'static str,
}

macro_rules! example {
    ($shows:literal, $file:literal) => {
        Example { shows: $shows, text: include_str!(concat!("../../assets/format/", $file)) }
    };
}

/// An example of each form.
pub const EXAMPLES: [Example; 11] = [
    example!("line", "line.toml"),
    example!("sleeve and thimble", "thimble.toml"),
    example!("vernier, direct", "vernier-direct.toml"),
    example!("vernier, long", "vernier-long.toml"),
    example!("vernier, retrograde", "vernier-retrograde.toml"),
    example!("circle with a vernier", "circle.toml"),
    example!("vernier, double", "vernier-double.toml"),
    example!("dial with a bar", "dial.toml"),
    example!("dial alone", "dial-alone.toml"),
    example!("fixed, chosen and constant", "fixed.toml"),
    example!("two sets of scales", "two-scales.toml"),
];

/// The prose, with marks where keys and examples go.
const PROSE: &str = include_str!("../../assets/format/page.md");

/// The whole page, in Markdown that reads well as it is.
pub fn page() -> String {
    PROSE.replace("<!-- keys -->\n", &all_keys()).replace("<!-- examples -->\n", &examples_of(&EXAMPLES))
}

/// The keys of a place: its name, and two lines for each key.
pub fn keys(place: Place) -> Vec<String> {
    lines(place.called(), keys_of(place))
}

/// Keys: what they are of, and two lines for each.
pub(super) fn lines<P: 'static>(of: &str, keys: impl Iterator<Item = &'static Key<P>>) -> Vec<String> {
    let mut lines = vec![format!("{of}:")];
    for key in keys {
        lines.push(format!("    {:<12} {}; {}", key.name, key.kind.called(), key.need.called()));
        lines.push(format!("    {:<12} {}", "", key.says));
    }
    lines
}

fn all_keys() -> String {
    let mut text = String::new();
    for (n, place) in Place::ALL.into_iter().enumerate() {
        let gap = if n == 0 { "" } else { "\n" };
        let _ = writeln!(text, "{gap}### Keys of {}\n", place.called());
        for key in keys_of(place) {
            text.push_str(&item(key));
        }
    }
    text
}

/// A key as the page has it.
pub(super) fn item<P>(key: &Key<P>) -> String {
    let (kind, need) = (key.kind.called(), key.need.called());
    format!("- **`{}`**: {}\n  It is {kind}; {need}. `{}`\n", key.name, key.says, key.line)
}

/// Examples as the page has them.
pub(super) fn examples_of(examples: &[Example]) -> String {
    let shown =
        examples.iter().map(|example| format!("### {}\n\n```toml\n{}```\n", example.shows, example.text));
    shown.collect::<Vec<_>>().join("\n")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::diag::SourceText;
    use crate::instrument::check::read;
    use crate::instrument::schema::keys;
    use std::path::Path;

    const COMMITTED: &str = "assets/instruments/FORMAT.md";

    /// The committed page is what the table, the prose and the examples make. `LINEFALL_RECORD=write` writes it.
    #[test]
    fn the_committed_page_is_current() {
        let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(COMMITTED);
        if std::env::var("LINEFALL_RECORD").is_ok_and(|value| value == "write") {
            std::fs::write(&path, page()).expect("the page can be written");
        }
        let committed = std::fs::read_to_string(&path).expect("the committed page");
        let differs = committed.lines().zip(page().lines().map(str::to_owned)).find(|(a, b)| a != b);
        assert!(
            committed == page(),
            "{COMMITTED} is not current: run the test `the_committed_page_is_current` with LINEFALL_RECORD=write; {differs:?}"
        );
    }

    /// Every file with examples in it, and every example in a file.
    #[test]
    fn every_example_is_shown_and_keeps_every_rule() {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("assets/format");
        let names = std::fs::read_dir(folder).expect("the examples").filter_map(Result::ok);
        let files = names.filter(|entry| entry.path().extension().is_some_and(|end| end == "toml"));
        assert_eq!(files.count(), EXAMPLES.len());
        for example in EXAMPLES {
            let found = read(&SourceText::new(example.shows, example.text));
            assert!(found.is_ok(), "{}: {found:#?}", example.shows);
        }
    }

    /// A key that no shipped file and no example uses could not be learnt from one.
    #[test]
    fn every_key_and_every_form_occurs_in_a_file() {
        let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("assets");
        let mut texts: Vec<String> = EXAMPLES.iter().map(|example| example.text.to_owned()).collect();
        for entry in std::fs::read_dir(root.join("instruments")).expect("the shipped files") {
            texts.push(std::fs::read_to_string(entry.expect("an entry").path()).expect("a text"));
        }
        let used = |key: &Key| {
            let (first, inside) = (format!("{} =", key.name), format!("{{ {} =", key.name));
            let after = format!(", {} =", key.name);
            texts.iter().filter(|text| !text.starts_with("# How")).any(|text| {
                text.lines()
                    .any(|line| line.starts_with(&first) || line.contains(&inside) || line.contains(&after))
                    || text.contains(&format!("\n[{}]", key.name))
                    || text.contains(&format!("[[{}]]", key.name))
            })
        };
        let unused: Vec<&str> = keys().filter(|key| !used(key)).map(|key| key.name).collect();
        assert_eq!(unused, [""; 0]);
    }

    #[test]
    fn the_page_says_every_key() {
        let page = page();
        for key in keys() {
            assert!(page.contains(&format!("**`{}`**: {}", key.name, key.says)), "{}", key.name);
        }
        assert!(!page.contains("<!--"), "a mark was not filled");
    }
}
