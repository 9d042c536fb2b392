//! The keys of the file, as data: what the reader knows and what the documentation says. A new key is a line here.

use super::keys::Kind::{Count, Quantity, Range, Scales, Stage, Text, Texts, Word, Words};
use super::keys::Need::{Always, Default};
use super::keys::Place::{File, Other};
use super::keys::{Key, Kind, Need, words};
use super::{offered, other, top};
use crate::instrument::SetUp;

/// The keys of the file and of the table `[other]`, in the order in which files have them.
pub(super) static OF_FILE: &[Key] = &[
    key(&[File], "format", Count(1), Always, "The number of this format, which is 1.", "format = 1"),
    key(
        &[File],
        "id",
        Text,
        Always,
        "The name used in commands and in the record: small letters a-z, digits and hyphens, 64 at most.",
        "id = \"rule-inch-64\"",
    ),
    key(
        &[File],
        "title",
        Text,
        Always,
        "What a person calls the instrument.",
        "title = \"Steel rule, 6 in, 64ths\"",
    ),
    key(
        &[File],
        "family",
        Text,
        Always,
        "The family it is taught and cared for with: rule, micrometer, caliper, depth, or a word of your own.",
        "family = \"rule\"",
    ),
    key(
        &[File, Other],
        "unit",
        Word(&words(&top::UNITS)),
        Always,
        "The unit of every quantity in the file.",
        "unit = \"in\"",
    ),
    key(
        &[File, Other],
        "range",
        Range,
        Always,
        "The lowest and the highest setting, both of them whole steps of what is read; only a balanced dial goes below nought.",
        "range = [\"0 in\", \"1 in\"]",
    ),
    key(
        &[File, Other],
        "least-count",
        Quantity,
        Always,
        "The smallest value read without estimating, exactly what the last scale gives.",
        "least-count = \"0.001 in\"",
    ),
    key(
        &[File, Other],
        "settings",
        Quantity,
        Default("the least count"),
        "The steps in which the instrument is set, a part of the least count where settings between lines are wanted.",
        "settings = \"0.0005 in\"",
    ),
    key(
        &[File, Other],
        "notation",
        Word(&words(&top::STYLES)),
        Default("\"decimal\", for degrees \"angle\""),
        "How readings are written; \"fraction\" is for inches and halves of halves, \"angle\" for degrees alone.",
        "notation = \"decimal\"",
    ),
    key(
        &[File],
        "grows",
        Word(&words(&top::GROWS)),
        Default("\"uncovering\""),
        "Whether the thimble uncovers the sleeve or covers it as the reading grows (depth micrometers).",
        "grows = \"uncovering\"",
    ),
    key(
        &[File],
        "moves",
        Word(&words(&top::MOVES)),
        Default("\"finer\""),
        "Which member moves: the finer one, or the main scale under a fixed vernier (depth gauges).",
        "moves = \"finer\"",
    ),
    key(
        &[File, Other],
        "zero",
        Word(&words(&top::ZEROS)),
        Default("\"can-be-off\""),
        "Whether the closed tool can have a zero error; a rule has \"none\".",
        "zero = \"can-be-off\"",
    ),
    offered::HELD,
    key(
        &[File],
        "set-ups",
        Words(&words(&SetUp::WORDS)),
        Default("only the reading is asked for"),
        "On a protractor, how it may stand to a part whose angle is asked for, with a sketch of base, blade and work.",
        "set-ups = [\"as-read\", \"supplement\"]",
    ),
    key(
        &[File, Other],
        "engraved",
        Texts,
        Always,
        "What stands on the tool, one to six texts of at most 24 characters.",
        "engraved = [\"0-1 in\", \"0.001 in\"]",
    ),
    key(
        &[File],
        "source",
        Text,
        Always,
        "Where the geometry is published, or that it is common practice or from memory.",
        "source = \"from memory\"",
    ),
    key(
        &[Other],
        "joined",
        Word(&words(&other::JOINS)),
        Always,
        "Where these scales are: on the same beam along its upper or lower edge, or on a slide of their own.",
        "joined = \"above\"",
    ),
    key(
        &[Other],
        "reads",
        Texts,
        Always,
        "Two words: what the scales of the file are called in options, and what these are, which options spell as in reads=in.",
        "reads = [\"mm\", \"in\"]",
    ),
    key(
        &[Other],
        "source",
        Text,
        Default("the source of the file"),
        "Where the geometry of these scales is published, where it is not with the rest.",
        "source = \"from memory\"",
    ),
    key(&[File], "stage", Stage, Always, "The stages of the reading, coarse to fine.", "[[stage]]"),
    key(
        &[Other],
        "stage",
        Stage,
        Always,
        "The two stages of these scales, coarse to fine.",
        "[[other.stage]]",
    ),
    key(
        &[File],
        "other",
        Scales,
        Default("the tool has one set of scales"),
        "A second set of scales, with a unit, a range and stages [[other.stage]] of its own.",
        "[other]",
    ),
];

pub(crate) const fn key<P>(
    places: &'static [P],
    name: &'static str,
    kind: Kind,
    need: Need,
    says: &'static str,
    line: &'static str,
) -> Key<P> {
    Key { name, places, kind, need, says, line }
}
