//! Floor 7. The command line: one file a command.
//!
//! | type | what it is |
//! |---|---|
//! | [`run`] | reads the arguments and carries out the command |
//! | [`Next`] | it is done, or the full screen was asked for |
//! | [`FullScreen`] | what the full screen starts with |
//! | [`exit::Exit`] | 0 fine, 1 findings, 2 usage, 3 could not read or write |
//!
//! Results go to the standard output, everything else to the standard error, both through [`out`] alone.

pub mod args;
mod ask;
pub mod asked;
mod card;
mod care;
mod change;
mod check;
mod class;
mod crib;
mod doctor;
mod draw;
pub mod exit;
mod format;
mod input;
mod list;
pub mod out;
mod pages;
mod picture;
mod practical;
mod preview;
mod progress;
mod project;
mod report;
pub mod round;
mod sheet;
mod shelf;
mod simulate;
mod skills;
mod start;
mod table;
mod terminal;
mod walk;

pub use start::FullScreen;

use args::{Arguments, Command};
use clap::Parser;
use exit::{Exit, Halt};
use out::Out;
use std::ffi::OsString;

/// What is left to do.
pub enum Next {
    /// Nothing; this is how it ended.
    Done(Exit),
    /// To run the full screen.
    FullScreen(Box<FullScreen>),
}

/// Carries out the command that the arguments spell, the program's name first.
pub fn run(arguments: impl IntoIterator<Item = OsString>) -> Next {
    let mut out = Out::new();
    let done = match Arguments::try_parse_from(arguments) {
        Err(fault) => explain(&fault, &mut out),
        Ok(arguments) => carry_out(arguments, &mut out),
    };
    let end = done.and_then(|next| out.flush().map(|()| next));
    match end {
        Ok(next) => next,
        Err(Halt::ReaderGone) => Next::Done(Exit::Fine),
        Err(Halt::Said { exit, why }) => {
            // What was found before goes out first; that it cannot is the smaller trouble now.
            let _ = out.flush();
            out::complain(&why);
            Next::Done(exit)
        }
    }
}

/// Help and version are results; anything else is a fault of the arguments.
fn explain(fault: &clap::Error, out: &mut Out) -> Result<Next, Halt> {
    let text = fault.render().to_string();
    if fault.use_stderr() {
        out::aside(&text);
        return Ok(Next::Done(Exit::Usage));
    }
    out.bytes(text.as_bytes())?;
    Ok(Next::Done(Exit::Fine))
}

fn carry_out(arguments: Arguments, out: &mut Out) -> Result<Next, Halt> {
    let Arguments { common, command } = arguments;
    let exit = match command {
        None => return start::home(common).map(Next::FullScreen),
        Some(Command::Practice { instrument, asked }) => {
            return start::practice(common, instrument, asked.programme()).map(Next::FullScreen);
        }
        Some(Command::Class(args)) => return class::run(common, &args, out),
        Some(Command::Practical(args)) => practical::run(&common, &args, out),
        Some(Command::SkillsCheck(args)) => return skills::run(common, &args, out),
        Some(Command::Project(args)) => return project::run(common, &args).map(Next::FullScreen),
        Some(Command::Walk(args)) => return walk::run(common, &args, out),
        Some(Command::List { what, json }) => list::run(&common, what, json, out),
        Some(Command::Draw(args)) => draw::run(&common, &args, out),
        Some(Command::Ask(args)) => ask::run(&common, &args, out),
        Some(Command::Preview(args)) => preview::run(&common, &args, out),
        Some(Command::Check { files }) => check::run(&common, &files, out),
        Some(Command::Crib { json, action }) => crib::run(&common, json, action.as_ref(), out),
        Some(Command::Care { instrument, json }) => care::run(&common, &instrument, json, out),
        Some(Command::Progress { json, csv }) => progress::run(&common, json, csv, out),
        Some(Command::Doctor { json }) => doctor::run(&common, json, out),
        Some(Command::Completions { shell }) => pages::completions(shell, out),
        Some(Command::Man) => pages::man(out),
        Some(Command::Issue(args)) => round::issue(&common, &args, out),
        Some(Command::Return(args)) => round::hand_in(&common, &args, out),
        Some(Command::Collect(args)) => round::collect(&common, &args, out),
        Some(Command::Sheet(args)) => sheet::run(&common, &args, out),
        Some(Command::Simulate(args)) => simulate::run(&common, &args, out),
    };
    exit.map(Next::Done)
}
