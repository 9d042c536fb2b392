//! What the answers say about how someone reads: correctly, by a misread that can be named, or by something unlisted.
//!
//! | type | what it is |
//! |---|---|
//! | [`Suspects`] | the misreads that happen on an instrument; those that answer alike are one |
//! | [`Belief`] | the probability of every explanation |
//! | [`Prior`] | what is believed before the first answer |
//! | [`Inquiry`] | a run of questions and answers, and the [`Diagnosis`] they come to |
//! | [`Pool`] | candidates for the next question, and the choice of the one that tells most |
//!
//! Everything is a function of the questions and answers in their order.

mod belief;
mod both;
mod history;
mod inquiry;
mod prior;
mod suspects;
mod telling;
#[cfg(test)]
mod tests;

pub use belief::{Belief, Hypothesis};
pub use inquiry::{CONFIRMED, COVERED, Diagnosis, Heard, Inquiry, MOST, SURE, Status, UNEXPLAINED};
pub use prior::Prior;
pub use suspects::{Predicted, Suspect, Suspects};
pub use telling::{FRESH, POOL, Pool};
