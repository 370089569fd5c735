//! Instructions of a placement by number of joists, counted by callgrind:
//! `cargo bench -p boltbay-tests --bench counts`. Needs valgrind. Those of whole
//! plans, statics and all checks among them: `.. --bench counts -- plans`. The beams
//! of 80 joists for the small machine: `.. --bench counts -- cards FILE`.
//!
//! The same floor at 10 to 160 joists: what grows is the beam. Printed with the
//! exponent of the best fit in `count = a * joists ^ exponent`.

mod beams;
// What else is judged there, benches leave alone.
#[allow(dead_code, unused_imports)]
#[path = "../judges/mod.rs"]
mod judges;

use crate::beams::{Ready, ready};
use boltbay_core::card;
use boltbay_core::job::Job;
use boltbay_core::placement::{Placement, Scratch};
use boltbay_core::plan::{self, Plan};
use boltbay_core::words::Units;
use std::hint::black_box;
use std::process::Command;

const SIZES: [usize; 5] = [10, 20, 40, 80, 160];

fn main() {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let words: Vec<&str> = arguments.iter().map(String::as_str).collect();
    match words.as_slice() {
        ["one-count", joists, kind, ..] => {
            place_one(
                joists.parse().expect("a number"),
                kind.parse().expect("a number"),
            );
        }
        ["one-plan", card, ..] => plan_one(card),
        ["plans", ..] => plans(),
        ["cards", file, ..] => cards(file),
        _ => table(),
    }
}

/// What is counted of a whole plan: made once, and every check written down.
#[inline(never)]
fn counted_plan(job: &Job, plan: &mut Plan, scratch: &mut plan::Scratch) {
    plan.make(job, scratch);
    plan.checks(job, scratch);
}

fn plan_one(card: &str) {
    let text = std::fs::read_to_string(card).expect("a card");
    let mut job = Box::new(Job::new(Units::Imperial));
    card::read(text.as_bytes(), &mut job).expect("a card");
    let mut plan = Box::new(Plan::new());
    let mut scratch = Box::new(plan::Scratch::new());
    counted_plan(&job, black_box(&mut plan), &mut scratch);
    black_box(&scratch);
}

/// Instructions of a whole plan of each demo card that has loads.
fn plans() {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../demo-data");
    let cards = std::fs::read_dir(folder).expect("demo-data");
    let mut cards: Vec<_> = cards.map(|card| card.expect("a file").path()).collect();
    cards.sort();
    for card in cards {
        let text = std::fs::read_to_string(&card).unwrap_or_default();
        if card.extension().is_some_and(|e| e == "csv") && text.contains("\nload,") {
            let path = card.to_str().expect("a name");
            let count = count_of("*counted_plan*", &["one-plan", path]);
            let name = card.file_stem().expect("a name").to_string_lossy();
            println!("{name:<37}{count:>12.0}");
        }
    }
}

/// What is counted, and nothing else: callgrind is told this function's name.
#[inline(never)]
fn counted_placement(ready: &Ready, out: &mut Placement, scratch: &mut Scratch) {
    ready.place(out, scratch);
}

fn place_one(joists: usize, kind: usize) {
    let list = ready(joists);
    let ready = &list[kind];
    let (mut out, mut scratch) = (Box::new(Placement::new()), Box::new(Scratch::new()));
    counted_placement(ready, black_box(&mut out), &mut scratch);
    black_box(&out);
}

/// Instructions of one placement.
fn count(joists: usize, kind: usize) -> f64 {
    let (joists, kind) = (joists.to_string(), kind.to_string());
    count_of("*counted_placement*", &["one-count", &joists, &kind])
}

/// The beams of 80 joists as cards, zeros behind each up to the next block of 512
/// bytes; prints their names in order.
fn cards(file: &str) {
    let mut bytes = Vec::new();
    for ready in ready(80) {
        let mut text = String::new();
        card::write(&ready.job, &mut text).expect("room");
        bytes.extend(text.as_bytes());
        bytes.resize((bytes.len() / 512 + 1) * 512, 0);
        println!("{}", ready.name);
    }
    std::fs::write(file, bytes).expect("a file");
}

/// Instructions of one function of this program when it runs so.
fn count_of(function: &str, arguments: &[&str]) -> f64 {
    let itself = std::env::current_exe().expect("a path");
    let outcome = Command::new("valgrind")
        .args(["--tool=callgrind", "--callgrind-out-file=/dev/null"])
        .arg(format!("--toggle-collect={function}"))
        .arg(itself)
        .args(arguments)
        .output()
        .expect("valgrind: apt-get install valgrind");
    let said = String::from_utf8_lossy(&outcome.stderr);
    assert!(outcome.status.success(), "{said}");
    let collected = said.split("Collected :").nth(1).and_then(|rest| {
        let number = rest.lines().next()?.trim();
        number.parse().ok()
    });
    collected.unwrap_or_else(|| panic!("no count in: {said}"))
}

/// Slope of the best line through the logarithms.
fn exponent(counts: &[f64]) -> f64 {
    let points: Vec<(f64, f64)> = SIZES
        .iter()
        .zip(counts)
        .map(|(n, count)| ((*n as f64).ln(), count.ln()))
        .collect();
    let many = points.len() as f64;
    let mean_x = points.iter().map(|p| p.0).sum::<f64>() / many;
    let mean_y = points.iter().map(|p| p.1).sum::<f64>() / many;
    let together: f64 = points.iter().map(|p| (p.0 - mean_x) * (p.1 - mean_y)).sum();
    let alone: f64 = points.iter().map(|p| (p.0 - mean_x).powi(2)).sum();
    together / alone
}

fn table() {
    print!("instructions of a placement, joists: ");
    SIZES.iter().for_each(|size| print!("{size:>12}"));
    println!("  exponent");
    // The slope of n log n over the same sizes, to compare with.
    let n_log_n: Vec<f64> = SIZES.iter().map(|n| *n as f64 * (*n as f64).ln()).collect();
    for (kind, beam) in ready(SIZES[0]).iter().enumerate() {
        print!("{:<37}", beam.name);
        let counts: Vec<f64> = SIZES.iter().map(|size| count(*size, kind)).collect();
        counts.iter().for_each(|count| print!("{count:>12.0}"));
        println!("  {:.2}", exponent(&counts));
    }
    println!("n log n would have the exponent {:.2}", exponent(&n_log_n));
}
