//! The real program, run as a person or a script runs it.

mod ask_json;
mod ask_kinds;
mod ask_plain;
mod check;
mod class;
mod conditions;
mod crib;
mod draw;
mod exercise;
mod plain;
mod project;
mod record;
mod round;
mod sets;
mod sheet;
mod simulate;
mod targets;
mod walk;

use std::error::Error;
use std::io::Write;
use std::path::Path;
use std::process::{Command, Stdio};

/// How a test can fail before it has anything to compare.
type Tested = Result<(), Box<dyn Error>>;

/// What became of a run.
struct Ran {
    code: Option<i32>,
    out: String,
    err: String,
}

/// Runs the program in surroundings that are the same everywhere.
fn command(args: &[&str]) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_linefall"));
    for name in ["NO_COLOR", "TERM_PROGRAM", "LC_ALL", "LC_CTYPE", "LINEFALL_DATA_DIR"] {
        command.env_remove(name);
    }
    command.env("TERM", "xterm").env("LANG", "C.UTF-8").env("LINEFALL_DATA_DIR", "/nonexistent/linefall");
    command.args(args).stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped());
    command
}

/// Runs the program with this on its standard input.
fn feed(args: &[&str], input: &[u8]) -> Result<Ran, Box<dyn Error>> {
    let mut child = command(args).spawn()?;
    let mut stdin = child.stdin.take().ok_or("no standard input")?;
    // A run that does not want all of it is a run like any other.
    let _ = stdin.write_all(input);
    drop(stdin);
    let ended = child.wait_with_output()?;
    Ok(Ran {
        code: ended.status.code(),
        out: String::from_utf8(ended.stdout)?,
        err: String::from_utf8(ended.stderr)?,
    })
}

fn run(args: &[&str]) -> Result<Ran, Box<dyn Error>> {
    feed(args, b"")
}

/// Runs the program and expects it to end well and to say nothing beside.
fn well(args: &[&str]) -> Result<String, Box<dyn Error>> {
    let ran = run(args)?;
    assert_eq!((ran.code, ran.err.as_str()), (Some(0), ""), "{args:?}: {}", ran.out);
    Ok(ran.out)
}

fn text(path: &Path) -> Result<&str, Box<dyn Error>> {
    path.to_str().ok_or_else(|| "a path that is no text".into())
}
