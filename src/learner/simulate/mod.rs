//! Apprentices that are played, so that what the program does with a learner is judged before a person sees it.
//!
//! | type | what it is |
//! |---|---|
//! | [`Nature`] | what an apprentice is made of; every number with its source, or said to be assumed |
//! | [`Apprentice`] | one of them: what is held, what was practised |
//! | [`Class`] | the instruments they learn on |
//! | [`Policy`], [`Course`] | who chooses the questions, and the days as they went |
//! | [`Findings`] | what many courses come to |
//!
//! They answer the real questions, are marked by the real marks, and what is kept of them is a real record: it goes through
//! the summary, the plan of the day, the sitting and the gates. Days and chance are arguments.

mod apprentice;
mod course;
mod findings;
mod luck;
mod nature;
#[cfg(test)]
mod tests;

pub use apprentice::{Apprentice, Class};
pub use course::{Aims, Course, Event, Played, Policy, Stood, What, play};
pub use findings::{Findings, Middle, Part, Rate, Week};
pub use nature::Nature;
