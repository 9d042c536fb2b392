//! Floor 5. What is given out to a class and comes back, and what a class's answers say.
//!
//! | type | what it is |
//! |---|---|
//! | [`card::Card`] | a set as it is given out, signed |
//! | [`returned::Returned`], [`returned::Writer`] | one sitting as a file: its lines chained, the last one signed |
//! | [`seal::Secret`], [`seal::Public`] | keys, and what a signature shows |
//! | [`remark::remark`] | returned work marked again from scratch, and what is not as it claims |
//! | [`gather::gather()`] | what the files that came back come to |
//! | [`sitting::Sitting`] | one paper as somebody sat it |
//! | [`verdict::Judged`] | what a sitting comes to: right, gross and fine apart, passed or not yet and why |
//! | [`roster::Roster`] | who is behind the codes |
//! | [`record::Row`] | what the class record keeps of a learner: made from the answers, and made anew from them |
//! | [`record::Class`] | who is on the roster, how each stands, who is missing from what was issued |
//! | [`questions::Questions`] | which questions of a set bite, and what is answered to them |
//! | [`practical::Sheet`] | what somebody did with a real tool, ticked beside them, and check parts measured |
//! | [`room::Room`] | the class record as it is looked at |
//! | [`invented::Invented`] | a class made up, for trying out what is made of a real one |
//! | [`items::Analysis`] | difficulty and discrimination of each question, reliability of the whole |

pub mod card;
pub mod gather;
pub mod invented;
pub mod items;
pub mod practical;
pub mod questions;
pub mod record;
pub mod remark;
pub mod returned;
pub mod room;
pub mod roster;
pub mod seal;
pub mod sitting;
#[cfg(test)]
pub(crate) mod testing;
pub mod text;
pub mod verdict;
