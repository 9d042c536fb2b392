//! The class record: who reads how, what came back of what was issued, what the class gets wrong.
//!
//! | type | what it is |
//! |---|---|
//! | [`Row`] | one learner, made from the answers |
//! | [`Brief`] | one sitting in it |
//! | [`Person`], [`Issued`] | who is on the roster, and what was given out to whom |
//! | [`Class`], [`Member`] | both together, a group of it or all |
//! | [`Given`], [`Stand`], [`Back`] | a card, and how it stands with each of them: tries, late, nothing back |
//! | [`Common`] | a misread, and how many have it |
//!
//! Nothing in it is kept but the rows, and those are made anew whenever their form changes or they are gone.

mod class;
mod row;

pub use class::{Back, Class, Common, Given, Issued, Member, Person, Stand, Try};
pub(in crate::class) use row::middle;
pub use row::{Brief, Missed, ROW_FORM, Row, Tool, Week, rows};
