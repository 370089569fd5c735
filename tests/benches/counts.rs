//! Instructions of a placement by number of joists, counted by callgrind:
//! `cargo bench -p boltbay-tests --bench counts`. Needs valgrind.
//!
//! The same floor at 10 to 160 joists: what grows is the beam. Printed with the
//! exponent of the best fit in `count = a * joists ^ exponent`.

use boltbay_core::placement::{Placement, Scratch};
use boltbay_tests::beams::{Ready, ready};
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
        _ => table(),
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
    let itself = std::env::current_exe().expect("a path");
    let outcome = Command::new("valgrind")
        .args([
            "--tool=callgrind",
            "--callgrind-out-file=/dev/null",
            "--toggle-collect=*counted_placement*",
        ])
        .arg(itself)
        .args(["one-count", &joists.to_string(), &kind.to_string()])
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
