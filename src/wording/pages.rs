//! Pages that are printed as they are.

/// What there is for an instructor.
pub const TEACHING: &str = include_str!("../../assets/pages/teaching.md");
/// The instructor's round.
pub const ROUND: &str = include_str!("../../assets/pages/round.md");
/// The shared folder and its rights.
pub const FOLDER: &str = include_str!("../../assets/pages/folder.md");
