//! One command: card in, plan made, answer written.

use crate::Streams;
use crate::command::{Command, Format};
use crate::file::{self, ReadError};
use crate::handheld;
use crate::json;
use crate::screens;
use crate::sheet::{self, Sheet};
use boltbay_core::Job;
use boltbay_core::placement::Windows;
use boltbay_core::plan::{Plan, Scratch};
use boltbay_core::report::Report;
use boltbay_core::words::Units;
use boltbay_handheld::Memory;
use boltbay_handheld::journal::Fault;
use core::fmt;
use std::io;
use std::path::{Path, PathBuf};

/// Why a command could not be done: one line.
#[derive(Debug)]
pub enum Failure {
    /// The card cannot be read, or is a bad one.
    Read(PathBuf, ReadError),
    /// A file cannot be written.
    Write(PathBuf, io::Error),
    /// Standard output cannot be written.
    Output(io::Error),
    /// A script of keys went wrong.
    Screens(screens::Trouble),
    /// The handheld is played in a terminal, and this is none.
    NoTerminal,
    /// The terminal failed.
    Terminal(io::Error),
    /// The journal in this file cannot be used.
    Journal(PathBuf, Fault),
}

impl fmt::Display for Failure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Failure::Read(path, ReadError::File(error)) => {
                write!(f, "cannot read {}: {error}", path.display())
            }
            Failure::Read(path, ReadError::Card(error)) => {
                write!(f, "{}: {error}", path.display())
            }
            Failure::Write(path, error) => {
                write!(f, "cannot write {}: {error}", path.display())
            }
            Failure::Screens(trouble) => write!(f, "{trouble}"),
            Failure::Output(error) => write!(f, "cannot write the answer: {error}"),
            Failure::NoTerminal => f.write_str("the handheld needs a terminal to be played in"),
            Failure::Terminal(error) => write!(f, "the terminal fails: {error}"),
            Failure::Journal(path, fault) => {
                let [what, do_this] = fault.on_screen().map(str::to_lowercase);
                write!(f, "cannot use {}: {what}; {do_this}", path.display())
            }
        }
    }
}

/// A job and what follows from it, on the heap: they are some 30 KiB.
struct Made {
    job: Box<Job>,
    plan: Box<Plan>,
    scratch: Box<Scratch>,
}

impl Made {
    /// Where bolts may stand; `None` where that is not asked or not known.
    fn free_stretches(&mut self) -> Option<Box<Windows>> {
        let free = self.plan.free_stretches(&self.job, &mut self.scratch);
        free.cloned().map(Box::new)
    }

    fn report(&self) -> Report<'_> {
        Report {
            job: &self.job,
            plan: &self.plan,
        }
    }
}

/// Does what was asked; whether all of it is answered.
pub fn work(command: &Command, streams: &mut Streams<'_>) -> Result<bool, Failure> {
    match command {
        Command::Plan(plan) => {
            let mut made = make(&plan.from.card, streams)?;
            let text = written(&mut made, plan.format);
            put(&text, plan.output.as_deref(), streams)?;
            Ok(made.plan.answered())
        }
        Command::Sheet(asked) => {
            let mut made = make(&asked.from.card, streams)?;
            let free = made.free_stretches();
            let drawn = Sheet::new(made.report(), free.as_deref()).pages();
            put(&sheet::svg(drawn), Some(&asked.output), streams)?;
            Ok(made.plan.answered())
        }
        Command::Read(card) => {
            let made = make(&card.card, streams)?;
            let mut text = String::new();
            // Writing to a string cannot fail.
            let _ = made.report().card(&mut text);
            put(&text, None, streams)?;
            Ok(made.plan.missing.is_empty())
        }
        Command::Screens(asked) => {
            if asked.card.as_deref() == Some(Path::new("-")) && asked.keys == "-" {
                return Err(Failure::Screens(screens::Trouble::BothStdin));
            }
            let mut memory = Box::new(Memory::new());
            let (card, store) = (asked.card.as_deref(), asked.store.as_deref());
            // A run of its own is read into an empty job.
            let keeper = match (card, store, &asked.run) {
                (None, None, Some(_)) => None,
                _ => Some(handheld::open(card, store, streams.stdin, &mut memory.job)?),
            };
            screens::run(asked, memory, keeper, streams).map_err(Failure::Screens)?;
            Ok(true)
        }
        Command::Handheld(live) => {
            handheld::live(live, streams.stdin)?;
            Ok(true)
        }
    }
}

fn make(card: &Path, streams: &mut Streams<'_>) -> Result<Made, Failure> {
    let mut made = Made {
        job: Box::new(Job::new(Units::Imperial)),
        plan: Box::new(Plan::new()),
        scratch: Box::new(Scratch::new()),
    };
    file::read_card(card, streams.stdin, &mut made.job)
        .map_err(|error| Failure::Read(card.to_owned(), error))?;
    made.plan.make(&made.job, &mut made.scratch);
    Ok(made)
}

fn written(made: &mut Made, format: Format) -> String {
    let mut text = String::new();
    // Writing to a string cannot fail.
    let _ = match format {
        Format::Text => {
            let Made { job, plan, scratch } = made;
            Report { job, plan }.text(scratch, &mut text)
        }
        Format::Csv => made.report().csv(&mut text),
        Format::Json => {
            let free = made.free_stretches();
            let blocked = json::every_blocked(&made.job, &made.plan, &mut made.scratch);
            return json::of(made.report(), &blocked, free.as_deref());
        }
    };
    text
}

/// To a file or, without one, to standard output.
fn put(text: &str, output: Option<&Path>, streams: &mut Streams<'_>) -> Result<(), Failure> {
    match output {
        Some(path) => file::write_whole(path, text.as_bytes())
            .map_err(|error| Failure::Write(path.to_owned(), error)),
        None => streams
            .stdout
            .write_all(text.as_bytes())
            .and_then(|()| streams.stdout.flush())
            .map_err(Failure::Output),
    }
}
