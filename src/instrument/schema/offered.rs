//! The keys of what makers do differently, and of how a tool is held: each lists its alternatives.

use super::keys::Kind::Words;
use super::keys::Need::Default;
use super::keys::Place::{Dial, File, Line};
use super::keys::{Key, words};
use super::table::key;
use super::{stage, top};

/// The way round it is held.
pub(super) const HELD: Key = key(
    &[File],
    "held",
    Words(&words(&top::HELD)),
    Default("it is held the usual way"),
    "Which ways round the tool is held when it is read: as drawn, or turned by half a turn; the usual one first.",
    "held = [\"usual\", \"turned\"]",
);

/// What figures count.
pub(super) const FIGURES: Key = key(
    &[Line],
    "figures",
    Words(&words(&stage::COUNTS)),
    Default("figures count what `worth` says"),
    "On a metric main scale or rule, what makers let the figures count, millimetres or centimetres, the usual one first.",
    "figures = [\"mm\", \"cm\"]",
);

/// The way a small hand turns.
pub(super) const COUNTER: Key = key(
    &[Dial],
    "counter",
    Words(&words(&stage::COUNTERS)),
    Default("the small hand turns with the large one"),
    "Whether the small hand of a counter turns with the large one or against it, the usual way first.",
    "counter = [\"with\", \"against\"]",
);
