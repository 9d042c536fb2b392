//! What can be seen, line by line.
