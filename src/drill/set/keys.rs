//! The keys of a drill set, as data: what the reader knows and what the documentation says. A new key is a line here.

use super::{Allowed, Feedback, Met, Order, ZeroOff};
use crate::drill::{Kind, Level};
use crate::instrument::schema::Kind::{Count, Own, Text, Word, Words};
use crate::instrument::schema::Need::{Always, Default};
use crate::instrument::schema::{self, Sort, key, words};

/// A table of a drill set that has keys of its own.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Place {
    /// The set itself.
    Set,
    /// The table `[sequential]`.
    Sequential,
    /// One of the tables `[[questions]]`.
    Questions,
    /// A reading that is given, in braces.
    Reading,
}

impl Place {
    /// Every place, in the order in which the documentation goes through them.
    pub const ALL: [Self; 4] = [Self::Set, Self::Questions, Self::Reading, Self::Sequential];

    /// What to call it in a sentence.
    pub fn called(self) -> &'static str {
        match self {
            Self::Set => "the set",
            Self::Sequential => "[sequential]",
            Self::Questions => "[[questions]]",
            Self::Reading => "a reading",
        }
    }

    /// One word, for scripts.
    pub fn word(self) -> &'static str {
        match self {
            Self::Set => "set",
            Self::Sequential => "sequential",
            Self::Questions => "questions",
            Self::Reading => "reading",
        }
    }
}

/// A key of a drill set.
pub type Key = schema::Key<Place>;

/// A drill set, as a sort of file.
pub(super) static SET: Sort = Sort {
    is_key: |name| KEYS.iter().any(|key| key.name == name),
    called: "a drill set",
    about: "the set",
    in_unit: "the instrument",
    tables: "what is asked begins with a line [[questions]]",
};

/// The keys of a place, in the order of the table.
pub fn keys_of(place: Place) -> impl Iterator<Item = &'static Key> {
    KEYS.iter().filter(move |key| key.places.contains(&place))
}

/// The names of the keys of a place.
pub(super) fn names_of(place: Place) -> Vec<&'static str> {
    keys_of(place).map(|key| key.name).collect()
}

const PERCENT: schema::Kind = Own("percent", "a share such as \"80 %\"");
const QUANTITY: schema::Kind = Own("quantity", "a quantity");
const QUOTED: schema::Kind = Own("text", "a text of at most 400 characters");

use Place::{Questions, Reading, Sequential, Set};

