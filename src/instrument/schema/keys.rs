//! What a key of the file is: where it stands, what it holds, and what holds where it is left out.
//!
//! The one list of keys is that of [`keys`]. The reader knows no others, and the documentation is written from it.

use super::Shape;

/// A table of the file that has keys of its own.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Place {
    /// The file itself.
    File,
    /// A stage with `form = "line"`.
    Line,
    /// A stage with `form = "drum"`.
    Drum,
    /// A stage with `form = "dial"`.
    Dial,
    /// A stage with `form = "vernier"`.
    Vernier,
    /// A stage with `form = "fixed"`.
    Fixed,
    /// A rule in `numerals`.
    Figures,
    /// The table `[other]`, a second set of scales.
    Other,
}

impl Place {
    /// Every place, in the order in which the documentation goes through them.
    pub const ALL: [Self; 8] = [
        Self::File,
        Self::Line,
        Self::Drum,
        Self::Dial,
        Self::Vernier,
        Self::Fixed,
        Self::Figures,
        Self::Other,
    ];

    /// What to call it in a sentence.
    pub fn called(self) -> &'static str {
        match self {
            Self::File => "the file",
            Self::Line => "a line stage",
            Self::Drum => "a drum",
            Self::Dial => "a dial",
            Self::Vernier => "a vernier",
            Self::Fixed => "a fixed stage",
            Self::Figures => "a rule for numerals",
            Self::Other => "a second set of scales",
        }
    }

    /// One word, for scripts.
    pub fn word(self) -> &'static str {
        match self {
            Self::File => "file",
            Self::Line => "line",
            Self::Drum => "drum",
            Self::Dial => "dial",
            Self::Vernier => "vernier",
            Self::Fixed => "fixed",
            Self::Figures => "numerals",
            Self::Other => "other",
        }
    }

    fn is_stage(self) -> bool {
        !matches!(self, Self::File | Self::Figures | Self::Other)
    }
}

impl From<Shape> for Place {
    fn from(shape: Shape) -> Self {
        match shape {
            Shape::Line => Self::Line,
            Shape::Drum => Self::Drum,
            Shape::Dial => Self::Dial,
            Shape::Vernier => Self::Vernier,
            Shape::Fixed => Self::Fixed,
        }
    }
}

/// What a key holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// Words in quotes.
    Text,
    /// A list of texts.
    Texts,
    /// A quantity above nought.
    Quantity,
    /// A list of quantities above nought.
    Quantities,
    /// A list of quantities, nought or above.
    Lengths,
    /// The lowest and the highest setting.
    Range,
    /// A whole number from this one to 1,000, without quotes or unit.
    Count(i64),
    /// The same, or a list of such numbers to choose from.
    Counts(i64),
    /// One of these words.
    Word(&'static [&'static str]),
    /// A list of these words.
    Words(&'static [&'static str]),
    /// A list of rules in braces.
    Rules,
    /// One of the stages, a table of its own.
    Stage,
    /// A second set of scales, a table of its own.
    Scales,
    /// What another sort of file has of its own: one word for scripts, and in words.
    Own(&'static str, &'static str),
}

impl Kind {
    /// In words.
    pub fn called(self) -> String {
        let quoted = |words: &[&str]| -> Vec<String> { words.iter().map(|w| format!("\"{w}\"")).collect() };
        match self {
            Self::Text => "a text".to_owned(),
            Self::Texts => "a list of texts".to_owned(),
            Self::Quantity => "a quantity above nought".to_owned(),
            Self::Quantities => "a list of quantities above nought".to_owned(),
            Self::Lengths => "a list of quantities, nought or above".to_owned(),
            Self::Range => "two quantities".to_owned(),
            Self::Count(least) => format!("a whole number from {least}"),
            Self::Counts(least) => format!("a whole number from {least}, or a list of two"),
            Self::Word(words) => match quoted(words).split_last() {
                Some((last, before)) if !before.is_empty() => format!("{} or {last}", before.join(", ")),
                _ => quoted(words).concat(),
            },
            Self::Words(words) => format!("a list of {}", quoted(words).join(" and ")),
            Self::Rules => "a list of rules in { }".to_owned(),
            Self::Stage => "a table [[stage]], one for each stage".to_owned(),
            Self::Scales => "a table [other]".to_owned(),
            Self::Own(_, called) => called.to_owned(),
        }
    }

    /// One word, for scripts.
    pub fn word(self) -> &'static str {
        match self {
            Self::Text => "text",
            Self::Texts => "texts",
            Self::Quantity => "quantity",
            Self::Quantities | Self::Lengths => "quantities",
            Self::Range => "range",
            Self::Count(_) => "count",
            Self::Counts(_) => "counts",
            Self::Word(_) => "word",
            Self::Words(_) => "words",
            Self::Rules => "rules",
            Self::Stage => "stage",
            Self::Scales => "scales",
            Self::Own(word, _) => word,
        }
    }
}

