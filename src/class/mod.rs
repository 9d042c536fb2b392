//! Floor 5. What a class's answers say: which questions bite, and how far a score can be trusted.
//!
//! | type | what it is |
//! |---|---|
//! | [`items::Analysis`] | difficulty and discrimination of each question, reliability of the whole |

pub mod items;
