//! Floor 5. What is given out to a class and comes back, and what a class's answers say.
//!
//! | type | what it is |
//! |---|---|
//! | [`sitting::Sitting`] | one paper as somebody sat it |
//! | [`verdict::Judged`] | what a sitting comes to: right, gross and fine apart, passed or not yet and why |
//! | [`items::Analysis`] | difficulty and discrimination of each question, reliability of the whole |

pub mod items;
pub mod sitting;
#[cfg(test)]
pub(crate) mod testing;
pub mod verdict;
