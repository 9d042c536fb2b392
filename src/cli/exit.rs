//! How a command ends.

use crate::render::Refusal;
use crate::store::StoreError;
use std::io;
use std::process::ExitCode;

/// The exit codes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Exit {
    /// 0: everything is in order.
    Fine,
    /// 1: something was found: a faulty file, a picture that cannot be drawn truly.
    Findings,
    /// 2: the command was not understood.
    Usage,
    /// 3: something could not be read or written.
    Trouble,
}

impl Exit {
    /// The number.
    pub const fn code(self) -> u8 {
        match self {
            Self::Fine => 0,
            Self::Findings => 1,
            Self::Usage => 2,
            Self::Trouble => 3,
        }
    }
}

impl From<Exit> for ExitCode {
    fn from(exit: Exit) -> Self {
        Self::from(exit.code())
    }
}

/// Why a command stopped before its end.
#[derive(Debug)]
pub enum Halt {
    /// Whoever read the results has seen enough. That is no failure.
    ReaderGone,
    /// One sentence for the standard error, and how it ends.
    Said {
        /// How it ends.
        exit: Exit,
        /// The sentence.
        why: String,
    },
}

impl Halt {
    /// Stops with a sentence about how the command was given.
    pub fn usage(why: impl Into<String>) -> Self {
        Self::Said { exit: Exit::Usage, why: why.into() }
    }

    /// Stops with a sentence about what could not be read or written.
    pub fn trouble(why: impl Into<String>) -> Self {
        Self::Said { exit: Exit::Trouble, why: why.into() }
    }

    /// Stops because the results could not be written.
    pub fn output(cause: &io::Error) -> Self {
        if cause.kind() == io::ErrorKind::BrokenPipe {
            Self::ReaderGone
        } else {
            Self::trouble(format!("cannot write the results: {cause}"))
        }
    }
}

impl From<StoreError> for Halt {
    fn from(error: StoreError) -> Self {
        Self::trouble(error.to_string())
    }
}

impl From<Refusal> for Halt {
    fn from(refusal: Refusal) -> Self {
        Self::Said { exit: Exit::Findings, why: refusal.to_string() }
    }
}
