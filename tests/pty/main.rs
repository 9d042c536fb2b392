//! The real program in a real pseudo-terminal. Nothing here sleeps, is tried again, or is left out.
#![cfg(unix)]
#![allow(missing_docs)]

mod asked;
mod child;
mod crash;
mod driver;
mod exercise;
mod exits;
mod idle;
mod project;
mod shop;
mod stops;
mod story;
mod surroundings;
mod terminal;
