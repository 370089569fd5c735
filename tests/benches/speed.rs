//! Times of card reading, placement and cutting, and of a general solver on the
//! same placements: `cargo bench -p boltbay-tests --bench speed`, and with the
//! solver, which takes minutes: `.. --bench speed -- milp`.
//!
//! Each figure is the median of many batches; "least" is the fastest batch.
//! Nothing here asserts a time, since hosts differ.

mod beams;
// What else is judged there, benches leave alone.
#[allow(dead_code, unused_imports)]
#[path = "../judges/mod.rs"]
mod judges;

use crate::beams::{Ready, beams, ready};
use crate::judges::facts::Facts;
use crate::judges::milp;
use crate::judges::sticks::{Cutting, FAMILIES, generate};
use boltbay_core::card;
use boltbay_core::cutting;
use boltbay_core::job::Job;
use boltbay_core::placement::{Placement, Scratch};
use boltbay_core::plan::{self, Plan};
use boltbay_core::report::Report;
use boltbay_core::rods::{Proof, Rods};
use boltbay_core::words::Units;
use std::hint::black_box;
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

/// A solver that has not ended by then counts as this.
const SOLVER_LIMIT: Duration = Duration::from_secs(60);

/// Joists on the beam of 40 ft.
const JOISTS: usize = 80;

/// Joists on beams so short, and with so few marks, that the solver ends.
const SHORT: [usize; 3] = [12, 16, 20];

/// Which kind of beam has few marks.
const FEW_MARKS: usize = 7;

fn main() {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let words: Vec<&str> = arguments.iter().map(String::as_str).collect();
    match words.as_slice() {
        ["one-milp", joists, index, ..] => solve_one(
            joists.parse().expect("a number"),
            index.parse().expect("an index"),
        ),
        words => {
            bytes();
            reading();
            planning();
            let placed = placing();
            cutting();
            if words.contains(&"milp") {
                compare(&placed);
            }
        }
    }
}

/// Median and least time of a call, in nanoseconds.
#[derive(Clone, Copy)]
struct Times {
    median: f64,
    least: f64,
}

impl Times {
    fn of(mut call: impl FnMut()) -> Times {
        let once = Instant::now();
        call();
        let long = once.elapsed().as_nanos().max(1);
        let repeats = (2_000_000 / long).clamp(1, 100_000) as u32;
        let mut batches: Vec<f64> = (0..101)
            .map(|_| {
                let start = Instant::now();
                (0..repeats).for_each(|_| call());
                start.elapsed().as_nanos() as f64 / f64::from(repeats)
            })
            .collect();
        batches.sort_by(f64::total_cmp);
        Times {
            median: batches[batches.len() / 2],
            least: batches[0],
        }
    }

    fn print(self, what: &str) {
        let (median, least) = (self.median / 1e3, self.least / 1e3);
        println!("  {what:<40} {median:>10.1} {least:>10.1}");
    }
}

fn heading(what: &str) {
    println!("\n{what:<42} {:>10} {:>10}", "median us", "least us");
}

fn bytes() {
    println!("bytes on this host");
    let all = [
        ("job", size_of::<Job>()),
        ("plan", size_of::<Plan>()),
        ("scratch", size_of::<plan::Scratch>()),
    ];
    for (what, size) in all {
        println!("  {what:<40} {size:>10}");
    }
    let together: usize = all.iter().map(|(_, size)| size).sum();
    println!("  {:<40} {together:>10}", "together");
}

fn reading() {
    heading("reading a card");
    let mut job = Box::new(Job::new(Units::Imperial));
    for beam in beams(JOISTS).iter().take(3) {
        let bytes = beam.card.as_bytes();
        let times = Times::of(|| {
            card::read(black_box(bytes), &mut job).expect("a card");
            black_box(&job);
        });
        times.print(&format!("{} ({} bytes)", beam.name, bytes.len()));
    }
}

/// A card to its plan, and the plan to text.
fn planning() {
    heading("card to plan to text");
    let mut job = Box::new(Job::new(Units::Imperial));
    let mut plan = Box::new(Plan::new());
    let mut scratch = Box::new(plan::Scratch::new());
    let mut text = String::new();
    for beam in beams(JOISTS).iter().take(3) {
        let times = Times::of(|| {
            card::read(black_box(beam.card.as_bytes()), &mut job).expect("a card");
            plan.make(&job, &mut scratch);
            let report = Report {
                job: &job,
                plan: &plan,
            };
            text.clear();
            report.text(&mut scratch, &mut text).expect("room");
        });
        times.print(&format!("{} ({} letters)", beam.name, text.len()));
    }
}

