//! Floor 5. What is given out to a class and comes back, and what a class's answers say.
//!
//! | type | what it is |
//! |---|---|
//! | [`card::Card`] | a set as it is given out, signed |
//! | [`returned::Returned`], [`returned::Writer`] | one sitting as a file: its lines chained, the last one signed |
//! | [`seal::Secret`], [`seal::Public`] | keys, and what a signature shows |
//! | [`sitting::Sitting`] | one paper as somebody sat it |
//! | [`verdict::Judged`] | what a sitting comes to: right, gross and fine apart, passed or not yet and why |
//! | [`items::Analysis`] | difficulty and discrimination of each question, reliability of the whole |

pub mod card;
pub mod items;
pub mod returned;
pub mod seal;
pub mod sitting;
#[cfg(test)]
pub(crate) mod testing;
pub mod text;
pub mod verdict;
