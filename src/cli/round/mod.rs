//! The instructor's round: `linefall issue`, `linefall return`, `linefall collect`.

mod collect;
mod engine;
mod ground;
mod hand_in;
mod issue;

pub use collect::Options as Collect;
pub use ground::{class_of, issued, sittings_of};
pub use hand_in::Options as Return;
pub use issue::Options as Issue;

pub(super) use collect::run as collect;
pub(super) use hand_in::run as hand_in;
pub(super) use issue::run as issue;

use super::args::Common;
use super::exit::Halt;
use super::out;
use crate::class::roster::{self, Roster};
use crate::store::{self, round};
use crate::wording::round as say;
use rand::TryRng;
use rand::rngs::SysRng;
use std::path::{Path, PathBuf};

/// The time now, UTC as RFC 3339.
fn now() -> String {
    jiff::Timestamp::now().strftime("%Y-%m-%dT%H:%M:%SZ").to_string()
}

/// Bytes by chance.
fn chance<const N: usize>() -> Result<[u8; N], Halt> {
    let mut bytes = [0; N];
    SysRng
        .try_fill_bytes(&mut bytes)
        .map_err(|cause| Halt::trouble(format!("no random numbers: {cause}")))?;
    Ok(bytes)
}

/// The shared folder: the one given, which is remembered, or the one remembered.
fn folder(dir: &Path, given: Option<&Path>) -> Result<PathBuf, Halt> {
    let Some(given) = given else {
        return round::share(dir)?.ok_or_else(|| Halt::usage(say::NO_FOLDER));
    };
    if !given.is_dir() {
        return Err(Halt::trouble(say::no_such_folder(&shown(given))));
    }
    round::set_share(dir, given)?;
    Ok(round::share(dir)?.unwrap_or_else(|| given.to_owned()))
}

fn shown(path: &Path) -> String {
    out::clean_name(&path.to_string_lossy())
}

/// The roster; what is wrong with it is said in a line.
pub(super) fn roster_of(common: &Common) -> Result<Option<Roster>, Halt> {
    let dir = store::data_dir(common.data_dir.clone())?;
    let Some(source) = store::read_if_there(&store::roster_file(&dir))? else { return Ok(None) };
    let found = roster::read(&source);
    if !found.faults.is_empty() {
        out::complain(&say::faulty_roster(&out::clean_name(&source.name), found.faults.len()));
    }
    Ok(Some(found))
}
