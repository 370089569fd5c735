//! The desktop host of Boltbay: the command line and the sheet for the wall.
//!
//! In: arguments and a job card. Out: text, JSON, CSV, a drawing; an exit code:
//! 0 all that is asked is answered, 1 something is missing, cannot be, or a hole
//! fouls or breaks the rule, 2 a bad card, bad usage, or a file that cannot be
//! read or written. Everything is decided in the core; this host only reads,
//! asks and writes.

mod command;
mod file;
pub mod handheld;
pub mod json;
pub mod picture;
mod screens;
pub mod sheet;
pub mod store;
mod work;

use clap::Parser;
use clap::error::ErrorKind;
use command::Command;
use std::ffi::OsString;
use std::io::{Read, Write};

/// All that is asked is answered.
pub const ANSWERED: u8 = 0;
/// Something is missing, cannot be, or breaks the rule.
pub const NOT_ANSWERED: u8 = 1;
/// Bad card, bad usage, a file that cannot be read or written.
pub const FAILED: u8 = 2;

/// Where a run reads and writes.
pub struct Streams<'a> {
    /// Read where the card is `-`.
    pub stdin: &'a mut dyn Read,
    /// Answers.
    pub stdout: &'a mut dyn Write,
    /// One line for whatever failed.
    pub stderr: &'a mut dyn Write,
}

/// Runs the command line; `args` starts with the name of the program. Returns
/// the exit code.
pub fn run(
    args: impl IntoIterator<Item = OsString>,
    stdin: &mut dyn Read,
    stdout: &mut dyn Write,
    stderr: &mut dyn Write,
) -> u8 {
    let mut streams = Streams {
        stdin,
        stdout,
        stderr,
    };
    match Command::try_parse_from(args) {
        Ok(command) => answer(work::work(&command, &mut streams), &mut streams),
        Err(error) => usage(&error, &mut streams),
    }
}

/// The exit code of what was done; a failure is said in one line.
fn answer(done: Result<bool, work::Failure>, streams: &mut Streams<'_>) -> u8 {
    match done {
        Ok(true) => ANSWERED,
        Ok(false) => NOT_ANSWERED,
        Err(failure) => {
            // There is nowhere left to complain to.
            let _ = writeln!(streams.stderr, "boltbay: {failure}");
            FAILED
        }
    }
}

/// Help goes to stdout with 0, everything else to stderr with 2.
fn usage(error: &clap::Error, streams: &mut Streams<'_>) -> u8 {
    let text = error.render();
    match error.kind() {
        ErrorKind::DisplayHelp | ErrorKind::DisplayVersion => {
            match write!(streams.stdout, "{text}") {
                Ok(()) => ANSWERED,
                Err(_) => FAILED,
            }
        }
        _ => {
            let _ = write!(streams.stderr, "{text}");
            FAILED
        }
    }
}
