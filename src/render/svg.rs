//! Vector pictures.
