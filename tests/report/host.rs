//! Runs the command line inside the test, and makes plans without it.

use boltbay_core::Job;
use boltbay_core::card;
use boltbay_core::placement::Windows;
use boltbay_core::plan::{Plan, Scratch};
use boltbay_core::report::Report;
use boltbay_core::words::Units;
use std::ffi::OsString;
use std::fs;
use std::path::{Path, PathBuf};

/// What a run gave back.
#[derive(Debug)]
pub struct Ran {
    pub code: u8,
    pub stdout: String,
    pub stderr: String,
}

/// `boltbay ARGS` with nothing on standard input.
pub fn boltbay<A: Into<OsString>>(args: impl IntoIterator<Item = A>) -> Ran {
    boltbay_fed(args, b"")
}

/// `boltbay ARGS` with these bytes on standard input.
pub fn boltbay_fed<A: Into<OsString>>(args: impl IntoIterator<Item = A>, input: &[u8]) -> Ran {
    let (mut stdin, mut stdout, mut stderr) = (input, Vec::new(), Vec::new());
    let args = std::iter::once(OsString::from("boltbay")).chain(args.into_iter().map(Into::into));
    let code = boltbay::run(args, &mut stdin, &mut stdout, &mut stderr);
    let text = |bytes| String::from_utf8(bytes).expect("outputs are UTF-8");
    Ran {
        code,
        stdout: text(stdout),
        stderr: text(stderr),
    }
}

/// The folder of the workspace.
pub fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .parent()
        .expect("tests/ lies in the workspace")
        .to_owned()
}

/// All demo cards by name.
pub fn demo_cards() -> Vec<PathBuf> {
    let folder = fs::read_dir(root().join("demo-data")).expect("demo-data is there");
    let mut cards: Vec<PathBuf> = folder
        .map(|entry| entry.expect("demo-data can be listed").path())
        .filter(|path| path.extension().is_some_and(|e| e == "csv"))
        .collect();
    cards.sort();
    cards
}

/// The card whose name starts so.
pub fn demo(start: &str) -> PathBuf {
    let mut cards = demo_cards().into_iter();
    let found = cards.find(|path| name_of(path).starts_with(start));
    found.unwrap_or_else(|| panic!("no demo card {start}"))
}

/// File name without folder and ending.
pub fn name_of(path: &Path) -> String {
    path.file_stem()
        .expect("a file has a name")
        .to_string_lossy()
        .into_owned()
}

/// A job and its plan.
pub struct Made {
    pub job: Box<Job>,
    pub plan: Box<Plan>,
    pub scratch: Box<Scratch>,
}

impl Made {
    pub fn report(&self) -> Report<'_> {
        Report {
            job: &self.job,
            plan: &self.plan,
        }
    }

    /// The plan as text.
    pub fn text(&self) -> String {
        let mut text = String::new();
        let mut scratch = Box::new(Scratch::new());
        let report = self.report();
        report
            .text(&mut scratch, &mut text)
            .expect("a string takes all");
        text
    }

    /// The plan as JSON.
    pub fn json(&self, free: Option<&Windows>) -> String {
        let mut scratch = Box::new(Scratch::new());
        let blocked = boltbay::json::every_blocked(&self.job, &self.plan, &mut scratch);
        boltbay::json::of(self.report(), &blocked, free)
    }
}

/// The job that a card says.
pub fn job(text: &str) -> Box<Job> {
    let mut job = Box::new(Job::new(Units::Imperial));
    if let Err(error) = card::read(text.as_bytes(), &mut job) {
        panic!("{error} in\n{text}");
    }
    job
}

/// The plan of a card.
pub fn made(text: &str) -> Made {
    made_of(job(text))
}

/// The plan of a job.
pub fn made_of(job: Box<Job>) -> Made {
    let mut plan = Box::new(Plan::new());
    let mut scratch = Box::new(Scratch::new());
    plan.make(&job, &mut scratch);
    Made { job, plan, scratch }
}

/// A small job with a plan: 8 ft of steel without walls, two joists a side.
pub const SMALL: &str = "boltbay,1
job,Small
units,imperial
beam,W10x33,96
hanger,face,1 1/4
tape,N,end A,,near
joist,30
joist,60
check,96,0 end B
tape,S,end A,,near
joist,32
joist,62
check,96,0 end B
bolt,1/2
spacing,24,every
ends,2,9
";
