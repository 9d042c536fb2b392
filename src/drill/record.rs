//! The record of one answered question: resolved, so that it can be drawn and marked again in twenty years.
//!
//! Everything a mark rests on stands in it as text: the instrument and its revision, where the instrument stood, what was
//! typed. Nothing is looked up elsewhere.

use super::task::Kind;
use crate::exact::{Quantity, QuantityFault};
pub use crate::reading::Asks;
use serde::{Deserialize, Serialize};

/// Enums that are one word in a record, on a screen's status line and in JSON.
macro_rules! words {
    ($(#[$about:meta])* $name:ident { $($(#[$doc:meta])* $variant:ident = $word:literal,)+ }) => {
        $(#[$about])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
        pub enum $name {
            $($(#[$doc])* #[serde(rename = $word)] $variant,)+
        }

        impl $name {
            /// Every one of them.
            pub const ALL: &'static [Self] = &[$(Self::$variant),+];

            /// The word that stands in a record.
            pub const fn word(self) -> &'static str {
                match self {
                    $(Self::$variant => $word,)+
                }
            }

            /// Every word and what it means.
            #[allow(dead_code)]
            pub(in crate::drill) const WORDS: [(&'static str, Self); [$($word),+].len()] =
                [$(($word, Self::$variant)),+];

            /// The one that a record's word means; `None` for any other text.
            pub fn from_word(word: &str) -> Option<Self> {
                Self::ALL.iter().copied().find(|one| one.word() == word)
            }
        }

        impl std::fmt::Display for $name {
            fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                f.write_str(self.word())
            }
        }
    };
}

pub(in crate::drill) use words;

words! {
    /// How the instrument was shown.
    View {
        /// In the hand.
        Held = "held",
        /// Laid flat.
        Flat = "flat",
    }
}

words! {
    /// What became of an answer.
    Verdict {
        /// Right, and written as the instrument reads.
        Right = "right",
        /// Right in value, written otherwise (`.25` for `0.250`).
        RightValue = "right-value",
        /// A wrong reading with a name.
        Misread = "misread",
        /// A wrong reading without a name.
        Other = "other",
        /// Passed over without an answer.
        Skipped = "skipped",
    }
}

impl Verdict {
    /// True for an answer that has the right value, however it was written.
    pub const fn is_right(self) -> bool {
        matches!(self, Self::Right | Self::RightValue)
    }

    /// True unless the question was passed over.
    pub const fn is_answer(self) -> bool {
        !matches!(self, Self::Skipped)
    }
}

/// One answered (or skipped) question.
///
/// Values are text with their unit, as [`Quantity::parse`] reads them: `0.2862 in`, `1 3/64 in`, `35°10'`.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Attempt {
    /// Who answered.
    pub learner: String,
    /// When, in UTC as RFC 3339 (`2026-03-09T07:30:00Z`). It dates an attempt; it never orders one.
    pub at: String,
    /// The instrument's id.
    pub instrument: String,
    /// The content hash of the instrument's definition.
    pub revision: String,
    /// Version of the question generator.
    pub generator: u32,
    /// Seed of the run the question came from.
    pub seed: u64,
    /// The question's number in that run, from 1.
    pub number: u32,
    /// What differs from the plain instrument: empty, or such as `halves=above`.
    pub variant: String,
    /// What the instrument was read under beside its zero error: empty, or such as `lead=0.02 mm`.
    #[serde(default)]
    pub conditions: String,
    /// What kind of question it was.
    #[serde(default)]
    pub kind: Kind,
    /// What was given beside the picture: empty, or such as `bore 0.2500 +0.0010/-0.0000 in`.
    #[serde(default)]
    pub given: String,
    /// What was asked for.
    pub asks: Asks,
    /// Where the moving member stood, with unit.
    pub setting: String,
    /// The instrument's zero error, with unit; `0 in` when it had none.
    pub zero_error: String,
    /// How the instrument was shown.
    pub view: View,
    /// True when the glass was used.
    pub glass: bool,
    /// The style of the drawn lines: `thin`, `bars`, `cell`, `ascii`.
    pub lines: String,
    /// Width of the picture in cells.
    pub cols: u32,
    /// Height of the picture in cells.
    pub rows: u32,
    /// The answer as typed.
    pub answer: String,
    /// The answer that was wanted, with unit.
    pub expected: String,
    /// What became of it.
    pub verdict: Verdict,
    /// Ids of the misreads that give the typed answer.
    pub misreads: Vec<String>,
    /// Time from the picture to the answer, in milliseconds.
    pub took_ms: u64,
}

impl Attempt {
    /// True where what was answered was put down without what is right: it is to be marked.
    pub fn is_unmarked(&self) -> bool {
        self.setting.is_empty()
    }

    /// The setting as a quantity, in base units; a fault when the record's text is none.
    pub fn setting_quantity(&self) -> Result<Quantity, QuantityFault> {
        Quantity::parse(&self.setting)
    }

    /// The zero error as a quantity, in base units; a fault when the record's text is none.
    pub fn zero_error_quantity(&self) -> Result<Quantity, QuantityFault> {
        Quantity::parse(&self.zero_error)
    }

    /// The wanted answer as a quantity, in base units; a fault when the record's text is none.
    pub fn expected_quantity(&self) -> Result<Quantity, QuantityFault> {
        Quantity::parse(&self.expected)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::exact::{Exact, Unit};

    fn attempt() -> Attempt {
        Attempt {
            learner: "me".to_owned(),
            at: "2026-03-09T07:30:00Z".to_owned(),
            instrument: "bevel-protractor".to_owned(),
            revision: "5f1c".to_owned(),
            generator: 1,
            seed: u64::MAX,
            number: 3,
            variant: String::new(),
            conditions: "lead=-10'".to_owned(),
            kind: Kind::Read,
            given: String::new(),
            asks: Asks::ZeroError,
            setting: "35\u{b0}10'".to_owned(),
            zero_error: "-5'".to_owned(),
            view: View::Held,
            glass: true,
            lines: "thin".to_owned(),
            cols: 80,
            rows: 24,
            answer: " 35 15 ".to_owned(),
            expected: "35\u{b0}15'".to_owned(),
            verdict: Verdict::RightValue,
            misreads: vec!["zero-ignored".to_owned()],
            took_ms: 4_200,
        }
    }

    #[test]
    fn words_and_serde_agree() -> Result<(), serde_json::Error> {
        for verdict in Verdict::ALL {
            assert_eq!(Verdict::from_word(verdict.word()), Some(*verdict));
            assert_eq!(serde_json::to_string(verdict)?, format!("\"{verdict}\""));
        }
        for asks in [Asks::Reading, Asks::Corrected, Asks::ZeroError] {
            assert_eq!(Asks::from_word(asks.word()), Some(asks));
            assert_eq!(serde_json::to_string(&asks)?, format!("\"{}\"", asks.word()));
        }
        for view in View::ALL {
            assert_eq!(View::from_word(view.word()), Some(*view));
            assert_eq!(serde_json::to_string(view)?, format!("\"{view}\""));
        }
        assert_eq!(Verdict::from_word("Right"), None);
        assert_eq!(Asks::from_word(""), None);
        Ok(())
    }

    #[test]
    fn through_json_and_back() -> Result<(), serde_json::Error> {
        let text = serde_json::to_string(&attempt())?;
        assert!(text.contains("\"asks\":\"zero-error\""), "{text}");
        assert_eq!(serde_json::from_str::<Attempt>(&text)?, attempt());
        Ok(())
    }

    #[test]
    fn values_are_quantities() {
        let minutes = |n| Ok(Quantity { value: Exact::whole(n), unit: Unit::Minute });
        assert_eq!(attempt().setting_quantity(), minutes(2110));
        assert_eq!(attempt().zero_error_quantity(), minutes(-5));
        assert_eq!(attempt().expected_quantity(), minutes(2115));
    }

    #[test]
    fn what_counts() {
        let right: Vec<_> = Verdict::ALL.iter().filter(|v| v.is_right()).collect();
        assert_eq!(right, [&Verdict::Right, &Verdict::RightValue]);
        let passed_over: Vec<_> = Verdict::ALL.iter().filter(|v| !v.is_answer()).collect();
        assert_eq!(passed_over, [&Verdict::Skipped]);
    }
}
