//! The rules a definition must keep, one a file.
