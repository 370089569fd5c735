//! What can be asked on the command line.

use clap::{Args, Parser, ValueEnum};
use std::path::PathBuf;

/// From a crew's tape readings to a bolt plan for a flush steel beam.
///
/// The engineer of record and the local code rule over everything that it says.
#[derive(Debug, Parser)]
#[command(name = "boltbay", version, disable_help_subcommand = true)]
pub enum Command {
    /// Work out the plan of a job card
    Plan(Plan),
    /// Draw the sheet for the wall and the inspector (SVG)
    Sheet(Sheet),
    /// Say what a card says, and what is missing
    Read(Card),
    /// Press the handheld's keys by a script: a picture or a line of JSON a key
    Screens(Screens),
    /// Play the handheld in this terminal
    Handheld(Live),
}

/// A job card.
#[derive(Args, Debug)]
pub struct Card {
    /// The job card (CSV); `-` reads it from standard input
    pub card: PathBuf,
}

/// How to write a plan, and where.
#[derive(Args, Debug)]
pub struct Plan {
    #[command(flatten)]
    /// The card.
    pub from: Card,
    /// How to write the plan
    #[arg(long, value_enum, default_value_t = Format::Text)]
    pub format: Format,
    /// Write to this file instead of standard output, whole or not at all
    #[arg(short, long, value_name = "FILE")]
    pub output: Option<PathBuf>,
}

/// Where to draw the sheet.
#[derive(Args, Debug)]
pub struct Sheet {
    #[command(flatten)]
    /// The card.
    pub from: Card,
    /// The drawing (SVG), written whole or not at all
    #[arg(short, long, value_name = "FILE.svg")]
    pub output: PathBuf,
}

/// A script for the handheld.
#[derive(Args, Debug)]
pub struct Screens {
    /// The job card (CSV); `-` reads it from standard input; without one a guided
    /// demo job, or with --run an empty one
    pub card: Option<PathBuf>,
    /// Keys: up down left right ok, hold:KEY, hold:KEY*TIMES, digits; `-` reads
    /// them from standard input and answers after each
    #[arg(long, default_value = "")]
    pub keys: String,
    /// Write a PNG a key into this folder
    #[arg(long, value_name = "DIR")]
    pub out: Option<PathBuf>,
    /// Print a line of JSON a key
    #[arg(long)]
    pub views: bool,
    /// Start in the reading screen of a new run, given as a card's row
    #[arg(long, value_name = "ROW")]
    pub run: Option<String>,
    /// Write the job as a card at the end
    #[arg(long, value_name = "FILE")]
    pub save: Option<PathBuf>,
    /// Keep every accepted key press in this journal; without a card go on with
    /// the job that is open there
    #[arg(long, value_name = "FILE")]
    pub store: Option<PathBuf>,
}

/// What the handheld starts with.
#[derive(Args, Debug)]
pub struct Live {
    /// Start a new job from this job card; without it and without a journal, a
    /// guided demo job
    pub card: Option<PathBuf>,
    /// Keep every accepted key press in this journal; without it nothing is kept
    #[arg(long, value_name = "FILE")]
    pub store: Option<PathBuf>,
    /// Play in a window of its own, with keys that can be held
    #[cfg(feature = "window")]
    #[arg(long)]
    pub window: bool,
}

/// Ways to write a plan.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum Format {
    /// To pin up
    Text,
    /// For programs: inches, pounds
    Json,
    /// The holes, for a spreadsheet
    Csv,
}
