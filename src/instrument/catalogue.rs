//! The shipped definitions with the user's own on top.
