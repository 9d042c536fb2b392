//! The lines that light up as a reading is explained.

pub(super) use crate::render::lines_of as lit;
