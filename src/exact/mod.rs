//! Floor 0. Exact quantities and the way they are spelled.
//!
//! | type | what it is |
//! |---|---|
//! | [`Unit`] | inch, millimetre, minute of arc: an instrument has one |
//! | [`Exact`] | an exact number in an instrument's unit |
//! | [`Quantity`] | an [`Exact`] with its [`Unit`], read from text such as `1/64 in` |
//! | [`Quanta`], [`Lattice`] | whole-number positions, and what one of them is worth |
//! | [`Notation`] | how a value is written: decimals, a fraction, degrees and minutes |
//! | [`Tolerance`], [`TitleBlock`] | a size as a drawing gives it |
//! | [`Typed`] | what a person typed, digits kept |
//!
//! Nothing here rounds silently and nothing is a float.

mod lattice;
mod notation;
mod quantity;
mod round;
mod tolerance;
mod typed;
mod unit;
mod value;

pub use lattice::{Lattice, Quanta};
pub use notation::Notation;
pub use quantity::{Quantity, QuantityFault};
pub use tolerance::{TitleBlock, Tolerance, ToleranceFault, Written};
pub use typed::{Nonsense, Typed, TypedForm, parse_answer};
pub use unit::Unit;
pub use value::Exact;
