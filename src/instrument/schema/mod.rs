//! The raw file format.
