//! Which picture must be whole.