/// Whether a key may be left out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Need {
    /// Never.
    Always,
    /// Only where this other key stands.
    Unless(&'static str),
    /// Yes, and this holds then.
    Default(&'static str),
}

impl Need {
    /// In words.
    pub fn called(self) -> String {
        match self {
            Self::Always => "required".to_owned(),
            Self::Unless(other) => format!("required unless `{other}` is given"),
            Self::Default(holds) => format!("left out: {holds}"),
        }
    }
}

/// A key of the file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Key<P: 'static = Place> {
    /// How it is spelled.
    pub name: &'static str,
    /// The tables that have it.
    pub places: &'static [P],
    /// What it holds.
    pub kind: Kind,
    /// Whether it may be left out.
    pub need: Need,
    /// What it says, in one sentence.
    pub says: &'static str,
    /// What its line may look like, in inches.
    pub line: &'static str,
}

/// The keys of a place, in the order of the table.
pub fn keys_of(place: Place) -> impl Iterator<Item = &'static Key> {
    keys().filter(move |key| key.places.contains(&place))
}

/// The names of the keys of a place.
pub(super) fn names_of(place: Place) -> Vec<&'static str> {
    keys_of(place).map(|key| key.name).collect()
}

/// The names that some form of stage has, for a stage whose form is not known.
pub(super) fn names_of_any_stage() -> Vec<&'static str> {
    keys().filter(|key| key.places.iter().any(|place| place.is_stage())).map(|key| key.name).collect()
}

/// Every key: file, stages, rules for numerals; each in the order in which files have them.
pub fn keys() -> impl Iterator<Item = &'static Key> {
    super::table::OF_FILE.iter().chain(super::stage_table::OF_STAGES)
}

/// True for a name that stands in the table. The reader asks for no other.
pub(super) fn is_key(name: &str) -> bool {
    keys().any(|key| key.name == name)
}

/// The words of a list of words and what they mean.
pub(crate) const fn words<T: Copy, const N: usize>(list: &[(&'static str, T); N]) -> [&'static str; N] {
    let mut words = [""; N];
    let mut n = 0;
    while n < N {
        words[n] = list[n].0;
        n += 1;
    }
    words
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::diag::SourceText;
    use crate::instrument::schema::read;

    #[test]
    fn no_place_has_a_key_twice() {
        for place in Place::ALL {
            let mut names = names_of(place);
            names.sort_unstable();
            let count = names.len();
            names.dedup();
            assert_eq!(count, names.len(), "{place:?}");
        }
    }

    #[test]
    fn every_key_has_a_place_and_one_sentence() {
        for key in keys() {
            assert!(!key.places.is_empty(), "{}", key.name);
            assert!(key.says.ends_with('.') && !key.says.contains(". "), "{}: {}", key.name, key.says);
            assert!(key.says.starts_with(char::is_uppercase), "{}: {}", key.name, key.says);
            assert!(key.says.len() < 220, "{}: {}", key.name, key.says);
            if let Need::Unless(other) = key.need {
                assert!(is_key(other), "{other}");
            }
        }
    }

    /// The line of a key is read where it stands: nothing is said about it but what a bare file lacks.
    #[test]
    fn every_line_is_read_in_its_place() {
        for key in keys() {
            for place in key.places {
                let text = match place {
                    _ if matches!(key.kind, Kind::Stage | Kind::Scales) => continue,
                    Place::Other if key.name == "unit" => format!("[other]\n{}", key.line),
                    Place::Other => format!("unit = \"in\"\n[other]\nunit = \"in\"\n{}", key.line),
                    Place::File if key.name == "unit" => key.line.to_owned(),
                    Place::File => format!("unit = \"in\"\n{}", key.line),
                    Place::Figures => {
                        format!("unit = \"in\"\n[[stage]]\nform = \"line\"\nnumerals = [{{ {} }}]", key.line)
                    }
                    stage if key.name == "form" => format!("[[stage]]\nform = \"{}\"", stage.word()),
                    stage => {
                        format!("unit = \"in\"\n[[stage]]\nform = \"{}\"\n{}", stage.word(), key.line)
                    }
                };
                let found = read(&SourceText::new("x.toml", text.as_str())).faults;
                let lacks: Vec<_> = found.iter().filter(|fault| fault.code != "missing-key").collect();
                assert!(lacks.is_empty(), "{} in {}: {lacks:#?}", key.name, place.called());
                assert!(
                    key.line.starts_with(key.name) || matches!(key.kind, Kind::Stage | Kind::Scales),
                    "{}",
                    key.line
                );
            }
        }
    }

    /// A key that is read but not in the table would be refused in every file.
    #[test]
    fn what_is_not_in_the_table_is_no_key() {
        assert!(is_key("division") && !is_key("colour"));
        let text = "unit = \"in\"\n[[stage]]\nform = \"line\"\ncolour = 1\n";
        let found = read(&SourceText::new("x.toml", text)).faults;
        assert!(found.iter().any(|fault| fault.code == "unknown-key"), "{found:?}");
    }
}
