//! The house rules, enforced: which floor may use which, one door for each crate, no floats where a coincidence is decided.
#![allow(missing_docs)]

mod floors;
mod readme;
mod words;