/// Every key: of the set, of its questions, of readings and of the sequential rule; each in the order in which files have them.
pub static KEYS: &[Key] = &[
    key(
        &[Set],
        "set",
        Text,
        Always,
        "The name used in commands and in the record: small letters a-z, digits and hyphens, 64 at most.",
        "set = \"first-rule\"",
    ),
    key(&[Set], "title", Text, Always, "What a person calls the set.", "title = \"First steel rule\""),
    key(
        &[Set],
        "about",
        QUOTED,
        Default("nothing is said about it"),
        "Whom it is for, and what comes before it.",
        "about = \"First week, after the lesson on the steel rule.\"",
    ),
    key(
        &[Set],
        "count",
        Count(1),
        Always,
        "How many questions a paper has; under a sequential rule, how many at the most.",
        "count = 20",
    ),
    key(
        &[Set],
        "order",
        Word(&words(&Order::WORDS)),
        Default("\"mixed\""),
        "Whether the questions come one block after the other or mixed.",
        "order = \"blocked\"",
    ),
    key(
        &[Set],
        "time",
        Own("time", "a time such as \"10 min\" or \"90 s\""),
        Default("as long as it takes"),
        "The time for the whole set, from 10 s to 4 h.",
        "time = \"10 min\"",
    ),
    key(
        &[Set],
        "glass",
        Word(&words(&Allowed::WORDS)),
        Default("\"allowed\""),
        "Whether the glass may be used; a tool that is not whole in the window cannot be asked without it.",
        "glass = \"forbidden\"",
    ),
    key(
        &[Set],
        "feedback",
        Word(&words(&Feedback::WORDS)),
        Default("\"now\", with a pass rule \"at-the-end\""),
        "When it is said what was right; a set with a pass rule says so at the end.",
        "feedback = \"at-the-end\"",
    ),
    key(
        &[Set],
        "pass",
        Own("pass", "a whole number such as 28, a text such as \"28 of 30\", or \"sequential\""),
        Default("it is an exercise and nobody passes or fails"),
        "How many must be right, or that questions go on until it is clear.",
        "pass = \"28 of 30\"",
    ),
    key(
        &[Set],
        "seed",
        Own("seed", "a whole number from 0"),
        Default("every learner gets a paper of their own"),
        "A number; with it everybody gets the same paper.",
        "seed = 7",
    ),
    key(
        &[Questions],
        "instrument",
        Text,
        Always,
        "The instrument that is asked about, as `linefall list instruments` has it.",
        "instrument = \"rule-metric\"",
    ),
    key(
        &[Questions],
        "share",
        Count(1),
        Default("1"),
        "How many parts of the count these questions get, beside the shares of the others.",
        "share = 2",
    ),
    key(
        &[Questions],
        "kinds",
        Words(&words(&Kind::WORDS)),
        Default("plain readings, or those of `level`"),
        "The kinds of question, in turn.",
        "kinds = [\"read\", \"set-it\"]",
    ),
    key(
        &[Questions],
        "level",
        Word(&words(&Level::WORDS)),
        Default("plain readings, or those of `kinds`"),
        "All kinds of question of a level but same-again, which is asked for by its name.",
        "level = \"traps\"",
    ),
    key(
        &[Questions],
        "from",
        QUANTITY,
        Default("the lowest size of the instrument"),
        "The smallest size that is asked, zero error taken off.",
        "from = \"10 mm\"",
    ),
    key(
        &[Questions],
        "to",
        QUANTITY,
        Default("the highest size of the instrument"),
        "The largest size that is asked, zero error taken off.",
        "to = \"100 mm\"",
    ),
    key(
        &[Questions],
        "zero",
        Word(&words(&ZeroOff::WORDS)),
        Default("\"as-drawn\", three times in ten"),
        "Whether the zero of the tool is off.",
        "zero = \"never\"",
    ),
    key(
        &[Questions],
        "conditions",
        Word(&words(&Met::WORDS)),
        Default("\"as-drawn\""),
        "Whether the edge shows lines early or late, figures are worn, the lock is loose or the tool stands between lines.",
        "conditions = \"never\"",
    ),
    key(
        &[Questions],
        "variant",
        Text,
        Default("as makers differ"),
        "How the tool is made or held, as `linefall draw --variant` takes it.",
        "variant = \"figures=cm\"",
    ),
    key(
        &[Questions],
        "provoke",
        Own("slips", "a list of the ids of `linefall list misreads`"),
        Default("whatever comes"),
        "What must go wrong on the question for whoever reads like that, one after the other in turn.",
        "provoke = [\"vernier-ignored\"]",
    ),
    key(
        &[Questions],
        "spread",
        Own("flag", "true or false"),
        Default("false"),
        "Of ten readings one has its zero off and one is near a line, over all of the set that are spread.",
        "spread = true",
    ),
    key(
        &[Questions],
        "readings",
        Own("readings", "a list of quantities, or of readings in { }"),
        Default("all are drawn"),
        "What the scales show in the first of these questions, in this order.",
        "readings = [\"12 mm\", \"47.5 mm\"]",
    ),
    key(&[Reading], "reading", QUANTITY, Always, "What the scales show.", "reading = \"12 mm\""),
    key(
        &[Reading],
        "zero-error",
        QUANTITY,
        Default("the zero is right"),
        "What the closed tool shows.",
        "zero-error = \"0.1 mm\"",
    ),
    key(
        &[Sequential],
        "bad",
        PERCENT,
        Default("\"80 %\""),
        "Somebody who gets so many right should not pass.",
        "bad = \"80 %\"",
    ),
    key(
        &[Sequential],
        "good",
        PERCENT,
        Default("\"95 %\""),
        "Somebody who gets so many right should pass.",
        "good = \"95 %\"",
    ),
    key(
        &[Sequential],
        "lets-through",
        PERCENT,
        Default("\"5 %\""),
        "How often the bad one may pass.",
        "lets-through = \"5 %\"",
    ),
    key(
        &[Sequential],
        "turns-away",
        PERCENT,
        Default("\"5 %\""),
        "How often the good one may fail.",
        "turns-away = \"5 %\"",
    ),
    key(
        &[Sequential],
        "least",
        Count(1),
        Default("10"),
        "How many questions there are at the least.",
        "least = 10",
    ),
    key(
        &[Set],
        "sequential",
        Own("table", "a table [sequential]"),
        Default("the usual figures"),
        "The figures of pass = \"sequential\".",
        "[sequential]",
    ),
    key(
        &[Set],
        "questions",
        Own("tables", "a table [[questions]], one for each thing that is asked"),
        Always,
        "What is asked.",
        "[[questions]]",
    ),
];
