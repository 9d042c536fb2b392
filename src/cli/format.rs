//! What `draw` can make.

use clap::ValueEnum;

/// What `draw` makes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum Format {
    /// Lines of characters
    Text,
    /// What stands where, in whole steps
    Json,
    /// A vector picture
    Svg,
    /// The same on a page
    Pdf,
    /// What can be seen, in words; the reading is not said
    Describe,
    /// How it is read, step by step
    Explain,
}