/// Times of one placement; what it came to is printed beside them.
fn place_often(ready: &Ready, out: &mut Placement, scratch: &mut Scratch) -> Times {
    let times = Times::of(|| ready.place(black_box(out), scratch));
    let found = match out.feasible {
        true => format!("{}: {} marks", ready.name, out.stations),
        false => format!("{}: {} blocked", ready.name, out.blocked.len()),
    };
    times.print(&found);
    times
}

/// Times by kind.
fn placing() -> Vec<Times> {
    heading(&format!("placement, 40 ft, {JOISTS} joists"));
    let (mut out, mut scratch) = (Box::new(Placement::new()), Box::new(Scratch::new()));
    ready(JOISTS)
        .iter()
        .map(|ready| place_often(ready, &mut out, &mut scratch))
        .collect()
}

/// Cutting jobs of each family that are timed.
const CUTTINGS: u64 = 60;

/// Times of cutting by family: the median job and the slowest, a few calls each.
fn cutting() {
    println!(
        "\n{:<42} {:>10} {:>10}",
        "cutting, by family", "median us", "slowest us"
    );
    let (mut scratch, mut rods) = (Box::new(cutting::Scratch::new()), Box::new(Rods::new()));
    for family in FAMILIES {
        let mut proved = 0;
        let mut times: Vec<f64> = (0..CUTTINGS)
            .map(|seed| {
                let job = generate(family, seed);
                let time = cut_often(&job, &mut scratch, &mut rods);
                proved += u64::from(rods.proof != Proof::NotProved);
                time
            })
            .collect();
        times.sort_by(f64::total_cmp);
        let (median, slowest) = (times[times.len() / 2], times[times.len() - 1]);
        println!(
            "  {:<40} {median:>10.1} {slowest:>10.1}",
            format!("{family:?}, {proved} of {CUTTINGS} proved")
        );
    }
}

/// The least of five calls, in microseconds.
fn cut_often(job: &Cutting, scratch: &mut cutting::Scratch, rods: &mut Rods) -> f64 {
    (0..5)
        .map(|_| {
            let start = Instant::now();
            cutting::cut(black_box(&job.input()), scratch, rods);
            start.elapsed().as_nanos() as f64 / 1e3
        })
        .fold(f64::INFINITY, f64::min)
}

/// The general solver on one beam, with less asked of it than of the planner:
/// the fewest marks and holes at no play, once.
fn solve_one(joists: usize, index: usize) {
    let list = ready(joists);
    let ready = &list[index];
    let facts = Facts::new(&ready.job, &ready.joists);
    let start = Instant::now();
    let verdict = milp::fewest(&facts, 0, SOLVER_LIMIT);
    println!("{:.6} {verdict:?}", start.elapsed().as_secs_f64());
}

/// Seconds that the solver took, and what it said.
fn solver_says(joists: usize, index: usize) -> (f64, String) {
    let itself = std::env::current_exe().expect("a path");
    let mut child = Command::new(itself)
        .args(["one-milp", &joists.to_string(), &index.to_string()])
        .stdout(Stdio::piped())
        .spawn()
        .expect("a second process");
    let start = Instant::now();
    while child.try_wait().expect("a child").is_none() {
        if start.elapsed() > SOLVER_LIMIT {
            child.kill().expect("a child to stop");
            child.wait().expect("a child");
            return (SOLVER_LIMIT.as_secs_f64(), "stopped".to_owned());
        }
        std::thread::sleep(Duration::from_millis(2));
    }
    let said = child.wait_with_output().expect("a child").stdout;
    let said = String::from_utf8_lossy(&said).into_owned();
    let (seconds, verdict) = said.trim().split_once(' ').expect("two words");
    let seconds: f64 = seconds.parse().expect("a number");
    (seconds.min(SOLVER_LIMIT.as_secs_f64()), verdict.to_owned())
}

/// How the solver does on one beam, beside the planner's median.
fn compare_one(joists: usize, index: usize, name: &str, times: Times) {
    let (seconds, verdict) = solver_says(joists, index);
    let ratio = seconds * 1e9 / times.median;
    println!("  {name:<40} {seconds:>10.3} {ratio:>12.0}  {verdict}");
}

fn compare(placed: &[Times]) {
    println!(
        "\nthe same beams by a general solver (a run stopped at {} s counts as that)",
        SOLVER_LIMIT.as_secs()
    );
    println!("  {:<40} {:>10} {:>12}", "", "seconds", "times slower");
    for (index, (ready, times)) in ready(JOISTS).iter().zip(placed).enumerate() {
        compare_one(JOISTS, index, &ready.name, *times);
    }
    let (mut out, mut scratch) = (Box::new(Placement::new()), Box::new(Scratch::new()));
    for joists in SHORT {
        heading(&format!("{} ft, {joists} joists", joists / 2));
        let ready = &ready(joists)[FEW_MARKS];
        let times = place_often(ready, &mut out, &mut scratch);
        compare_one(joists, FEW_MARKS, &ready.name, times);
    }
}
